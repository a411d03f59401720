"""What is wanted of a reading and what was measured, in the unit system that is shown.

In the template's own system the words are those of the sheets; in the other one they are rounded there.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from jobtrack import units
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.state.job import Job
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import Limits
from jobtrack.sheets.words.values.readings import (
    limit_words,
    mean_of,
    measured_words,
    own_figure,
    repeats_words,
    with_its_kind,
)
from jobtrack.template.model import Reading
from jobtrack.template.plan import PlannedStep
from jobtrack.units.beside import Beside, around_target, between_limits
from jobtrack.units.chosen import Chosen
from jobtrack.units.conversion import Number
from jobtrack.units.rounding import Figure, as_typed, sixty_fourths


def wanted_in(job: Job, planned: PlannedStep, name: str, shown: Chosen, room: int | None = 0) -> str:
    """What a reading should be; in the other system too, in brackets, where `room` cells hold both (None: any)."""
    limits, reading = job.now.limits(planned.id, name), planned.step.reading[name]
    row = row_of(job, planned, name)
    own = limit_words(limits, reading.unit, row.value, row.own)
    if not limits.known and limits.target is None:
        return own
    if shown.turns(reading.unit):
        return _with_brackets(row.wanted(shown), [own], room)
    return _with_brackets(own, [row.wanted(shown.turned)], room) if shown.turned.turns(reading.unit) else own


def measured_in(job: Job, planned: PlannedStep, name: str, shown: Chosen, room: int | None = 0) -> str:
    """What was measured; in the other system too, in brackets, where `room` cells hold both (None: any)."""
    own, row = measured_words(job, planned, name), row_of(job, planned, name)
    if row.value is None:
        return own
    if shown.turns(row.reading.unit):
        return row.kind_of(row.measured(shown, room))
    if "(" in own or not shown.turned.turns(row.reading.unit):  # as it was typed stands there already
        return own
    return _with_brackets(own, [row.figure(shown.turned).words()], room)


def _with_brackets(first: str, beside: Sequence[str], room: int | None) -> str:
    """A text with as much of what may stand beside it as there is room for."""
    for more in (list(filter(None, beside)), *([one] for one in beside if one)):
        both = f"{first} ({', '.join(more)})" if more else first
        if room is None or len(both) <= room:
            return both
    return first


class Row(Struct, frozen=True):
    """One reading as it stands, with one number that counts or none."""

    reading: Reading
    limits: Limits
    value: Number | None
    """In the template's unit."""
    found: Standing | None
    """What is recorded; None where it is worked out."""
    own: Figure | None
    """The number as it is said in the template's unit."""

    @property
    def act(self) -> ReadingAct | SettledAct | None:
        """The act whose number counts."""
        last = self.found.last if self.found is not None else None
        return last.act if last is not None and isinstance(last.act, ReadingAct | SettledAct) else None

    @property
    def typed(self) -> str:
        """What was typed for it, where its unit is written out."""
        typed = self.act.typed if self.act is not None else None
        return typed if isinstance(typed, str) and units.typed_unit(typed) is not None else ""

    def unit(self, shown: Chosen) -> str | None:
        """The unit of the row in a system: one for the value and its limits."""
        known = (self.limits.low, self.limits.high, self.limits.target, self.value)
        largest = max((abs(units.exact(one)) for one in known if one is not None), default=0)
        return shown.unit(self.reading.unit, largest)

    def typed_there(self, shown: Chosen) -> Figure | None:
        """The number as it was typed, where that was in the unit of this system."""
        unit = self.unit(shown)
        if self.value is None or not self.typed or units.typed_unit(self.typed) != unit:
            return None
        return as_typed(units.convert(self.value, self.reading.unit, unit), unit)

    def beside(self, shown: Chosen) -> Beside:
        """Value and limits in a system."""
        limits, own, unit = self.limits, self.reading.unit, self.unit(shown)
        value = self.typed_there(shown) or self.own
        sides = limits.at_least is not None or limits.at_most is not None
        if limits.target is not None and limits.off_by and not sides:
            return around_target(value, limits.target, limits.off_by, own, unit)
        return between_limits(value, limits.low, limits.high, own, unit)

    def wanted(self, shown: Chosen) -> str:
        """The limits in a system, or the target alone."""
        if self.limits.known:
            return self.beside(shown).wanted()
        return f"target {shown.figure(as_typed(self.limits.target or 0, self.reading.unit)).words()}"

    def figure(self, shown: Chosen) -> Figure:
        """The number in a system."""
        return self.beside(shown).value or as_typed(self.value or 0, self.reading.unit)

    def measured(self, shown: Chosen, room: int | None) -> str:
        """The number in the other system than the template's: as typed where it was typed in that."""
        own = self.own.words() if self.own is not None else ""
        if self.typed_there(shown) is not None:
            return _with_brackets(self.typed.lstrip("~ "), [own], room)
        here = self.figure(shown)
        doubt = units.convert_difference(self.reading.doubt or 0, self.reading.unit, here.unit)
        return _with_brackets(
            here.words(), [sixty_fourths(here, doubt).strip(" ()"), self.typed or own], room
        )

    def kind_of(self, said: str) -> str:
        """The number with what kind of number it is."""
        if self.act is None or self.found is None:
            return said
        return with_its_kind(self.act, said) + repeats_words(self.found, self.reading.times)


def row_of(job: Job, planned: PlannedStep, name: str) -> Row:
    """A reading of a step as it stands."""
    reading, limits = planned.step.reading[name], job.now.limits(planned.id, name)
    own = own_figure(job, planned, name)
    if reading.from_ is not None:
        return Row(reading, limits, job.now.reading_value(planned.id, name), None, own)
    found = job.places.reading(planned.id, name)
    last = found.last if found.agreed else None
    counts = last is not None and isinstance(last.act, ReadingAct | SettledAct)
    value = mean_of(last.act.value) if counts else None  # type: ignore[union-attr]
    return Row(reading, limits, value, found, own if value is not None else None)
