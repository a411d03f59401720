"""Holes and drills against the published tables, cell by cell, and a second search through a copy of them."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.shopmath.catalogue import WorkingOutError
from jobtrack.shopmath.common.threads import LISTED
from jobtrack.shopmath.flange.drill_tables import DRILLS
from jobtrack.shopmath.flange.holes import clearance_hole, drill_name, drill_speed, tap_drill
from jobtrack.workings.answers import answer

PUBLISHED = tomli.loads(
    (Path(__file__).parent / "published_fit_driveline_flange.toml").read_text(encoding="utf-8")
)
INCH = Fraction("25.4")


def cells(table: str) -> list[Any]:
    """Each row of the tables of this name."""
    return [row for group in PUBLISHED[table] for row in group["rows"]]


def inches(printed: float) -> Fraction:
    """A printed decimal of an inch, in mm."""
    return Fraction(str(printed)) * INCH


COPY = {name: inches(printed) for name, printed in cells("drill")}
COPY |= {f"{n}/64": n * INCH / 64 for n in range(37, 64, 2)} | {
    f"{n}/32": n * INCH / 32 for n in range(19, 32, 2)
}
COPY |= {f"{n}/16": n * INCH / 16 for n in (11, 13, 15)} | {"3/4": INCH * 3 / 4, "7/8": INCH * 7 / 8}
"""The published sizes and the other fractions up to 1 in, in mm, without the letter E."""


@pytest.mark.parametrize(("name", "printed"), cells("drill"))
def test_a_printed_drill_is_found_by_its_size(name: str, printed: float) -> None:
    """Each published size is the drill of that name itself, and so is the next one up."""
    found = drill_name(inches(printed))
    assert found == (name, inches(printed), name, inches(printed))


def test_letter_e_has_the_size_of_a_quarter_inch() -> None:
    """E is a drill, and its size is called 1/4."""
    assert DRILLS["E"] == INCH / 4
    assert drill_name(6.35).nearest == drill_name(6.35).next_up == "1/4"


@pytest.mark.parametrize(("name", "size", "cut"), cells("cut-drill"))
def test_a_cut_size_is_not_the_drill(name: str, size: float, cut: float) -> None:
    """The drill has the full size, not the one that a list cuts or rounds to three decimals."""
    assert DRILLS[name] == inches(size) != inches(cut)


@pytest.mark.parametrize(("diameter", "nearest", "next_up"), cells("beside-drill"))
def test_a_millimetre_hole_has_its_neighbours(diameter: str, nearest: str, next_up: str) -> None:
    """The nearest drill and the next up are those of the lists."""
    values = answer("drill-name", {"diameter": diameter}).outcome.values
    assert (values["nearest"], values["next_up"]) == (nearest, next_up)


def test_every_drill_is_in_the_copy() -> None:
    """The list has the published drills and fractions, E beside them, and no other."""
    assert DRILLS == COPY | {"E": INCH / 4}


@pytest.mark.independent("drill-name")
@given(st.integers(15_875, 254_000).map(lambda n: Fraction(n, 10_000)))
def test_a_search_through_the_copy_finds_the_same(diameter: Fraction) -> None:
    """Trying the copy's drills from the largest down finds the same nearest and next up."""
    found = drill_name(diameter)
    falling = sorted(COPY, key=lambda name: -COPY[name])
    nearest = next_up = falling[0]
    for name in falling:
        if abs(COPY[name] - diameter) < abs(COPY[nearest] - diameter):
            nearest = name
        if COPY[name] >= diameter:
            next_up = name
    assert (found.nearest, found.next_up) == (nearest, next_up)
    assert (found.nearest_size, found.next_up_size) == (COPY[nearest], COPY[next_up])


def test_a_tie_takes_the_larger_drill() -> None:
    """Half way between two drills the larger one is nearest."""
    halfway = (DRILLS["63/64"] + DRILLS["1"]) / 2
    assert drill_name(halfway).nearest == "1"
    assert drill_name(halfway - Fraction(1, 1000)).nearest == "63/64"


@pytest.mark.parametrize("edge", [1.5875, 25.4, Fraction("1.5875"), 22])
def test_the_ends_of_the_list_are_taken(edge: float | Fraction) -> None:
    """1/16 and 1 in are taken as floats too."""
    assert float(drill_name(edge).next_up_size) >= float(edge)


@pytest.mark.parametrize(
    ("size", "fit", "drill"),
    [
        (row[0], fit, drill)
        for row in cells("fraction")
        for fit, drill in zip(("close", "normal", "loose"), row[1:], strict=True)
    ],
)
def test_an_inch_clearance_hole_is_the_exact_fraction(size: str, fit: Any, drill: str) -> None:
    """The hole is the printed drill as an exact fraction, named in the sentence."""
    hole = clearance_hole(size, fit)
    assert hole.hole == Fraction(drill) * INCH
    assert hole.limit == f"ASME B18.2.8 {fit}, {drill} in"


@pytest.mark.parametrize(("size", "smallest", "largest"), cells("loose"))
def test_a_loose_hole_lies_within_the_published_limits(size: str, smallest: float, largest: float) -> None:
    """The loose drill is the smallest hole as printed, and below the largest."""
    hole = Fraction(clearance_hole(size, "loose").hole) / INCH
    assert round(hole, 3) == Fraction(str(smallest)) or abs(hole - Fraction(str(smallest))) <= Fraction(
        "0.0005"
    )
    assert hole < Fraction(str(largest))


@pytest.mark.parametrize("thread", ["M10", "M10x1.5", "m10 x 1.25", "M10×1", "M10*1.5"])
def test_a_clearance_hole_belongs_to_the_size(thread: str) -> None:
    """The pitch of a listed thread doesn't matter, and without a fit medium is taken and said."""
    hole = clearance_hole(thread)
    assert (hole.hole, hole.limit) == (11, "ISO 273 medium")
    assert hole.remarks == ("No fit was given: medium was taken.",)
    assert clearance_hole(thread, "medium") == (11, (), "ISO 273 medium")


@pytest.mark.parametrize("thread", ["1/2", '1/2"', "1/2 in", "1/2-13", "1/2-20 UNF"])
def test_an_inch_size_has_several_spellings(thread: str) -> None:
    """A size alone or any listed thread of it gives the same hole; without a fit normal is taken."""
    assert clearance_hole(thread).hole == Fraction(9, 16) * INCH
    assert "normal was taken" in clearance_hole(thread).remarks[0]


@pytest.mark.parametrize(
    ("thread", "hole"), [("M7x1", 7.6), ("M3.5x0.6", 3.9), ("M4.5x0.75", 5), ("M7.0", 7.6)]
)
def test_sizes_that_only_the_holes_have_are_taken(thread: str, hole: float) -> None:
    """M3.5, M4.5 and M7 are taken alone or with their coarse pitch."""
    assert clearance_hole(thread).hole == Fraction(str(hole))


def test_wider_fits_have_wider_holes() -> None:
    """Of every size the three holes grow with the fit and stand above the bolt."""
    for thread in (listed for listed in LISTED.values() if listed.metric):
        holes = [clearance_hole(thread.name, fit).hole for fit in ("fine", "medium", "coarse")]
        assert thread.diameter < holes[0] < holes[1] < holes[2]


@pytest.mark.parametrize(("thread", "drill"), cells("tap-inch"))
def test_an_inch_tap_drill_is_the_listed_one(thread: str, drill: str) -> None:
    """The tap drill is the size of the listed drill, named in the sentence."""
    assert tap_drill(thread) == (COPY[drill], (), f"{drill} as listed")


@pytest.mark.parametrize(("thread", "printed"), cells("tap-formula"))
def test_three_quarters_of_a_thread_lead_to_the_listed_drill(thread: str, printed: float) -> None:
    """The formula for 75 % thread gives the printed decimal, and its nearest drill is the table's."""
    size, _, count = thread.partition("-")
    formula = Fraction(size) - Fraction("0.01299") * 75 / int(count)
    assert float(formula) == pytest.approx(printed, abs=5e-5)
    assert drill_name(formula * INCH).nearest_size == tap_drill(thread).drill


@pytest.mark.parametrize("thread", [name for name, thread in LISTED.items() if thread.metric])
def test_a_metric_tap_drill_is_diameter_minus_pitch(thread: str) -> None:
    """The listed tap drills lie within 0.05 mm of diameter minus pitch; unlisted ones are that."""
    row, drill = LISTED[thread], tap_drill(thread)
    assert -Fraction("0.05") <= Fraction(drill.drill) - (row.diameter - row.pitch) <= Fraction("0.05")
    assert drill.limit in ("as listed", "diameter minus pitch")
    if drill.limit != "as listed":
        assert drill.drill == row.diameter - row.pitch


@pytest.mark.parametrize(
    ("thread", "drill", "remarked"),
    [
        ("M10", 8.5, False),
        ("m10 × 1.5", 8.5, False),
        ("M12", 10.2, True),
        ("M14x2", 12, True),
        ("M20", 17.5, False),
        ("M27x3", 24, True),
        ("M64x6", 58, True),
        ("M12x2", 10, True),
        ("M12x3", 9, True),
    ],
)
def test_a_doubtful_tap_drill_says_so(thread: str, drill: float, remarked: bool) -> None:
    """Figures from memory and threads in no table get a remark, the others none."""
    answered = tap_drill(thread)
    assert float(answered.drill) == drill
    assert bool(answered.remarks) == remarked


def test_a_tap_drill_names_its_way() -> None:
    """The sentence tells a listed drill from diameter minus pitch."""
    assert "M20: tap drill 17.5 mm, diameter minus pitch." in answer("tap-drill", {"thread": "M20"}).as_text()
    assert "1/4-20: tap drill 5.11 mm, #7 as listed." in answer("tap-drill", {"thread": "1/4-20"}).as_text()


@pytest.mark.independent("drill-speed")
@given(st.floats(1, 50), st.floats(1, 60))
def test_a_drill_turned_for_a_minute_cuts_its_speed(diameter: float, cutting_speed: float) -> None:
    """The rim's way in small chords over a minute's turns is the cutting speed."""
    chords = 10_000
    rim = 2 * complex(diameter / 2, 0) * abs(1 - pow(-1, 2 / chords)) / 2 * chords
    turns = float(drill_speed(diameter, cutting_speed).speed)
    assert abs(rim) * turns / 1000 == pytest.approx(cutting_speed, rel=1e-6)


@pytest.mark.parametrize(
    "thread", ["M11", "M27", "M36x4", "9/16", "9/16-12", "7/8", "1-8", "M10x1.4", "banana"]
)
def test_a_size_without_a_listed_hole_is_refused(thread: str) -> None:
    """Sizes outside the tables, unlisted pitches and other text are refused by the thread."""
    with pytest.raises(WorkingOutError, match=r"^thread: "):
        clearance_hole(thread)


@pytest.mark.parametrize(
    ("thread", "says"),
    [
        ("1-14", "has no tap drill in the table; accepted: 1/4-20"),
        ("9/16-12", "has no tap drill"),
        ("M27", "in none of the tables"),
        ("M10x2.6", "up to a quarter of its size"),
        ("M10x0", "up to a quarter"),
        ("M65x6", "up to M64"),
        ("#10-24", "can't be read"),
    ],
)
def test_a_thread_without_a_tap_drill_is_refused(thread: str, says: str) -> None:
    """Inch threads outside the table and metric ones that can't be are refused by the thread."""
    with pytest.raises(WorkingOutError, match=rf"^thread: .*{says}"):
        tap_drill(thread)


@pytest.mark.parametrize(("thread", "fit"), [("M10", "normal"), ("1/2-13", "medium"), ("M10", "loose")])
def test_a_fit_of_the_other_system_is_refused(thread: str, fit: Any) -> None:
    """Fits of ISO 273 belong to metric threads, those of ASME B18.2.8 to inch threads."""
    with pytest.raises(
        WorkingOutError, match=rf"^fit: {fit} isn't one of the (metric|inch) fits; accepted: "
    ):
        clearance_hole(thread, fit)
