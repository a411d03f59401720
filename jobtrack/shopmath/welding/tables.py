"""Published figures of welding that the workings-out look up, each table with its source.

None of the standards was opened: each figure was read where another page quotes it, or comes from memory.
Misprints met in copies: 0.030 in wire at 125 in/min as 3.19 m/min and 100 in/min as 2.56 (3.175 and 2.54); a
3/16 in fillet as 0.063 lb a foot (0.060); 0.25 in as 0.635 mm; heat inputs in J/ft that are kJ/ft.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class FilletSizes:
    """The least leg of a fillet by thickness, as one publisher lists it."""

    name: str
    title: str
    """Whose it is."""
    read: str
    """Its date, where it was read, and which part's thickness counts."""
    rows: tuple[tuple[int | None, int], ...]
    """Thickness up to (mm, None: any) and leg (mm)."""
    floor: int
    """mm: the leg is never below."""


INCH_ROWS: tuple[tuple[Fraction | None, str, int], ...] = (
    (Fraction("6.35"), "1/8 in", 3),
    (Fraction("12.7"), "3/16 in", 5),
    (Fraction("19.05"), "1/4 in", 6),
    (None, "5/16 in", 8),
)
"""The same tables in inches: thickness up to (mm, None: any), leg, and the leg in mm that stands for it.
Beside a break a plate in inches
and the millimetre row disagree: 1/4 in is over 6 mm."""

_AWS_ROWS = ((6, 3), (12, 5), (20, 6), (None, 8))
_AWS_PART = "the thicker part counts, the thinner with low-hydrogen rods or calculated preheat"
AISC = FilletSizes(
    "AISC",
    "AISC table J2.4",
    "millimetre rows as in a copy (scribd 380231435) that names no edition; the thinner part counts",
    ((6, 3), (13, 5), (19, 6), (None, 8)),
    0,
)
AWS = FilletSizes(
    "AWS",
    "AWS D1.1 table 5.8 (7.7 since 2020)",
    f"millimetre rows from memory, the first inch row (2020) as quoted on a forum; {_AWS_PART}",
    _AWS_ROWS,
    0,
)
CYCLIC = FilletSizes(
    "cyclic",
    "AWS D1.1 (2020) with the 5 mm of its clause 4.18.3",
    "the clause as quoted on a forum, that it is for changing load from memory, the rows as in set AWS; "
    f"{_AWS_PART}",
    _AWS_ROWS,
    5,
)
FILLET_SETS: dict[str, FilletSizes] = {each.name: each for each in (AISC, AWS, CYCLIC)}

ELECTRODE_STRENGTH: dict[str, int] = {"E60": 60, "E70": 70}
"""Tensile strength, ksi, of the table of permissible stresses (Shigley table 9-6, AISC, as quoted); Shigley's
table of properties has 62 ksi for E60."""

RULE_SHARE = Fraction(3, 10)
"""Shear on the throat as a share of the electrode's strength: AISC ASD, 0.60 divided by 2.00."""


@dataclass(frozen=True, slots=True)
class RodRange:
    """The current of one rod and size, as one source lists it."""

    rod: str
    size: str
    """2.4, 3.2 or 4.0 and the like: the name of the size in mm."""
    low: int
    """A."""
    high: int
    """A."""
    source: str


def _ranges(rod: str, source: str, **sizes: tuple[int, int]) -> tuple[RodRange, ...]:
    named = {key[1:].replace("_", "."): range_ for key, range_ in sizes.items()}
    return tuple(RodRange(rod, size, low, high, source) for size, (low, high) in named.items())


ROD_SIZES: dict[str, tuple[Fraction, ...]] = {
    "1.6": (Fraction("1.6"), Fraction("1.5875")),
    "2.0": (Fraction(2), Fraction("1.984375")),
    "2.4": (Fraction("2.4"), Fraction("2.5"), Fraction("2.38125")),
    "3.2": (Fraction("3.2"), Fraction("3.175")),
    "4.0": (Fraction(4), Fraction("3.96875")),
}
"""Sizes by name, mm: 1/16, 5/64, 3/32, 1/8 and 5/32 in are these sizes; 2.5 counts as 2.4."""

_MEMORY = "rod makers' charts, from memory"
ROD_RANGES: tuple[RodRange, ...] = (
    *_ranges("E6010", "sample procedure to D1.1 (scribd 126615074)", _2_4=(50, 85), _3_2=(90, 140), _4_0=(120, 170)),
    *_ranges("E6010", "rod maker's page (topwellwelders.com)", _3_2=(75, 125)),
    *_ranges("E6011", _MEMORY, _2_4=(40, 85), _3_2=(75, 125), _4_0=(110, 165)),
    *_ranges("E6013", "welding-set manuals (manualshive.com 2098512)", _2_4=(60, 95), _3_2=(100, 130), _4_0=(130, 165)),
    *_ranges("E6013", "welding-set manual (easymanua.ls)", _2_4=(60, 100), _3_2=(80, 150)),
    *_ranges("E7018", "sample procedure to D1.1 (scribd 54353535)", _2_4=(75, 110), _3_2=(110, 150)),
    *_ranges("E7018", "trade page (engineerfix.com)", _2_4=(80, 100), _3_2=(90, 150), _4_0=(110, 230)),
    *_ranges("E7018", _MEMORY, _2_4=(70, 110), _3_2=(90, 160), _4_0=(130, 210)),
    *_ranges(
        "generic", "welding-set manual, by diameter (manualshive.com 2794990)",
        _1_6=(40, 50), _2_0=(50, 75), _2_4=(75, 105), _3_2=(105, 140), _4_0=(140, 160),
    ),
)  # fmt: skip
"""Current by rod and size, the first row of a rod and size first. Single settings (a generator's manual:
E6011
at 70 and 90 A, E6013 at 90 and 125) are no ranges and aren't listed."""

ROD_CURRENT: dict[str, str] = {
    "E6010": "E6010 runs on DC with the rod positive only.",
    "E6011": "E6011 runs on AC, or on DC with the rod positive.",
    "E6013": "E6013 runs on AC or DC.",
    "E7018": "E7018 runs on DC with the rod positive, and dry: dried again at 350 °C for 2 h (a maker's data "
    "sheet).",
    "generic": "These figures go by the diameter alone.",
}
"""Polarity, from memory unless said."""


@dataclass(frozen=True, slots=True)
class Wire:
    """A solid wire in short-circuit transfer."""

    name: str
    sizes: tuple[Fraction, ...]
    """mm, as typed in mm or in inches."""
    per_amp: Fraction
    """Inches a minute for each ampere."""
    low: int
    """A."""
    high: int
    """A."""


WIRES: tuple[Wire, ...] = (
    Wire("0.6", (Fraction("0.6"), Fraction("0.6096"), Fraction("0.5842")), Fraction("3.5"), 30, 90),
    Wire("0.8", (Fraction("0.8"), Fraction("0.762")), Fraction(2), 40, 145),
    Wire("0.9", (Fraction("0.9"), Fraction("0.889")), Fraction("1.6"), 50, 180),
    Wire("1.2", (Fraction("1.2"), Fraction("1.143")), Fraction(1), 75, 250),
)
"""0.024 (and 0.023), 0.030, 0.035, 0.045 in: rule and ranges as printed in three welding-set manuals
(manualshive.com 2142355 and 1796700, manualsdump.com 278790)."""

WIRES_SOURCE = (
    "an ampere for each 0.001 in of thickness, and wire speed by the ampere, as printed in three welding-set "
    "manuals (manualshive.com, manualsdump.com), read in copies"
)


@dataclass(frozen=True, slots=True)
class ShadeRow:
    """Filter shades up to a current."""

    up_to: int
    """A; the next row begins here, since the printed rows share their ends and the darker counts."""
    minimum: int
    suggested: int | None


SHADES: dict[str, tuple[ShadeRow, ...]] = {
    "stick": (
        ShadeRow(60, 7, None), ShadeRow(160, 8, 10), ShadeRow(250, 10, 12), ShadeRow(550, 11, 14),
    ),
    "mig": (
        ShadeRow(60, 7, None), ShadeRow(160, 10, 11), ShadeRow(250, 10, 12), ShadeRow(500, 10, 14),
    ),
    "plasma cutting": (ShadeRow(300, 8, 9),),
}  # fmt: skip
"""Minimum: 29 CFR 1910.133 (casetext.com); suggested: ANSI Z49.1-2005 as quoted (bakersgas.com). Older tables
by rod size have 10 to 5/32 in and 12 for gas-shielded work on steel. The regulation's plasma rows from 300 A
were not read and are left out."""

SHADE_ENDS: dict[str, bool] = {"stick": True, "mig": True, "plasma cutting": False}
"""Whether the last row's end belongs to it: 250 to 550 A, 250 to 500 A, less than 300 A."""
