"""Every act as it stands in the file: written and read back, and whatever else a table may hold."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.base import Act, UnknownAct, replace
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.state.job import Job
from jobtrack.job.time.clock import times, without_overlap
from jobtrack.sheets.words.doing.effects import effect_lines
from jobtrack.store.text.acts import read_act
from jobtrack.store.text.blocks import scan_blocks
from jobtrack.store.text.writing import write_entry
from tests.support.builders import Copy, about, minutes, surveyed
from tests.support.example_acts import ACTS
from tests.support.histories import snapshot


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
    assert isinstance(effect_lines(before, copy.job), list)
    assert all(one.hours > 0 for one in without_overlap(times(copy.job).stretches))


def with_odd_act(acts: list[dict[str, Any]], step: str | None) -> Copy:
    """The surveyed job with an entry of these tables, as if it had come in from another copy."""
    copy = surveyed()
    did = tuple(read_act(table) for table in acts)
    entry = Entry("aaaaaaaaaaaaaaaa", 3, minutes(9), "Wim", did, copy.job.view.loose_ends, "odd", step)
    return Copy(Job.fold(about(), (*copy.entries, entry)))
