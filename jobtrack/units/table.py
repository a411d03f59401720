"""The units of the trade with their further spellings and exact factors: data only.

Factors are fractions of the exact definitions: international yard and pound of 1959, standard
gravity 9.80665 m/s² (from memory: NIST SP 811, appendix B), US gallon of 231 in³.
"""

from __future__ import annotations

from fractions import Fraction

INCH = Fraction("25.4")
FOOT = 12 * INCH
MILE = 5280 * FOOT
POUND = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")
POUND_FORCE = POUND * GRAVITY
PSI = POUND_FORCE / INCH**2 * 1000
GALLON = 231 * INCH**3 / 10**6

ROWS: dict[str, tuple[tuple[str, Fraction | int, str | None, str], ...]] = {
    "length": (
        ("mm", 1, "in", "millimetre, millimetres, millimeter, millimeters"),
        ("cm", 10, "in", "centimetre, centimetres"),
        ("m", 1000, "ft", "metre, metres, meter, meters"),
        ("km", 10**6, "mile", "kilometre, kilometres"),
        ("in", INCH, "mm", '", inch, inches'),
        ("thou", INCH / 1000, "mm", "thous"),
        ("ft", FOOT, "m", "', foot, feet"),
        ("mile", MILE, "km", "miles"),
    ),
    "mass": (
        ("kg", 1, "lb", "kilogram, kilograms"),
        ("g", Fraction(1, 1000), "oz", "gram, grams"),
        ("t", 1000, "lb", "tonne, tonnes"),
        ("lb", POUND, "kg", "lbs, pound, pounds"),
        ("oz", POUND / 16, "g", "ounce, ounces"),
    ),
    "force": (
        ("N", 1, "lbf", "newton, newtons"),
        ("kN", 1000, "lbf", ""),
        ("lbf", POUND_FORCE, "N", ""),
        ("kgf", GRAVITY, "N", ""),
    ),
    "torque": (
        ("N·m", 1, "lbf ft", "Nm, newton metre, newton metres"),
        ("kN·m", 1000, "lbf ft", "kNm"),
        (
            "lbf ft",
            POUND_FORCE * FOOT / 1000,
            "N·m",
            "ft lb, ft lbf, lb ft, ft lbs, lbs ft, ftlb, ftlbs, ftlbf, lbft, lbfft, foot pound, foot pounds, "
            "pound force foot, pound force feet",
        ),
        (
            "lbf in",
            POUND_FORCE * INCH / 1000,
            "N·m",
            "in lb, in lbf, lb in, in lbs, lbs in, inlb, inlbs, inlbf, lbin, lbfin, inch pound, inch pounds, "
            "pound force inch, pound force inches",
        ),
        ("kgf·m", GRAVITY, "N·m", "kgfm, m kgf, kgm, kg m, mkg, m kg"),
    ),
    "pressure": (
        ("kPa", 1, "psi", ""),
        ("bar", 100, "psi", ""),
        ("psi", PSI, "kPa", "lbf/in^2, lb/in^2, lbs/in^2, lb/sq in, psig"),
        ("MPa", 1000, "ksi", "N/mm^2"),
        ("ksi", 1000 * PSI, "MPa", ""),
    ),
    "angle": (
        ("deg", 1, None, "°, degree, degrees"),
        ("rad", 1, None, "radian, radians"),
        ("mm/m", 1, None, "mm per m"),
        ("in/ft", 1, None, 'in per ft, inch per foot, inches per foot, "/ft, " per ft'),
    ),
    "speed": (
        ("m/min", 1, "ft/min", ""),
        ("km/h", Fraction(1000, 60), "mph", "km/hr, kmh, kph"),
        ("mph", MILE / 60_000, "km/h", "mile/h, miles/h"),
        ("m/s", 60, "ft/min", ""),
        ("ft/min", FOOT / 1000, "m/min", "fpm"),
        ("mm/min", Fraction(1, 1000), "in/min", ""),
        ("in/min", INCH / 1000, "mm/min", "ipm"),
        ("mm/s", Fraction(60, 1000), "in/min", ""),
    ),
    "rate": (("rpm", 1, None, "rev/min, r/min"), ("/min", 1, None, "per min, per minute")),
    "current": (("A", 1, None, "amp, amps, ampere, amperes"),),
    "voltage": (("V", 1, None, "volt, volts"),),
    "heat input": (("kJ/mm", 1, "kJ/in", ""), ("kJ/in", 1 / INCH, "kJ/mm", "")),
    "time": (
        ("s", 1, None, "sec, secs, second, seconds"),
        ("min", 60, None, "mins, minute, minutes"),
        ("h", 3600, None, "hr, hrs, hour, hours"),
        ("days", 86_400, None, "d, day"),
        ("weeks", 7 * 86_400, None, "week"),
        ("years", 31_557_600, None, "year"),
    ),
    "volume": (
        ("L", 1, "US gal", "litre, litres, liter, liters"),
        ("mL", Fraction(1, 1000), None, ""),
        ("US gal", GALLON, "L", "gal US, US gallon, US gallons"),
        ("mm³", Fraction(1, 10**6), None, ""),
        ("cm³", Fraction(1, 1000), None, "cc"),
        ("in³", INCH**3 / 10**6, None, ""),
    ),
    "area": (
        ("mm²", 1, "in²", ""),
        ("cm²", 100, "in²", ""),
        ("in²", INCH**2, "mm²", "sq in"),
    ),
    "line load": (
        ("N/mm", 1, "lbf/in", "kN/m"),
        ("lbf/in", POUND_FORCE / INCH, "N/mm", ""),
    ),
    "angular acceleration": (("rad/s²", 1, None, ""),),
    "number": (
        ("", 1, None, "number, ratio"),
        ("%", Fraction(1, 100), None, "percent, per cent"),
    ),
}
"""By kind: name shown, factor to the first unit of the kind, unit of the other system, further spellings."""
TEMPERATURE_ROWS = (
    ("°C", 1, 0, "°F", "C, deg C, degC, Celsius"),
    ("°F", Fraction(5, 9), -32, "°C", "F, deg F, degF, Fahrenheit"),
)
"""As above, with what is added before the factor."""
REFUSED = {
    "ton": 'a ton has several meanings: write "t" (1000 kg), or lb',
    "tons": 'a ton has several meanings: write "t" (1000 kg), or lb',
    "gal": 'a gallon has two meanings: write "US gal", or L',
    "gallon": 'a gallon has two meanings: write "US gal", or L',
    "gallons": 'a gallon has two meanings: write "US gal", or L',
    "mil": 'a mil has two meanings: write "thou", or mm',
    "mils": 'a mil has two meanings: write "thou", or mm',
    "mPa": 'mPa is a thousandth of a pascal: write "MPa"',
}
"""Spellings with several meanings, or a power of ten away from what is meant, and what to type."""
