"""What is recorded as open: when it opens, what closes it, and what an undo or damage leaves."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.base import replace
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import SetAsideAct
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.damage import Damage
from jobtrack.job.state.job import Job
from jobtrack.store.text.writing import write_entry
from tests.support.builders import (
    DONOR,
    Copy,
    Do,
    about,
    close,
    finish,
    given,
    marked,
    note,
    open_names,
    opens,
    read,
    surveyed,
    tick,
    undo,
)  # fmt: skip


def one_open(job: Job) -> OpenCondition:
    [one] = job.all_open
    return one


def opened_by(entry: Entry) -> list[tuple[str, str | None]]:
    return [(act.opens, act.member) for act in entry.did if isinstance(act, OpensAct)]


@pytest.mark.parametrize("do", [read("moved", "23"), tick("scribed", yes=False), finish, opens("wobbles")])
def test_the_first_act_opens_for_its_member(do: Do) -> None:
    """The entry with a step's first act also opens what the step opens, of its own member."""
    copy = surveyed()
    assert ("unread", "left") in opened_by(copy.call("mark.left", do))


@pytest.mark.parametrize("do", [note(), given("step-height", "400")])
def test_words_and_givens_open_nothing(do: Do) -> None:
    """A note or a given isn't a step's first act; the reading after it is."""
    copy = surveyed()
    assert opened_by(copy.call("mark.left", do)) == []
    assert opened_by(copy.call("mark.left", note(), read("moved", "23"))) == [("unread", "left")]


def test_later_acts_open_nothing() -> None:
    """Only the first act of a step and member opens."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"))
    assert opened_by(copy.call("mark.left", tick("scribed"))) == []
    assert opened_by(copy.call("mark.right", tick("scribed"))) == [("unread", "right")]


def test_opened_by_hand_is_not_opened_twice() -> None:
    """A step's own condition, opened by its id as the first act, is opened once."""
    assert opened_by(surveyed().call("mark.left", opens("unread"), read("moved", "23"))) == [
        ("unread", "left")
    ]


def test_what_is_open_says_what_since_when_by_whom_and_its_tag() -> None:
    """An open condition carries the template's words and tag, and the entry that opened it."""
    copy = surveyed()
    entry = copy.call("mark.left", read("moved", "23"), by="Ada")
    one = one_open(copy.job)
    assert (one.name, one.step, one.by, one.since) == ("unread.left", "mark.left", "Ada", entry.at)
    assert (one.text, one.tag) == ("Marks not yet read back", "KEEP THE MARKS")


def test_a_finish_closes_its_own_member_only() -> None:
    """*Finished* of the left side leaves the right side's condition open."""
    copy = surveyed()
    copy.call("mark.right", read("moved", "23"))
    copy.call("mark.left", read("moved", "23"))
    copy.call("mark.left", finish)
    assert open_names(copy.job) == ["unread.right"]


def test_a_finish_closes_nothing_of_the_other_member() -> None:
    """A side whose own condition was never opened closes none of the other side's."""
    copy = surveyed()
    copy.call("tack.right", read("slope", "2"))
    copy.call("cold.left", tick("looked"), finish)
    assert open_names(copy.job) == ["tacked.right"]


def test_a_closing_reaches_only_what_it_saw() -> None:
    """Tacked again in another copy, beside the closing: the condition stays open."""
    copy = surveyed()
    copy.call("tack.left", read("slope", "2"))
    other = copy.split("other")
    copy.call("cold.left", tick("looked"), finish)
    other.call(None, opens("tacked"), by="Ada")
    other.call("tack.left", opens("tacked"), by="Ada")
    copy.take(other)
    assert open_names(copy.job) == ["tacked", "tacked.left"]


def test_closed_by_name_in_every_copy() -> None:
    """A closing by name counts in a copy that hadn't seen it, once merged."""
    copy = surveyed()
    copy.call("tack.left", read("slope", "2"))
    other = copy.split("other")
    other.call(None, close("tacked.left"), by="Ada")
    copy.call("tack.left", read("slope", "2.1"))
    assert open_names(copy.take(other).job) == []


def test_closed_by_id_closes_what_is_open_of_all_members() -> None:
    """The bare id names every member's; ID.MEMBER names one."""
    copy = surveyed()
    for side in ("left", "right"):
        copy.call(f"tack.{side}", read("slope", "2"))
    one = copy.split("one")
    one.call(None, close("tacked.right"))
    assert open_names(one.job) == ["tacked.left"]
    copy.call(None, close("tacked"))
    assert open_names(copy.job) == []


def test_an_undone_closing_opens_again() -> None:
    """Undoing the closing leaves the condition open."""
    copy = surveyed()
    copy.call("tack.left", read("slope", "2"))
    copy.call(None, close("tacked.left"))
    copy.call(None, undo)
    assert open_names(copy.job) == ["tacked.left"]


def test_undoing_the_opening_leaves_it_open_and_says_so() -> None:
    """What an undone entry had opened stays open, with a remark, until it is closed by name."""
    copy = surveyed()
    copy.call("tack.left", read("slope", "2"))
    copy.call(None, undo)
    assert (
        one_open(copy.job).remark
        == "the entry that opened it was undone; it stays open until it is closed by name"
    )
    copy.call(None, close("tacked.left"))
    assert open_names(copy.job) == []


def test_redone_after_an_undo_opens_anew() -> None:
    """After an undo the step's next act is its first again; the finish closes both openings."""
    copy = surveyed()
    first = copy.call("mark.left", read("moved", "23"))
    copy.call(None, undo)
    again = copy.call("mark.left", read("moved", "23.1"))
    assert opened_by(again) == [("unread", "left")]
    assert one_open(copy.job).openings == (f"{first.id}/0", f"{again.id}/0")
    assert one_open(copy.job).remark is None
    copy.call("mark.left", finish)
    assert open_names(copy.job) == []


def test_free_text_goes_by_its_opening() -> None:
    """A condition in somebody's own words has the name of its act, and is closed by that."""
    copy = Copy()
    entry = copy.call(None, opens("jack lent to a neighbour"))
    assert (one_open(copy.job).id, one_open(copy.job).text) == (f"{entry.id}/0", "jack lent to a neighbour")
    copy.call(None, close(f"{entry.id}/0"))
    assert open_names(copy.job) == []


def test_ask_first_is_opened_by_the_first_entry_and_closed_beside_the_agreement() -> None:
    """`ask_first` is open from the start and closed by name with whom was asked."""
    copy = Copy()
    copy.begin(("retention", "clips"))
    assert one_open(copy.job).text == "Not yet asked: does the owner want the step moved?"
    assert copy.job.places.given("donor.plate").value == 150
    copy.call(None, lambda draft: draft.add(AgreedAct("Ivo Hask", "yes, both sides")), close("ask-first"))
    assert open_names(copy.job) == []


def lost(copy: Copy, *gone: Entry, damage: bool = True) -> Job:
    """The job as it is read where some entries are altered, or missing."""
    left = [entry for entry in copy.entries if entry not in gone]
    return Job.fold(about(), left, tuple(Damage(entry.hash, 12) for entry in gone) if damage else ())


def test_an_altered_entry_is_an_open_condition() -> None:
    """What can't be read is open under its hash, said with its line."""
    copy = surveyed()
    gone = copy.entries[1]
    copy.call(DONOR, note())
    one = one_open(lost(copy, gone))
    assert one.name == gone.hash
    assert one.text == "an entry at line 12 can't be read; what it opened isn't known"


def test_a_missing_entry_is_an_open_condition() -> None:
    """An entry that others follow and that isn't there is open under its hash."""
    copy = surveyed()
    gone = copy.entries[0]
    one = one_open(lost(copy, gone, damage=False))
    assert (one.name, one.text) == (
        gone.hash, "an entry that others follow isn't in this file; what it opened isn't known"
    )  # fmt: skip


def test_a_step_whose_opening_is_lost_counts_its_first_act_as_one() -> None:
    """Where the entry with the opening can't be read, the step's next act stands for it, and a finish closes it."""
    copy = surveyed()
    gone = copy.call("mark.left", read("moved", "23"))
    ticked = copy.call("mark.left", tick("scribed"))
    job = lost(copy, gone)
    assert [one.name for one in job.all_open] == [gone.hash, "unread.left"]
    assert job.all_open[1].openings == (f"{ticked.id}/0",)
    assert (
        job.all_open[1].remark
        == "the entry that opened it is lost; the step's first act counts as its opening"
    )


def test_what_an_altered_entry_replaced_counts_again() -> None:
    """With the later measurement unreadable the earlier one counts."""
    copy = surveyed()
    gone = copy.call(DONOR, read("spacing", "1013"))
    assert lost(copy, gone).places.reading(DONOR, "spacing").value == 1012


def test_set_aside_with_its_own_condition() -> None:
    """A set-aside act answers for the hash that it names, and leaves what it opens open."""
    copy = surveyed()
    gone = copy.entries[1]
    act = SetAsideAct(of=(gone.hash,))
    copy.call(None, lambda draft: draft.add(act), opens("an entry was set aside"))
    assert [one.text for one in lost(copy, gone).all_open] == ["an entry was set aside"]


def test_a_lost_entry_is_closed_by_its_hash() -> None:
    """A lost entry's condition can be closed by its hash."""
    copy = surveyed()
    gone = copy.entries[1]
    copy.call(None, lambda draft: draft.add(ClosesAct((gone.hash,))))
    assert open_names(lost(copy, gone)) == []


def test_the_same_id_twice_counts_once() -> None:
    """A retry that arrives late under another hash: the one that sorts first counts, both stay."""
    copy = Copy()
    first = copy.call(DONOR, read("spacing", "1012"))
    late = replace(first, n=2, follows=(first.hash,), hash="")
    late = replace(late, hash=write_entry(late)[1])
    job = copy.job.apply(late)
    assert len(job.view.entries) == 2
    assert [done.entry.hash for done in job.places.reading(DONOR, "spacing").acts] == [first.hash]


def test_a_finish_that_stands_no_more_opens_what_it_closed() -> None:
    """What a step had closed on the old value is open again, and closed by its next finish."""
    copy = marked("22.8")
    copy.call(DONOR, read("spacing", "1016"), finish)
    assert open_names(copy.job) == ["unread.left"]
    copy.call("mark.left", read("moved", "25.4"), finish)
    assert open_names(copy.job) == []
