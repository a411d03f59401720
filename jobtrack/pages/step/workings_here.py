"""Workings-out that feed a step, with the numbers that went in; and the table that compares two vehicles."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

from jobtrack import units
from jobtrack.job.state.job import Job
from jobtrack.pages.step.checks import given_words
from jobtrack.pages.step.items import Item, items, standing
from jobtrack.pages.step.table import TABLE_FROM
from jobtrack.pages.typeset import Cell, Line, ruled, ruled_head, wrap
from jobtrack.sheets.words.values.inputs import called, missing_words
from jobtrack.shopmath import catalogue
from jobtrack.template.model import CompareRow, WorkOut
from jobtrack.template.one_unit import in_one_unit
from jobtrack.template.plan import PlannedStep, Ref
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import number_figure
from jobtrack.workings.fineness import Known, is_number, unit_beside
from jobtrack.workings.words import key_words, list_as_read, result_words, sentence


def working_lines(job: Job, planned: PlannedStep, width: int, shown: Chosen = METRIC_FIRST) -> list[Line]:
    """Each working-out of the step in one sentence, what went in, and its source in small print."""
    lines: list[Line] = []
    for name, work in planned.step.work_out.items():
        lines += _working(job, planned, name, work, width, shown)
    return lines


def _working(
    job: Job, planned: PlannedStep, name: str, work: WorkOut, width: int, shown: Chosen
) -> list[Line]:
    outcome = job.now.outcome(planned.id, name)
    title = f"Worked out, {name.replace('-', ' ')}: "
    if outcome is None:
        missing = missing_words(job, planned, work)
        return wrap(f"{title}not yet; still missing: {missing}. By {work.use}.", width, "", 2)
    entry = in_one_unit(job.plan, planned, work)
    lines = wrap(title + sentence(entry, outcome, _known(job, planned, name, shown), shown), width, "", 2)
    small = (
        how_sure(job, planned, name, entry, outcome, shown),
        f"From {_went_in(job, planned, work, entry, outcome, shown)}. By {work.use}. Source: {outcome.source}.",
        *entry.hazards,
        *(f"Remark: {remark}" for remark in outcome.remarks),
    )
    return lines + [row for text in small if text for row in wrap(text, width, "small", 4)]


def how_sure(
    job: Job,
    planned: PlannedStep,
    name: str,
    entry: catalogue.WorkingOut,
    outcome: catalogue.Outcome,
    shown: Chosen = METRIC_FIRST,
) -> str:
    """The expanded uncertainty (k = 2) of each figure that a step's working-out gives; or that it isn't known."""
    numbers = [one for one in entry.results if is_number(outcome.values[one.key])]
    doubts = _doubts(job, planned, name, entry)
    if not doubts:
        return "How sure: not known; nothing that went in has its doubt recorded." if numbers else ""
    said = ", ".join(
        f"{key_words(one.key)} ± {_two_figures(doubts[one.key], one, shown)}"
        for one in numbers
        if one.key in doubts
    )
    return f"How sure (k = 2, from the doubts of the readings that went in): {said}."


def _doubts(job: Job, planned: PlannedStep, name: str, entry: catalogue.WorkingOut) -> dict[str, float]:
    refs = _results(planned, name, entry)
    return {key: doubt for key, ref in refs.items() if (doubt := job.now.doubt(ref)) is not None}


def _results(planned: PlannedStep, name: str, entry: catalogue.WorkingOut) -> dict[str, Ref]:
    return {one.key: Ref("result", f"{planned.id}.{name}.{one.key}", planned.id, name, one.key)
            for one in entry.results}  # fmt: skip


def _known(job: Job, planned: PlannedStep, name: str, shown: Chosen) -> Known:
    """What went into a working-out as it is said, and how sure its results are."""
    work = planned.step.work_out[name]
    refs = {key: job.plan.resolve(value, planned) if isinstance(value, str) else None
            for key, value in work.inputs.items()}  # fmt: skip
    typed = {
        key: _worth(job, ref, shown) for key, ref in refs.items() if ref and job.now.value(ref) is not None
    }
    entry = in_one_unit(job.plan, planned, work)
    swings = {key: job.now.told(ref) for key, ref in _results(planned, name, entry).items()}
    return Known(typed, _doubts(job, planned, name, entry), swings)


def _two_figures(doubt: float, kind: catalogue.Quantity, shown: Chosen) -> str:
    unit = unit_beside(kind)
    there = shown.unit(unit)
    return units.show(Fraction(f"{float(units.convert_difference(doubt, unit, there)):.2g}"), there)


def _went_in(
    job: Job,
    planned: PlannedStep,
    work: WorkOut,
    entry: catalogue.WorkingOut,
    outcome: catalogue.Outcome,
    shown: Chosen,
) -> str:
    return "; ".join(
        _input(job, planned, entry.input(key), value, outcome.inputs[key], shown)
        for key, value in work.inputs.items()
    )


def _input(
    job: Job,
    planned: PlannedStep,
    kind: catalogue.Quantity,
    value: object,
    used: catalogue.Value,
    shown: Chosen,
) -> str:
    """What an input is called, and its value; a list as it was read."""
    ref = job.plan.resolve(value, planned) if isinstance(value, str) else None
    if ref is not None and not kind.items:
        return f"{called(job, planned, ref)}: {_worth(job, ref, shown)}"
    said = list_as_read(kind, used) if kind.items else str(value)
    return f"{key_words(kind.key)} {said}" if ref is None else f"{called(job, planned, ref)}: {said}"


def _worth(job: Job, ref: Ref, shown: Chosen) -> str:
    value = job.now.value(ref)
    if isinstance(value, bool | None):
        return {True: "yes", False: "no", None: "not known"}[value]
    if isinstance(value, str):
        return value
    if ref.kind == "result":
        return _result_words(job, ref, shown)
    return shown.figure(number_figure(value, unit_of(job, ref), job.now.doubt(ref))).words()


def _result_words(job: Job, ref: Ref, shown: Chosen) -> str:
    planned = job.steps[ref.step or ""]
    outcome = job.now.outcome(planned.id, ref.item)
    entry = in_one_unit(job.plan, planned, planned.step.work_out[ref.item])
    known = _known(job, planned, ref.item, shown)
    return (
        dict(result_words(entry, outcome, known, shown, 0))[ref.result]
        if outcome is not None
        else "not known"
    )


def unit_of(job: Job, ref: Ref) -> str | None:
    """The unit that a name's value is in; None for a plain number and for words."""
    if ref.kind == "tick":
        return None
    if ref.kind == "given":
        return job.plan.givens[ref.name].unit
    step = job.steps[ref.step or ""].step
    if ref.kind == "reading":
        return step.reading[ref.item].unit
    there = in_one_unit(job.plan, job.steps[ref.step or ""], step.work_out[ref.item])
    return unit_beside(there.result(ref.result))


def compare_lines(
    job: Job, planned: PlannedStep, width: int, chosen: Item | None, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """Each dimension on both vehicles, how far apart, how sure, and what follows."""
    rows = planned.step.compare
    if not rows:
        return []
    vehicles = list(job.plan.template.vehicle)
    columns = _compare_widths(width, len(vehicles))
    table = width >= TABLE_FROM
    lines = ruled_head(["dimension", *vehicles, "apart", "what follows"], columns) if table else []
    known = {item.name: item for item in items(job, planned) if item.kind == "given"}
    for row in rows.values():
        cells = _compared(job, planned, row, vehicles, known, shown)
        lines += (
            ruled([Cell(cell) for cell in cells], columns) if table else wrap("; ".join(cells), width, "", 4)
        )
    return lines


def _compare_widths(width: int, vehicles: int) -> list[int]:
    value = 11 if width < 100 else 18
    apart, follows = 17, 15
    return [
        width - vehicles * value - apart - follows - 2 * (vehicles + 2),
        *[value] * vehicles,
        apart,
        follows,
    ]


def _compared(
    job: Job,
    planned: PlannedStep,
    row: CompareRow,
    vehicles: list[str],
    known: Mapping[str, Item],
    shown: Chosen,
) -> list[str]:
    refs = [job.plan.resolve(_on_vehicle(row.of, vehicle)) for vehicle in vehicles]
    values = [_worth(job, ref, shown) if ref else "not known" for ref in refs]
    follows = job.plan.resolve(row.then, planned) if row.then else None
    item = known.get(follows.name) if follows else None
    said = given_words(item, standing(job, planned, item), shown) if item else ""
    return [row.say or row.of, *values, _apart(job, planned, row, refs, shown), said]


def _on_vehicle(name: str, vehicle: str) -> str:
    step, _, reading = name.rpartition(".")
    return f"{step}.{vehicle}.{reading}"


def _apart(job: Job, planned: PlannedStep, row: CompareRow, refs: list[Ref | None], shown: Chosen) -> str:
    """How far apart, with the doubt of both readings together (k = 2), and by how much it has to move."""
    numbers = [job.now.value(ref) if ref else None for ref in refs]
    if len(numbers) != 2 or any(isinstance(one, bool | str | None) for one in numbers):
        return "not known yet"
    own = unit_of(job, refs[0]) if refs[0] else None
    unit = shown.unit(own)
    apart = abs(Fraction(numbers[0] or 0) - Fraction(numbers[1] or 0))
    doubts = [job.now.doubt(ref) if ref else None for ref in refs]
    doubt = math.hypot(*(one or 0 for one in doubts))
    sure = f" ± {_difference(doubt, own, unit)}" if any(doubts) else ", unsure by how much"
    by = job.plan.resolve(row.by, planned) if row.by else None
    each = f"\nby {_worth(job, by, shown)}" if by is not None and job.now.value(by) is not None else ""
    return f"{_difference(apart, own, unit)}{sure} {unit or ''}{each}" if refs[0] else ""


def _difference(value: Fraction | float, own: str | None, unit: str | None) -> str:
    """A difference without its unit: to two decimals, in inches to three."""
    return units.show(units.convert_difference(value, own, unit), None, 2 if unit == own else 3)
