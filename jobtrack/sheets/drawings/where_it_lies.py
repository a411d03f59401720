"""Where a reading lies, as a drawing: its limits, what is wanted and what was measured, each with its words."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from jobtrack import units
from jobtrack.figures.drawing import Drawing
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import NO_VERDICT, Number
from jobtrack.pictures.tolerance import Reading, Said, place
from jobtrack.pictures.vials import vial
from jobtrack.sheets.drawings.ends import ends_of
from jobtrack.sheets.words.values.in_units import Row, row_of
from jobtrack.template.plan import PlannedStep, Ref
from jobtrack.units.chosen import Chosen
from jobtrack.units.rounding import Figure, limit_as_given, said_beside, said_target


class _Words(NamedTuple):
    """How the figures of a reading are said; empty where there is none."""

    low: str
    wanted: str
    high: str
    measured: str
    unit: str | None


def lies(job: Job, planned: PlannedStep, name: str, shown: Chosen) -> Drawing:
    """An angle between two limits as a level, any other reading on its scale; at least one limit is known."""
    reading = as_drawn(job, planned, name, shown)
    return vial(reading) if is_level(job, planned, name) else place(reading)


def is_level(job: Job, planned: PlannedStep, name: str) -> bool:
    """Whether a reading is an angle between two limits that are known."""
    limits = job.now.limits(planned.id, name)
    both = limits.low is not None and limits.high is not None
    return planned.step.reading[name].unit == "deg" and both


def as_drawn(job: Job, planned: PlannedStep, name: str, shown: Chosen, *, sure: bool = True) -> Reading:
    """A reading with its limits as a drawing has it: each with its words; at least one limit is known.

    `sure`: its doubt is said too.
    """
    row = row_of(job, planned, name)
    low, high, value = row.limits.low, row.limits.high, row.value
    said = _turned(row, shown) if shown.turns(row.reading.unit) else _own(row)
    doubt = job.now.doubt(Ref("reading", f"{planned.id}.{name}", planned.id, name))
    verdict = job.now.verdict(planned.id, name)
    doubt_said = _sure(doubt, row, said.unit) if sure else ""
    lies_there = "" if verdict == NO_VERDICT else f", {verdict}"
    one = low == high
    return Reading(
        _said(low, f"wanted {said.low}" if one else f"at least {said.low}" if high is None else said.low),
        _said(high, f"wanted {said.high}" if one else f"at most {said.high}" if low is None else said.high),
        _said(row.limits.target, f"wanted {said.wanted}") if said.wanted else None,
        _said(value, f"{said.measured}{doubt_said}{lies_there}"),
        doubt,
        ends_of(_float(low), _float(high), _float(value)) or (0.0, 1.0),
    )


def _float(value: Number | None) -> float | None:
    return None if value is None else float(value)


def _said(value: Number | None, words: str) -> Said | None:
    return None if value is None else Said(float(value), words)


def _sure(doubt: float | None, row: Row, unit: str | None) -> str:
    if not doubt:
        return ""
    there = units.convert_difference(doubt, row.reading.unit, unit) if unit != row.reading.unit else doubt
    return f" ± {units.show(Fraction(f'{float(there):.2g}'), unit)}"


def _own(row: Row) -> _Words:
    """In the template's unit."""
    limits, unit, value = row.limits, row.reading.unit, row.value
    low, high = (_end(one, value, unit) for one in (limits.low, limits.high))
    around = limits.target is not None and limits.off_by
    wanted = said_target(limits.target or 0, limits.off_by or 0, unit, value, row.own) if around else ""
    return _Words(low, wanted, high, row.own.words() if row.own is not None else "", unit)


def _end(limit: Number | None, value: Number | None, unit: str | None) -> str:
    """A limit that can have been written as it stands as it is: rounded, 1/16 in would let through what is less."""
    if limit is None:
        return ""
    return units.show(limit, unit) if limit_as_given(limit, unit) else said_beside(limit, (value,), unit)


def _turned(row: Row, shown: Chosen) -> _Words:
    """In the other unit system, so that each lies on the same side of the others as it does in the template's."""
    there = row.beside(shown)
    value = row.measured(shown, 0) if row.value is not None else ""
    if there.target is None or there.off_by is None:
        return _Words(_words(there.low), "", _words(there.high), value, there.unit)
    middle, off = there.target.rounded, there.off_by.rounded
    ends = (units.show(end, there.unit) for end in (middle - off, middle + off))
    return _Words(next(ends), units.show(middle, None), next(ends), value, there.unit)


def _words(figure: Figure | None) -> str:
    return figure.words() if figure is not None else ""
