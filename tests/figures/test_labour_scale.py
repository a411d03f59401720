"""Hours on their ruled scale: what is drawn follows from the figures."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.figures.cells import TOO_SMALL, in_cells
from jobtrack.figures.drawing import Arrow, Drawing, Label
from jobtrack.figures.ruled import step
from jobtrack.pictures.labour import LONG, NO_JOB, NO_SHOP, NO_TEMPLATE, labour_scale
from jobtrack.pictures.tolerance import Said

HOURS = st.integers(1, 10**7).map(lambda hundredths: hundredths / 100)


def said(hours: float) -> Said:
    return Said(hours, f"{hours:g} h")


def marks(drawing: Drawing) -> list[float]:
    """Where each arrow points, in the order template, shop, job as their labels name them."""
    arrows = [one for one in drawing.shapes if isinstance(one, Arrow)]
    at = {
        one.text.split()[0]: one.at
        for one in drawing.shapes
        if isinstance(one, Label) and one.side == "above"
    }
    assert {one.start for one in arrows} == set(at.values())
    return [at[name][0] for name in ("template", "shop", "this")]


@given(HOURS, HOURS, HOURS)
def test_each_mark_stands_at_its_hours(template: float, shop: float, job: float) -> None:
    """From 0 at the left end to the most at the right, in proportion."""
    longest = max(template, shop, job)
    found = marks(labour_scale(said(template), said(shop), said(job)))
    assert found == pytest.approx([one / longest * LONG for one in (template, shop, job)])


@given(HOURS)
def test_it_is_ruled_at_round_hours(longest: float) -> None:
    """1, 2 or 5 with noughts from tick to tick, in at most 8 parts, and not in fewer than it could be."""
    apart = step(longest, 8)
    assert f"{apart:e}"[0] in "125"
    assert apart * 8 >= longest * (1 - 1e-9)
    finer = {"1": 2, "2": 2, "5": 2.5}[f"{apart:e}"[0]]
    assert apart / finer * 8 < longest * (1 + 1e-9)


def test_figures_stand_at_their_ticks() -> None:
    """46.5 hours are ruled every 10, which is 21.5 of 100 on the scale."""
    drawing = labour_scale(said(46.5), None, said(31.25))
    ticks = {
        float(one.text): one.at[0] for one in drawing.shapes if isinstance(one, Label) and one.side == "below"
    }
    assert list(ticks) == [0, 10, 20, 30, 40]
    assert all(b - a == pytest.approx(1000 / 46.5) for a, b in pairwise(ticks.values()))


def test_what_isnt_known_has_no_mark_and_is_said() -> None:
    """The shop's figure where it has none, the template's, and this job's where nothing is recorded."""
    drawing = labour_scale(said(46.5), None, said(31.25))
    assert len([one for one in drawing.shapes if isinstance(one, Arrow)]) == 2
    assert NO_SHOP in drawing.caption
    assert NO_TEMPLATE not in drawing.caption
    bare = labour_scale(None, None, None)
    assert bare.shapes == ()
    assert all(words in bare.caption for words in (NO_SHOP, NO_TEMPLATE, NO_JOB))


@pytest.mark.parametrize("figures", [(46.5, 47, 46.5), (3, 40, 1000), (1, 1, 1)])
def test_it_fits_a_terminal(figures: tuple[float, float, float]) -> None:
    """Three marks at or near one place are all named."""
    drawing = labour_scale(*map(said, figures))
    lines = in_cells(drawing, 76, 16)
    assert lines != [TOO_SMALL]
    assert all(name in "\n".join(lines) for name in ("this job", "template", "shop"))
