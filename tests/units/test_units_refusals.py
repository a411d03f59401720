"""What is refused, each with one line that says why and what would be accepted."""

from __future__ import annotations

import pytest

from jobtrack.units import UnitError, read

REFUSED = [
    ("", "mm", "nothing is typed"),
    (" \u00a0", "mm", "nothing is typed"),
    ("?", "mm", "not known yet"),
    ("12 bananas", "mm", 'no unit "bananas" is known; a length is read in mm'),
    ("1.2.3", "mm", "one decimal point"),
    ("--5", "mm", "one sign is enough"),
    ("+-5", "mm", "one sign is enough"),
    ("5 5", "mm", "two numbers with no unit between"),
    ("1 012", "mm", "two numbers with no unit between"),
    ("3.5 1/2", "in", "two numbers with no unit between"),
    ("3/0", "mm", "divided by 0"),
    ("3 1/0", "mm", "divided by 0"),
    ("3 17/16", "in", "17/16 beside a whole number is not below 1"),
    ("3 16/16", "in", "not below 1"),
    ("nan", "mm", "no number that can be measured"),
    ("NaN mm", "mm", "no number that can be measured"),
    ("-inf", "mm", "no number that can be measured"),
    ("~Infinity", "mm", "no number that can be measured"),
    ("1e400", "mm", "powers of ten are not read"),
    ("1E5", "mm", "powers of ten are not read"),
    ("9" * 60, "mm", "too large"),
    ("9" * 201, "mm", "longer than 200"),
    ("a" * 201, "mm", "longer than 200"),
    ("9" * 199, "rad", "too large"),
    ("1112-100", "mm", "two meanings: a range is typed 1012..1014"),
    ("1012–1014", "mm", "two meanings"),
    ("1112 - 100", "mm", "two meanings"),
    ("5 - 3/4", "in", "two meanings"),
    ("5 mm -3 mm", "mm", "two meanings"),
    ("3 ft - 2 in", "mm", "two meanings"),
    ("1,012", "mm", "two meanings: write 1012 or 1.012"),
    ("0,125", "mm", "two meanings: write 0125 or 0.125"),
    ("1,012.5", "mm", "thousands stand without a sign between: write 1012.5"),
    ("~1,012.5 mm", "mm", "write 1012.5"),
    ("1.012,5", "mm", "write 1012.5"),
    ("1,012,500", "mm", "write 1012500"),
    ("1.012.500 N", "N", "write 1012500"),
    ("12° 75'", "deg", "ft is a length; an angle"),
    ("12° 30", "deg", "the last number has no unit"),
    ("12' 30\"", "deg", "ft is a length; an angle"),
    ("5 1/min", "mm/min", "/min is a rate; a speed"),
    ("5 kgm", "kg", "kgf·m is a torque; a mass"),
    ("1,2,3", "mm", "no number that can be read"),
    ("5 ton", "kg", 'a ton has several meanings: write "t"'),
    ("5 Tons", "kg", "a ton has several meanings"),
    ("ton", "kg", "a unit without a number"),
    ("5 gal", "L", 'write "US gal", or L'),
    ("5 mil", "mm", "two meanings"),
    ("5 mPa", "MPa", 'write "MPa"'),
    ("40 lb", "N*m", "lb is a mass; a torque is read in N·m"),
    ("40 ft", "N*m", "ft is a length; a torque"),
    ("965 mm", "deg", "mm is a length; an angle is read in deg"),
    ("965 mm", None, "mm is a length; a plain number or % is asked for"),
    ("5 %", "mm", "% is a share; a length is read in mm"),
    ("5 ft lb", "kPa", "lbf ft is a torque; a pressure"),
    ("2.5", "count", "a whole number is asked for"),
    ("12 %", "count", "a whole number is asked for"),
    ("mm", "mm", "a unit without a number"),
    ("ft lb", "mm", "a unit without a number"),
    ("~", "mm", "neither a number nor a word"),
    ("--", "mm", "neither a number nor a word"),
    ("/", "mm", "neither a number nor a word"),
    ("bolt 3 seized", "mm", "does not begin with a number"),
    ("١٢", "mm", "does not begin with a number"),
    ("²", "mm", "does not begin with a number"),
    (">=5", "mm", ">= is not read"),
    ("<= 5", "mm", "<= is not read"),
    ("><5", "mm", "does not begin with a number"),
    ("~~5", "mm", "does not begin with a number"),
    ("5..", "mm", "a range is two numbers"),
    ("..5", "mm", "a range is two numbers"),
    ("1...2", "mm", "a range is two numbers"),
    ("1..2..3", "mm", "a range is two numbers"),
    ("~1..2", "mm", "does not begin with a number"),
    ("2..1", "mm", "the smaller one"),
    ("1:30", "mm", "only where a time is asked"),
    ("1:75", "h", "no number that can be read"),
    ("3'2", "in", "the last number has no unit"),
    ("2 in 3 ft", "in", "several numbers are read together only as in"),
    ("2 h 1 h", "h", "several numbers are read together only as in"),
    ("5 ft lb 3 in lb", "N*m", "several numbers are read together only as in"),
    ("3.5 ft 2 in", "in", "only the last of several numbers"),
    ("-300 °C", "°C", "below absolute zero"),
    ("-500", "°F", "below absolute zero"),
    ("5", "furlong", 'no unit "furlong" is known'),
]


@pytest.mark.parametrize(("text", "unit", "why"), REFUSED)
def test_refused_with_its_reason(text: str, unit: str | None, why: str) -> None:
    """What can't be read, or has two meanings, is refused in one line that says why."""
    with pytest.raises(UnitError) as caught:
        read(text, unit)
    assert why in str(caught.value)
    assert "\n" not in str(caught.value)


def test_control_characters_are_not_repeated() -> None:
    """A message shows a visible stand-in for a control character, and only the beginning of a long text."""
    with pytest.raises(UnitError) as caught:
        read("5 \x1b[31m" + "x" * 100, "mm")
    assert "\x1b" not in str(caught.value)
    assert "�" in str(caught.value)
    assert "x" * 60 not in str(caught.value)
