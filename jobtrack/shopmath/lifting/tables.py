"""Lifting in tables: the revised NIOSH lifting equation's multipliers, metric form.

Source: DHHS (NIOSH) publication 94-110, reissued 2021, tables 5 and 7, from a public transcription made twice
with page numbers (ErgonomicTool, methods/rnle), agreeing with a second public table of FM. Misprints met in the
manual: Table 1 has HM 0.46 at 22 in and 0.44 at 23 in, metric Table 3 DM 0.86 at 130 cm, where the formula gives
0.4545, 0.4348 and 0.8546; the formula counts.
"""

from __future__ import annotations

from fractions import Fraction


def _row(*values: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(value) for value in values)


RATES = _row("0.2", "0.5", *(str(rate) for rate in range(1, 16)))
"""Lifts a minute of the rows below."""

FREQUENCY: dict[tuple[str, bool], tuple[Fraction, ...]] = {
    ("short", False): _row(
        "1", ".97", ".94", ".91", ".88", ".84", ".80", ".75", ".70", ".60", ".52", ".45", ".41", ".37",
        "0", "0", "0",
    ),
    ("short", True): _row(
        "1", ".97", ".94", ".91", ".88", ".84", ".80", ".75", ".70", ".60", ".52", ".45", ".41", ".37",
        ".34", ".31", ".28",
    ),
    ("moderate", False): _row(
        ".95", ".92", ".88", ".84", ".79", ".72", ".60", ".50", ".42", ".35", ".30", ".26", "0", "0",
        "0", "0", "0",
    ),
    ("moderate", True): _row(
        ".95", ".92", ".88", ".84", ".79", ".72", ".60", ".50", ".42", ".35", ".30", ".26", ".23", ".21",
        "0", "0", "0",
    ),
    ("long", False): _row(
        ".85", ".81", ".75", ".65", ".55", ".45", ".35", ".27", ".22", ".18", "0", "0", "0", "0",
        "0", "0", "0",
    ),
    ("long", True): _row(
        ".85", ".81", ".75", ".65", ".55", ".45", ".35", ".27", ".22", ".18", ".15", ".13", "0", "0",
        "0", "0", "0",
    ),
}  # fmt: skip
"""FM by duration (short to 1 h, moderate to 2 h, long to 8 h) and whether the lift begins at 75 cm or above."""

COUPLING: dict[tuple[str, bool], Fraction] = {
    ("good", False): Fraction(1),
    ("good", True): Fraction(1),
    ("fair", False): Fraction("0.95"),
    ("fair", True): Fraction(1),
    ("poor", False): Fraction("0.9"),
    ("poor", True): Fraction("0.9"),
}
"""CM by grip and whether the hands are at 75 cm or above."""

LOAD_CONSTANT = 23
"""kg; the US form's 51 lb is no exact conversion."""
KNUCKLES = 75
"""cm above the floor: the height of the best lift, and where the columns change."""
NEAREST_REACH, FARTHEST_REACH = 25, 63
"""cm; nearer counts as 25, beyond 63 nothing can be lifted."""
LEAST_TRAVEL = 25
"""cm; less counts as 25."""
HIGHEST = 175
"""cm above the floor."""
MOST_TURN = 135
"""deg."""
