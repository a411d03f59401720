"""A row of Find as it is shown: what it is, its name, its side, its key or where it stands; and what Enter does."""

from __future__ import annotations

from collections.abc import Callable

from rich.cells import set_cell_size

from jobtrack.job.acts.doing import BuyingAct, PartAct
from jobtrack.job.doing.parts import standing as standing_of
from jobtrack.job.doing.tightening import tightening
from jobtrack.job.doing.welding import welding
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import NO_VERDICT
from jobtrack.pages.look_up.find import Do, Only, Row, Turn
from jobtrack.pages.step.checks import answer_words, given_words
from jobtrack.pages.step.in_units import measured_in
from jobtrack.pages.step.items import GIVEN, TICK, Item, given_names, items, standing
from jobtrack.pages.typeset import Line, Span, shortened
from jobtrack.pages.wording import of_member, step_name
from jobtrack.units.chosen import METRIC_FIRST, Chosen

CHOSEN, OTHER, BETWEEN = "▸ ", "  ", "  "
WHAT, SIDE = 7, 9
"""Cells of what a row is, and of its side or vehicle."""
NARROW = 60
"""Cells below which the side has no column of its own."""


def row_line(job: Job, row: Row, width: int, chosen: bool, shown: Chosen = METRIC_FIRST) -> Line:
    """A row on one line; where its name is cut, `enter_words` says it whole."""
    state = width // 4 if width < NARROW else 16 if width < 100 else 32
    side = [(row.side, SIDE)] if row.side and width >= NARROW else []
    room = width - len(OTHER) - WHAT - state - 2 * len(BETWEEN) - (SIDE + len(BETWEEN) if side else 0)
    name = row.name if side else of_member(row.name, row.side or None)
    cells = ((row.what, WHAT), (name, room), *side, (state_words(job, row, shown), state))
    text = BETWEEN.join(set_cell_size(shortened(one, cut), cut) for one, cut in cells)
    return Line((Span(f"{CHOSEN if chosen else OTHER}{text}".rstrip(), "strong" if chosen else ""),))


def enter_words(job: Job, row: Row) -> str:
    """What Enter does on a row, the row's name whole."""
    match row.to:
        case Do():
            key = f"; on the step the key is {row.key}" if row.key else ""
            return f"Enter: {row.name}{key}."
        case Only():
            return f"Enter shows this list alone: {row.name}."
        case Turn():
            step, _ = destination(job, row.to)
            if row.what == "part":
                return f"{row.name}. Enter shows it among the parts{f' of {_of_step(job, step)}' if step else ''}."
            if step is None:
                page = "the page of what is known" if row.what == "known" else "the page of the job"
                return f"{row.name}. It belongs to no step: Enter shows {page}."
            where = _of_step(job, step)
            return f"Enter goes to {where}." if row.what == "step" else f"{row.name}. Enter goes to {where}."


def _of_step(job: Job, step: str) -> str:
    return f"“{step_name(job.steps[step])}”"


def destination(job: Job, to: Turn) -> tuple[str | None, int | None]:
    """The step that a row goes to, and the line of it that is chosen there; None where there is none."""
    step = to.step or (_that_asks(job, to.name) if to.kind == GIVEN else "")
    if step not in job.steps:
        return None, None
    found = [(one.kind, one.name) for one in items(job, job.steps[step])]
    return step, found.index((to.kind, to.name)) if (to.kind, to.name) in found else None


def _that_asks(job: Job, given: str) -> str:
    """The first step that stands on a given; empty where none does."""
    return next((one.id for one in job.steps.values() if given in given_names(job, one)), "")


# Where a thing stands


def state_words(job: Job, row: Row, shown: Chosen = METRIC_FIRST) -> str:
    """The key of what the screen does; else where the thing stands, in a word or two."""
    if not isinstance(row.to, Turn):
        return row.key
    return STATES[row.what](job, row.to, shown)


def _step(job: Job, to: Turn, _: Chosen) -> str:
    return job.state(to.step)


def _reading(job: Job, to: Turn, shown: Chosen) -> str:
    planned = job.steps[to.step]
    measured, verdict = measured_in(job, planned, to.name, shown), job.now.verdict(to.step, to.name)
    return f"{verdict}, {measured}" if measured and verdict != NO_VERDICT else measured


def _check(job: Job, to: Turn, _: Chosen) -> str:
    planned = job.steps[to.step]
    one = Item(TICK, to.name, planned.step.tick[to.name].ask)
    return answer_words(one, standing(job, planned, one)).lstrip("- ")


def _known(job: Job, to: Turn, shown: Chosen) -> str:
    found = job.places.given(to.name)
    return (
        given_words(Item(GIVEN, to.name, "", job.plan.givens[to.name].unit), found, shown)
        if found.agreed
        else "disagreement"
    )


def _part(job: Job, to: Turn, _: Chosen) -> str:
    """What became of it last, and how far its buying is; of two that disagree both."""
    buying = [done for done in job.view.of_kind(BuyingAct)
              if isinstance(done.act, BuyingAct) and done.act.part == to.name]  # fmt: skip
    bought = [done.act.buying for done in standing_of(buying) if isinstance(done.act, BuyingAct)]
    became = [done.act.fate or "used" for done in job.view.of_kind(PartAct)
              if isinstance(done.act, PartAct) and done.act.part == to.name]  # fmt: skip
    return ", ".join((*became[-1:], *bought))


def _torque(job: Job, to: Turn, _: Chosen) -> str:
    """How many of its bolts have their last stage."""
    found = tightening(job.view, job.steps[to.step], to.name)
    done, all_ = len(found.bolts) - len(found.left), len(found.bolts)
    return f"{done} of {all_} final" if found.last is not None else ""


def _weld(job: Job, to: Turn, _: Chosen) -> str:
    """How many of its runs are recorded."""
    found = welding(job.view, job.steps[to.step], to.name)
    return f"{len(found.runs) - len(found.left)} of {len(found.runs)} runs" if found.last is not None else ""


def _open(job: Job, to: Turn, _: Chosen) -> str:
    one = next((one for one in job.open_conditions if one.name == to.name), None)
    return f"since {one.since.day} {one.since:%b}" if one is not None and one.since is not None else ""


STATES: dict[str, Callable[[Job, Turn, Chosen], str]] = {
    "step": _step, "reading": _reading, "check": _check, "known": _known, "part": _part, "torque": _torque,
    "weld": _weld, "open": _open,
}  # fmt: skip
"""By what a row is."""
