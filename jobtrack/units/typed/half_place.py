"""How far a typed number is left open by its writing: half of its last place."""

from __future__ import annotations

import re
from fractions import Fraction

from jobtrack.units.names import UnitError, find
from jobtrack.units.typed.plain import plain_characters
from jobtrack.units.typed.reading import read

_NUMBER = re.compile(r"(?<![A-Za-z.,\d])(\d+(?:[.,]\d+)?|[.,]\d+)")
_OVER = re.compile(r"\d ?/ ?$|\d:$")
_UNDER = re.compile(r" ?/ ?\d")


def half_a_place(text: str, unit: str | None) -> Fraction:
    """Half a unit of the last place that was written, in `unit`: of 1020 mm half a millimetre, of 0.50 0.005.

    Noughts at the end count as written: 100 kg was read to the kilogram. Nought for what isn't a decimal: a
    clock, a fraction, and whole inches or feet, which are a fraction with nothing left over (7 in on a rule that
    is read to 64ths isn't 6 1/2 to 7 1/2). Nought too for what is no one number.
    """
    plain = plain_characters(text)
    last = next(reversed(list(_NUMBER.finditer(plain))), None)
    if last is None:
        return Fraction(0)
    before, written, after = plain[: last.start()], last[0].replace(",", "."), plain[last.end() :]
    if _is_fraction(before, after) or (written.isdigit() and _rule_unit(after, unit)):
        return Fraction(0)
    further = f"{written}{'' if '.' in written else '.'}5"
    return _between(f"{before}{written}{after}", f"{before}{further}{after}", unit)


def _is_fraction(before: str, after: str) -> bool:
    """Whether a number stands in a fraction, or behind the colon of a clock."""
    return bool(_OVER.search(before) or _UNDER.match(after))


def _rule_unit(after: str, unit: str | None) -> bool:
    """Whether a length in inches or feet is written, bare numbers among them; a foot's sign is a minute's too."""
    try:
        written = find(after.strip() or unit)
        return find(unit).kind == "length" and written.name in ("in", "ft")
    except UnitError:
        return False


def _between(shorter: str, longer: str, unit: str | None) -> Fraction:
    """By how much two texts differ in the unit: the reader's own word for what the further figure is worth."""
    try:
        first, second = read(shorter, unit).value, read(longer, unit).value
    except UnitError:
        return Fraction(0)
    return abs(second - first) if first is not None and second is not None else Fraction(0)
