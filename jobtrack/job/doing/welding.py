"""Which runs of a weld are recorded, and which comes next."""

from __future__ import annotations

from msgspec import Struct

from jobtrack.job.acts.doing import WeldAct
from jobtrack.job.doing.tightening import all_names, counted
from jobtrack.job.state.history import Done
from jobtrack.job.state.view import View
from jobtrack.template.model import Weld
from jobtrack.template.plan import PlannedStep


class Welding(Struct, frozen=True):
    """A weld, its runs in order, each with the act recorded last for it, and the act recorded last of all."""

    line: Weld
    runs: dict[str, Done | None]
    last: Done | None = None

    @property
    def left(self) -> tuple[str, ...]:
        """The runs that nothing is recorded of."""
        return tuple(run for run, done in self.runs.items() if done is None)

    @property
    def next(self) -> str | None:
        """The run whose turn it is; None: all are recorded."""
        return next(iter(self.left), None)

    @property
    def rod(self) -> str | None:
        """What was welded with last."""
        rods = [act.rod for done in self.runs.values() if done is not None and (act := _act(done)).rod]
        return _act(self.last).rod or (rods[-1] if rods else None) if self.last is not None else None


def welding(view: View, planned: PlannedStep, name: str) -> Welding:
    """What is recorded of a weld of a step by what counts in a view."""
    line = planned.step.weld[name]
    found = [done for done in view.in_step(planned.id) if isinstance(done.act, WeldAct)]
    mine = [done for done in found if _act(done).weld == name]
    numbers = [str(number) for number in range(1, counted(line.runs) + 1)]
    last = {_act(done).run: done for done in mine}
    runs = {run: last.get(run) for run in all_names(numbers, last)}
    return Welding(line, runs, mine[-1] if mine else None)


def _act(done: Done) -> WeldAct:
    assert isinstance(done.act, WeldAct)
    return done.act
