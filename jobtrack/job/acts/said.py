"""What is said on the way: notes, marks, surprises: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import Act, Option, commas

LONGEST_NOTE = 60
"""Characters of a note that stand in a line about it."""
MET = ("sheared", "seized", "cracked", "missing", "worn", "other")
"""What somebody may meet that endangers nobody."""


class NoteAct(Act, frozen=True):
    """A note.

    note: its text, at most 10 KiB.
    private: true for one that stays off the sheets.
    """

    kind = "note"
    work = False
    listed = "notes"
    options = (
        Option("note", "a note", "TEXT"),
        Option("private-note", "a note that stays off the sheets", "TEXT"),
    )

    note: str
    private: bool = False

    def words(self) -> str:
        """As "note: the left pad is worn", cut to LONGEST_NOTE characters; of a private one nothing."""
        if self.private:
            return "a private note"
        words = " ".join(self.note.split())
        return f"note: {words if len(words) <= LONGEST_NOTE else words[:LONGEST_NOTE] + '…'}"

    def whole_words(self) -> str:
        """As "private note: TEXT", with every line of it; who may not see it has to leave it out."""
        return f"{'private note' if self.private else 'note'}: {self.note}"

    def page_words(self) -> str:
        """As "note (private): TEXT", with every line of it."""
        return f"note{' (private)' if self.private else ''}: {self.note}"


class MarkAct(Act, frozen=True):
    """How far somebody is inside the step.

    mark: where, in somebody's own words ("bolt 3, second stage").
    """

    kind = "mark"
    listed = "marks"
    options = (Option("mark", "where inside the step: bolt 3, second stage", "TEXT"),)

    mark: str

    def words(self) -> str:
        """As "at bolt 3, second stage"."""
        return f"at {self.mark}"

    def page_words(self) -> str:
        """As "I am at: bolt 3, second stage"."""
        return f"I am at: {self.mark}"


class MetAct(Act, frozen=True):
    """A surprise that endangers nobody; what does is opened as a condition.

    met: sheared, seized, cracked, missing, worn or other.
    part: on what, in somebody's own words: what breaks is seldom on the template's list.
    text: more about it.
    """

    kind = "met"
    listed = "met"
    options = (
        Option(
            "met",
            f"something met that endangers nobody: {', '.join(MET)}; --also part=... text=...",
            "WHAT",
            also=("part", "text"),
        ),
    )

    met: str
    part: str | None = None
    text: str | None = None

    def words(self) -> str:
        """As "met: sheared, bleed nipple"."""
        return f"met: {commas(self.met, self.part, self.text)}"
