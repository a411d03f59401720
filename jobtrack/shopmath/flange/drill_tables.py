"""Drill sizes and tap drills, with their sources and the misprints met in copies.

Decimals of number and letter drills: a CAD program's hole library, whole from 0.043 to 1 in, and the drill
list of the package bd_warehouse 0.4.0; fractions are exact. Misprints met: that list cuts or rounds five
numbers to three decimals (5 .205, 10 .193, 18 .17, 25 .15, 28 .14); the hole library prints K as .2811 and
cuts fractions (7/32 as .2187).
"""

from __future__ import annotations

from fractions import Fraction

from jobtrack.shopmath.common.threads import INCH

NUMBER_DRILLS: tuple[str, ...] = (
    ".2280", ".2210", ".2130", ".2090", ".2055", ".2040", ".2010", ".1990", ".1960", ".1935",
    ".1910", ".1890", ".1850", ".1820", ".1800", ".1770", ".1730", ".1695", ".1660", ".1610",
    ".1590", ".1570", ".1540", ".1520", ".1495", ".1470", ".1440", ".1405", ".1360", ".1285",
    ".1200", ".1160", ".1130", ".1110", ".1100", ".1065", ".1040", ".1015", ".0995", ".0980",
    ".0960", ".0935", ".0890", ".0860", ".0820", ".0810", ".0785", ".0760", ".0730", ".0700",
    ".0670", ".0635",
)  # fmt: skip
"""Inches, #1 to #52; #53 (.0595) lies below 1/16 in."""

LETTER_DRILLS: dict[str, str] = {
    "A": ".234", "B": ".238", "C": ".242", "D": ".246", "E": ".250", "F": ".257", "G": ".261", "H": ".266",
    "I": ".272", "J": ".277", "K": ".281", "L": ".290", "M": ".295", "N": ".302", "O": ".316", "P": ".323",
    "Q": ".332", "R": ".339", "S": ".348", "T": ".358", "U": ".368", "V": ".377", "W": ".386", "X": ".397",
    "Y": ".404", "Z": ".413",
}  # fmt: skip
"""Inches."""


def _drills() -> dict[str, Fraction]:
    sixty_fourths = {str(Fraction(n, 64)): Fraction(n, 64) * INCH for n in range(4, 65)}
    numbers = {f"#{n}": Fraction(inches) * INCH for n, inches in enumerate(NUMBER_DRILLS, 1)}
    letters = {name: Fraction(inches) * INCH for name, inches in LETTER_DRILLS.items()}
    return sixty_fourths | numbers | letters


DRILLS: dict[str, Fraction] = _drills()
"""mm by name, 1/16 to 1 in; fractions stand first, so that of equal sizes the fraction is found."""

TAP_DRILLS: dict[str, str] = {
    "M3x0.5": "2.5", "M4x0.7": "3.3", "M5x0.8": "4.2", "M6x1": "5.0", "M8x1": "7.0", "M8x1.25": "6.8",
    "M10x1.25": "8.8", "M10x1.5": "8.5", "M12x1.25": "10.8", "M12x1.5": "10.5", "M12x1.75": "10.2",
    "M14x1.5": "12.5", "M14x2": "12.0", "M16x1.5": "14.5", "M16x2": "14", "M18x1.5": "16.5",
}  # fmt: skip
"""mm: the package's tap list, coarse threads to M10 also in a second program. M12x1.75: a code excerpt, and
from memory ISO 2306; the package prints 10.3. M14x2: from memory, diameter minus pitch; it prints 12.1."""

TAP_DRILLS_FROM_MEMORY = ("M12x1.75", "M14x2")

TAP_DRILLS_INCH: dict[str, str] = {
    "1/4-20": "#7", "5/16-18": "F", "3/8-16": "5/16", "1/2-13": "27/64", "5/8-11": "17/32", "3/4-10": "21/32",
    "1/4-28": "#3", "5/16-24": "I", "3/8-24": "Q", "7/16-14": "U", "7/16-20": "25/64", "1/2-20": "29/64",
    "5/8-18": "37/64", "3/4-16": "11/16",
}  # fmt: skip
"""Names of drills: the package's tap list; the first six also in a second program. About 75 % of thread."""
