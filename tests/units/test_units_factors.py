"""Factors against published figures and two independent libraries."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import partial

import pytest
from scipy import constants

from jobtrack.units import (
    UnitError,
    convert,
    convert_difference,
    exact,
    kind,
    known,
    read,
    same_kind,
    shown,
    spellings,
)
from tests.support.other_units import registry

PINT_UNITS = partial(registry, autoconvert_offset_to_baseunit=True)

# One of the first unit is so many of the second. Exact definitions, from memory: NIST SP 811,
# appendix B, and the yard and pound agreement of 1959; squares, cubes and quotients arithmetic only.
PUBLISHED = [
    ("in", "mm", "25.4"),
    ("ft", "m", "0.3048"),
    ("mile", "m", "1609.344"),
    ("thou", "mm", "0.0254"),
    ("lb", "kg", "0.45359237"),
    ("oz", "g", "28.349523125"),
    ("kgf", "N", "9.80665"),
    ("lbf", "N", "4.4482216152605"),
    ("ft lb", "N*m", "1.3558179483314004"),
    ("in lb", "N*m", "0.1129848290276167"),
    ("kgf m", "N*m", "9.80665"),
    ("bar", "kPa", "100"),
    ("US gal", "L", "3.785411784"),
    ("mph", "km/h", "1.609344"),
    ("in^3", "mm^3", "16387.064"),
    ("in^2", "mm^2", "645.16"),
    ("ft/min", "m/min", "0.3048"),
    ("in/min", "mm/min", "25.4"),
    ("h", "s", "3600"),
    ("t", "kg", "1000"),
    ("percent", "ratio", "0.01"),
]


@pytest.mark.parametrize(("one", "other", "factor"), PUBLISHED)
def test_published_factor_is_exact(one: str, other: str, factor: str) -> None:
    """A factor that is published in full is met exactly."""
    assert convert(1, one, other) == Fraction(factor)


# Worked conversions, arithmetic only, from the exact definitions above.
WORKED = [
    (35, "ft lb", "N*m", "47.453628"),
    (85, "ft lb", "N*m", "115.244526"),
    (50, "N*m", "ft lb", "36.878107"),
    (32, "psi", "kPa", "220.632233"),
    (1, "ksi", "MPa", "6.894757293168"),
    (3500, "lb", "kg", "1587.573295"),
    (1, "kgf m", "ft lb", "7.2330138512"),
    (1, "bar", "psi", "14.503773773"),
]


@pytest.mark.parametrize(("value", "one", "other", "result"), WORKED)
def test_worked_conversion(value: int, one: str, other: str, result: str) -> None:
    """A worked conversion comes out to the last figure given."""
    places = len(result.partition(".")[2])
    assert round(convert(value, one, other), places) == Fraction(result)


# scipy.constants 1.17: an independent library's values in SI units.
SCIPY = [
    ("in", "m", constants.inch),
    ("ft", "m", constants.foot),
    ("mile", "m", constants.mile),
    ("lb", "kg", constants.pound),
    ("oz", "kg", constants.oz),
    ("lbf", "N", constants.pound_force),
    ("kgf", "N", constants.kilogram_force),
    ("psi", "kPa", constants.psi / 1000),
    ("US gal", "L", constants.gallon * 1000),
    ("mph", "m/s", constants.mph),
    ("km/h", "m/s", constants.kmh),
    ("deg", "rad", constants.degree),
]


@pytest.mark.parametrize(("one", "other", "factor"), SCIPY)
def test_factor_agrees_with_scipy(one: str, other: str, factor: float) -> None:
    """A factor agrees with scipy.constants to float precision."""
    assert float(convert(1, one, other)) == pytest.approx(factor, rel=1e-14)


# The unit as pint 0.25 spells it, for every linear unit of the table.
PINT = {
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "km": "km",
    "in": "inch",
    "thou": "thou",
    "ft": "foot",
    "mile": "mile",
    "kg": "kg",
    "g": "g",
    "t": "metric_ton",
    "lb": "pound",
    "oz": "ounce",
    "N": "newton",
    "kN": "kilonewton",
    "lbf": "lbf",
    "kgf": "kgf",
    "N·m": "newton*meter",
    "kN·m": "kilonewton*meter",
    "lbf ft": "lbf*foot",
    "lbf in": "lbf*inch",
    "kgf·m": "kgf*meter",
    "kPa": "kPa",
    "bar": "bar",
    "psi": "psi",
    "MPa": "MPa",
    "ksi": "ksi",
    "deg": "degree",
    "rad": "radian",
    "m/min": "meter/minute",
    "km/h": "km/hour",
    "mph": "mile/hour",
    "m/s": "m/s",
    "ft/min": "foot/minute",
    "mm/min": "mm/minute",
    "in/min": "inch/minute",
    "mm/s": "mm/s",
    "A": "ampere",
    "V": "volt",
    "kJ/mm": "kJ/mm",
    "kJ/in": "kJ/inch",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "days": "day",
    "weeks": "week",
    "years": "julian_year",
    "L": "liter",
    "mL": "milliliter",
    "US gal": "gallon",
    "mm³": "mm**3",
    "cm³": "cm**3",
    "in³": "inch**3",
    "mm²": "mm**2",
    "cm²": "cm**2",
    "in²": "inch**2",
    "N/mm": "N/mm",
    "lbf/in": "lbf/inch",
    "rad/s²": "rad/s**2",
    "°C": "degC",
    "°F": "degF",
}
# mm/m and in/ft are slopes by their tangent; rpm and /min count turns, which pint takes as angles; shares are numbers.
NOT_IN_PINT = {"mm/m", "in/ft", "rpm", "/min", "%"}
KINDS = {kind(unit) for unit in PINT} | {"rate", "number"}


def test_every_unit_is_held_against_pint() -> None:
    """No unit of the table stands outside the comparison, but for those listed with the reason."""
    assert {unit for k in KINDS for unit in spellings(k)} == set(PINT) | NOT_IN_PINT


@pytest.mark.parametrize("unit", PINT)
def test_conversion_agrees_with_pint(unit: str) -> None:
    """From each unit to each other of its kind, the result is pint's."""
    for other in spellings(kind(unit)):
        if other in PINT:
            theirs = PINT_UNITS().Quantity(7.25, PINT[unit]).to(PINT[other]).magnitude
            assert float(convert(7.25, unit, other)) == pytest.approx(theirs, rel=1e-12)


# What is typed in the shop, and the sum of what pint makes of its parts.
TYPED_AND_PINT = [
    ("5 kgm", "N*m", [(5, "kgf * m")], "N * m"),
    ("30 psig", "kPa", [(30, "psi")], "kPa"),
    ("30 lb/in2", "kPa", [(30, "lbf / inch**2")], "kPa"),
    ("12° 30' 15\"", "deg", [(12, "degree"), (30, "arcminute"), (15, "arcsecond")], "degree"),
    ("3200 1/min", "rpm", [(3200, "1 / minute")], "1 / minute"),
]


@pytest.mark.parametrize(("text", "unit", "parts", "into"), TYPED_AND_PINT)
def test_what_is_typed_agrees_with_pint(
    text: str, unit: str, parts: list[tuple[float, str]], into: str
) -> None:
    """A spelling of the shop is worth what an independent library makes of it."""
    value = read(text, unit).value
    assert value is not None
    theirs = sum(PINT_UNITS().Quantity(amount, each).to(into).magnitude for amount, each in parts)
    assert float(value) == pytest.approx(theirs, rel=1e-12)


def test_inches_a_foot_agree_with_pint() -> None:
    """An eighth of an inch a foot is an angle whose tangent is that ratio."""
    tangent = PINT_UNITS().Quantity(0.125, "inch / foot").to("").magnitude
    assert float(convert(0.125, "in/ft", "deg")) == pytest.approx(math.degrees(math.atan(tangent)), rel=1e-12)


# By the definitions of the two scales; -40 where they meet; 77 °F and 25 °C common practice, no source.
@pytest.mark.parametrize(("celsius", "fahrenheit"), [(0, 32), (100, 212), (-40, -40), (25, 77), (20, 68)])
def test_temperature(celsius: int, fahrenheit: int) -> None:
    """The two temperature scales meet at their known points, both ways, exactly."""
    assert convert(celsius, "°C", "°F") == fahrenheit
    assert convert(fahrenheit, "°F", "°C") == celsius


def test_temperature_difference_has_no_offset() -> None:
    """A tolerance of 9 °F is one of 5 °C; other kinds convert as values do."""
    assert convert_difference(9, "°F", "°C") == 5
    assert convert_difference(1, "in", "mm") == Fraction("25.4")


def test_slope_goes_by_the_tangent() -> None:
    """1000 mm/m is 45 degrees, and 10 mm/m is less than a hundredth of a radian (arithmetic only)."""
    assert float(convert(1000, "mm/m", "deg")) == pytest.approx(45)
    assert float(convert(10, "mm/m", "rad")) == pytest.approx(math.atan(0.01), rel=1e-14)
    assert float(convert(60, "deg", "mm/m")) == pytest.approx(1000 * math.sqrt(3))


@pytest.mark.parametrize("angle", [90, -90, 120])
@pytest.mark.parametrize("unit", ["mm/m", "in/ft"])
def test_no_slope_at_right_angles(angle: int, unit: str) -> None:
    """An angle of 90 degrees or more is given no slope."""
    with pytest.raises(UnitError, match=f"no slope in {unit}"):
        convert(angle, "deg", unit)


@pytest.mark.parametrize("mass", ["kg", "lb", "g", "t", "oz"])
@pytest.mark.parametrize("torque", ["N*m", "ft lb", "in lb", "kgf m"])
def test_torque_is_never_mass_times_length(mass: str, torque: str) -> None:
    """A mass is never converted to a torque or a force, and the message names both kinds."""
    assert not same_kind(mass, torque)
    with pytest.raises(UnitError, match=r"is a mass; .* is a torque"):
        convert(1, mass, torque)
    with pytest.raises(UnitError, match="is a mass; lbf is a force"):
        convert(1, mass, "lbf")


def test_kinds_of_plain_numbers() -> None:
    """No unit, ratio, number, count and percent are of one kind."""
    assert {kind(u) for u in (None, "ratio", "number", "count", "percent", "%")} == {"number"}
    assert same_kind(None, "%")
    assert not same_kind(None, "mm")


# The units that the working-outs ask for and answer in.
CATALOGUE_UNITS = [
    "mm",
    "deg",
    "ratio",
    "kg",
    "percent",
    "count",
    "h",
    "number",
    "N*m",
    "rpm",
    "N",
    "A",
    "cm",
    "km/h",
    "kPa",
    "rad/s^2",
    "mm^2",
    "mm^3",
    "mm/min",
    "m/min",
    "N/mm",
    "MPa",
    "years",
    "s",
    "kJ/mm",
    "g",
    "V",
]


@pytest.mark.parametrize("unit", CATALOGUE_UNITS)
def test_units_of_the_working_outs_are_known(unit: str) -> None:
    """Every unit in which a working-out asks or answers is known and shown."""
    assert known(unit)
    assert shown(unit) or kind(unit) == "number"


@pytest.mark.parametrize(
    "unit", ["", "text", "yes/no", "date", "furlong", "ton", "gal", "mPa", "ft lb lb", "5"]
)
def test_unknown_units(unit: str) -> None:
    """A spelling that isn't in the table, or has several meanings, is not known."""
    assert not known(unit)


@pytest.mark.parametrize(("x", "fraction"), [(0.1, "1/10"), ("0.1", "1/10"), ("15/16", "15/16"), (3, "3")])
def test_exact_takes_the_shortest_decimal(x: float | str, fraction: str) -> None:
    """A float stands for the shortest decimal that names it."""
    assert exact(x) == Fraction(fraction)


@pytest.mark.parametrize("x", [math.nan, math.inf, -math.inf, "1e9", "nan", "3/0", "", "9" * 500])
def test_exact_refuses(x: float | str) -> None:
    """What is no plain finite number is refused in one line."""
    with pytest.raises(UnitError):
        exact(x)
