"""Likely slips are put as a question."""

from __future__ import annotations

import pytest

from jobtrack.units import likely, question, read

ASKED = [
    ("38", "mm", 965, "38 mm is far from the 965 mm expected. Was 38 in = 965.2 mm meant?"),
    ("101.2", "mm", 1012, "101.2 mm is far from the 1012 mm expected. Was 1012 mm meant?"),
    ("10120", "mm", 1012, "10120 mm is far from the 1012 mm expected. Was 1012 mm meant?"),
    ("965", "in", 38, "965 in is far from the 38 in expected. Was 965 mm = 37.992 in meant?"),
    ("23.5 in", "mm", 23.5, "596.9 mm is far from the 23.5 mm expected. Was 23.5 mm meant?"),
    ("40", "N*m", 54.2, "40 N·m is far from the 54.2 N·m expected. Was 40 lbf ft = 54.233 N·m meant?"),
    ("55 ft lb", "N*m", 55, "74.57 N·m is far from the 55 N·m expected. Was 55 N·m meant?"),
    ("12", "N*m", 1.4, "12 N·m is far from the 1.4 N·m expected. Was 12 lbf in = 1.3558 N·m meant?"),
    (
        "20",
        "N*m",
        1.4,
        "20 N·m is far from the 1.4 N·m expected. Over 5 N·m is a lot to turn: was lbf in meant?",
    ),
    ("3500", "kg", 1600, "3500 kg is far from the 1600 kg expected. Was 3500 lb = 1587.6 kg meant?"),
    ("32", "kPa", 220, "32 kPa is far from the 220 kPa expected. Was 32 psi = 220.63 kPa meant?"),
    ("68", "°C", 20, "68 °C is far from the 20 °C expected. Was 68 °F = 20 °C meant?"),
    ("90", "h", 1.5, "90 h is far from the 1.5 h expected. Was 90 min = 1.5 h meant?"),
    ("37 15/16", "mm", None, "37 15/16 is read in mm. Was 37 15/16 in = 963.61 mm meant?"),
    ("1½", "mm", 5, "1½ is read in mm. Was 1½ in = 38.1 mm meant?"),
    ("40 lb", "N", 40, "177.93 N is far from the 40 N expected. Was 40 N meant?"),
    ("1/3 in", "mm", None, "1/3 in: an inch rule has halves to 64ths. Was a fraction by 3 meant?"),
    ("3 3/10 in", "mm", None, "3 3/10 in: an inch rule has halves to 64ths. Was a fraction by 10 meant?"),
    ("⅔", "in", None, "⅔: an inch rule has halves to 64ths. Was a fraction by 3 meant?"),
    ("1.300 kg", "kg", None, "1.300 kg is read with a decimal dot. Was 1300 kg meant?"),
    ("~3.200", "rpm", None, "3.200 rpm is read with a decimal dot. Was 3200 rpm meant?"),
    ("~38", "mm", 965, "38 mm is far from the 965 mm expected. Was 38 in = 965.2 mm meant?"),
]


@pytest.mark.parametrize(("text", "unit", "expected", "asked"), ASKED)
def test_slip_is_asked_about(text: str, unit: str, expected: float | None, asked: str) -> None:
    """A likely slip of unit or decimal point is asked about, with what may have been meant."""
    assert question(read(text, unit), expected) == asked


NOT_ODD = [
    ("5/8 in", "mm", None),
    ("1/3", "mm", None),
    ("1/3 in", "mm", 8.47),
    ("1/3", None, None),
    ("1/8 in per ft", "deg", None),
    ("25.400 mm", "mm", None),
    ("1.300 t", "kg", None),
    ("0.300 kg", "kg", None),
    ("1.30 kg", "kg", None),
    ("1.300 kg", "kg", 1.3),
    ("965", "mm", 965),
    ("960", "mm", 965),
    ("1050", "mm", 965),
    ("38 in", "mm", 965),
    ("37 15/16 in", "mm", None),
    ("37 15/16", "in", None),
    ("38", "mm", None),
    ("40", "mm", 965 / 2),
    ("0.4", "deg", 0),
    (">38", "mm", 965),
    ("1..2", "mm", 965),
    ("can't reach", "mm", 965),
    ("4.5", "N*m", 1.4),
    ("20", "N*m", 0),
    ("12", None, 1),
]


@pytest.mark.parametrize(("text", "unit", "expected"), NOT_ODD)
def test_nothing_odd_is_not_asked_about(text: str, unit: str | None, expected: float | None) -> None:
    """A value near what is expected, far off without a likely slip, or no value at all: no question."""
    assert question(read(text, unit), expected) is None


def test_within_the_doubt_is_not_asked_about() -> None:
    """A value within three doubts of what is expected is not questioned, however small that is."""
    assert question(read("0.05", "mm"), 0.5) is not None
    assert question(read("0.05", "mm"), 0.5, doubt=0.2) is None


@pytest.mark.parametrize(("text", "unit", "expected", "asked"), ASKED)
def test_what_may_have_been_meant_can_be_typed(
    text: str, unit: str, expected: float | None, asked: str
) -> None:
    """Read again, it is what the question names, and near what was expected; a fraction on no rule has none."""
    found = likely(read(text, unit), expected)
    assert found is not None
    if "fraction by" in asked:
        assert found.meant is None
        return
    assert found.meant is not None
    again = read(found.meant, unit)
    assert again.value is not None
    assert again.bound == read(text, unit).bound
    if expected is not None and "is read in" not in asked and "a lot to turn" not in asked:
        assert abs(float(again.value) / expected - 1) <= 0.06


@pytest.mark.parametrize(
    ("text", "unit", "expected", "meant"),
    [("38", "mm", 965, "38 in"), ("~38", "mm", 965, "~38 in"), ("37 15/16", "mm", None, "37 15/16 in"),
     ("101.2", "mm", 1012, "1012 mm"), ("10120", "mm", 1012, "1012 mm"), ("23.5 in", "mm", 23.5, "23.5 mm"),
     ("1.300 kg", "kg", None, "1300 kg"), ("20", "N*m", 1.4, "20 lbf in"), ("235", "mm", 23.5, "23.5 mm")],
)  # fmt: skip
def test_what_may_have_been_meant(text: str, unit: str, expected: float | None, meant: str) -> None:
    """The same writing in another unit, or the point where it belongs."""
    found = likely(read(text, unit), expected)
    assert found is not None
    assert found.meant == meant
