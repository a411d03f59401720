"""A reading in words: what is wanted, what was measured, where it lies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from jobtrack import units
from jobtrack.job.acts.base import Plain, what_was_typed
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import (
    NO_VERDICT,
    OUTSIDE,
    TOO_CLOSE,
    WHEN_TOO_CLOSE,
    WITHIN,
    Limits,
    far_outside,
)
from jobtrack.sheets.words.values.whose import limit_source
from jobtrack.template.plan import PlannedStep
from jobtrack.template.tolerance import LEFT_AT_LEAST, share_left
from jobtrack.units.beside import around_target, as_written, between_limits
from jobtrack.units.conversion import Number, exact
from jobtrack.units.rounding import (
    Figure,
    as_typed,
    beside,
    figure,
    limit_as_given,
    said_beside,
    said_number,
    said_target,
    written_for,
)

RECKONER = "reckoner"
"""What a reading is taken `with` where its number was worked out by the person at the bench."""


def limit_words(
    limits: Limits, unit: str | None, value: Number | None = None, said: Figure | None = None
) -> str:
    """What is wanted of a reading: "23.5 ± 1 mm", "54 to 56 N·m", "at most 0.5 mm".

    A target is said to a tenth of its tolerance, finer where `value` would lie otherwise beside the words. Limits
    that nobody can have typed as they stand are rounded to the cautious side. `said`: how the value is said.
    """
    if not limits.wanted:
        return "recorded only"
    if not limits.known:
        return f"target {said_number(limits.target, unit)}" if limits.target is not None else "not known yet"
    if limits.target is not None and limits.off_by and limits.at_least is None and limits.at_most is None:
        return _around_words(limits.target, limits.off_by, unit, value, said)
    ends = limits.low, limits.high
    if not as_written(*ends, unit):
        return between_limits(_shown(value, ends, unit, said), *ends, unit, unit).wanted()
    return _between_words(limits, unit)


def _around_words(
    target: Number, off_by: Number, unit: str | None, value: Number | None, said: Figure | None
) -> str:
    if limit_as_given(off_by, unit) and written_for(off_by, exact(off_by), finer=2):
        return f"{said_target(target, off_by, unit, value, said)} ± {units.show(off_by, unit)}"
    ends = exact(target) - exact(off_by), exact(target) + exact(off_by)
    return around_target(_shown(value, ends, unit, said), target, off_by, unit, unit).wanted()


def _shown(
    value: Number | None, ends: tuple[Number | None, Number | None], unit: str | None, said: Figure | None
) -> Figure | None:
    """A value as it is said beside its limits, which are then rounded so that it lies where it did."""
    if value is None:
        return None
    return (
        figure(value, unit) if value in ends else as_typed((said or beside(value, ends, unit)).rounded, unit)
    )


def _between_words(limits: Limits, unit: str | None) -> str:
    if limits.low is not None and limits.high is not None:
        same = limits.low == limits.high
        return (
            units.show(limits.low, unit)
            if same
            else f"{units.show(limits.low, None)} to {units.show(limits.high, unit)}"
        )
    if limits.low is not None:
        return f"at least {units.show(limits.low, unit)}"
    return f"at most {units.show(limits.high, unit)}" if limits.high is not None else "not known yet"


def given_words(job: Job, name: str) -> str:
    """What is known of a given: its value, yes or no, its words, or that it isn't known."""
    standing, unit = job.places.given(name), job.plan.givens[name].unit
    value = standing.written if standing.value is not None else "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, int | float):
        return str(value)
    return units.show(value, unit) if limit_as_given(value, unit) else said_beside(value, (), unit)


def measured_words(job: Job, planned: PlannedStep, name: str) -> str:
    """What was measured, as it counts, and as it was typed where that is in another unit."""
    reading = planned.step.reading[name]
    limits = job.now.limits(planned.id, name)
    if reading.from_ is not None:
        own = own_figure(job, planned, name)
        return own.words() if own is not None else ""
    found = job.places.reading(planned.id, name)
    if not found.agreed:
        return "disagreement: " + " / ".join(one_measured(done, reading.unit) for done in found.acts)
    if found.last is None:
        return ""
    typed = found.typed_in(reading.unit)
    measured = one_measured(found.last, reading.unit, (limits.low, limits.high), reading.doubt, typed=typed)
    return measured + repeats_words(found, reading.times)


def own_figure(job: Job, planned: PlannedStep, name: str) -> Figure | None:
    """The number of a reading as it is said in the template's unit, beside its limits; None where there is none.

    One that was typed in this unit stays as it is; a mean, and one that was typed in another unit, is said no finer
    than it was measured.
    """
    value, limits = job.now.reading_value(planned.id, name), job.now.limits(planned.id, name)
    if value is None:
        return None
    reading, ends = planned.step.reading[name], (limits.low, limits.high)
    if reading.from_ is not None:
        return beside(value, ends, reading.unit)
    typed = job.places.reading(planned.id, name).typed_in(reading.unit)
    return beside(value, ends, reading.unit, reading.doubt, typed=typed)


def repeats_words(found: Standing, times: int | None) -> str:
    """Of how many repeats a value is the mean; empty where one is asked."""
    return f" (mean of {len(found.values)}, {times} asked)" if times and found.values else ""


def one_measured(
    done: Done,
    unit: str | None,
    limits: Iterable[Number | None] = (),
    doubt: float | None = None,
    *,
    typed: bool = True,
) -> str:
    """One act's value in the template's unit, and as typed where that differs.

    A value that was typed in another unit is said no finer than it was measured, and never onto a limit.
    """
    act = done.act
    if not isinstance(act, ReadingAct | SettledAct):
        return ""
    words = what_was_typed(act.typed)
    value = mean_of(act.value)
    if value is None:
        return f"{words or act.value}{_settled(act)}"
    shown = said_beside(value, limits, unit, doubt, typed=typed)
    as_typed = (
        f" ({words})"
        if words and units.typed_unit(words) not in (None, unit, shown.rpartition(" ")[2])
        else ""
    )
    return with_its_kind(act, f"{shown}{as_typed}")


def with_its_kind(act: ReadingAct | SettledAct, number: str) -> str:
    """A number in words with what kind of a number it is: about, settled, reckoned."""
    about = "about " if isinstance(act, ReadingAct) and act.bound == "about" else ""
    reckoned = " (reckoned, not measured)" if isinstance(act, ReadingAct) and act.with_ == RECKONER else ""
    return f"{about}{number}{_settled(act)}{reckoned}"


def _settled(act: ReadingAct | SettledAct) -> str:
    return " (settled)" if isinstance(act, SettledAct) else ""


def mean_of(value: Plain | tuple[float, ...] | None) -> float | None:
    """The one number of an act's value, of several repeats their mean; None where it is none."""
    if isinstance(value, tuple):
        return sum(value) / len(value) if value else None
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def verdict_text(job: Job, planned: PlannedStep, name: str) -> str:
    """Where a reading lies and whose limit it is."""
    verdict = job.now.verdict(planned.id, name)
    reading = planned.step.reading[name]
    if verdict == NO_VERDICT:
        return ""
    value = job.now.reading_value(planned.id, name)
    said = own_figure(job, planned, name)
    limits = limit_words(job.now.limits(planned.id, name), reading.unit, value, said)
    whose = limit_source(job, planned, name)
    if verdict == WITHIN:
        return f"Within the limits given: {limits} ({whose})."
    advice = f"; {WHEN_TOO_CLOSE}" if verdict == TOO_CLOSE else ""
    return f"{verdict[0].upper()}{verdict[1:]}: {limits} ({whose}){advice}."


def verdict_words(job: Job, planned: PlannedStep, name: str) -> str:
    """within, outside, far outside, too close to call; or why there is none of them."""
    verdict, limits = job.now.verdict(planned.id, name), job.now.limits(planned.id, name)
    if verdict == OUTSIDE and far_outside(job.now.reading_value(planned.id, name), limits):
        return f"far {verdict}"
    if verdict != NO_VERDICT:
        return verdict
    if limits.wanted and not limits.known and job.now.reading_value(planned.id, name) is not None:
        return "no limit known yet"
    return ""


def doubt_sentences(job: Job, planned: PlannedStep) -> Iterator[str]:
    """What the doubts do to the readings of a step: little tolerance left, or that nobody can call it."""
    for name, reading in planned.step.reading.items():
        close = job.now.verdict(planned.id, name) == TOO_CLOSE
        said = (
            little_left_words(job, planned, name),
            f"Too close to call: {WHEN_TOO_CLOSE}." if close else "",
        )
        yield from (f"“{reading.say or name}”: {text}" for text in said if text)


def little_left_words(job: Job, planned: PlannedStep, name: str) -> str:
    """Where the doubt leaves less than half of the tolerance: by how much of it; else empty.

    The rule of `proofread`, with the instrument really used and with the doubts of what a limit stands on.
    """
    limits, reading = job.now.limits(planned.id, name), planned.step.reading[name]
    if limits.low is None or limits.high is None or limits.high <= limits.low:
        return ""
    guard = job.now.guard(planned.id, name)
    width = limits.high - limits.low
    if guard is None or share_left(width, guard) >= LEFT_AT_LEAST:
        return ""
    doubt = units.show(Fraction(f"{float(guard):.2g}"), reading.unit)
    of = units.show(width / 2, reading.unit)
    return f"Less than half of the tolerance is left by the instruments: ± {doubt} of ± {of}."
