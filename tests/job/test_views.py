"""A view that grew is the same as one made anew, and what nobody recorded leaves nothing behind."""

from __future__ import annotations

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.history import History
from jobtrack.job.state.job import Job
from jobtrack.job.state.view import View, bits
from tests.support.builders import DONOR, Copy, about, finish, marked, note, read, surveyed, tick, undo
from tests.support.histories import Script, play, scripts, snapshot

few = settings(max_examples=60, derandomize=True, database=None, deadline=None,
               suppress_health_check=[HealthCheck.too_slow])  # fmt: skip


def known(view: View) -> dict[str, object]:
    """All that a view says of its entries, and of what each of them could see."""
    parts = [view.part(view.ancestors[entry.hash]) for entry in view.entries]
    return {
        "entries": [entry.hash for entry in view.entries],
        "counting": [entry.hash for entry in view.counting_entries()],
        "ancestors": {entry.hash: view.ancestors[entry.hash] for entry in view.entries},
        "ends": view.loose_ends,
        "missing": view.missing,
        "missing to each": [part.missing for part in parts],
        "counting to each": [[entry.hash for entry in part.counting_entries()] for part in parts],
    }


def anew(view: View) -> View:
    return View(view.history, view.mask)


@few
@given(scripts(), st.randoms(use_true_random=False), st.integers(0, 3))
def test_a_grown_view_is_the_same_as_a_new_one(script: Script, chance: random.Random, lost: int) -> None:
    """In the order of the file or in any other, one by one or several at once, and with entries lost meanwhile."""
    entries = list(play(script).merged.view.entries)
    late = [entries.pop(chance.randrange(len(entries))) for _ in range(min(lost, len(entries) - 1))]
    if chance.random() < 0.3:
        chance.shuffle(entries)
    view = View(History(about().hash), 0)
    while entries or late:
        if not entries:
            entries, late = late, []
        size = chance.randint(1, 2)
        some, entries = entries[:size], entries[size:]
        older, was = view, known(view)
        view = view.with_more(some)
        assert known(view) == known(anew(view))
        assert known(older) == was == known(anew(older))


@few
@given(scripts(), st.data())
def test_two_views_that_grow_apart_stay_right(script: Script, data: st.DataObject) -> None:
    """What one of two views learns of an entry is nothing to the other, which lacks what that entry follows."""
    entries = play(script).merged.view.entries
    first = View(History(about().hash), 0).with_more(entries[:2])
    known(first)
    places = st.sets(st.integers(2, len(entries) - 1), min_size=1)
    drawn = data.draw(st.lists(places, min_size=2, max_size=3))
    those = [[entries[place] for place in sorted(some)] for some in drawn]
    views = [first for _ in those]
    for place in range(max(len(some) for some in those)):
        for number, some in enumerate(those):
            views[number] = views[number].with_more(some[place : place + 1])
            known(views[number])
    for view in (first, *views):
        assert known(view) == known(anew(view))


@few
@given(scripts(), st.data())
def test_a_view_aside_is_the_same_as_a_real_one(script: Script, data: st.DataObject) -> None:
    """Whatever stands in it as if, also twice on top of each other, and while the history below grows."""
    entries = play(script).merged.view.entries
    cut = data.draw(st.integers(0, len(entries)))
    first, second = data.draw(st.tuples(st.integers(0, 3), st.integers(0, 3)))
    job = Job.fold(about(), entries[:cut])
    if data.draw(st.booleans()):
        snapshot(job)
    once = job.as_if(*entries[cut : cut + first])
    twice = once.as_if(*entries[cut + first : cut + first + second])
    job.with_more(reversed(entries[cut:]), ())
    for seen, length in ((once, cut + first), (twice, cut + first + second)):
        assert snapshot(seen) == snapshot(Job.fold(about(), entries[:length]))


@few
@given(scripts(), st.randoms(use_true_random=False))
def test_a_job_that_grew_is_the_same_as_one_folded_anew(script: Script, chance: random.Random) -> None:
    """After every entry, all of the outcome having been asked for on the way: nothing kept of it has gone stale."""
    entries = list(play(script).merged.view.entries)
    if chance.random() < 0.3:
        chance.shuffle(entries)
    job = Job.fold(about(), ())
    for number, entry in enumerate(entries, 1):
        job = job.apply(entry)
        assert snapshot(job) == snapshot(Job.fold(about(), entries[:number]))


def test_previews_leave_nothing_in_the_history() -> None:
    """A hundred drafts of all sorts, none recorded: the history holds what it held, and so do its masks."""
    copy = marked()
    history, held = copy.job.view.history, len(copy.job.view.history)
    was = known(copy.job.view)
    for number in range(100):
        draft = Draft(copy.job, "Wim", copy.entries[-1].at, "mark.right")
        for do in (read("moved", f"2{number % 5}"), tick("scribed"), note(), finish, undo)[: 1 + number % 5]:
            do(draft)
        assert draft.job.view.history is not history
        assert len(draft.job.view.entries) == held + 1
    assert len(history) == held
    assert known(copy.job.view) == was == known(anew(copy.job.view))
    assert set(copy.job.view.ancestors) == {entry.hash for entry in copy.entries}


def test_a_history_holds_what_was_recorded_and_no_more() -> None:
    """Fifty recordings through drafts of several acts each: fifty entries more, and not one besides."""
    copy = surveyed()
    before = len(copy.job.view.history)
    for _ in range(50):
        copy.call("mark.left", read("moved", "23"), tick("scribed"), note())
    assert len(copy.job.view.history) == before + 50


def test_a_draft_is_as_it_was_while_others_record() -> None:
    """What comes in while somebody types has the draft's own bit in the history below, and isn't seen by it."""
    copy = surveyed()
    draft = Draft(copy.job, "Wim", copy.entries[-1].at, "mark.left")
    values.reading(draft, "moved", ("23",))
    was = snapshot(draft.job)
    copy.call(DONOR, read("spacing", "990"), finish, by="Ada")
    assert snapshot(draft.job) == was
    [done] = [one for one in draft.job.view.of_kind(ReadingAct) if one.entry.id == draft.id]
    assert done.entry.step == "mark.left"


def test_an_undo_as_if_counts_as_if_only() -> None:
    """A draft takes back an entry; outside of the draft it counts on."""
    copy = Copy()
    entry = copy.call(None, note())
    seen = copy.job.as_if(_entry(copy, UndoesAct(entry.id)))
    assert [one.act for one in seen.view.of_kind(NoteAct)] == []
    assert [one.act for one in copy.job.view.of_kind(NoteAct)] == [NoteAct("seen")]


def _entry(copy: Copy, *did: Act) -> Entry:
    return Entry("draft", 99, copy.entries[-1].at, "Wim", did, copy.job.view.loose_ends, "not recorded")


@given(st.sets(st.integers(0, 400)))
def test_the_bits_of_a_mask(some: set[int]) -> None:
    """Each bit that is set, once, the lowest first."""
    assert list(bits(sum(1 << bit for bit in some))) == sorted(some)
