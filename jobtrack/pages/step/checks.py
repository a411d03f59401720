"""The lines of a step's checks and of the givens it stands on, each with its answer in words."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.job.state.standing import Standing
from jobtrack.pages.step.items import GIVEN, TICK, Item, items, standing
from jobtrack.pages.step.table import CHOSEN, OTHER
from jobtrack.pages.typeset import Line, item, wrap
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import as_typed


def check_lines(job: Job, planned: PlannedStep, width: int, chosen: Item | None) -> list[Line]:
    """A line a check: what was asked, and yes, no or not answered."""
    return _lines(job, planned, width, chosen, TICK, "Checks (yes is what is wanted):", METRIC_FIRST)


def given_lines(
    job: Job, planned: PlannedStep, width: int, chosen: Item | None, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """A line for each thing known that the step stands on; don't know yet is an answer."""
    return _lines(job, planned, width, chosen, GIVEN, "Known, or not yet:", shown)


def _lines(
    job: Job, planned: PlannedStep, width: int, chosen: Item | None, kind: str, head: str, shown: Chosen
) -> list[Line]:
    lines: list[Line] = []
    for number, one in enumerate(items(job, planned)):
        if one.kind != kind:
            continue
        lines += wrap(head, width, "small") if not lines else []
        mark, look = (CHOSEN, "strong") if one == chosen else (OTHER, "")
        text = f"{mark}{one.label} {answer_words(one, standing(job, planned, one), shown)}"
        lines += item(wrap(text, width, look, 4), number)
    return lines


def answer_words(one: Item, found: Standing, shown: Chosen = METRIC_FIRST) -> str:
    """An answer as it stands: in a disagreement a check counts as no, a given as not known."""
    if not found.agreed:
        counts = "counts as no" if one.kind == TICK else "counts as not known"
        return f"- disagreement; {counts} until it is settled"
    if one.kind == TICK:
        return "- not answered" if not found.acts else "- yes" if found.value is True else "- NO"
    return f"- {given_words(one, found, shown)}"


def given_words(one: Item, found: Standing, shown: Chosen = METRIC_FIRST) -> str:
    """A given as it stands, a number in the system shown; don't know yet and not yet said are told apart."""
    value = found.value
    if value is None:
        return "don't know yet" if found.acts else "not yet said"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else shown.figure(as_typed(value, one.unit)).words()
