"""Which bolt and stage is next, after clicks in and out of order, undone ones, and copies joined.

The expected outcome of random histories comes from who had seen what, kept beside the entries by name.
"""

from __future__ import annotations

import random
from functools import partial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.compose import doing, values
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.doing.tightening import FINGER, NOTHING, SNUG, far
from jobtrack.job.remarks.of_step import NotTightened, left_open
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.problems import with_ids
from tests.job.doing.rig import STEP, about, apart, asked, bolts, joined, rig, turn
from tests.support.builders import Copy, undo, undo_named

CROSSWISE = ["1", "3", "2", "4"]
"""12, 6, 3, 9 o'clock: as `tests/shopmath/test_fasteners_routes.py` has it from its sources."""


def test_stage_by_stage_and_bolt_by_bolt() -> None:
    """Twelve clicks of four bolts in three stages, each asked for in the published order."""
    copy, found = rig(), []
    while (one := asked(copy)) is not None:
        found.append(one)
        copy.call(STEP, *turn((one[1], str(one[0]))))
    assert found == [(stage, bolt) for stage in (1, 2, 3) for bolt in CROSSWISE]


def test_one_stage_where_the_template_names_none() -> None:
    """A line without stages is through with the last bolt; *final* is its one stage."""
    copy = rig()
    assert asked(copy, "studs") == (1, "1")
    copy.call(STEP, *turn(("1", "final"), line="studs"))
    assert asked(copy, "studs") == (1, "2")
    copy.call(STEP, *turn(("2", "final"), line="studs"))
    assert asked(copy, "studs") is None
    assert not bolts(copy, "studs").left


def test_finger_and_snug_come_before_the_first_stage() -> None:
    """They are recorded, and the first stage is still asked for."""
    copy = rig()
    copy.call(STEP, *turn((None, "finger")))
    copy.call(STEP, *turn(("3", "snug")))
    assert [(bolt.name, bolt.reached) for bolt in bolts(copy).bolts] == [
        ("1", FINGER), ("3", SNUG), ("2", FINGER), ("4", FINGER),
    ]  # fmt: skip
    assert asked(copy) == (1, "1")


def test_a_bolt_done_out_of_order_is_not_asked_for_again() -> None:
    """Nor one that went straight to a later stage; the stage is through when the others have followed."""
    copy = rig()
    copy.call(STEP, *turn(("2", "1"), ("4", "2")))
    assert asked(copy) == (1, "1")
    copy.call(STEP, *turn(("1", "1")))
    assert asked(copy) == (1, "3")
    copy.call(STEP, *turn(("3", "1")))
    assert asked(copy) == (2, "1")
    copy.call(STEP, *turn(("1", "2"), ("3", "2")))
    assert asked(copy) == (2, "2")


def test_all_bolts_in_one_act() -> None:
    """An act that names no bolt is about all of them."""
    copy = rig()
    copy.call(STEP, *turn((None, "2")))
    assert asked(copy) == (3, "1")


def test_an_undo_asks_for_the_bolt_again() -> None:
    """Right after it, and after the undo is undone."""
    copy = rig()
    copy.call(STEP, *turn(("1", "1")))
    copy.call(STEP, *turn(("3", "1")))
    taken_back = copy.call(STEP, undo)
    assert asked(copy) == (1, "3")
    copy.call(STEP, undo_named(taken_back))
    assert asked(copy) == (1, "2")


def test_a_slackened_bolt_is_asked_for_again() -> None:
    """Somebody who could see its stage recorded a lower one; what was recorded above it stands no more."""
    copy = rig()
    copy.call(STEP, *turn((None, "1")))
    copy.call(STEP, *turn((None, "2")))
    copy.call(STEP, *turn(("3", "finger")))
    assert asked(copy) == (1, "3")
    slack = next(bolt for bolt in bolts(copy).bolts if bolt.name == "3")
    assert list(slack.done) == [FINGER]
    assert not slack.apart


def test_of_two_copies_the_lower_counts_until_somebody_has_seen_both() -> None:
    """Two people who didn't know of each other; one more click settles it."""
    copy = rig()
    copy.call(STEP, *turn((None, "1")))
    other = apart(copy, "other")
    copy.call(STEP, *turn(("1", "2")))
    other.call(STEP, *turn(("1", "finger")), by="Ada")
    both = joined(copy, other)
    assert asked(both) == (1, "1")
    assert [bolt.apart for bolt in bolts(both).bolts] == [True, False, False, False]
    both.call(STEP, *turn(("1", "2")))
    assert asked(both) == (2, "3")


def test_bolts_by_names_of_their_own() -> None:
    """They are bolts too, and take the place of the numbers once there are as many and no number is recorded."""
    copy = rig()
    copy.call(STEP, *turn(("front left", "1"), line="asked"))
    assert [bolt.name for bolt in bolts(copy, "asked").bolts] == ["1", "2", "3", "front left"]
    copy.call(STEP, *turn(("front right", "1"), ("rear", "1"), line="asked"))
    assert [bolt.name for bolt in bolts(copy, "asked").bolts] == ["front left", "front right", "rear"]
    assert asked(copy, "asked") == (2, "front left")
    copy.call(STEP, *turn(("9", "2"), ("1", "1"), line="asked"))
    assert [bolt.name for bolt in bolts(copy, "asked").bolts] == [
        "1", "2", "3", "front left", "front right", "rear", "9",
    ]  # fmt: skip


@pytest.mark.parametrize("stage", ["4", "0", "-1", "tight", ""])
def test_a_stage_that_the_template_lacks_counts_for_nothing(stage: str) -> None:
    """It can't be recorded; where a file has it nevertheless, no bolt is taken for tightened by it."""
    copy = rig()
    assert far(bolts(copy).line, stage) == NOTHING
    with pytest.raises(Refused):
        copy.call(STEP, *turn(("1", stage)))


def test_finishing_leaves_open_what_is_not_at_the_last_stage() -> None:
    """As it is said of readings: bolts as far as each other together; nothing where all are there."""
    copy = rig()
    copy.call(STEP, *turn(("1", "2"), ("3", "2"), ("2", "snug")))
    found = [one for one in left_open(copy.job, STEP) if isinstance(one, NotTightened)]
    assert found[0] == NotTightened(STEP, "ubolts", (("1", 2), ("3", 2), ("2", SNUG), ("4", NOTHING)))
    assert with_ids(copy.job, found)[0] == (
        "ubolts: last stage not recorded, bolts 1 and 3 at stage 2; bolt 2 snug; bolt 4 without an entry"
    )
    copy.call(STEP, *turn((None, "final")))
    assert [one for one in left_open(copy.job, STEP) if one == found[0]] == []


def test_the_record_of_a_click_holds_what_the_wrench_was_to_be_set_to() -> None:
    """A typed value stands as typed; a click's has no typed text."""
    copy = rig()
    copy.call(STEP, lambda draft: doing.turned(draft, "ubolts", "1", "1", 33))
    copy.call(STEP, lambda draft: doing.torque(draft, "ubolts.3", "1", "24 lbf ft"))
    copy.call(STEP, lambda draft: values.given(draft, "u-bolt-figure", "110"))
    first, second = (entry.did[0] for entry in copy.entries[:2])
    assert first.words() == "torque ubolts: bolt 1, stage 1, 33 N·m"
    assert second.words() == "torque ubolts: bolt 3, stage 1, 24 lbf ft"
    assert first.as_dict() == {"torque": "ubolts", "member": "1", "stage": "1", "value": 33, "unit": "N*m"}


def test_a_bare_torque_is_in_the_unit_of_its_figure() -> None:
    """Beside a figure of 81 ft lb, 81 is 81 ft lb, 109.8 N·m; never 81 N·m."""
    copy = rig()
    for line in ("studs.1=81", "studs.2=110 Nm", "ubolts.1=81", "asked.1=81"):
        name, _, typed = line.partition("=")
        copy.call(STEP, partial(doing.torque, name=name, stage="final", typed=typed))
    acts = [act for entry in copy.entries for act in entry.did if isinstance(act, TorqueAct)]
    assert [(act.unit, act.typed) for act in acts] == [
        ("lbf ft", "81"), ("lbf ft", "110 Nm"), ("N*m", "81"), ("N*m", "81"),
    ]  # fmt: skip
    assert [act.newton_metres() for act in acts] == pytest.approx([81 * 1.3558179483, 110, 81, 81])
    assert acts[0].words() == "torque studs: bolt 1, final, 81 lbf ft"
    assert acts[1].words() == "torque studs: bolt 2, final, 110 Nm"


STAGES = {"finger": FINGER, "snug": SNUG, "1": 1, "2": 2, "3": 3, "final": 3}
moves = st.lists(
    st.tuples(
        st.integers(0, 2),
        st.sampled_from([*"1234", None, "join"]),
        st.sampled_from([*STAGES]),
    ),
    max_size=14,
)


def _play(
    script: list[tuple[int, str | None, str]],
) -> tuple[list[Copy], list[tuple[str | None, int, set[str], str]]]:
    """Three copies after some clicks and joins; each click with what its author had seen, and its own id."""
    copies = [rig(), *(apart(rig(), salt) for salt in "bc")]
    clicks: list[tuple[str | None, int, set[str], str]] = []
    for which, bolt, stage in script:
        if bolt == "join":
            whole = {entry.hash: entry for copy in copies for entry in copy.entries}
            copies[which].job = Job.fold(about(), whole.values())
            continue
        seen = {entry.id for entry in copies[which].entries}
        entry = copies[which].call(STEP, *turn((bolt, stage)))
        clicks.append((bolt, STAGES[stage], seen, entry.id))
    return copies, clicks


@settings(max_examples=150, derandomize=True, database=None, deadline=None)
@given(moves, st.randoms(use_true_random=False))
def test_the_law_of_bolts(script: list[tuple[int, str | None, str]], chance: random.Random) -> None:
    """Whatever the order of arrival: a bolt is as far as the lowest of what nobody followed with another for it."""
    copies, clicks = _play(script)
    entries = list({entry.hash: entry for copy in copies for entry in copy.entries}.values())
    chance.shuffle(entries)
    arrived = Copy(Job.fold(about(), ()))
    for entry in entries:
        arrived.job = arrived.job.apply(entry)
    found = bolts(arrived)
    for bolt in found.bolts:
        mine = [one for one in clicks if one[0] in (bolt.name, None)]
        ends = [far for _, far, _, id in mine if not any(id in seen for _, _, seen, _ in mine)]
        assert bolt.reached == min(ends, default=NOTHING)
        standing = {
            far
            for _, far, _, id in mine
            if far <= bolt.reached and not any(other < far and id in seen for _, other, seen, _ in mine)
        }
        assert set(bolt.done) == standing
    lowest = min(bolt.reached for bolt in found.bolts)
    assert found.stage == (None if lowest == 3 else max(lowest, 0) + 1)
