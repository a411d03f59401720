"""The parts of a job, planned or not: how many are wanted, how far the buying is, what became of each, where it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.doing import HERE, BuyingAct, PartAct, PlaceAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import NOT_NEEDED, Job
from jobtrack.template.model import Part

FITTED = "fitted"
TO_BUY = (None, "new")
"""Where a planned part may come from that nobody has, takes off or makes."""


class PartOf(Struct, frozen=True):
    """A part of a job, and all that is recorded of it and counts. Several acts of buying or place: a disagreement."""

    name: str
    """Its id in the template, or the words of whoever needed it."""
    planned: Part | None
    """As the template has it; None: nobody planned it."""
    wanted: int
    """How many in the whole job; 0 where nobody has said it, or no step that wants it is needed."""
    of_step: int | None
    """How many in the step that was asked about; None: it is none of that step's; 0: how many wasn't said."""
    buying: tuple[Done, ...] = ()
    became: tuple[Done, ...] = ()
    places: tuple[Done, ...] = ()

    @property
    def states(self) -> set[str]:
        """How far the buying is: one of `BUYING`, none, or more in a disagreement."""
        return {done.act.buying for done in self.buying if isinstance(done.act, BuyingAct)}

    @property
    def outstanding(self) -> bool:
        """Whether it is missing or on its way, as far as is recorded; what is taken off or made here isn't bought."""
        if self.states:
            return self.states != {HERE} and not self._fitted_since()
        bought = self.planned is not None and self.planned.from_ in TO_BUY and self.wanted > 0
        return bought and not self.became and not self.places

    def _fitted_since(self) -> bool:
        """Whether as many as are wanted, one at least, were fitted after what is recorded of the buying."""
        since = max(done.order for done in self.buying)
        return fitted(done for done in self.became if done.order > since) >= max(self.wanted, 1)


class ToolAt(Struct, frozen=True):
    """A tool, and where it was left."""

    name: str
    places: tuple[Done, ...] = ()


def fitted(acts: Iterable[Done]) -> int:
    """How many were fitted, as far as that was typed in whole numbers."""
    counted = [
        done.act.quantity or "" for done in acts if isinstance(done.act, PartAct) and done.act.fate == FITTED
    ]
    return sum(int(text) for text in counted if text.strip().isdecimal() and len(text) < 10)


def part_names(job: Job) -> list[str]:
    """Every part of the template, then those that nobody planned, by their names."""
    return list(dict.fromkeys((*(name for name, _ in _all_planned(job)), *_unplanned(job))))


def part_called(job: Job, name: str) -> str | None:
    """The part of this name, whatever its capitals and spaces, or that the template calls so in words."""
    said = {_alike(one.say): id for id, one in _all_planned(job) if one.say}
    named = {_alike(one): one for one in part_names(job)}
    return named.get(_alike(name)) or said.get(_alike(name))


def _alike(name: str) -> str:
    return " ".join(name.split()).casefold()


def _all_planned(job: Job) -> Iterator[tuple[str, Part]]:
    for table in (job.plan.template.part, *(one.step.part for one in job.steps.values())):
        yield from table.items()


def _unplanned(job: Job) -> Iterator[str]:
    named = [done for kind in (BuyingAct, PartAct, PlaceAct) for done in job.view.of_kind(kind)]
    for done in sorted(named, key=lambda done: done.order):
        if (name := getattr(done.act, "part", None)) is not None:
            yield name


def parts_of(job: Job, step: str | None = None) -> list[PartOf]:
    """All parts of a job, those of the step first."""
    of_step = _of_step(job, step) if step is not None else {}
    planned = _planned_first(job, step)
    buying, became, places = (_by_name(job, kind, "part") for kind in (BuyingAct, PartAct, PlaceAct))
    return [
        PartOf(
            name, _joined(planned.get(name, [])), _wanted(job, name) if name in planned else 0, of_step.get(name),
            standing(buying.get(name, [])), tuple(became.get(name, [])), standing(places.get(name, [])),
        )
        for name in dict.fromkeys((*of_step, *part_names(job)))
    ]  # fmt: skip


def tools_of(job: Job, step: str | None = None) -> list[ToolAt]:
    """The tools of the step, then all of which somebody has said where they are."""
    planned = job.steps[step].step.tools if step is not None else ()
    placed = _by_name(job, PlaceAct, "tool")
    return [ToolAt(name, standing(placed.get(name, []))) for name in dict.fromkeys((*planned, *placed))]


def standing(acts: Sequence[Done]) -> tuple[Done, ...]:
    """Those acts of one part or tool that no other one has replaced."""
    replaced = {name for done in acts for name in done.act.replaced()}
    return tuple(done for done in acts if done.name not in replaced)


def _by_name(job: Job, kind: type[Act], key: str) -> dict[str, list[Done]]:
    """The acts of a kind by the part or the tool that they name."""
    found: dict[str, list[Done]] = {}
    for done in job.view.of_kind(kind):
        if (name := getattr(done.act, key)) is not None:
            found.setdefault(name, []).append(done)
    return found


def _of_step(job: Job, step: str) -> dict[str, int]:
    """How many of each part the step wants; what was named in it and isn't planned there: 0."""
    planned = job.steps[step].step.part
    named = [done.act for done in job.view.in_step(step) if isinstance(done.act, BuyingAct | PartAct)]
    counts = {name: one.count for name, one in planned.items()}
    return counts | {act.part: 0 for act in named if act.part not in counts}


def planned_part(job: Job, name: str) -> Part | None:
    """A part as the template has it; None where nobody planned it."""
    return _joined(_planned_first(job, None).get(name, []))


def _planned_first(job: Job, step: str | None) -> dict[str, list[Part]]:
    """Each part as the step has it, then the job, then the other steps."""
    found: dict[str, list[Part]] = {}
    here = job.steps[step].step.part.items() if step is not None else ()
    for name, one in (*here, *_all_planned(job)):
        found.setdefault(name, []).append(one)
    return found


def _joined(planned: Sequence[Part]) -> Part | None:
    """The first of them; what it leaves out, as the next says it."""
    if not planned:
        return None
    say, from_, before = (
        next((text for one in planned if (text := getattr(one, key)) is not None), None)
        for key in ("say", "from_", "before")
    )
    return replace(planned[0], say=say, from_=from_, before=before)


def _wanted(job: Job, name: str) -> int:
    """How many the job wants: as it says itself, else all steps together that are needed."""
    if name in job.plan.template.part:
        return job.plan.template.part[name].count
    wanting = [one for one in job.steps.values() if name in one.step.part and job.state(one.id) != NOT_NEEDED]
    return sum(one.step.part[name].count for one in wanting)
