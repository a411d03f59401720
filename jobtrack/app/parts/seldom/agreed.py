"""What somebody agreed to."""

from __future__ import annotations

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.series import Question, Series
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.compose import people
from jobtrack.job.compose.draft import Draft


class Agreed:
    """Who, to what, how, for how much; recorded for the job as a whole."""

    def __init__(self, desk: JobDesk) -> None:
        self._desk = desk

    def begin(self) -> None:
        """Ask the four."""
        Series(self._desk, None, [
            Question("Who agreed?", "Type who agreed; Escape cancels.", said=_so_far),
            Question("To what?", "Type to what; Escape cancels.", said=_so_far),
            Question("How: by telephone, by letter? Enter alone: not said", said=_so_far),
            Question("For how much? Enter alone: no amount", said=_so_far),
        ], lambda texts: lambda made: _fill(made, *texts)).begin()  # fmt: skip


def _so_far(texts: list[str]) -> str:
    who, what, how, amount = [*texts, "", "", ""][:4]
    return f"{AgreedAct(who, what or None, how or None, amount or None).words()}." if what else ""


def _fill(made: Draft, who: str, what: str, how: str, amount: str) -> None:
    people.agreed(made, who, what, how or None, amount or None)
