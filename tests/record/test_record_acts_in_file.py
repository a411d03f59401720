"""Every act as it stands in the file: written and read back, and whatever else a table may hold."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from record_builders import Copy, about, minutes, surveyed
from record_histories import snapshot

from jobtrack.record.act_tables import KINDS, read_act
from jobtrack.record.blocks import scan_blocks
from jobtrack.record.blockwriting import write_entry
from jobtrack.record.clock import times, without_overlap
from jobtrack.record.effects import effects
from jobtrack.record.entries import (
    Act,
    AddedStepAct,
    AgreedAct,
    BuyingAct,
    ClockAct,
    ClosesAct,
    DueDoneAct,
    Entry,
    FinishedAct,
    GivenAct,
    HandoverAct,
    JobClosedAct,
    JobStoppedAct,
    MarkAct,
    MetAct,
    NoteAct,
    NotNeededAct,
    OpensAct,
    PartAct,
    PhotoAct,
    PlaceAct,
    Plain,
    ReadingAct,
    ReleasedAct,
    SetAsideAct,
    SettledAct,
    StandsAct,
    SwappedAct,
    TakenInAct,
    TakenOverAct,
    TickAct,
    TorqueAct,
    UndoesAct,
    UnknownAct,
    WeldAct,
    WorkedAct,
)
from jobtrack.record.job import Job

ON: dict[str, Plain] = {"mark.left.moved": 22.8, "mark.left.scribed": True, "retention": "clips"}
ACTS: tuple[Act, ...] = (
    GivenAct("step-height", 400.0, "mm", "400", replaces=("a/0",)),
    GivenAct("owner-there", False, replaces=()),
    GivenAct("retention", unknown=True),
    ReadingAct("moved", 22.8, "mm", "22.8", "rule", 0.6, replaces=("a/0", "b/1")),
    ReadingAct("plate", (8.0, 8.1), "mm", ("8", "8.1")),
    ReadingAct("tilt", None, "deg", "2..4", bound="range", low=2.0, high=4.0),
    ReadingAct("tilt", None, "deg", "seized", word="seized"),
    ReadingAct("moved", 22.8, "mm", "22.8", mistyped=True, replaces=("a/0",)),
    TickAct("scribed", False),
    NoteAct("[3/4] \x1b[31m", private=True),
    MarkAct("bolt 3, second stage"),
    MetAct("sheared", "rear spring eye bolt", "flush with the bracket"),
    MetAct("other"),
    PartAct("u-bolts", "4", "fitted"),
    BuyingAct("u-bolts", "ordered", "Harrow & Sons", "2031-04-09", "80", ("a/0",)),
    PlaceAct("shelf 2", part="u-bolts"),
    PlaceAct("van", tool="trammel"),
    TorqueAct("nuts", "2", "final", 90.0, "N*m", "90", "wrench 3"),
    WeldAct("bracket", "2", 95.0, 24.0, 3.5, "3.2 mm"),
    PhotoAct("a1.jpg", "00ff"),
    OpensAct("unread", "left"),
    ClosesAct(("a/0",)),
    ReleasedAct("mark.left", ON),
    FinishedAct(on=ON),
    NotNeededAct(because="fits", of=("a/0",)),
    StandsAct(("mark.left", "mark.right"), "seen", ON),
    SettledAct("moved", 23.0, "mm", "23", "Wim", ("a/0", "b/0")),
    SettledAct("scribed", False, of=("a/0",)),
    UndoesAct("aaaaaaaaaaaaaaaa"),
    AddedStepAct("seat", "Clean the seat", "nuts"),
    AddedStepAct("seat", "Clean the seat", before="nuts"),
    SwappedAct("mark.left", ("a/0",)),
    ClockAct("off", ("a/0",)),
    WorkedAct(2.5, "Ada", "2031-04-01"),
    AgreedAct("Ivo Hask", "brackets", "by telephone", "260"),
    HandoverAct("Ada"),
    TakenOverAct(seen=("unread.left",), reading="moved", of=("a/0",)),
    DueDoneAct("nuts"),
    JobClosedAct(differently="measure twice", tool_lacked="trammel", broke="a disc", of=("00ff",)),
    JobStoppedAct(because="sold", of=("00ff",)),
    TakenInAct(of=("00ff",)),
    SetAsideAct(of=("00ff",)),
)


def test_every_kind_is_among_the_examples() -> None:
    """No kind of act is left out below."""
    assert {type(act) for act in ACTS} == set(KINDS.values())


@pytest.mark.parametrize("act", ACTS, ids=lambda act: act.kind)
def test_an_act_comes_back_as_it_was_written(act: Act) -> None:
    """What an act says is the same after it was written into a block and read."""
    entry = Entry("aaaaaaaaaaaaaaaa", 1, minutes(0), "Wim", (act,), (about().hash,), step="mark.left")
    data, written = write_entry(entry)
    [block] = scan_blocks(data, 1)
    assert block.entry == replace(entry, hash=written)


@pytest.mark.parametrize(
    "table",
    [
        {"reading": "moved", "value": 10**400},
        {"reading": "moved", "value": [1.0, 10**400]},
        {"reading": "moved", "value": [float("nan")]},
        {"reading": "moved", "value": [True]},
        {"finished": True, "on": {"a": 10**400}},
        {"finished": True, "on": {"a": [1]}},
        {"worked": "two"},
        {"note": 5},
        {"reading": "moved", "replaces": [["a"]]},
        {"tick": "scribed"},
    ],
)
def test_what_no_act_can_hold_is_kept_word_for_word(table: dict[str, Any]) -> None:
    """A number beyond bounds, a wrong kind or a missing key makes an unknown act that says what it says."""
    act = read_act(table)
    assert isinstance(act, UnknownAct)
    assert act.as_dict() == table


names = st.sampled_from(
    ["moved", "scribed", "spacing", "plate", "gap", "height", "step-height", "retention", "unread", "tacked",
     "mark.left", "mark.right", "height", "nuts", "on", "off", "over", "range", "about", "left", "mm", "1/3 in", ""]
)  # fmt: skip
plain = st.one_of(
    names,
    st.booleans(),
    st.floats(-1e6, 1e6),
    st.sampled_from([0, -1, 10**18, 1e308, -1e308, 5e-324, 10**400]),
)
values = st.one_of(plain, st.lists(plain, max_size=3), st.dictionaries(names, plain, max_size=3))
keys = sorted({*KINDS} | {key for act in ACTS for key in act.as_dict()})
tables = st.builds(
    lambda act, more: act.as_dict() | more,
    st.sampled_from(ACTS),
    st.dictionaries(st.sampled_from(keys), values, max_size=2),
)


@settings(
    max_examples=300,
    derandomize=True,
    database=None,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
@given(st.lists(tables, min_size=1, max_size=4), st.sampled_from(["mark.left", "height", "nowhere", None]))
def test_any_acts_leave_every_question_an_answer(acts: list[dict[str, Any]], step: str | None) -> None:
    """However odd the values of the acts, the job can be asked for all of its outcome, hours and effects."""
    copy = with_odd_act(acts, step)
    before = surveyed().job
    assert snapshot(copy.job)["order"]
    assert isinstance(effects(before, copy.job), list)
    assert all(one.hours > 0 for one in without_overlap(times(copy.job).stretches))


def with_odd_act(acts: list[dict[str, Any]], step: str | None) -> Copy:
    """The surveyed job with an entry of these tables, as if it had come in from another copy."""
    copy = surveyed()
    did = tuple(read_act(table) for table in acts)
    entry = Entry("aaaaaaaaaaaaaaaa", 3, minutes(9), "Wim", did, copy.job.view.loose_ends, "odd", step)
    return Copy(Job.fold(about(), (*copy.entries, entry)))
