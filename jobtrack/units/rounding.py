"""How fine a figure is said to a person: the step of each unit, which way a limit is rounded, when it takes
one figure more; no finer than its doubt, than what was typed for it, or than a tenth of its tolerance can tell.
Only words are rounded; a verdict is made, and JSON given, on the number as it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.units.conversion import Number, between, exact
from jobtrack.units.names import Unit, UnitError, find
from jobtrack.units.showing import as_fraction, both, other_unit, show

NEAREST, DOWN, UP = "nearest", "down", "up"
"""DOWN for an upper limit and for what is left, UP for a lower limit and for what has to be borne."""

PRACTICE = "common practice, no source"
_AS_TYPED_DECIMALS = 3
MOST_FIGURES_MORE = 6
"""How many figures more are tried until words tell apart what is apart."""
_TENTH, _HUNDREDTH = Fraction(1, 10), Fraction(1, 100)
_LENGTHS = ("mm", "in")
_NOISE = 12
"""Figures of a float that count; beyond them is what binary arithmetic left over."""


class Fineness(Struct, frozen=True):
    """To what a unit is said: a step of it, or a number of figures; and who says so."""

    step: Fraction | None = None
    figures: int = 0
    source: str = PRACTICE


FINENESS = {
    "mm": Fineness(Fraction(1, 10)),
    "in": Fineness(Fraction(1, 100)),
    "deg": Fineness(Fraction(1, 10)),
    "kg": Fineness(Fraction(1)),
    "lb": Fineness(Fraction(1)),
    "g": Fineness(Fraction(1)),
    "A": Fineness(Fraction(1)),
    "km/h": Fineness(Fraction(1)),
    "mph": Fineness(Fraction(1)),
    "m/min": Fineness(Fraction(1, 10)),
    "%": Fineness(Fraction(1)),
    "h": Fineness(Fraction(1, 10)),
    "years": Fineness(Fraction(1, 10)),
    "kJ/mm": Fineness(figures=2),
    "kJ/in": Fineness(figures=2),
}
"""What a tape, a scale, an angle finder or a torque wrench in the shop tells apart."""

OTHERS = Fineness(figures=3)
"""Torque, force, pressure, stress, area, turns, a plain ratio, and every unit that isn't named above."""


class Figure(Struct, frozen=True):
    """A number that is to be said: its unit, which way it is rounded, and how fine where the unit's won't do."""

    value: Fraction
    unit: str | None
    towards: str = NEAREST
    fineness: Fineness | None = None
    more: int = 0
    """How many figures more than its fineness it takes."""
    typed: bool = False
    """Whether a person gave it, so that it stays as it is."""

    @property
    def step(self) -> Fraction:
        """The step that it is rounded to."""
        fineness = self.fineness or fineness_of(self.unit)
        return (fineness.step or _ten_to(tens(self.value) + 1 - fineness.figures)) * _ten_to(-self.more)

    @property
    def rounded(self) -> Fraction:
        """The number as it is said."""
        return self.value if self.typed else to_step(self.value, self.step, self.towards)

    def in_other(self) -> Figure | None:
        """The same in the other unit system, as fine as it is here; None where there is none."""
        own = _unit(self.unit)
        other = other_unit(self.value, own) if own else None
        return self.in_unit(other.name) if other else None

    def in_unit(self, unit: str | None) -> Figure:
        """The same in another unit of its kind, as fine as it is here. Raises UnitError for another kind."""
        if _unit(unit) == _unit(self.unit):
            return self
        own, there = find(self.unit), find(unit)
        return replace(self, value=between(self.value, own, there), unit=there.name,
                       fineness=_there(self.fineness or fineness_of(self.unit), own, there))  # fmt: skip

    def words(self) -> str:
        """The figure with its unit."""
        return show(self.rounded, self.unit)

    def in_both(self) -> str:
        """The figure in both unit systems: "965 mm = 37.99 in (37 63/64)"."""
        if self.typed:
            return both(self.value, self.unit)
        there = self.in_other()
        return f"{self.words()} = {there.words()}{sixty_fourths(there)}" if there else self.words()


def sixty_fourths(one: Figure, doubt: Number = 0) -> str:
    """The 64th of an inch in brackets, rounded as the figure is; of a fine figure only where it is as near as that.

    To a tenth of an inch the 16th, and none where not even that is told; none that is off by more than a known doubt.
    """
    if one.unit != "in" or one.step > _TENTH:
        return ""
    nearest = to_step(one.value, Fraction(1, 16 if one.step == _TENTH else 64), one.towards)
    off, coarse = abs(nearest - one.value), one.step >= _HUNDREDTH
    return as_fraction(nearest) if (off <= doubt if doubt else coarse or off < one.step) else ""


def figure(value: Number, unit: str | None, towards: str = NEAREST, step: Number | None = None) -> Figure:
    """A number to be said; with `step` as fine as that, without as fine as its unit is said."""
    fineness = Fineness(exact(step)) if step is not None else None
    return Figure(without_noise(value), unit, towards, fineness)


def as_typed(value: Number, unit: str | None) -> Figure:
    """A number that a person gave."""
    return Figure(without_noise(value), unit, typed=True)


def no_finer(one: Figure, doubt: Number) -> Figure:
    """A figure no finer than its doubt tells: to the last place of the doubt with two figures (k = 2)."""
    if one.typed or doubt <= 0:
        return one
    return _no_finer_than(one, _ten_to(tens(exact(doubt)) - 1))


def no_finer_than_typed(one: Figure, swing: Number) -> Figure:
    """A figure no finer than what was typed tells: to the power of ten at or below its swing with half a place.

    A step is never more than the swing, so that rounding adds less than the typing left open. The first figure
    stays: nought would say something else.
    """
    if one.typed or swing <= 0:
        return one
    return _no_finer_than(one, min(_ten_to(tens(exact(swing))), _first_place(one.value)))


def _no_finer_than(one: Figure, step: Fraction) -> Figure:
    return replace(one, fineness=Fineness(step)) if step > one.step else one


def _first_place(value: Fraction) -> Fraction:
    return _ten_to(tens(value)) if value else Fraction(1)


def said_number(value: Number, unit: str | None, doubt: Number | None = None) -> str:
    """A number of the record in words: one that can have been typed as it stands, another as fine as is told."""
    return number_figure(value, unit, doubt).words()


def number_figure(value: Number, unit: str | None, doubt: Number | None = None) -> Figure:
    """The figure of `said_number`."""
    return as_typed(value, unit) if as_given(value) else no_finer(figure(value, unit), doubt or 0)


def without_noise(value: Number) -> Fraction:
    """The number that a result of binary arithmetic stands for."""
    return Fraction(f"{value:.{_NOISE}g}") if isinstance(value, float) else Fraction(value)


def fineness_of(unit: str | None) -> Fineness:
    """How fine a unit is said."""
    try:
        return FINENESS.get(find(unit).name, OTHERS)
    except UnitError:
        return OTHERS


def to_step(value: Fraction, step: Fraction, towards: str = NEAREST) -> Fraction:
    """The multiple of the step next to the value: the nearest (half to even), or below, or above it."""
    turns: dict[str, Callable[[Fraction], int]] = {NEAREST: round, DOWN: math.floor, UP: math.ceil}
    return turns[towards](value / step) * step


def _ten_to(power: int) -> Fraction:
    return Fraction(10**power) if power >= 0 else Fraction(1, 10**-power)


def tens(value: Fraction) -> int:
    """The power of ten of the first figure; 0 for nought."""
    return int(f"{float(value):e}".partition("e")[2])


def apart(one: Figure, limit: Figure) -> tuple[Figure, Figure]:
    """Both as they are said side by side: neither on, nor across, a limit that it doesn't lie on.

    A figure that lies exactly on the limit is rounded as the limit is; else both take figures more until the
    words tell them apart in both unit systems, or stand as they are.
    """
    if one.value == limit.value:
        return limit, limit
    for _ in range(MOST_FIGURES_MORE):
        if _told_apart(one, limit):
            return one, limit
        one, limit = replace(one, more=one.more + 1), replace(limit, more=limit.more + 1)
    return replace(one, typed=True), replace(limit, typed=True)


def _told_apart(one: Figure, limit: Figure) -> bool:
    here, there = (one, limit), (one.in_other(), limit.in_other())
    pairs = [here, *([there] if there[0] and there[1] else [])]
    return all(
        _sign(first.rounded - second.rounded) == _sign(one.value - limit.value)
        for first, second in pairs
        if first and second
    )


def _sign(value: Fraction) -> int:
    return (value > 0) - (value < 0)


def as_given(value: Number) -> bool:
    """Whether a number can have been typed as it stands, so that it is shown as it stands."""
    return bool((without_noise(value) * 10**_AS_TYPED_DECIMALS).denominator == 1)


def limit_as_given(limit: Number, unit: str | None) -> bool:
    """Whether a limit can have been written as it stands: 1/16 in, and 0.001 in in mm, have a place more."""
    places = _AS_TYPED_DECIMALS + (unit in _LENGTHS)
    return bool((without_noise(limit) * 10**places).denominator == 1)


def written_for(value: Number, tolerance: Fraction, finer: int = 1) -> bool:
    """Whether a number can have been written as it stands for such a tolerance (to one side).

    Not where it has more places than `finer` beyond a tenth of it: 1050.925 mm beside ± 4 mm is 41 3/8 in that
    somebody measured, or the outcome of a sum.
    """
    step = tenth(tolerance)
    return step is None or bool((without_noise(value) / (step / 10**finer)).denominator == 1)


def said_beside(
    value: Number,
    limits: Iterable[Number | None],
    unit: str | None,
    doubt: Number | None = None,
    *,
    typed: bool = True,
) -> str:
    """A number that nobody typed as it stands, beside limits that do: never on one that it isn't on.

    Between two limits it is said to a tenth of the tolerance. `doubt`: of the instrument, where one that reads
    finer than that measured it. `typed`: whether it may have been typed in this unit; False for a mean and for
    what was typed in another unit, which is then never said as it stands.
    """
    return beside(value, list(limits), unit, doubt, typed=typed).words()


def beside(
    value: Number,
    limits: Collection[Number | None],
    unit: str | None,
    doubt: Number | None = None,
    *,
    typed: bool = True,
) -> Figure:
    """The figure of `said_beside`."""
    if typed and as_given(value):
        return as_typed(value, unit)
    known = [exact(limit) for limit in limits if limit is not None]
    one = figure(value, unit, step=tenth((max(known) - min(known)) / 2) if len(known) > 1 else None)
    if len(known) > 1 and one.value in known and min(known) < max(known) and not limit_as_given(value, unit):
        return replace(one, towards=UP if one.value == min(known) else DOWN)
    if len(known) == 1 and 0 < abs(known[0]) <= one.step:
        one = figure(value, unit, step=tenth(abs(known[0])))
    if doubt:
        one = replace(one, fineness=Fineness(min(one.step, _ten_to(tens(exact(doubt))))))
    for limit in known:
        one = apart(one, as_typed(limit, unit))[0]
    return one


def said_target(
    target: Number,
    off_by: Number,
    unit: str | None,
    value: Number | None = None,
    said: Figure | None = None,
) -> str:
    """A target in words, without its unit, to a tenth of its tolerance; one that can have been typed for it as it is.

    It takes figures more until `value`, as it is and as it is said, lies within the tolerance of the words just
    where it lies within that of the number. `said`: how it is said, where not as it may have been typed.
    """
    off = exact(off_by)
    if not off_by or (as_given(target) and written_for(target, off)):
        return show(without_noise(target), None)
    one = figure(target, unit, step=tenth(off))
    known = (
        ()
        if value is None
        else (exact(value), (said or beside(value, _around(one.value, off), unit)).rounded)
    )
    for more in range(MOST_FIGURES_MORE):
        there = replace(one, more=more).rounded
        if all(_sides(each, one.value, off) == _sides(each, there, off) for each in known):
            return show(there, None)
    return show(one.value, None)


def tenth(tolerance: Fraction) -> Fraction | None:
    """The step that tells a tenth of a tolerance (to one side); None: there is none."""
    return _ten_to(tens(tolerance) - 1) if tolerance else None


def _around(target: Fraction, off_by: Fraction) -> tuple[Fraction, Fraction]:
    return target - off_by, target + off_by


def _sides(value: Fraction, target: Fraction, off_by: Fraction) -> list[bool]:
    """Whether it lies at or above the lower limit, at or below the upper one."""
    low, high = _around(target, off_by)
    return [value >= low, value <= high]


def _unit(unit: str | None) -> Unit | None:
    try:
        return find(unit)
    except UnitError:
        return None


def _there(fineness: Fineness, own: Unit, other: Unit) -> Fineness:
    """The step of ten in the other unit that is nearest to this one, or as many figures."""
    if fineness.step is None:
        return fineness
    return Fineness(_ten_to(round(math.log10(float(fineness.step * own.factor / other.factor)))))
