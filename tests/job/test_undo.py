"""Undo goes back through one's own entries, one at a time; by name it reaches any of them, an undo too."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import mending
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from tests.support.builders import DONOR, Copy, finish, note, read, surveyed, tick, undo, undo_named
from tests.support.histories import snapshot

many = settings(
    max_examples=200,
    derandomize=True,
    database=None,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
WHERE = {"Wim": 0, "Jo": 0, "Ada": 1}
"""In which of two copies each records."""


@dataclass
class Stacks:
    """Two copies, and beside them what each person has recorded and not taken back, as a stack of notes."""

    copies: tuple[Copy, Copy] = field(default_factory=lambda: (Copy(), Copy().split("second")))
    notes: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))

    def write(self, by: str, text: str) -> None:
        self.copies[WHERE[by]].call(None, note(text), by=by)
        self.notes[by].append(text)

    def undo(self, by: str) -> None:
        if not self.notes[by]:
            with pytest.raises(Refused, match="nothing that could be undone"):
                self.copies[WHERE[by]].call(None, undo, by=by)
            return
        self.copies[WHERE[by]].call(None, undo, by=by)
        self.notes[by].pop()

    def join(self) -> None:
        self.copies[0].take(self.copies[1])
        self.copies[1].take(self.copies[0])


def counting_notes(copy: Copy, by: str) -> list[str]:
    found = [done for done in copy.job.view.of_kind(NoteAct) if done.entry.by == by]
    return [done.act.note for done in found if isinstance(done.act, NoteAct)]


moves = st.tuples(st.sampled_from(("write", "write", "undo", "undo", "join")), st.sampled_from(tuple(WHERE)))


@many
@given(st.lists(moves, max_size=24))
def test_as_many_undos_take_back_as_many_of_ones_last_entries(played: list[tuple[str, str]]) -> None:
    """Whatever others record in between and whenever the copies are joined, each person's own form a stack."""
    stacks = Stacks()
    for number, (what, by) in enumerate(played):
        if what == "join":
            stacks.join()
        elif what == "write":
            stacks.write(by, f"note {number}")
        else:
            stacks.undo(by)
    stacks.join()
    for copy in stacks.copies:
        assert {by: counting_notes(copy, by) for by in WHERE} == {by: stacks.notes[by] for by in WHERE}


@many
@given(st.lists(st.sampled_from(("here", "there", "join", "undo here", "undo there")), max_size=16),
       st.integers(0, 8))  # fmt: skip
def test_somebody_at_two_laptops_walks_back_through_both(played: list[str], presses: int) -> None:
    """After joining, so many undos leave all but the last so many of what counted, in the order of the file."""
    here, there = Copy(), Copy().split("there")
    for number, what in enumerate(played):
        copy = there if "there" in what else here
        if what == "join":
            here.take(there)
            there.take(here)
        elif "undo" not in what:
            copy.call(None, note(f"note {number}"))
        elif counting_notes(copy, "Wim"):
            copy.call(None, undo)
    here.take(there)
    before = counting_notes(here, "Wim")
    for _ in range(min(presses, len(before))):
        here.call(None, undo)
    assert counting_notes(here, "Wim") == before[: max(len(before) - presses, 0)]


def test_undo_by_name_takes_back_that_one_alone() -> None:
    """What was recorded after it stays."""
    copy = surveyed()
    first = copy.call("mark.left", read("moved", "22.8"))
    copy.call("mark.left", tick("scribed"))
    copy.call(None, undo_named(first))
    assert copy.job.now.reading_value("mark.left", "moved") is None
    assert copy.job.places.tick("mark.left", "scribed").value is True


def test_an_undo_undone_by_name_brings_back_what_it_took() -> None:
    """All is as it was before the undo, and the next undo takes back the same entry again."""
    copy = surveyed()
    moved = copy.call("mark.left", read("moved", "22.8"), finish)
    before = outcome(copy)
    undone = copy.call(None, undo)
    assert copy.job.state("mark.left") != "finished"
    back = copy.call(None, undo_named(undone))
    assert outcome(copy) == before
    copy.call(None, undo_named(back))
    assert copy.job.state("mark.left") != "finished"
    assert last_undone(copy) not in (moved, undone, back)


def last_undone(copy: Copy) -> Entry | None:
    return next(reversed(copy.job.entries_of("Wim")), None)


def outcome(copy: Copy) -> dict[str, object]:
    return {key: value for key, value in snapshot(copy.job).items() if key != "order"}


def test_two_undos_in_one_call_go_two_back() -> None:
    """Each sees the one before it; what the same call holds beside them isn't taken back."""
    copy = Copy()
    for text in ("first", "second", "third"):
        copy.call(None, note(text))
    copy.call(None, note("both wrong"), undo, undo)
    assert counting_notes(copy, "Wim") == ["first", "both wrong"]


def test_undo_gives_the_entry_that_it_takes_back() -> None:
    """Whoever composes the call can say what was undone."""
    copy = surveyed()
    last = copy.call(DONOR, note("Rain."))
    copy.call(None, note("Mine."), by="Ada")
    assert mending.undo(Draft(copy.job, "Wim", last.at)) == last


@pytest.mark.parametrize(
    ("by", "name", "why"),
    [
        ("Wim", "nothing", "no entry 'nothing' in this job"),
        ("Ada", "wims", "is Wim's entry; each undoes only their own"),
        ("Wim", "undone", "is undone already; undo the entry that undid it"),
    ],
)
def test_what_isnt_ones_own_or_counts_no_more_isnt_undone(by: str, name: str, why: str) -> None:
    """A name that isn't there, somebody else's entry, one that is undone: refused, and why."""
    copy = Copy()
    named = {"wims": copy.call(None, note("mine")).id, "undone": copy.call(None, note("slip")).id}
    copy.call(None, undo)
    with pytest.raises(Refused) as caught:
        copy.call(None, lambda draft: mending.undo(draft, named.get(name, name)), by=by)
    assert why in str(caught.value)


def test_a_name_is_compared_as_everywhere() -> None:
    """A person who writes their name otherwise takes back their own."""
    copy = Copy()
    mine = copy.call(None, note("mine"), by="Wim  Oster")
    copy.call(None, undo_named(mine), by="wim oster")
    assert counting_notes(copy, "Wim  Oster") == []
