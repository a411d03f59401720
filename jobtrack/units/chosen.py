"""Figures in the unit system that somebody chose to see.

What was typed stays as it was typed, and a number typed without a unit is never taken in the chosen system: this is
only about how a figure is said.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

from jobtrack.units.conversion import Number, between, convert_difference, exact
from jobtrack.units.names import Unit, UnitError, find
from jobtrack.units.rounding import Figure, Fineness, as_typed, sixty_fourths
from jobtrack.units.showing import fine_enough, other_unit, show

METRIC, US = "metric", "US"
_OF_US = frozenset(
    ("in", "thou", "ft", "mile", "lb", "oz", "lbf", "lbf ft", "lbf in", "psi", "ksi", "mph", "ft/min", "in/min",
     "kJ/in", "US gal", "in³", "in²", "lbf/in", "°F")
)  # fmt: skip


def spoken(units: Iterable[str | None]) -> str:
    """The system of most of these units, METRIC where neither has more; units that both systems have don't count."""
    found = [_found(unit) for unit in units]
    of_us = [
        unit.name in _OF_US for unit in found if unit is not None and other_unit(exact(0), unit) is not None
    ]
    return US if 2 * sum(of_us) > len(of_us) else METRIC


class Chosen(Struct, frozen=True):
    """The unit system that figures are said in first."""

    system: str = METRIC

    @property
    def turned(self) -> Chosen:
        """The other one."""
        return Chosen(US if self.system == METRIC else METRIC)

    def unit(self, unit: str | None, largest: Number = 0) -> str | None:
        """The unit that this system has for amounts up to `largest` of a unit; the unit itself where it has none."""
        own = _found(unit)
        other = other_unit(exact(largest), own) if own else None
        if own is None or other is None or (own.name in _OF_US) == (self.system == US):
            return unit
        return other.name

    def turns(self, unit: str | None) -> bool:
        """Whether an amount in a unit is said in another one here."""
        return self.unit(unit) != unit

    def figure(self, one: Figure) -> Figure:
        """A figure in this system."""
        return in_unit(one, self.unit(one.unit, one.value))

    def words(self, one: Figure, room: int | None = None, doubt: Number = 0) -> str:
        """A figure here, the nearest 64th of an inch and the other system in brackets as far as `room` cells go.

        None: no limit. `doubt` in the figure's unit: a 64th that is further off than that isn't said.
        """
        here = self.figure(one)
        there = one if here is not one else self.turned.figure(one)
        fraction = sixty_fourths(here, _doubt_there(doubt, one.unit, here.unit)).strip(" ()")
        other = there.words() if there.unit != here.unit else ""
        for more in ((fraction, other), (fraction,), (other,)):
            said = f"{here.words()} ({', '.join(filter(None, more))})"
            if any(more) and (room is None or len(said) <= room):
                return said
        return here.words()

    def both(self, value: Number, unit: str | None) -> str:
        """A value in both systems, this one first: "965 mm = 37.99 in (37 63/64)". An angle stands alone."""
        return self.in_both(as_typed(value, unit))

    def in_both(self, one: Figure) -> str:
        """A figure in both systems, this one first."""
        here = self.figure(one)
        return one.in_both() if here is one else f"{here.words()}{sixty_fourths(here)} = {one.words()}"


METRIC_FIRST = Chosen()


def _found(unit: str | None) -> Unit | None:
    try:
        return find(unit)
    except UnitError:
        return None


def _doubt_there(doubt: Number, own: str | None, there: str | None) -> Fraction:
    return abs(convert_difference(doubt, own, there)) if doubt else Fraction(0)


def in_unit(one: Figure, unit: str | None) -> Figure:
    """A figure in another unit of its kind; one that was typed, so that its last place is no coarser than before."""
    if unit == one.unit:
        return one
    if not one.typed:
        return one.in_unit(unit)
    own, there = find(one.unit), find(unit)
    value = between(one.value, own, there)
    decimals = fine_enough(show(one.value, one.unit), own, value, there)
    return Figure(value, there.name, one.towards, Fineness(Fraction(1, 10**decimals)))
