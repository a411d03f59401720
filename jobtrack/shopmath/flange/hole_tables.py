"""Clearance holes for bolts, with their sources and the misprints met in copies.

Neither standard was opened. ISO 273 as two pages quote it (engineeringhardware.com; cs.frwiki.wiki): M3 to
M16 agree in both, M4.5 and M18 to M24 were read in one, and a package's list agrees for M18 to M24. That
list (bd_warehouse 0.4.0) has M12 13/14/15, M14 15/16/17 and M16 17/18/19: 0.5 mm larger in medium and
coarse, apparently the older DIN 69 (from memory). Structural holes of AISC (M16 18, M20 22, M22 24, M24 27)
are another series. ASME B18.2.8: drills and decimals of a CAD program's hole library, normal drills up to
7/16 and the loose limits in Machinery's Handbook, 31st ed., p. 1741. Its three decimals are the fractions
rounded to even (.5625 as .562).
"""

from __future__ import annotations

METRIC_FITS = ("fine", "medium", "coarse")
INCH_FITS = ("close", "normal", "loose")

ISO_273: dict[str, tuple[str, str, str]] = {
    "3": ("3.2", "3.4", "3.6"),
    "3.5": ("3.7", "3.9", "4.2"),
    "4": ("4.3", "4.5", "4.8"),
    "4.5": ("4.8", "5", "5.3"),
    "5": ("5.3", "5.5", "5.8"),
    "6": ("6.4", "6.6", "7"),
    "7": ("7.4", "7.6", "8"),
    "8": ("8.4", "9", "10"),
    "10": ("10.5", "11", "12"),
    "12": ("13", "13.5", "14.5"),
    "14": ("15", "15.5", "16.5"),
    "16": ("17", "17.5", "18.5"),
    "18": ("19", "20", "21"),
    "20": ("21", "22", "24"),
    "22": ("23", "24", "26"),
    "24": ("25", "26", "28"),
}
"""mm by nominal diameter: fine (H12), medium (H13), coarse (H14)."""

ISO_273_PITCHES: dict[str, str] = {"3.5": "0.6", "4.5": "0.75"}
"""Coarse pitches of the sizes that no other table here has, from memory: ISO 261."""

ASME_B18_2_8: dict[str, tuple[str, str, str]] = {
    "1/4": ("17/64", "9/32", "19/64"),
    "5/16": ("21/64", "11/32", "23/64"),
    "3/8": ("25/64", "13/32", "27/64"),
    "7/16": ("29/64", "15/32", "31/64"),
    "1/2": ("17/32", "9/16", "39/64"),
    "5/8": ("21/32", "11/16", "47/64"),
    "3/4": ("25/32", "13/16", "29/32"),
}
"""Inches by screw size: close, normal, loose. 9/16 is not in the standard's list; larger weren't read."""
