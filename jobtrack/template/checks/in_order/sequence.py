"""Which steps come before which, and round loops: walks along links, each link once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import reduce
from operator import and_

from msgspec import Struct

from jobtrack.template.kept import kept
from jobtrack.template.plan import GROUPS, Plan, links

Links = Mapping[str, Iterable[str]]


@kept
def plan_links(plan: Plan) -> dict[str, tuple[str, ...]]:
    """What each step waits for, and what each group of steps consists of."""
    return links(plan)


def loop(starts: Iterable[str], links: Links) -> list[str]:
    """The names of one loop, in its order, the first again at the end; empty if there is none.

    A group of steps that a link goes through isn't named.
    """
    found = [name for name in _way_round(starts, links) if not name.startswith(GROUPS)]
    return [*found, *found[:1]]


def _way_round(starts: Iterable[str], links: Links) -> list[str]:
    """The first way on which a walk, depth first, comes back to where it is already."""
    done: set[str] = set()
    for start in starts:
        path = {start: iter(links.get(start, ()))} if start not in done else {}
        while path:
            at = next(reversed(path))
            name = next(path[at], None)
            if name is None:
                path.popitem()
                done.add(at)
            elif name in path:
                way = list(path)
                return way[way.index(name) :]
            elif name not in done:
                path[name] = iter(links.get(name, ()))
    return []


class Sequence(Struct, frozen=True):
    """For each step the set of all that come before it, as the bits of a number."""

    place: dict[str, int]
    """Which bit is a step's own."""
    bits: dict[str, int]

    def before(self, one: str, other: str) -> bool:
        """Whether one step comes before another."""
        return bool(self.bits[other] >> self.place[one] & 1)

    def with_own(self, step: str) -> int:
        """All that come before a step, and itself."""
        return self.bits[step] | 1 << self.place[step]

    def before_all(self, steps: Iterable[str]) -> int:
        """What comes before each of these steps; where there are none, everything."""
        return reduce(and_, (self.bits[step] for step in steps), -1)

    def set_of(self, steps: Iterable[str]) -> int:
        """Steps as such a set."""
        found = bytearray(len(self.place) // 8 + 1)
        for step in steps:
            place = self.place[step]
            found[place >> 3] |= 1 << (place & 7)
        return int.from_bytes(found, "little")


@kept
def sequence(plan: Plan) -> Sequence:
    """What comes before each step of a plan without loops."""
    place = {name: number for number, name in enumerate(plan.steps)}
    found = plan_links(plan)
    bits: dict[str, int] = {}
    for name in _last_first(found):
        sum_of = 0
        for each in found.get(name, ()):
            sum_of |= bits[each] | (1 << place[each] if each in place else 0)
        bits[name] = sum_of
    return Sequence(place, bits)


class Waiting:
    """What nothing in the order holds up: a step has its turn when all that it is linked to is settled. Groups of
    steps settle themselves."""

    def __init__(self, plan: Plan) -> None:
        self._steps = plan.steps
        self._behind: dict[str, list[str]] = {}
        self._lacks: dict[str, int] = {}
        for name, waits_for in plan_links(plan).items():
            self._lacks[name] = len(waits_for)
            for each in waits_for:
                self._behind.setdefault(each, []).append(name)

    def first(self) -> list[str]:
        """The steps that wait for nothing."""
        return self._come_to([name for name, count in self._lacks.items() if not count])

    def settle(self, step: str) -> list[str]:
        """The steps whose turn has come, now that this one is settled."""
        return self._come_to(self._free_by(step))

    def _come_to(self, names: list[str]) -> list[str]:
        steps = []
        while names:
            name = names.pop()
            if name in self._steps:
                steps.append(name)
            else:
                names += self._free_by(name)
        return steps

    def _free_by(self, name: str) -> list[str]:
        behind = self._behind.get(name, ())
        for each in behind:
            self._lacks[each] -= 1
        return [each for each in dict.fromkeys(behind) if not self._lacks[each]]


def _last_first(links: Links) -> Iterator[str]:
    """Every name behind all that it is linked to; links without loops."""
    done: set[str] = set()
    for start in links:
        todo = [(start, iter(links[start]))] if start not in done else []
        while todo:
            at, inner = todo[-1]
            name = next((each for each in inner if each not in done), None)
            if name is not None:
                todo.append((name, iter(links.get(name, ()))))
                continue
            todo.pop()
            done.add(at)
            yield at
