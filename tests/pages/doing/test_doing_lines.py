"""Torque lines and welds on the page of their step, also where a file holds what nobody could type."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from jobtrack.job.acts.doing import TorqueAct, WeldAct
from jobtrack.job.compose import steps, values
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN
from jobtrack.pages.doing.lines import doing_lines
from jobtrack.pages.doing.typed_bolts import turned
from jobtrack.pages.step.items import items
from jobtrack.pages.step.page import step_page
from jobtrack.sheets.words.doing.bolts import counted
from tests.job.doing.rig import STEP, UBOLTS, rig, turn
from tests.support.invented_jobs import ODD


def test_only_what_is_chosen_or_recorded_takes_room() -> None:
    """A line that nothing is recorded of stands in words alone; the chosen one has its table."""
    copy = rig()
    here = copy.job.steps[STEP]
    assert not any("│" in one.plain for one in doing_lines(copy.job, here, 76, None))
    chosen = next(one for one in items(copy.job, here) if one.name == "studs")
    assert sum("bolts in turn" in one.plain for one in doing_lines(copy.job, here, 76, chosen)) == 1
    copy.call(STEP, lambda draft: turned(draft, "asked"))
    assert sum("bolts in turn" in one.plain for one in doing_lines(copy.job, here, 76, chosen)) == 2


@pytest.mark.parametrize("name", ["9" * 5000, "-1", "", "²", "٣", ODD, "a" * 500, "1.2"])
def test_what_a_strangers_file_holds_is_shown(name: str) -> None:
    """Bolts, stages and runs by any name: nothing fails, nothing is wider than the page, and bolt 1 is asked still."""
    copy = rig()
    copy.call(
        STEP,
        lambda draft: draft.add(TorqueAct("ubolts", name or None, "snug")),
        lambda draft: draft.add(TorqueAct("ubolts", "2", name)),
        lambda draft: draft.add(TorqueAct("nowhere", name, name)),
        lambda draft: draft.add(WeldAct("pad", name, 1e300, rod=name)),
        lambda draft: draft.add(WeldAct("nowhere", name)),
    )
    here = copy.job.steps[STEP]
    for width in (20, 76):
        page = step_page(copy.job, here, width, items(copy.job, here)[-1], whole=False)
        assert all(cell_len(one.plain) <= max(width, 34) for one in page)
        assert not any("\x1b" in one.plain for one in page)
    asked = next(one.label for one in items(copy.job, here) if one.name == "ubolts")
    assert asked.startswith("ubolts: bolt 1 of ")


def test_another_figure_unsettles_a_finished_step() -> None:
    """What was tightened to the supplier's figure is to be looked at again when that is another one."""
    copy = rig()
    copy.call(UBOLTS, lambda draft: values.given(draft, "u-bolt-figure", "110"))
    copy.call(UBOLTS, *turn((None, "final")), steps.finished)
    assert copy.job.state(UBOLTS) == FINISHED
    copy.call(None, lambda draft: values.given(draft, "u-bolt-figure", "95"))
    assert copy.job.state(UBOLTS) == LOOK_AGAIN


def test_many_bolts_are_counted_in_words() -> None:
    """In the order of their numbers, a row of them by its ends."""
    assert counted("bolt", ["3"]) == "bolt 3"
    assert counted("bolt", ["3", "1"]) == "bolts 1 and 3"
    assert counted("bolt", ["1", "6", "3", "5", "4", "2"]) == "bolts 1 to 6"
    assert counted("bolt", ["2", "1", "front"]) == "bolts 1, 2 and front"


def test_a_line_with_a_huge_number_of_bolts_stays_small() -> None:
    """A file may claim any number."""
    from jobtrack.job.doing.tightening import MOST, counted

    assert counted(10**12) == counted(MOST) == MOST
    assert counted(0) == counted(-5) == 1
    assert counted(4) == 4
