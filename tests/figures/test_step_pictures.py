"""Bolts in their order, and where a reading lies: what is drawn follows from the numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.figures.cells import TOO_SMALL, in_cells
from jobtrack.figures.drawing import Arrow, Circle, Drawing, Label, Line
from jobtrack.pictures.tightening import tightening
from jobtrack.pictures.tolerance import Reading, Said, place
from jobtrack.pictures.vials import vial
from jobtrack.shopmath.fasteners.tightening import turning_order

COUNTS = st.integers(2, 12)
NUMBERS = st.integers(-300, 300).map(lambda tenths: tenths / 10)


FOUR = """\
Stage 2 of 3, 60 %: next 2; done 1, 3. Order 1-3-2-4. The
numbers go round clockwise; begin at any bolt.
                 .'':                  :::.
          1 done :'':'                ':.:: 2 NEXT
                  ''                    :'
                                       .:'.
                                      ' : '
                                        :
                                        :
                  ..                    :.
               4 :  '.                .:..: 3 done
                 '..:                  :..'
""".splitlines()
LEVEL = """\
Lines: the limits. Bubble to the right: more.
                          3.6 deg, within
                                 .
                                 :
                  .             ':.'     .
.''''''''''''''''':'''''''''''::::::::''':'''''''''''''''''.
:                 :          :       :   :                 :
'.................:...........::::::::...:.................'
                  '                      '
               3.2 deg   wanted 3.5   3.8 deg
""".splitlines()


def labels(drawing: Drawing) -> dict[str, Label]:
    return {shape.text: shape for shape in drawing.shapes if isinstance(shape, Label)}


def only_arrow(drawing: Drawing) -> Arrow:
    (arrow,) = [shape for shape in drawing.shapes if isinstance(shape, Arrow)]
    return arrow


# Bolts


@given(COUNTS, st.data())
def test_every_bolt_is_drawn_and_one_is_next(bolts: int, data: st.DataObject) -> None:
    """Those done bear the word, the first in the order that isn't bears NEXT, and the others their number alone."""
    done = data.draw(st.sets(st.integers(1, bolts)))
    drawing = tightening(bolts, done, "Stage 1 of 2")
    left = [bolt for bolt in turning_order(bolts) if bolt not in done]
    wanted = (
        {f"{bolt} done" for bolt in done}
        | {f"{bolt}" for bolt in left[1:]}
        | {f"{bolt} NEXT" for bolt in left[:1]}
    )
    assert set(labels(drawing)) == wanted
    assert len([one for one in drawing.shapes if isinstance(one, Line)]) == len(done)
    assert (
        f"next {left[0]}" if left and done else f"begin with {left[0]}" if left else "all"
    ) in drawing.caption


@given(st.integers(3, 12).filter(lambda bolts: bolts != 4))
def test_bolts_stand_evenly_and_clockwise_from_the_top(bolts: int) -> None:
    """The places, taken as complex numbers, are the roots of one, turned a quarter; their neighbours don't touch."""
    nuts = [one for one in tightening(bolts, range(1, bolts + 1), "Stage").shapes if isinstance(one, Circle)]
    for number, nut in enumerate(nuts):
        turn = math.degrees(math.atan2(nut.centre[0], nut.centre[1]))
        assert turn % 360 == pytest.approx(360 * number / bolts)
    assert math.dist(nuts[0].centre, nuts[1].centre) > 2 * nuts[0].radius


@given(COUNTS)
def test_the_arrow_goes_across(bolts: int) -> None:
    """From the bolt turned last to the next; with an even number it runs through the middle."""
    first, second, *_ = turning_order(bolts)
    arrow = only_arrow(tightening(bolts, {first}, "Stage"))
    ends = {bolt: tightening(bolts, (), "").shapes for bolt in (first, second)}
    nuts = [one for one in ends[first] if isinstance(one, Circle)]
    places = list(dict.fromkeys(nut.centre for nut in nuts))
    for bolt, end in ((first, arrow.start), (second, arrow.end)):
        assert min(places, key=lambda at: math.dist(at, end)) == places[bolt - 1]
    if bolts % 2 == 0:
        assert abs(arrow.start[0] * arrow.end[1] - arrow.start[1] * arrow.end[0]) < 1e-6


@pytest.mark.parametrize("bolts", range(2, 13))
@pytest.mark.parametrize("plain", [False, True])
def test_the_bolts_fit_a_small_page(bolts: int, plain: bool) -> None:
    """At 76 by 16 every bolt has its number beside it, in ASCII too."""
    lines = in_cells(tightening(bolts, {1}, "Stage 1 of 3, 30 %"), 76, 16, plain=plain)
    assert lines != [TOO_SMALL]
    assert "(1)" not in "".join(lines)


@pytest.mark.parametrize("bolts", [0, 41, 10**9])
def test_too_many_bolts_are_only_said(bolts: int) -> None:
    """No drawing, and no time spent on it."""
    assert tightening(bolts, (), "Stage 1 of 1").shapes == ()


def test_four_bolts_as_they_were_looked_at() -> None:
    """Two crosswise done, the third next."""
    assert in_cells(tightening(4, {1, 3}, "Stage 2 of 3, 60 %"), 60, 12, plain=True) == FOUR


# Where a reading lies


def reading(low: float, high: float, value: float) -> Reading:
    """Between two limits, on a scale with half as much again on either side."""
    span = high - low
    said = [Said(one, f"{one:g} deg") for one in (low, high, value)]
    return Reading(said[0], said[1], None, said[2], None, (low - span / 2, high + span / 2))


def limit_lines(drawing: Drawing) -> tuple[float, float]:
    """Where the two longest upright lines stand."""
    upright = [one for one in drawing.shapes if isinstance(one, Line) and one.start[0] == one.end[0]]
    left, right = sorted(upright, key=lambda one: -abs(one.end[1] - one.start[1]))[:2]
    return min(left.start[0], right.start[0]), max(left.start[0], right.start[0])


@pytest.mark.parametrize("draw", [vial, place])
@given(NUMBERS, st.integers(1, 100).map(lambda tenths: tenths / 10), NUMBERS)
def test_the_mark_lies_where_the_reading_does(draw: object, low: float, wide: float, value: float) -> None:
    """On the same side of each limit as the number, on a limit where it is on it, and never off the drawing."""
    assert callable(draw)
    high = low + wide
    drawing = draw(reading(low, high, value))
    at = only_arrow(drawing).end[0]
    first, last = limit_lines(drawing)
    assert (at >= first - 1e-6) == (value >= low)
    assert (at <= last + 1e-6) == (value <= high)
    assert -100 <= at <= 100


@pytest.mark.parametrize("draw", [vial, place])
def test_the_mark_moves_with_the_reading(draw: object) -> None:
    """The more, the further to the right; the middle of the tolerance in the middle."""
    assert callable(draw)
    places = [only_arrow(draw(reading(3, 4, value))).end[0] for value in (2.6, 3, 3.2, 3.5, 3.9, 4, 4.4)]
    assert places == sorted(set(places))
    assert places[3] == pytest.approx(0)


@pytest.mark.parametrize("draw", [vial, place])
def test_far_outside_is_said_to_be_beyond(draw: object) -> None:
    """The mark stays on the drawing, so the words say that the reading doesn't."""
    assert callable(draw)
    assert any("9 deg, beyond the " in text for text in labels(draw(reading(3, 4, 9))))
    assert not any("beyond" in text for text in labels(draw(reading(3, 4, 4.1))))


def test_one_limit_leaves_the_other_side_open() -> None:
    """At most: the box has no left wall."""
    drawing = place(Reading(None, Said(1.6, "at most 1.6 mm"), None, None, None, (0.0, 3.2)))
    upright = [one for one in drawing.shapes if isinstance(one, Line) and one.start[0] == one.end[0]]
    assert [one.start[0] for one in upright] == [0]


def test_a_reading_not_measured_has_no_mark() -> None:
    """Lines and limits alone, and the caption names nothing that isn't there."""
    for drawing in (
        vial(reading(3, 4, 3)._replace(measured=None)),
        place(reading(3, 4, 3)._replace(measured=None)),
    ):
        assert not [one for one in drawing.shapes if isinstance(one, Arrow)]
        assert "Arrow" not in drawing.caption
        assert "Bubble" not in drawing.caption


def test_the_doubt_is_as_long_as_it_is() -> None:
    """± 0.25 on a scale of 2 from end to end: a quarter of it, 50 of 200."""
    drawing = place(reading(3, 4, 3.5)._replace(doubt=0.25))
    flat = [one for one in drawing.shapes if isinstance(one, Line) and one.start[1] == one.end[1]]
    assert any(one.end[0] - one.start[0] == pytest.approx(50) for one in flat)


def test_a_level_as_it_was_looked_at() -> None:
    """0.1 to the right of the middle, between its lines."""
    shown = Reading(
        Said(3.2, "3.2 deg"), Said(3.8, "3.8 deg"), Said(3.5, "wanted 3.5"), Said(3.6, "3.6 deg, within")
    )
    assert in_cells(vial(shown), 60, 12, plain=True) == LEVEL
