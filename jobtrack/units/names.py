"""Finding the unit that a spelling names."""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct

from jobtrack.units.table import REFUSED, ROWS, TEMPERATURE_ROWS


class UnitError(ValueError):
    """One clear line: what can't be read, and what would be accepted."""


class Unit(Struct, frozen=True):
    """A unit: its kind, and what one of it is in the first unit of that kind."""

    name: str
    """As shown."""
    kind: str
    factor: Fraction
    offset: Fraction = Fraction(0)
    """What zero of this unit is in the first unit of the kind (temperature only)."""
    other: str | None = None
    """The unit of the other system in which a value is shown too."""
    whole: bool = False
    """Whether it counts things, so that only whole numbers are read."""


_DOT_BETWEEN = re.compile(r"(?<=[^\W\d])\.(?=[^\W\d])")
_DOT_AFTER = re.compile(r"(?<=[^\W\d])\.")
_JOINERS = re.compile(r"[\s·*-]+")


def tidy(spelling: str) -> str:
    """Give `spelling` with one space for each `*`, `·`, `-` or space, and small powers as ² and ³."""
    text = spelling.strip().replace("^2", "²").replace("^3", "³")
    text = _DOT_AFTER.sub("", _DOT_BETWEEN.sub(" ", text))
    return re.sub(r" ?/ ?", "/", _JOINERS.sub(" ", text)).strip()


def _spelt() -> dict[str, Unit]:
    table: dict[str, Unit] = {}
    for kind_, rows in ROWS.items():
        for name, factor, other, more in rows:
            unit = Unit(name, kind_, Fraction(factor), other=other)
            table |= {tidy(spelling): unit for spelling in (name, *more.split(", ")) if spelling}
    for name, factor, added, other, more in TEMPERATURE_ROWS:
        unit = Unit(name, "temperature", Fraction(factor), factor * Fraction(added), other)
        table |= {tidy(spelling): unit for spelling in (name, *more.split(", "))}
    return table | {"count": Unit("", "number", Fraction(1), whole=True)}


_UNITS = _spelt()
_FOLDED = {spelling.casefold(): unit for spelling, unit in _UNITS.items()}
PLAIN = _UNITS["number"]
"""The unit of a plain number."""


def find(spelling: str | None) -> Unit:
    """Find the unit that `spelling` names (None: a plain number), or raise a UnitError that says why not."""
    if spelling is None:
        return PLAIN
    name = tidy(spelling)
    found = _UNITS.get(name) or (None if name in REFUSED else _FOLDED.get(name.casefold()))
    if found:
        return found
    why = REFUSED.get(name) or REFUSED.get(name.casefold())
    raise UnitError(why or f'no unit "{printable(spelling)}" is known')


def printable(text: str, longest: int = 40) -> str:
    """Give `text` for use in a one-line message: no control characters, at most `longest` characters."""
    kept = "".join(c if c.isprintable() else "�" for c in text.strip())
    return kept if len(kept) <= longest else kept[: longest - 1] + "…"


def known(unit: str) -> bool:
    """Say whether `unit` is a spelling that can be read."""
    try:
        find(unit)
    except UnitError:
        return False
    return True


def kind(unit: str | None) -> str:
    """Name what the unit measures: "length", "torque", …; "number" for None, ratio, count and percent."""
    return find(unit).kind


def same_kind(a: str | None, b: str | None) -> bool:
    """Say whether a value in `a` can be given in `b`. Plain number and percent can; torque and mass can't."""
    return find(a).kind == find(b).kind


def shown(unit: str | None) -> str:
    """Give the unit as it is shown: "N·m" for "N*m", "" for a plain number."""
    return find(unit).name


def spellings(kind_: str) -> tuple[str, ...]:
    """List the units of a kind as they are shown, for messages and help."""
    return tuple(dict.fromkeys(unit.name for unit in _UNITS.values() if unit.kind == kind_ and unit.name))


def a_kind(unit: Unit) -> str:
    """Name the unit's kind with its article: "a length", "an angle"."""
    return f"{'an' if unit.kind[0] in 'aeiou' else 'a'} {unit.kind}"
