"""The page of labour hours: the sums of `hours`, each at its place on a ruled scale."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from rich.cells import cell_len

from jobtrack.hours.labour import labour
from jobtrack.job.compose import people
from jobtrack.pages.look_up.hour_scale import BOTH, MARK, TEMPLATE, TICK, every, place, scale, scale_head
from jobtrack.pages.look_up.hours import hours_page
from jobtrack.sheets.words.hours import hours_words
from jobtrack.store.file.writer import JobFile
from tests.support.builders import Copy, clock, minutes, note, read
from tests.support.exchange import SAMPLES
from tests.support.job_fixtures import Make

HOURS = st.floats(0, 5000, allow_nan=False)
WIDTHS = st.integers(10, 200)


def text(copy: Copy, width: int = 76, by_hours: bool = False) -> str:
    return "\n".join(one.plain for one in hours_page(copy.job, width, by_hours))


@example(5e-324, 0.0, 10)
@given(HOURS, HOURS, WIDTHS)
def test_a_mark_stands_where_its_hours_are(mine: float, theirs: float, width: int) -> None:
    """Within half a cell of its share of the scale; more hours never stand further left."""
    longest = max(mine, theirs)
    drawn = scale(mine, theirs, longest, width)
    assert len(drawn) == width
    marks = [cell for cell, one in enumerate(drawn) if one in (MARK, BOTH)]
    assert len(marks) == (1 if mine else 0)
    if mine:
        assert abs(marks[0] - mine / longest * (width - 1)) <= 0.5
        template = [cell for cell, one in enumerate(drawn) if one in (TEMPLATE, BOTH)]
        assert (template[0] <= marks[0]) if theirs <= mine else (template[0] >= marks[0])


@given(st.floats(0.01, 5000), WIDTHS)
def test_a_scale_is_ruled_at_round_hours_with_room_for_their_figures(longest: float, width: int) -> None:
    """1, 2 or 5, and ten or a hundred times as many or as few; each figure begins at its tick."""
    step = every(longest, width)
    assert float(f"{step:.0e}"[0]) in (1, 2, 5)
    drawn, head = scale(0, None, longest, width), scale_head(longest, width)
    ticks = [cell for cell, one in enumerate(drawn) if one == TICK]
    assert len(ticks) == int(longest / step + 1e-9) + 1
    assert all(later - earlier >= 5 for earlier, later in pairwise(ticks))
    assert len(head) <= width
    starts = [cell for cell, one in enumerate(head) if one != " " and (cell == 0 or head[cell - 1] == " ")]
    assert set(starts) <= set(ticks)
    for cell in starts:
        assert abs(float(head[cell:].split()[0]) / longest * (width - 1) - cell) <= 0.5 + 1e-6


def test_nothing_worked_is_a_scale_without_a_mark() -> None:
    """Not one with a mark at nothing."""
    assert MARK not in scale(0, 2.0, 2.0, 20)
    assert scale(0, None, 0, 20)[0] == TICK


def test_the_figures_are_those_of_the_command(make: Make) -> None:
    """By stage, step and person: every sum that `hours` gives stands on the page."""
    job = make("half-done").job
    said = " ".join(one.plain for one in hours_page(job, 200, by_hours=False))
    for per in ("stage", "step", "person"):
        for group in labour([job], per).groups:
            assert not group.hours or hours_words(group.hours) in said
            assert group.estimated_hours is None or hours_words(group.estimated_hours) in said
    assert f"This job so far: {hours_words(labour([job], 'step').total_hours)}." in said


def worked() -> Copy:
    """Wim is an hour on one step and two on another; Ada's two and a half are typed afterwards."""
    copy = Copy()
    copy.call(None, clock("on"), at=minutes(0))
    copy.call("pin-spacing.donor", read("spacing", "1012"), at=minutes(60))
    copy.call("pin-spacing.recipient", note("seized"), at=minutes(180))
    copy.call("mark.left", lambda draft: people.worked(draft, "2.5", "Ada"), at=minutes(180))
    return copy


def test_in_the_order_of_the_work_or_the_most_hours_first() -> None:
    """The same rows, in another order."""
    by_order, by_hours = text(worked()), text(worked(), by_hours=True)
    assert sorted(by_order.splitlines()) == sorted(by_hours.splitlines())
    steps = ("Spacing of the bracket pins", "Mark the new place")
    assert [by_order.index(one) for one in steps] == sorted(by_order.index(one) for one in steps)
    rows = [row for row in by_hours[by_hours.index("step") :].splitlines() if " h " in row]
    assert ["2.5 h" in rows[0], "2 h" in rows[1], "1 h" in rows[2]] == [True] * 3


def test_running_clocks_breaks_and_what_hours_dont_say_stand_in_words() -> None:
    """Whose clock runs and how far it counts; how hours typed afterwards are counted, with the step's name."""
    copy = worked()
    assert "The clock of Wim runs; it counts to their last entry." in text(copy)
    said = " ".join(text(copy).split())
    assert (
        "2.5 h typed afterwards by Wim for Ada for 2031-04-01 are counted in Mark the new place (left)"
        in said
    )
    copy.call(None, clock("break"), at=minutes(200))
    assert "Wim is on a break" in text(copy)


def test_a_template_without_times_has_no_column_for_them() -> None:
    """And says so."""
    said = text(worked())
    assert "The template estimates no times." in said
    assert "template│" not in said.replace(" ", "")


def test_a_job_without_a_minute_recorded_has_its_page() -> None:
    """Nothing is divided by nothing."""
    assert "This job so far: 0 h." in text(Copy())


@pytest.mark.parametrize("width", [36, 76, 116, 196])
def test_the_page_fits_its_width(width: int) -> None:
    """Every row, in the finished sample too."""
    for sample in SAMPLES:
        job = JobFile(sample).job
        assert all(cell_len(one.plain) <= width for one in hours_page(job, width, by_hours=True))


def test_hours_of_a_longer_clock_lie_further_on() -> None:
    """One more hour moves the mark to the right on the same scale."""
    assert place(1, 10, 80) < place(2, 10, 80) < place(10, 10, 80) == 79
    assert minutes(60) - minutes(0) == timedelta(hours=1)
