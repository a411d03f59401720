"""What is asked of a weld, the pause before its next run, and what can be typed of a run."""

from __future__ import annotations

from datetime import timedelta

import pytest

from jobtrack.job.acts.doing import WeldAct
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.doing.runs import (
    Run,
    asked_lines,
    asked_words,
    echo_words,
    pause_words,
    rod_offered,
    run_lines,
    typed_run,
    welded,
    welded_words,
)
from jobtrack.units import UnitError
from tests.job.doing.rig import STEP, rig
from tests.support.builders import Copy, note


def weld(copy: Copy, text: str = "") -> str:
    """One call, and what is said of it."""
    act = copy.call(STEP, lambda draft: welded(draft, "pad", text)).did[-1]
    assert isinstance(act, WeldAct)
    return welded_words(copy.job, copy.job.steps[STEP], act)


def test_run_by_run() -> None:
    """The current, the rod once, and that nothing is left."""
    copy = rig()
    here = copy.job.steps[STEP]
    assert asked_words(copy.job, here, "pad") == "run 1 of 3"
    assert asked_lines(copy.job, here, "pad", 60)[-1].plain == "R U N   1   O F   3, amps? (A)"
    assert rod_offered(copy.job, here, "pad") == "2.5 mm"
    assert weld(copy, "95 A, rod 2.5 mm, oven dry") == "run 1 of 3: 95 A, rod 2.5 mm, oven dry."
    assert rod_offered(copy.job, here, "pad") is None
    assert weld(copy, "100") == "run 2 of 3: 100 A, rod 2.5 mm, oven dry."
    assert weld(copy) == "run 3 of 3: rod 2.5 mm, oven dry. Every run is recorded."
    assert asked_words(copy.job, here, "pad") == "pad: every run is recorded"
    with pytest.raises(Refused, match="every run is recorded; name one more: run 4"):
        weld(copy)
    assert weld(copy, "run 4 90").startswith("run 4 of 4: 90 A")
    [said] = {" ".join(one.plain for one in run_lines(copy.job, here, "pad", 200))}
    assert said.startswith("run 1: 95 A, rod 2.5 mm, oven dry; run 2: 100 A")


def test_the_pause_says_what_the_template_asks_and_never_that_it_may_go_on() -> None:
    """The rule as it stands, and how long ago the last run was recorded."""
    copy = rig()
    here, rule = copy.job.steps[STEP], "Before the next run the template asks: hand-warm."
    entry = copy.call(STEP, lambda draft: welded(draft, "pad", "95"))
    for later, ago in (
        (timedelta(seconds=20), "just now"),
        (timedelta(minutes=4, seconds=50), "4 min ago"),
        (timedelta(hours=2, minutes=5), "2 h 5 min ago"),
        (timedelta(days=2), "on 1 April at 08:00"),
        (-timedelta(minutes=3), "on 1 April at 08:00"),
    ):
        assert pause_words(copy.job, here, "pad", entry.at + later) == f"{rule} Run 1 recorded {ago}."
    copy.call(STEP, lambda draft: welded(draft, "pad"), lambda draft: welded(draft, "pad"))
    assert pause_words(copy.job, here, "pad", entry.at) == ""


def test_no_pause_before_the_first_run() -> None:
    """Nothing was welded yet."""
    copy = rig()
    at = copy.call(STEP, note()).at
    assert pause_words(copy.job, copy.job.steps[STEP], "pad", at) == ""


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("95", Run("", "95", "")),
        ("95 A", Run("", "95 A", "")),
        ("95, rod 2.5 mm", Run("", "95", "2.5 mm")),
        ("95 rod 2.5 mm, oven dry", Run("", "95", "2.5 mm, oven dry")),
        ("rod E7018", Run("", "", "E7018")),
        ("run 2 95", Run("2", "95", "")),
        ("run 2: 95 rod x", Run("2", "95", "x")),
        ("", Run("", "", "")),
    ],
)
def test_what_can_be_typed(text: str, meant: Run) -> None:
    """The current, and words for the rod and for another run."""
    assert typed_run(text) == meant


def test_it_is_shown_back_and_refused() -> None:
    """As it would be recorded."""
    copy = rig()
    here = copy.job.steps[STEP]
    assert echo_words(copy.job, here, "pad", "95 rod 2.5 mm") == "= run 1 of 3: 95 A, rod 2.5 mm"
    for text in ("95 mm", "many", "~95 V"):
        with pytest.raises((Refused, UnitError)):
            weld(copy, text)
    assert not copy.entries
