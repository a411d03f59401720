"""Tyres in tables: load indices, the rules for a lower pressure, and what is said about age."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

LOAD_INDEX_SOURCE = (
    "load index table of ISO 4000-1 and UN R30, as in three copies that agree (barretire.com 71 to 110, "
    "boosttown.com 70 to 119, a public script 90 to 125)"
)
LOAD_INDEX: dict[int, int] = {
    70: 335, 71: 345, 72: 355, 73: 365, 74: 375, 75: 387, 76: 400, 77: 412, 78: 425, 79: 437,
    80: 450, 81: 462, 82: 475, 83: 487, 84: 500, 85: 515, 86: 530, 87: 545, 88: 560, 89: 580,
    90: 600, 91: 615, 92: 630, 93: 650, 94: 670, 95: 690, 96: 710, 97: 730, 98: 750, 99: 775,
    100: 800, 101: 825, 102: 850, 103: 875, 104: 900, 105: 925, 106: 950, 107: 975, 108: 1000, 109: 1030,
    110: 1060, 111: 1090, 112: 1120, 113: 1150, 114: 1180, 115: 1215, 116: 1250, 117: 1285, 118: 1320,
    119: 1360, 120: 1400, 121: 1450, 122: 1500, 123: 1550, 124: 1600, 125: 1650,
}  # fmt: skip
"""kg a tyre. Misprints met: 83 = 478 kg (trailermedic.co.uk), 110 = 1000 kg (capitalautoparts.ca), 115 = 2649 lb
and 121 = 3297 lb (a shop's help page)."""

LOWEST_INDEX, HIGHEST_INDEX = min(LOAD_INDEX), max(LOAD_INDEX)

PASSENGER_ON_TRUCK = Fraction(11, 10)
"""What the rating of a passenger-car tyre on a truck, bus or trailer is divided by: 49 CFR 571.120 S5.1.2,
agency letter of 17 November 1976."""


@dataclass(frozen=True, slots=True)
class PressureRule:
    """How the load that a tyre carries follows its pressure, by one source."""

    exponent: Fraction
    whose: str


PRESSURE_RULES: dict[str, PressureRule] = {
    "power-0.8": PressureRule(
        Fraction(4, 5),
        "load follows pressure to the power 0.8; reported as the rule of the European tyre and rim body on an "
        "owners' forum (club8090.co.uk, undated), not read there",
    ),
    "straight": PressureRule(
        Fraction(1),
        "load follows pressure in a straight line; attributed to Daws, The Tire Society 2009, eq. 9, "
        "in an owners' forum (aulro.com)",
    ),
}
"""The first counts where none is chosen. US yearbooks were remembered with exponents 0.5 (passenger) and 0.7."""

LOWEST_PRESSURE_SHARE = Fraction(1, 2)
"""Below it the rules were not fitted."""

AGE_ADVICE = "makers' advice as quoted: replace at 6 to 10 years whatever the tread; others 5 to 7"
"""thatnews.online quoting the agency; reference.com."""
