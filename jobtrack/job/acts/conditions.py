"""What is opened as unsafe or unfinished, and closed: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import APART, Act, Names, Option


class OpensAct(Act, frozen=True):
    """Something is unsafe or unfinished from now on. A step's first act brings what the template has it open.

    opens: the id of a condition of the template, or somebody's own words.
    member: the side or vehicle that it is about, where the step has one.
    """

    kind = "opens"
    under = APART
    options = (
        Option(
            "opens", "something unsafe or unfinished, by id or in your own words", "ID|TEXT", also=("member",)
        ),
    )

    opens: str
    member: str | None = None

    def words(self) -> str:
        """As "opened jacked-up.left"."""
        return f"opened {self.opens}{f'.{self.member}' if self.member else ''}"


class ClosesAct(Act, frozen=True):
    """An open condition is closed. One that nobody here had seen opened stays open.

    closes: the openings that could be seen, as ENTRYID/INDEX, or the hash of a damaged entry.
    """

    kind = "closes"
    work = False
    options = (Option("closes", "close an open condition by name", "ID[.MEMBER]"),)

    closes: Names = ()

    def words(self) -> str:
        """That one is closed; which, say the names of the openings."""
        return "a condition closed"
