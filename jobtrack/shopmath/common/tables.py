"""Published figures that the workings-out look up, each table with its source.

None of the standards was opened: each figure was read where another page quotes it, unless marked otherwise.
Two pages that reprint SAE figures use grade 2's 33 ksi at 3/4 in and grade 5's 74 ksi at 1 in; the standard's
sizes put both in the upper row, which is used here. One web chart of 8.8 torques uses 580 MPa above M16, too.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class ProofRow:
    """The proof stress of one grade for sizes above one diameter up to another."""

    above: Fraction
    """Diameter, in for SAE grades, mm for ISO classes."""
    up_to: Fraction
    proof: int
    """psi for SAE grades, MPa for ISO classes."""


def _inch(whole: int, part: str = "0") -> Fraction:
    return whole + Fraction(part)


SAE_J429: dict[str, tuple[ProofRow, ...]] = {
    "2": (
        ProofRow(Fraction(0), _inch(0, "3/4"), 55_000),
        ProofRow(_inch(0, "3/4"), _inch(1, "1/2"), 33_000),
    ),
    "5": (ProofRow(Fraction(0), _inch(1), 85_000), ProofRow(_inch(1), _inch(1, "1/2"), 74_000)),
    "8": (ProofRow(Fraction(0), _inch(1, "1/2"), 120_000),),
}
"""Proof stress, psi, by grade. Grade 2's upper row is for bolts of 6 in and shorter.

Source: SAE J429, as quoted by two bolt suppliers' pages.
"""

ISO_898_1: dict[str, tuple[ProofRow, ...]] = {
    "8.8": (ProofRow(Fraction(0), Fraction(16), 580), ProofRow(Fraction(16), Fraction(39), 600)),
    "10.9": (ProofRow(Fraction(0), Fraction(39), 830),),
    "12.9": (ProofRow(Fraction(0), Fraction(39), 970),),
}
"""Proof stress, MPa, by property class.

Source: ISO 898-1, as quoted in a machine maker's manual and a course page; agrees with the proof loads of a page that
cites EN ISO 898-1.
"""

UNIFIED: dict[str, tuple[tuple[str, int], ...]] = {
    "UNC": (
        ("1/4", 20), ("5/16", 18), ("3/8", 16), ("7/16", 14), ("1/2", 13),
        ("9/16", 12), ("5/8", 11), ("3/4", 10), ("7/8", 9), ("1", 8),
    ),
    "UNF": (
        ("1/4", 28), ("5/16", 24), ("3/8", 24), ("7/16", 20), ("1/2", 20),
        ("9/16", 18), ("5/8", 18), ("3/4", 16), ("7/8", 14), ("1", 12),
    ),
    "UNS": (("1", 14),),
}  # fmt: skip
"""Nominal size in inches and threads an inch, as in published stress-area tables (wermac.org, boltport.com,
a supplier's torque-tension chart). 1-12 is UNF, 1-14 is UNS: some torque tables mix the two up."""

METRIC_COARSE: dict[str, str] = {
    "3": "0.5", "4": "0.7", "5": "0.8", "6": "1", "7": "1", "8": "1.25", "10": "1.5", "12": "1.75",
    "14": "2", "16": "2", "18": "2.5", "20": "2.5", "22": "2.5", "24": "3",
}  # fmt: skip
"""Coarse pitch, mm, by nominal diameter: tables citing ISO 898-1 and Bickford from M5; M3 and M4 as in
tap-drill tables."""

METRIC_FINE: dict[str, tuple[str, ...]] = {
    "8": ("1",), "10": ("1.25", "1"), "12": ("1.5", "1.25"), "14": ("1.5",), "16": ("1.5",),
    "18": ("1.5",), "20": ("1.5",), "22": ("1.5",), "24": ("2",),
}  # fmt: skip
"""Fine pitches, mm: ASME B1.13M sizes as quoted on a thread page; M10x1, M12x1.5, M18x1.5 and M22x1.5 from
memory of ISO 898-1; M12x1.25 as in tap-drill tables."""

ENGAGEMENT_LIMITS: dict[str, tuple[float, float]] = {
    "1/4-20": (0.2127, 0.2070), "5/16-18": (0.2712, 0.2650), "3/8-16": (0.3287, 0.3210),
    "7/16-14": (0.3850, 0.3760), "1/2-13": (0.4435, 0.4340), "5/8-11": (0.5589, 0.5460),
    "3/4-10": (0.6773, 0.6630), "1-8": (0.9100, 0.8900),
}  # fmt: skip
"""The bolt's smallest pitch diameter and the nut's largest minor diameter, in, classes 2A and 2B: ASME B1.1,
from memory; they give the engaged lengths printed on sizes.com."""
