"""The limits of a reading, and where a value lies against them."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from jobtrack import units
from jobtrack.job.state.standing import Standing
from jobtrack.template.model import Reading

Number = Fraction | float
WITHIN, OUTSIDE, TOO_CLOSE, NO_VERDICT = "within", "outside", "too close to call", "none"

WHEN_TOO_CLOSE = "count it as outside, or measure with a finer instrument"
"""What a strict reading asks of a person where the doubt reaches over a limit."""

FAR = 10
"""How many tolerances outside is far."""


class Limits(Struct, frozen=True):
    """The limits of a reading, in its unit; None where there is none or it can't be worked out."""

    target: Number | None = None
    low: Fraction | None = None
    high: Fraction | None = None
    off_by: Fraction | None = None
    at_least: Number | None = None
    at_most: Number | None = None
    wanted: bool = False
    """Whether the template sets limits at all."""

    @property
    def known(self) -> bool:
        """Whether there is a limit to hold a value against."""
        return self.low is not None or self.high is not None


def tolerance(reading: Reading, target: Number | None) -> tuple[Fraction | None, Fraction | None]:
    """How far below and above the target a reading may lie; None: no limit on that side."""
    if isinstance(reading.off_by, str):
        share = _share(reading.off_by)
        off = abs(units.exact(target)) * share / 100 if share is not None and target is not None else None
        return off, off
    if reading.off_by is not None:
        return units.exact(reading.off_by), units.exact(reading.off_by)
    if reading.over_by is None and reading.under_by is None:
        return None, None
    return units.exact(reading.under_by or 0), units.exact(reading.over_by or 0)


def _share(text: str) -> Fraction | None:
    """A tolerance in percent; None where it is none."""
    try:
        return units.read(text.rstrip(" %"), None).value
    except units.UnitError:
        return None


def far_outside(value: Number | None, limits: Limits) -> bool:
    """Whether a value lies more than ten times its tolerance outside; beside one limit alone, tenfold past it.

    Common practice, no source: it is a word for the eye, and a verdict of its own nowhere.
    """
    low, high = limits.low, limits.high
    if value is None or not limits.known:
        return False
    lies = units.exact(value)
    if low is not None and high is not None and high > low:
        return max(low - lies, lies - high) > FAR * (high - low) / 2
    past = high is not None and 0 < high * FAR < lies
    return past or (low is not None and low > 0 and lies * FAR < low)


def plain_verdict(value: Fraction, limits: Limits, guard: Fraction) -> str:
    """One number against limits drawn in, and pushed out, by a guard band (ISO 14253-1); nought: plain limits.

    Where the guard leaves no room between the limits, nothing can be shown to be within.
    """
    low, high = limits.low, limits.high
    room = not guard or low is None or high is None or high - low > 2 * guard
    if room and (low is None or value >= low + guard) and (high is None or value <= high - guard):
        return WITHIN
    if (limits.low is not None and value < limits.low - guard) or (
        limits.high is not None and value > limits.high + guard
    ):
        return OUTSIDE
    return TOO_CLOSE


def bound_verdict(standing: Standing, limits: Limits, strict: bool) -> str:
    """`>5`, `<3` and `2..4`: within if wholly inside, outside if wholly outside, else undecided."""
    act = standing.reading if standing.agreed else None
    if act is None or act.bound not in ("over", "under", "range"):
        return NO_VERDICT
    low = units.exact(act.low) if act.low is not None else None
    high = units.exact(act.high) if act.high is not None else None
    inside = _reaches(low, limits.low) and _reaches(_minus(high), _minus(limits.high))
    open_ended = act.bound != "range"
    beyond = _beyond(low, limits.high, open_ended) or _beyond(_minus(high), _minus(limits.low), open_ended)
    return WITHIN if inside else OUTSIDE if beyond else TOO_CLOSE if strict else NO_VERDICT


def _minus(value: Fraction | None) -> Fraction | None:
    return None if value is None else -value


def _reaches(end: Fraction | None, limit: Fraction | None) -> bool:
    return limit is None or (end is not None and end >= limit)


def _beyond(end: Fraction | None, limit: Fraction | None, open_ended: bool) -> bool:
    """Whether everything from `end` on lies past a limit; an open end leaves its own number out."""
    return end is not None and limit is not None and (end >= limit if open_ended else end > limit)
