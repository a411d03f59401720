"""What people type and how it is read. Values without another source: arithmetic only, 1 in = 25.4 mm."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from jobtrack.units import Typed, convert, read, typed_unit

TYPED = [
    ("965", "mm", "965"),
    ("  965  ", "mm", "965"),
    ("965 mm", "mm", "965"),
    ("965mm", "mm", "965"),
    ("96.5 cm", "mm", "965"),
    ("38 in", "mm", "965.2"),
    ("38 in.", "mm", "965.2"),
    ('38"', "mm", "965.2"),
    ("38''", "mm", "965.2"),
    ("38″", "mm", "965.2"),
    ("38”", "mm", "965.2"),
    ("37 15/16", "in", "607/16"),
    ("37-15/16", "in", "607/16"),
    ("37–15/16", "in", "607/16"),
    ("37 15⁄16", "in", "607/16"),
    ("37 15/16 in", "mm", "963.6125"),
    ('37-15/16"', "mm", "963.6125"),
    ("37 15/16", "mm", "607/16"),
    ("3' 2 1/2\"", "mm", "977.9"),
    ("3′ 2½″", "mm", "977.9"),
    ("3’ 2 1/2”", "mm", "977.9"),
    ("3'-2½\"", "in", "38.5"),
    ("3 ft 2 1/2 in", "in", "38.5"),
    ("3 ft .5 in", "in", "36.5"),
    ("-3' 2\"", "in", "-38"),
    ("1-3/4", "in", "1.75"),
    ("1¾", "in", "1.75"),
    ("1-½", "in", "1.5"),
    ("½", "in", "0.5"),
    ("17/16", "in", "17/16"),
    ("38,5", "mm", "38.5"),
    ("38,5125", "mm", "38.5125"),
    (".5", "mm", "0.5"),
    ("-.5", "mm", "-0.5"),
    ("40 ft lb", "ft lb", "40"),
    ("8 in-lb", "N*m", "0.9038786322209336"),
    ("55 N·m", "N*m", "55"),
    ("55 N*m", "N m", "55"),
    ("4 thou", "mm", "0.1016"),
    ('0.004"', "mm", "0.1016"),
    ("-2.5", "deg", "-2.5"),
    ("−2.5", "deg", "-2.5"),
    ("–2.5", "deg", "-2.5"),
    ("- 2.5", "deg", "-2.5"),
    ("+2.5", "deg", "2.5"),
    ("2 1/2 deg", "deg", "2.5"),
    ("2.5°", "deg", "2.5"),
    ("965\u00a0mm", "mm", "965"),
    ("965\u202fmm", "mm", "965"),
    ("1 h 30 min", "h", "1.5"),
    ("1h30min", "h", "1.5"),
    ("1:30", "h", "1.5"),
    ("1:30", "min", "90"),
    ("-1:30", "h", "-1.5"),
    ("90 min", "h", "1.5"),
    ("2 lb 4 oz", "lb", "2.25"),
    ("-40 °F", "°C", "-40"),
    ("70 deg F", "°F", "70"),
    ("50 %", "ratio", "0.5"),
    ("50%", None, "0.5"),
    ("0.5", "percent", "0.5"),
    ("12 %", "percent", "12"),
    ("2 1/2", "%", "2.5"),
    ("6", "count", "6"),
    ("3 gal US", "US gal", "3"),
    ("30 /min", "rpm", "30"),
    ("3200 1/min", "rpm", "3200"),
    ("3200 min-1", "rpm", "3200"),
    ("3200 min⁻¹", "rpm", "3200"),
    ("12° 30'", "deg", "12.5"),
    ("12°30′", "deg", "12.5"),
    ("-12° 30' 36\"", "deg", "-12.51"),
    ("0° 4,5'", "deg", "0.075"),
    ("12 deg 30 min", "deg", "12.5"),
    ("1500 N/mm^2", "MPa", "1500"),
    ("58 mm2", "mm^2", "58"),
    ("1.2 kJ/mm", "kJ/mm", "1.2"),
    ("0", "mm", "0"),
    ("-0", "mm", "0"),
]


@pytest.mark.parametrize(("text", "unit", "value"), TYPED)
def test_typed_value_is_read_exactly(text: str, unit: str | None, value: str) -> None:
    """A typed value is read as the exact fraction in the box's unit."""
    got = read(text, unit)
    assert (got.value, got.bound, got.word) == (Fraction(value), "none", None)
    assert (got.typed, got.unit) == (text.strip(), unit)


# Every spelling that is promised, and one of it in a unit of the same kind.
SPELLINGS = {
    ("mm", "1"): "mm, MM, millimetre, millimetres, millimeters",
    ("mm", "10"): "cm, centimetres",
    ("mm", "1000"): "m, metre, metres",
    ("m", "1000"): "km",
    ("mm", "25.4"): 'in, ", inch, inches, In, IN, in.',
    ("mm", "0.0254"): "thou",
    ("mm", "304.8"): "ft, ', foot, feet, ft.",
    ("m", "1609.344"): "mile, miles",
    ("kg", "0.001"): "g, grams",
    ("g", "1000"): "kg, KG, Kg",
    ("kg", "1000"): "t, tonne, tonnes",
    ("kg", "0.45359237"): "lb, lbs, LB, lb., pounds",
    ("g", "28.349523125"): "oz, ounces",
    ("kN", "0.001"): "N",
    ("N", "1000"): "kN",
    ("N", "4.4482216152605"): "lbf",
    ("N", "9.80665"): "kgf",
    ("N*m", "1"): "N m, N·m, N*m, N-m, N.m, Nm, NM, N⋅m",
    ("N*m", "1.3558179483314004"): (
        "ft lb, ft-lb, ft*lb, ft·lb, lbf ft, lbf·ft, lb-ft, lb ft, lb.ft, ft lbf, ftlb, ft lbs, "
        "ft. lbs., lbs ft, foot pounds, FT LB, "
        "lbf-ft, lbf ft., pound-force foot, pound-force feet"
    ),
    (
        "N*m",
        "0.1129848290276167",
    ): (
        "in lb, in-lb, in·lb, lbf in, lbf·in, lbf-in, lb-in, lb in, in lbf, in. lbs., inch pounds, "
        "pound-force inch, pound-force inches"
    ),
    ("N m", "9.80665"): "kgf m, kgf·m, kgf-m, kgfm, kgm, kg m, kg·m, mkg",
    ("psi", "1"): "lbf/in², lb/in2, lb/in^2, lb/in², lbs/in², psig, PSIG",
    ("MPa", "0.001"): "kPa, KPA",
    ("kPa", "100"): "bar",
    ("ksi", "0.001"): "psi, PSI",
    ("kPa", "1000"): "MPa, MPA, N/mm^2, N/mm²",
    ("psi", "1000"): "ksi",
    ("deg", "1"): "deg, °, degrees, º",
    ("rad", "1"): "rad",
    ("mm/m", "1"): "mm/m, mm / m",
    ("m/s", "1/3.6"): "km/h, kmh, KM/H",
    ("km/h", "1.609344"): "mph",
    ("m/min", "60"): "m/s",
    ("/min", "1"): "rpm, /min, rev/min",
    ("mm/min", "1000"): "m/min",
    ("m/min", "0.3048"): "ft/min",
    ("m/min", "0.001"): "mm/min",
    ("mm/min", "25.4"): "in/min",
    ("mm/min", "60"): "mm/s",
    ("A", "1"): "A, amps",
    ("V", "1"): "V, volts",
    ("kJ/mm", "1"): "kJ/mm",
    ("kJ/mm", "1/25.4"): "kJ/in",
    ("min", "1/60"): "s, seconds",
    ("h", "1/60"): "min, minutes",
    ("s", "3600"): "h, hours, hr",
    ("°C", "1"): "°C, C, deg C, degC",
    ("°F", "1"): "°F, F, deg F, degF",
    ("L", "1"): "L, l, litre, litres, liters",
    ("L", "3.785411784"): "gal US, US gal, US gallons",
    (None, "0.01"): "%, percent, per cent",
}
EACH = [
    (spelling, unit, value)
    for (unit, value), spellings_ in SPELLINGS.items()
    for spelling in spellings_.split(", ")
]


@pytest.mark.parametrize(("spelling", "unit", "value"), EACH)
def test_every_spelling_is_read(spelling: str, unit: str | None, value: str) -> None:
    """Each spelling of a unit gives the same value, close to its number or with a space."""
    over, _, under = value.partition("/")
    expected = Fraction(over) / Fraction(under or 1)
    assert read(f"1 {spelling}", unit).value == expected
    assert read(f"1{spelling}", unit).value == expected


def test_about() -> None:
    """`~` is kept as a bound beside its number."""
    got = read("~965", "mm")
    assert got == Typed("~965", Fraction(965), "mm", "about")
    assert read("≈ 38 in", "mm").value == Fraction("965.2")


def test_over_and_under() -> None:
    """`>` and `<` give one end and no value."""
    over, under = read(">5 deg", "deg"), read("< 3", "mm")
    assert over == Typed(">5 deg", None, "deg", "over", low=Fraction(5))
    assert under == Typed("< 3", None, "mm", "under", high=Fraction(3))


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("1012..1014", "1012", "1014"),
        ("1012 .. 1014 mm", "1012", "1014"),
        ("1012 mm..1014 mm", "1012", "1014"),
        ("1..2 in", "25.4", "50.8"),
        ("1 in..60", "25.4", "60"),
        ("-2…-1", "-2", "-1"),
        ("1½..1¾ in", "38.1", "44.45"),
    ],
)
def test_range(text: str, low: str, high: str) -> None:
    """Two dots make a range with two ends and no value; a unit at the end counts for both numbers."""
    got = read(text, "mm")
    assert (got.value, got.bound, got.low, got.high) == (None, "range", Fraction(low), Fraction(high))


@pytest.mark.parametrize("text", ["can't reach", "seized", "can’t reach", "[/x]", "⚠ sheared", "nan says no"])
def test_word(text: str) -> None:
    """A text without a digit is a word, kept as typed."""
    assert read(f" {text} ", "mm") == Typed(text, None, "mm", word=text)


def test_pound_where_a_force_is_asked() -> None:
    """A plain lb where a force is asked is taken as lbf, with a remark; lbf and N have none."""
    got = read("40 lb", "N")
    assert (got.value, got.remark) == (Fraction("177.92886461042"), "lb taken as lbf")
    assert read("40 lbs", "lbf").remark == "lbs taken as lbf"
    assert read("40 lbf", "N").remark is None
    assert read("40 lb", "kg").remark is None


@pytest.mark.parametrize(
    ("text", "unit", "remark"),
    [
        ("5 kgm", "N*m", "kgm taken as kgf·m"),
        ("5 kg·m", "N*m", "kg m taken as kgf·m"),
        ("30 psig", "kPa", "psig is pressure above that of the air, taken as psi"),
        ("30 lb/in2", "kPa", "lb/in² taken as psi"),
        ("30 psi", "kPa", None),
        ("5 kgf m", "N*m", None),
    ],
)
def test_a_unit_read_as_another_is_said(text: str, unit: str, remark: str | None) -> None:
    """A mass where a force is meant, and gauge pressure, are read with a remark."""
    assert read(text, unit).remark == remark


@pytest.mark.parametrize(
    "text", ["1/8 in per ft", '1/8"/ft', '1/8" per ft', "0.125 in/ft", "1/8 inch per foot"]
)
def test_a_slope_in_inches_a_foot(text: str) -> None:
    """An eighth of an inch in twelve inches, by the tangent (arithmetic only)."""
    value = read(text, "deg").value
    assert value is not None
    assert float(value) == pytest.approx(math.degrees(math.atan2(1, 96)), rel=1e-12)
    assert convert(convert(value, "deg", "in/ft"), "in/ft", "mm/m") == pytest.approx(1000 / 96)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("5", None),
        ("965 mm", "mm"),
        ("3' 2\"", "in"),
        ("~55 Nm", "N·m"),
        ("1..2 in", "in"),
        ("seized", None),
        ("12° 30'", "deg"),
        ("~12° 30'", "deg"),
        ("12°..12° 30'", "deg"),
        ("1/8 in per ft", "in/ft"),
        ("5 kgm", "kgf·m"),
    ],
)
def test_typed_unit(text: str, unit: str | None) -> None:
    """The unit that stands in a typed text can be asked for; a bare number has none."""
    assert typed_unit(text) == unit
