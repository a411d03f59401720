"""What somebody who knows nothing of the job but the sheet has to find on it: where the other one stopped, how the
wrench is set, what was written beside a reading that is outside, and what isn't as fresh as it looks.
"""

from __future__ import annotations

from typing import Any

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.acts.said import MarkAct
from jobtrack.job.compose.draft import Draft
from jobtrack.sheets.paper.blocks import Picture, Table
from jobtrack.store.file.writer import JobFile
from tests.job.doing.test_can_be_done import copy_of
from tests.support.builders import Copy, Do, finish, given, note, opens, read, release, surveyed, tick
from tests.support.exchange import HALF_DONE
from tests.support.handed import handed, section, sheet_of, unescaped

OPEN = "Recorded as open, right now"
INSIDE = "Where inside"
NEXT = "What can be begun next"
OUTSIDE = "Readings outside, disagreements, what to look at again"
BESIDES = "What else was recorded"
BOLTS = "Fasteners, bolt by bolt"
TOGETHER = "Walk round it together"


def rows(copy: Copy, title: str) -> list[str]:
    return section(unescaped(handed(copy.job)), title)


def mark(text: str) -> Do:
    def do(draft: Draft) -> None:
        draft.add(MarkAct(text))

    return do


def turn(bolt: str, stage: str) -> Do:
    def do(draft: Draft) -> None:
        draft.add(TorqueAct("nuts", bolt, stage))

    return do


def wheel() -> Copy:
    """A step with four nuts to be turned in three stages to a figure that is known; it leaves a re-check behind."""
    nuts: dict[str, Any] = {
        "torque": {"nuts": {"figure": {"value": "129 N*m", "source": "a paper"}, "bolts": 4, "stages": [30, 60, 100]}},
        "reading": {"thread": {"unit": "mm", "say": "Thread beyond"}, "setting": {"unit": "N*m", "say": "Wrench set"}},
        "opens": ["again", "loose"],
    }  # fmt: skip
    conditions = {
        "again": {"text": "To be tightened again", "tag": "RE-CHECK"},
        "loose": {"text": "Nuts snug only", "tag": "NUTS SNUG"},
    }
    return copy_of({"nuts": nuts, "drive": {"not_while": ["loose"]}}, condition=conditions)


def test_what_was_done_after_a_mark_stands_beside_it() -> None:
    """A mark grows old: what was recorded later in the step, by whom and when."""
    copy = wheel()
    copy.call("nuts", turn("1", "2"), mark("1 done, 3 is next"))
    [where] = [row for row in rows(copy, INSIDE) if row.startswith("Stopped at: ")]
    assert "Recorded after that" not in where
    copy.call("nuts", turn("3", "2"), by="Ada")
    [where] = [row for row in rows(copy, INSIDE) if row.startswith("Stopped at: 1 done, 3 is next (Wim, ")]
    assert " Recorded after that: torque nuts: bolt 3, stage 2 (Ada, " in where


def test_where_it_stopped_with_nothing_in_hand() -> None:
    """The step that was finished last."""
    [said] = rows(surveyed(), INSIDE)
    assert "Finished last: Spacing of the bracket pins (" in said


def test_each_stage_says_how_the_wrench_is_set() -> None:
    """30 and 60 % of 129 N·m in both units; the order stands beside the table while a bolt is left."""
    copy = wheel()
    copy.call("nuts", turn("1", "2"), turn("3", "2"), turn("2", "1"), turn("4", "1"))
    said = "Wrench, stage 1: 39 N·m = 29 lbf ft; stage 2: 77 N·m = 57 lbf ft; stage 3: 129 N·m = 95 lbf ft."
    assert said in rows(copy, BOLTS)
    [bolts] = [one for one in sheet_of(copy.job).sections if one.title == BOLTS]
    _, _, table, picture = bolts.sections[0].blocks
    assert isinstance(table, Table)
    assert isinstance(picture, Picture)
    assert picture.look == "small"
    assert "next 2; done 1, 3. Order 1-3-2-4." in (picture.drawing.caption or "")


def test_what_no_step_waits_for_stands_behind_what_stops_one() -> None:
    """A re-check after kilometres isn't the worst; somebody's own words stay in front."""
    copy = wheel()
    copy.call("nuts", turn("1", "1"))
    copy.call(None, opens("Brake fluid drips"))
    said = [row.split(" | ")[0] for row in rows(copy, OPEN)[2:]]
    assert said == [
        "| Brake fluid drips.",
        "| NUTS SNUG: Nuts snug only.",
        "| RE-CHECK: To be tightened again.",
    ]
    assert any("“Brake fluid drips” and “NUTS SNUG” stand first" in row for row in rows(copy, TOGETHER))


def test_a_setting_of_the_wrench_is_no_reading_to_take_again() -> None:
    """It is what somebody chose; the last thing that was measured is asked for."""
    copy = wheel()
    copy.call("nuts", read("thread", "12"))
    copy.call("nuts", read("setting", "77"))
    again = " ".join(rows(copy, TOGETHER))
    assert "The last one recorded: Thread beyond, “Nuts”: 12 mm" in again


def test_a_reading_outside_keeps_nobody_going_on() -> None:
    """The step is begun, and isn't called one to go on with; its notes stand first of its rows."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "40"), note("chalk, not punched"))
    begun = "- Begun already; a reading in it stands among the don'ts: Mark the new place (left)."
    assert begun in rows(copy, NEXT)
    assert not [row for row in rows(copy, NEXT) if "to go on with" in row]
    first = next(row for row in rows(copy, INSIDE) if row.startswith("- "))
    assert first.startswith("- Note: chalk, not punched (Wim, ")


def test_what_was_written_beside_a_reading_outside_stands_with_it() -> None:
    """Once the step is finished: why it was left so is for whoever goes by the reading; nowhere twice."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "40"), tick("scribed"), note("Nell: goes in"), finish)
    assert any(
        row.startswith("- Mark the new place (left): Note: Nell: goes in (Wim, ")
        for row in rows(copy, OUTSIDE)
    )
    assert handed(copy.job).count("goes in") == 1
    assert not [row for row in rows(copy, BESIDES) if "goes in" in row]


def test_what_is_not_known_yet_stands_with_what_comes_next() -> None:
    """Somebody has to be asked for it before it is wanted."""
    copy = surveyed()
    copy.call(None, given("step-height", "?"))
    assert "- Not known yet: Height of the step above the ground." in rows(copy, NEXT)


def test_the_last_sparks_say_whether_their_watch_was_closed() -> None:
    """By whom and when: or somebody would go and watch, or believe that somebody did."""
    *_, last = section(unescaped(handed(JobFile(HALF_DONE).job)), "Don't")
    assert last.endswith("; closed since then: FIRE WATCH (left) (Teo Banfield, 15 May 16:04).")


def test_a_hold_seen_by_nobody_else_and_who_released_the_others() -> None:
    """The first stands with what is against the work; the names tell whom to ask."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "22.8"), tick("scribed"), finish)
    copy.call("mark.left", release)
    said = "hold released by the one who finished the step: not seen by a second person"
    assert f"- Mark the new place (left): {said}" in rows(copy, OUTSIDE)
    assert unescaped(handed(copy.job)).count(said) == 1
    assert "- Holds so far released by Wim (1), as typed" in rows(
        copy, "Who decides, what was promised, what didn't work"
    )
