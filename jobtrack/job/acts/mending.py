"""What is said about entries themselves: undone, taken in, set aside: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import APART, IN_STEP, OF_JOB, Act, Names, Option


class TakenInAct(Act, frozen=True):
    """The content of an altered block is taken in; its acts are typed again in the same entry.

    taken_in: true.
    of: the hash as it is written in the block.
    """

    kind = "taken_in"
    work = False
    under = OF_JOB
    on_page = IN_STEP
    options = (Option("take-in", "take in an altered entry, its acts typed again in this call", "HASH"),)

    taken_in: bool = True
    of: Names = ()

    def words(self) -> str:
        """That one is taken in; its own acts stand beside."""
        return "an altered entry taken in"


class SetAsideAct(Act, frozen=True):
    """A damaged entry that no copy holds sound was left out of a merge; `merge --without` records it.

    set_aside: true.
    of: its hash.
    """

    kind = "set_aside"
    work = False
    under = OF_JOB
    on_page = IN_STEP

    set_aside: bool = True
    of: Names = ()

    def words(self) -> str:
        """That one is set aside; its hash says nothing to a person."""
        return "a damaged entry set aside"


class UndoesAct(Act, frozen=True):
    """One of one's own entries is taken back; an undo too, which brings back what that took.

    undoes: the entry's id.
    """

    kind = "undoes"
    work = False
    under = APART
    options = (
        Option(
            "undo",
            "take back your own last entry; again goes one further back; or one by its id",
            "ENTRY",
            may_be_bare=True,
        ),
    )

    undoes: str

    def words(self) -> str:
        """That something is undone; what, says the entry that it names."""
        return "something undone"
