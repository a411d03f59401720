"""How far the bolts of a torque line are tightened, and which bolt comes next, from what is recorded of them.

A later stage of a bolt stands for the earlier ones; a lower one, recorded by somebody who could see the higher, says
that the bolt was slackened. Of what several recorded, not knowing of each other, the lower counts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.job.state.view import View
from jobtrack.job.values.bolt_count import bolt_count, counting_given
from jobtrack.template.model import Torque
from jobtrack.template.plan import PlannedStep

NOTHING, FINGER, SNUG = -2, -1, 0
"""How far a bolt is tightened before the first stage; the stages of the template follow, from 1."""
MOST = 500
"""Bolts of a line, or runs of a weld, that are gone through one by one; a file may claim any number."""
ALL = "all"
"""What all bolts together go by, where nobody knows yet how many there are."""
_FIGURES = 6
EARLY = {"finger": FINGER, "snug": SNUG}


class Bolt(Struct, frozen=True):
    """One bolt: what is recorded of it that stands, by how far that is; and how far it is tightened."""

    name: str
    done: dict[int, Done]
    reached: int = NOTHING
    apart: bool = False
    """Whether several recorded different stages, not knowing of each other."""


class Tightening(Struct, frozen=True):
    """A torque line, its bolts in the order in which they are turned, and the act recorded last.

    Where nobody knows yet how many bolts there are, none is asked and all that are recorded stand in `beyond`.
    """

    line: Torque
    bolts: tuple[Bolt, ...]
    last: Done | None = None
    beyond: tuple[Bolt, ...] = ()
    """Bolts that are recorded beside those of which a given says how many there are; none of them is asked."""
    given: str | None = None
    """The full name of that given; None: the template says the number."""

    @property
    def counted(self) -> bool:
        """Whether it is known how many bolts there are."""
        return bool(self.bolts)

    @property
    def every(self) -> tuple[Bolt, ...]:
        """Those that are asked, then those that are recorded besides."""
        return self.bolts + self.beyond

    @property
    def stages(self) -> int:
        """How many stages there are; one where the template names none."""
        return stages_of(self.line)

    @property
    def stage(self) -> int | None:
        """The stage that isn't through; None: all are, or nobody knows of how many bolts."""
        lowest = min((bolt.reached for bolt in self.bolts), default=self.stages)
        return max(lowest, SNUG) + 1 if lowest < self.stages else None

    @property
    def next(self) -> Bolt | None:
        """The bolt whose turn it is; None: the last stage is recorded of every bolt, or none is asked."""
        stage = self.stage
        return next((bolt for bolt in self.bolts if bolt.reached < stage), None) if stage else None

    @property
    def left(self) -> tuple[Bolt, ...]:
        """The bolts that aren't at the last stage."""
        return tuple(bolt for bolt in self.bolts if bolt.reached < self.stages)


def stages_of(line: Torque) -> int:
    """How many stages a torque line has; one where the template names none."""
    return len(line.stages) or 1


def far(line: Torque, stage: str) -> int:
    """How far a stage is as an act has it; NOTHING for one that the template doesn't have."""
    if stage in EARLY:
        return EARLY[stage]
    number = stages_of(line) if stage == "final" else number_of(stage)
    return number if number is not None and 1 <= number <= stages_of(line) else NOTHING


def number_of(name: str) -> int | None:
    """The number that a stage, a bolt or a run goes by; None for a name, and for more figures than one counts to."""
    return int(name) if name.isdecimal() and len(name) < _FIGURES else None


def tightening(job: Job, planned: PlannedStep, name: str) -> Tightening:
    """How far a torque line of a step is by what counts now."""
    view, line = job.view, planned.step.torque[name]
    found = [done for done in view.in_step(planned.id) if isinstance(done.act, TorqueAct)]
    mine = [done for done in found if _act(done).torque == name and far(line, _act(done).stage) != NOTHING]
    count, given = bolt_count(job.now, planned, name), counting_given(job.now, planned, name)
    names = _names(count, [_act(done).member for done in mine], by_given=given is not None)
    asked, beyond = (tuple(_bolt(view, line, bolt, mine) for bolt in those) for those in names)
    return Tightening(line, asked, mine[-1] if mine else None, beyond, given)


def _act(done: Done) -> TorqueAct:
    assert isinstance(done.act, TorqueAct)
    return done.act


def _names(
    count: int | None, recorded: Sequence[str | None], by_given: bool
) -> tuple[Sequence[str], Sequence[str]]:
    """Every bolt that is asked, in the order in which they are turned; and those that are recorded besides.

    A number above that of a given is no bolt of the line: the given, or the bolt, was typed wrong. Where the
    template says the number, one more that somebody found is a bolt as the others are.
    """
    if count is None:
        return (), _in_row(ALL if one is None else one for one in recorded)
    from jobtrack.shopmath.fasteners.tightening import turning_order  # its topic is loaded when bolts are

    numbers = [str(number) for number in turning_order(counted(count))]
    above = [one for one in _in_row(recorded) if by_given and one.isdecimal() and one not in numbers]
    return all_names(numbers, [one for one in recorded if one not in above]), above


def _in_row(recorded: Iterable[str | None]) -> list[str]:
    return list(dict.fromkeys(one for one in recorded if one is not None))


def counted(many: int) -> int:
    """How many bolts or runs are gone through: at least one, at most `MOST`."""
    return max(1, min(many, MOST))


def all_names(numbers: Sequence[str], recorded: Iterable[str | None]) -> list[str]:
    """The numbers of bolts or runs, then what was recorded by another name; by names alone where all have one."""
    called = _in_row(recorded)
    others = [one for one in called if one not in numbers]
    named = len(numbers) <= len(others) == len(called)
    return others if named else [*numbers, *others]


def _bolt(view: View, line: Torque, name: str, acts: Sequence[Done]) -> Bolt:
    """One bolt, by the acts that name it and those that name none, which are about all."""
    mine = [(far(line, _act(done).stage), done) for done in acts if _act(done).member in (name, None)]
    if not mine:
        return Bolt(name, {})
    seen = _Seen(view, [done for _, done in mine])
    ends = {how_far for how_far, done in mine if done not in seen}
    return Bolt(name, dict(_standing(view, mine, min(ends))), min(ends), len(ends) > 1)


def _standing(view: View, acts: Sequence[tuple[int, Done]], reached: int) -> Iterator[tuple[int, Done]]:
    """The last act of each stage, as far as the bolt is tightened, that nobody slackened it behind."""
    for stage in sorted({how_far for how_far, _ in acts if how_far <= reached}):
        lower = _Seen(view, [done for how_far, done in acts if how_far < stage])
        stands = [done for how_far, done in acts if how_far == stage and done not in lower]
        yield from ((stage, done) for done in stands[-1:])


class _Seen:
    """What those who recorded some acts could see: all that these follow, and what stands before them in their call."""

    def __init__(self, view: View, acts: Sequence[Done]) -> None:
        self._view = view
        self._mask = 0
        self._within: dict[str, int] = {}
        for done in acts:
            self._mask |= view.ancestors[done.entry.hash]
            self._within[done.entry.hash] = done.index

    def __contains__(self, done: Done) -> bool:
        before = self._within.get(done.entry.hash, -1) > done.index
        return before or bool(self._mask >> self._view.bit(done.entry) & 1)
