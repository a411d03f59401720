"""Undoing, and taking in an altered entry: which entries are meant, and when it is refused."""

from __future__ import annotations

from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import TakenInAct, UndoesAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import person


def undo(draft: Draft, entry: str | None = None) -> Entry:
    """Take back one's own last entry that still counts and is no undo itself; again goes one further back.

    With an entry's id, that one: any of one's own, an undo too, which brings back what it took. Gives
    the entry that is undone (`sheets.words.acts.entry_words` says it in words). Raises Refused.
    """
    named = (entry or "").strip()
    undone = _mine_by_name(draft, named) if named else _last_of_mine(draft)
    draft.add(UndoesAct(undone.id))
    return undone


def _last_of_mine(draft: Draft) -> Entry:
    mine = [one for one in draft.job.entries_of(draft.by) if one.id != draft.id]
    if not mine:
        raise Refused(f"{draft.by} has recorded nothing that could be undone; each undoes only their own")
    return mine[-1]


def _mine_by_name(draft: Draft, id: str) -> Entry:
    named = [one for one in draft.before.view.entries if one.id == id]
    if not named:
        raise Refused(f"no entry {id!r} in this job; undo without a name takes back your own last one")
    if person(named[0].by) != person(draft.by):
        raise Refused(f"{id} is {named[0].by}'s entry; each undoes only their own")
    counting = [one for one in draft.job.view.counting_entries() if one.id == id]
    if not counting:
        raise Refused(f"{id} is undone already; undo the entry that undid it to bring it back")
    return counting[0]


def take_in(draft: Draft, hash: str) -> None:
    """Take in the content of a block that can't be read, its acts typed again in the same call."""
    if hash not in {name for one in draft.job.damage for name in one.names}:
        raise Refused(f"no altered entry with the hash {hash!r}; `intact` lists them")
    draft.add(TakenInAct(of=(hash,)))
