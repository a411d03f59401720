"""`record`: holds, disagreements, people, time and the end of a job."""

from __future__ import annotations

import json
import re
from datetime import datetime, timedelta
from typing import Any

import pytest

from jobtrack.store.file import disk
from tests.support.cli_calls import Shop, entries, name, step

DONOR, RECIPIENT, LEFT = "spacing.donor", "spacing.recipient", "plate.left"


def test_a_hold_is_released_on_what_counted(shop: Shop) -> None:
    """A release holds the values of its step then, those of the same call too, wherever it was typed."""
    _survey(shop)
    acts = shop.record(LEFT, "--release-hold", "--reading", "moved=23.5", "--tick", "scribed=yes", by="Ada")
    assert [next(iter(one)) for one in acts] == ["reading", "tick", "released"]
    assert acts[2]["released"] == LEFT
    assert acts[2]["on"][f"{LEFT}.moved"] == 23.5
    assert acts[2]["on"][f"{LEFT}.moved.target"] == 23.5


@pytest.mark.parametrize(
    ("options", "because"),
    [
        (["--not-needed=no paint"], "no paint"),
        (["--not-needed", "--because", "no paint"], "no paint"),
        (["--not-needed"], None),
    ],
)
def test_a_step_that_is_not_needed_says_why(shop: Shop, options: list[str], because: str | None) -> None:
    """The reason stands behind the option, behind `--because`, or nowhere."""
    [act] = shop.record(LEFT, *options)
    assert act.get("because") == because
    assert act["not_needed"] is True


def test_a_step_stands_after_a_change(shop: Shop) -> None:
    """Unsettled by a value taken again, said so, and looked at again with a reason."""
    _survey(shop)
    shop.record(LEFT, "--reading", "moved=22.8", "--finished")
    ended = shop.done("record", shop.job, DONOR, "--by", "Wim", "--reading", "holes=1014", "--finished")
    assert f"{LEFT}: look again: " in ended.out
    [act] = shop.record(LEFT, "--stands=slack in the plate takes it")
    assert (act["stands"], act["because"]) == ([LEFT], "slack in the plate takes it")
    assert act["on"][f"{LEFT}.moved"] == 22.8
    assert step(_state(shop), LEFT)["state"] == "finished"


def test_a_disagreement_is_settled(shop: Shop) -> None:
    """Two copies measured apart and merged disagree; settled by a value or by whose, both stay to be seen."""
    other = shop.folder / "stick.job.toml"
    other.write_bytes(shop.job.read_bytes())
    shop.done("record", other, DONOR, "--by", "Ada", "--reading", "holes=1013")
    shop.record(DONOR, "--reading", "holes=1012")
    shop.done("merge", shop.job, other, "--out", "both.job.toml")
    shop.job = shop.folder / "both.job.toml"
    assert step(_state(shop), DONOR)["readings"]["holes"]["value"] is None
    [act] = shop.record(DONOR, "--settle", "holes=1013", "--also", "whose=Ada")
    assert (act["settled"], act["value"], act["whose"]) == ("holes", 1013.0, "Ada")
    assert sorted(act["of"]) == sorted(f"{one['id']}/0" for one in entries(shop.job)[1:3])
    reading = step(_state(shop), DONOR)["readings"]["holes"]
    assert reading["value"] == 1013.0
    assert {one["value"] for one in reading["others"]} == {1012.0, 1013.0}


def test_sides_that_were_confused_are_swapped(shop: Shop) -> None:
    """The readings of both sides change places, each named."""
    shop.record(LEFT, "--reading", "moved=20")
    shop.record("plate.right", "--reading", "moved=30")
    [act] = shop.record(LEFT, "--swap")
    assert act == {"swapped": LEFT, "of": [name(shop.job, 0, -3), name(shop.job, 0, -2)]}
    assert [step(_state(shop), one)["readings"]["moved"]["value"] for one in (LEFT, "plate.right")] == [
        30.0,
        20.0,
    ]


def test_undo_takes_back_ones_own_last_entry(shop: Shop) -> None:
    """Another person's entry behind it is left alone."""
    shop.record(DONOR, "--reading", "holes=1012")
    mine = entries(shop.job)[-1]["id"]
    shop.record(DONOR, "--note", "Seen.", by="Ada")
    assert shop.record("--undo") == [{"undoes": mine}]
    assert step(_state(shop), DONOR)["readings"]["holes"]["value"] is None


def test_undo_of_something_unsafe_says_that_it_stays_open(shop: Shop) -> None:
    """In doubt the open side wins: the opening is undone, the condition stands, and the answer says so."""
    shop.record("--opens", "jack leaks")
    said = shop.done("record", shop.job, "--by", "Wim", "--undo").out
    assert "What it opened stays open until somebody closes it by name." in said
    assert "jack leaks" in shop.done("show", shop.job).out
    shop.record("--mark", "second hole")
    assert "stays open" not in shop.done("record", shop.job, "--by", "Wim", "--undo").out


def test_undo_goes_back_and_says_what_it_took(shop: Shop) -> None:
    """Again goes one further; by its id an undo is undone, and each answer says so in words."""
    shop.record(DONOR, "--reading", "holes=1012", "--at", "2031-04-02T09:41:07+01:00")
    shop.record("--mark", "second hole")
    undo = ("record", shop.job, "--by", "Wim", "--undo")
    assert "Undone: job: at second hole (" in shop.done(*undo).out
    ended = shop.done(*undo)
    assert f"Undone: {DONOR}: holes 1012 (09:41).\n" in ended.out
    last = entries(shop.job)[-1]["id"]
    assert f"--undo={last} brings it back." in ended.out
    assert step(_state(shop), DONOR)["readings"]["holes"]["value"] is None
    shop.record(f"--undo={last}")
    assert step(_state(shop), DONOR)["readings"]["holes"]["value"] == 1012.0


def test_a_step_can_be_added(shop: Shop) -> None:
    """A step that the template doesn't have is a step like others from then on."""
    acts = shop.record("--add-step", "drill-out=Drill out the sheared bolt", "--also", "after=tack")
    assert acts == [
        {"step": "drill-out", "title": "Drill out the sheared bolt", "after": "tack", "added_step": True}
    ]
    shop.record("drill-out", "--note", "6.8 mm.", "--finished")
    assert step(_state(shop), "drill-out")["state"] == "finished"


def test_a_step_can_be_added_before_another(shop: Shop) -> None:
    """It stands there in the order, and the one behind it waits for it."""
    _survey(shop)
    [act] = shop.record("--add-step", "drill-out=Drill out the bolt", "--also", f"before={LEFT}")
    assert act == {"step": "drill-out", "title": "Drill out the bolt", "before": LEFT, "added_step": True}
    state = _state(shop)
    order = [one["id"] for one in state["steps"]]
    assert order.index("drill-out") + 1 == order.index(LEFT)
    assert state["next_steps"] == ["drill-out", "plate.right"]


def test_finishing_twice_is_finishing_once(shop: Shop) -> None:
    """Nothing is written, the answer says by whom and when, and it is no mistake."""
    shop.record(DONOR, "--reading", "holes=1012", "--finished", "--at", "2031-04-02T09:41:07+01:00")
    before = shop.job.read_bytes()
    ended = shop.done("record", shop.job, DONOR, "--by", "Wim", "--finished")
    assert ended.out == f"{DONOR} is finished already, by Wim at 2031-04-02 09:41; nothing was written.\n"
    assert (ended.err, shop.job.read_bytes()) == ("", before)


def test_a_finishing_that_waits_is_written_by_the_second_call(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the first didn't reach the file: kept, exit 3; the second says so while it doesn't, then writes it."""
    finish = ("record", shop.job, DONOR, "--by", "Wim", "--finished")
    with disk.locked(shop.job), monkeypatch.context() as soon:
        soon.setattr(disk, "LOCK_WAIT", 0.05)
        assert [shop.run(*finish).status for _ in range(2)] == [3, 3]
    ended = shop.done(*finish)
    assert ended.out.startswith("Recorded now what had waited: 1 entry.\n")
    assert ended.out.endswith("nothing was written.\n")
    assert [len(one["did"]) for one in entries(shop.job)[1:]] == [1]


def test_finishing_says_what_is_left(shop: Shop) -> None:
    """Nothing measured, a check no, the hold unreleased: finished all the same, with each of them said."""
    _survey(shop)
    ended = shop.done("record", shop.job, LEFT, "--by", "Wim", "--tick", "scribed=no", "--finished")
    said = ended.out.splitlines()
    where = said.index(f"{LEFT} is finished with this open:")
    assert said[where + 1 : where + 5] == [
        "  - moved: no reading",
        "  - thick: no reading",
        "  - Scribed line past the old and the new place? no",
        "  - hold not released: Side and figure read back aloud?",
    ]
    assert step(_state(shop), LEFT)["state"] == "finished"


def test_finishing_with_nothing_left_says_no_more(shop: Shop) -> None:
    """A step whose readings are all there is finished without a list."""
    ended = shop.done("record", shop.job, DONOR, "--by", "Wim", "--reading", "holes=1012", "--finished")
    assert "open:" not in ended.out


def test_the_answer_says_what_was_recorded_and_where_it_lies(shop: Shop) -> None:
    """Name and value as typed; a reading outside its limits isn't answered like a good one."""
    _survey(shop)
    record = ("record", shop.job, LEFT, "--by", "Wim", "--at", "2031-04-02T09:41:07+01:00")
    good = shop.done(*record, "--reading", "moved=23.4 mm", "--tick", "scribed=yes").out.splitlines()
    assert good[0] == f"Recorded in {LEFT} by Wim, 2031-04-02 09:41."
    assert re.fullmatch(verdict("  moved 23.4 mm. Within the limits given"), good[1])
    assert good[2] == "  scribed yes"
    bad = shop.done(*record, "--reading", "moved=9999999").out.splitlines()
    assert re.fullmatch(verdict("  moved 9999999. Outside"), bad[1])


def verdict(words: str) -> str:
    """The line, its limit worked out from what Wim typed for both vehicles today."""
    typed = [
        f"“holes, Spacing of the holes ({vehicle})”, typed by Wim, WHEN" for vehicle in ("donor", "recipient")
    ]
    source = "plane geometry, arithmetic only: no publication gives such figures"
    whose = f"limit worked out by perch-shift ({source}) from {typed[0]}, and from {typed[1]}"
    return re.escape(f"{words}: 23.5 \u00b1 1 mm ({whose}).").replace("WHEN", r"\d+ \w+ \d\d:\d\d")


def test_a_private_note_is_answered_without_its_words(shop: Shop) -> None:
    """What stays off the sheets stays off the terminal's history, too."""
    ended = shop.done("record", shop.job, "--by", "Wim", "--private-note", "He owes me.")
    assert "a private note" in ended.out
    assert "owes" not in ended.out


def test_the_clock_names_its_on(shop: Shop) -> None:
    """Off and break name the on that they end."""
    shop.record("--clock", "on")
    on = name(shop.job, 0)
    assert shop.record("--clock", "break") == [{"clock": "break", "of": [on]}]
    assert shop.record("--clock", "off") == [{"clock": "off", "of": [on]}]


def test_a_job_is_taken_over_with_what_is_open(shop: Shop) -> None:
    """Taking over names the handover, all that was seen open, and the reading taken again."""
    shop.record(DONOR, "--reading", "holes=1012")
    shop.done("handover", shop.job, "--by", "Wim", "--to", "Ada")
    handover = name(shop.job, 0)
    *_, act = shop.record(DONOR, "--take-over", "--reading", "holes=1012.5", by="Ada")
    assert act == {"taken_over": True, "seen": ["ask-first"], "reading": "holes", "of": [handover]}


def test_an_altered_entry_is_taken_in(shop: Shop) -> None:
    """The acts typed again beside the altered block's hash as written; it is no open condition any more."""
    shop.record(DONOR, "--reading", "holes=1012")
    lost = entries(shop.job)[-1]["hash"]
    shop.job.write_bytes(shop.job.read_bytes().replace(b"value = 1012.0", b"value = 1013.0"))
    assert any("can't be read" in one["text"] for one in _state(shop)["open_conditions"])
    acts = shop.record(DONOR, "--take-in", lost, "--reading", "holes=1012")
    assert acts[0] == {"taken_in": True, "of": [lost]}
    assert not any("can't be read" in one["text"] for one in _state(shop)["open_conditions"])


def test_a_job_is_closed_with_its_answers(shop: Shop) -> None:
    """Closed when all is settled, with what was learnt, and what passes on to afterwards is due."""
    _finish_all(shop)
    [act] = shop.record("--close-job", "--also", "differently=plate first",
                        "--also", "tool_lacked=step drill",
                        "--also", "broke=two bits")  # fmt: skip
    assert (act["job_closed"], act["differently"], act["tool_lacked"], act["broke"]) == (
        True, "plate first", "step drill", "two bits")  # fmt: skip
    state = _state(shop)
    assert (state["job"]["ended"], state["open_conditions"]) == ("closed", [])
    assert state["due_afterwards"] == [{"id": "nuts", "text": "80 km Nuts again", "done": False}]


def test_a_job_can_be_stopped_at_any_time(shop: Shop) -> None:
    """Stopped with a reason, and what was open stays open."""
    [act] = shop.record("--stop-job=owner sold it")
    assert (act["job_stopped"], act["because"]) == (True, "owner sold it")
    state = _state(shop)
    assert state["job"]["ended"] == "stopped"
    assert [one["id"] for one in state["open_conditions"]] == ["ask-first"]


def test_when_it_was_done_and_when_it_was_typed(shop: Shop) -> None:
    """`--at` with an offset is taken as it is; what was typed later says so."""
    shop.record("--note", "Yesterday's.", "--at", "2021-04-02T09:41:07+02:00")
    entry = entries(shop.job)[-1]
    assert entry["at"].isoformat() == "2021-04-02T09:41:07+02:00"
    assert entry["typed_at"] - entry["at"] > timedelta(days=365)


def test_a_time_without_offset_is_local_and_said(shop: Shop) -> None:
    """No offset: local time, with one line that says what was taken."""
    ended = shop.done("record", shop.job, "--by", "Wim", "--note", "x", "--at", "2021-04-02T09:41:07")
    at = entries(shop.job)[-1]["at"]
    assert at.replace(tzinfo=None) == datetime(2021, 4, 2, 9, 41, 7)
    assert at.tzinfo is not None
    assert (
        ended.err.splitlines()[0]
        == f"--at 2021-04-02T09:41:07 has no offset from UTC; taken as local time, {at.isoformat()}"
    )


def test_a_likely_slip_is_asked_about_and_recorded(shop: Shop) -> None:
    """38 in a millimetre box: recorded as typed, and questioned on stderr."""
    ended = shop.done("record", shop.job, DONOR, "--by", "Wim", "--reading", "holes=37 15/16")
    assert "holes: " in ended.err
    assert "--undo takes it back" in ended.err
    assert entries(shop.job)[-1]["did"][0]["typed"] == "37 15/16"


def test_recording_is_never_stopped_by_the_order(shop: Shop) -> None:
    """A reading before its turn, outside its limits, after the job is stopped: recorded, and said."""
    _survey(shop)
    shop.record("--stop-job=owner sold it")
    shop.record(LEFT, "--reading", "moved=99")
    assert any("outside" in one for one in step(_state(shop), LEFT)["problems"])


def test_what_it_changed_elsewhere_is_said(shop: Shop) -> None:
    """A target that moved under a reading still within it unsettles nothing, in one line."""
    _survey(shop)
    shop.record(LEFT, "--reading", "moved=23.4", "--finished")
    ended = shop.done("record", shop.job, DONOR, "--by", "Wim", "--reading", "holes=1012.4", "--finished")
    lines = [line for line in ended.out.splitlines() if "unsettles nothing" in line]
    assert lines == [
        f"{LEFT}: the target of moved is now 23.7 mm; 23.4 mm is within it, so this unsettles nothing"
    ]


def _survey(shop: Shop) -> None:
    shop.record(DONOR, "--reading", "holes=1012", "--finished")
    shop.record(RECIPIENT, "--reading", "holes=965", "--finished")


def _finish_all(shop: Shop) -> None:
    shop.record("--closes", "ask-first")
    for one in (DONOR, RECIPIENT, LEFT, "plate.right", "tack", "nuts"):
        shop.record(one, "--finished")


def _state(shop: Shop) -> Any:
    return json.loads(shop.done("show", shop.job, "--json").out)
