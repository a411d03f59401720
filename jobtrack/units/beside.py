"""A value beside its limits in another unit, rounded to the cautious side: never on the wrong side of one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.units.chosen import in_unit
from jobtrack.units.conversion import Number, between, convert, convert_difference, exact
from jobtrack.units.names import find
from jobtrack.units.rounding import (
    DOWN,
    MOST_FIGURES_MORE,
    NEAREST,
    UP,
    Figure,
    Fineness,
    as_typed,
    figure,
    limit_as_given,
    tenth,
    to_step,
    written_for,
)
from jobtrack.units.showing import show


class Beside(Struct, frozen=True):
    """A value and its limits as they are said side by side, all in one unit; what there isn't is None."""

    unit: str | None
    value: Figure | None = None
    low: Figure | None = None
    high: Figure | None = None
    target: Figure | None = None
    off_by: Figure | None = None

    def wanted(self) -> str:
        """The limits in words, in the form that the template gives them."""
        if self.target is not None and self.off_by is not None:
            return f"{show(self.target.rounded, None)} ± {self.off_by.words()}"
        low, high = self.low, self.high
        if low is not None and high is not None:
            same = low.rounded == high.rounded
            return low.words() if same else f"{show(low.rounded, None)} to {high.words()}"
        if low is not None:
            return f"at least {low.words()}"
        return f"at most {high.words()}" if high is not None else ""


def between_limits(
    value: Figure | None, low: Number | None, high: Number | None, own: str | None, unit: str | None
) -> Beside:
    """A value and its limits in another unit, a lower limit rounded up and an upper one down.

    They take figures more until the value as said lies within the limits as said just where it did before.
    """
    same, off = low is not None and low == high, _tolerance(low, high)
    ends = (
        _limit(low, own, unit, NEAREST if same else UP, off),
        _limit(high, own, unit, NEAREST if same else DOWN, off),
    )
    moved = in_unit(value, unit) if value is not None else None
    before = _sides(_value(value, own), low, high)
    for more in range(MOST_FIGURES_MORE):
        first, last = _more(ends[0], more), _more(ends[1], more)
        said = _on_its_limit(_more(moved, more), first, last)
        after = _sides(_rounded(said), _rounded(first), _rounded(last))
        if after == before and (same or _apart(first, last)):
            return Beside(unit, said, first, last)
    return Beside(unit, _exact(moved), _exact(ends[0]), _exact(ends[1]))


def around_target(
    value: Figure | None, target: Number, off_by: Number, own: str | None, unit: str | None
) -> Beside:
    """A value, its target and its tolerance in another unit, the tolerance drawn in by what the target was rounded."""
    middle, off = between(exact(target), find(own), find(unit)), convert_difference(off_by, own, unit)
    moved = in_unit(value, unit) if value is not None else None
    low, high = exact(target) - exact(off_by), exact(target) + exact(off_by)
    before = _sides(_value(value, own), low, high)
    for step in _finer_and_finer(tenth(off)):
        there = to_step(middle, step)
        room = to_step(off - abs(there - middle), step, DOWN)
        said = _at_end(moved, {middle - off: there - room, middle + off: there + room}, step)
        if room > 0 and _sides(_rounded(said), there - room, there + room) == before:
            return Beside(unit, said, target=as_typed(there, unit), off_by=as_typed(room, unit))
    return Beside(unit, _exact(moved), target=as_typed(middle, unit), off_by=as_typed(off, unit))


def _at_end(one: Figure | None, ends: Mapping[Fraction, Fraction], step: Fraction) -> Figure | None:
    """A value as it is said: one that lies on a limit on that as it is said, else no coarser than the limits."""
    if one is None or one.typed:
        return one
    if one.value in ends:
        return as_typed(ends[one.value], one.unit)
    return replace(one, fineness=Fineness(min(one.step, step)))


def _more(one: Figure | None, more: int) -> Figure | None:
    return replace(one, more=more) if one is not None else None


def _value(one: Figure | None, unit: str | None) -> Fraction | None:
    return convert(one.value, one.unit, unit) if one is not None else None


def _rounded(one: Figure | None) -> Fraction | None:
    return one.rounded if one is not None else None


def _finer_and_finer(step: Fraction | None) -> Iterator[Fraction]:
    first = step or Fraction(1)
    return (first / 10**more for more in range(MOST_FIGURES_MORE))


def as_written(low: Number | None, high: Number | None, unit: str | None) -> bool:
    """Whether limits can have been written as they stand, for the tolerance between them."""
    off = _tolerance(low, high)
    return all(limit_as_given(one, unit) and written_for(one, off) for one in (low, high) if one is not None)


def _tolerance(low: Number | None, high: Number | None) -> Fraction:
    """Half of what lies between two limits; 0 where there aren't two."""
    return (exact(high) - exact(low)) / 2 if low is not None and high is not None else Fraction(0)


def _limit(
    limit: Number | None, own: str | None, unit: str | None, towards: str, off: Fraction
) -> Figure | None:
    """A limit as it is said: one that was worked out to a tenth of the tolerance, or as fine as its unit."""
    if limit is None:
        return None
    if unit != own or (limit_as_given(limit, own) and written_for(limit, off)):
        return in_unit(replace(as_typed(limit, own), towards=towards), unit)
    one = figure(limit, own, towards, tenth(off))
    return figure(limit, own, towards, tenth(abs(one.value))) if 0 < abs(one.value) <= one.step else one


def _on_its_limit(value: Figure | None, *limits: Figure | None) -> Figure | None:
    """A value that lies exactly on a limit is rounded as that is."""
    if value is None or value.typed:
        return value
    return next((limit for limit in limits if limit is not None and value.value == limit.value), value)


def _sides(value: Number | None, low: Number | None, high: Number | None) -> list[bool]:
    return [value is None or low is None or value >= low, value is None or high is None or value <= high]


def _apart(low: Figure | None, high: Figure | None) -> bool:
    return low is None or high is None or low.rounded < high.rounded


def _exact(one: Figure | None) -> Figure | None:
    return replace(one, typed=True) if one is not None else None
