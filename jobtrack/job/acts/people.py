"""Who worked when, what was agreed, who carries on: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import APART, OF_JOB, Act, Names, Option, commas, with_reason


class ClockAct(Act, frozen=True):
    """The person's clock in this job.

    clock: on, off or break.
    of: the *on* that an off or a break ends, as ENTRYID/INDEX.
    """

    kind = "clock"
    under = APART
    options = (Option("clock", "your clock in this job", "on|off|break"),)

    clock: str
    of: Names = ()

    def words(self) -> str:
        """As "clock on"."""
        return f"clock {self.clock}"


class WorkedAct(Act, frozen=True):
    """Hours typed afterwards.

    worked: hours.
    for: whose, if somebody else's.
    on_day: the day, as 2031-04-02; missing: the day of the entry.
    """

    kind = "worked"
    under = OF_JOB
    options = (Option("worked", "hours typed afterwards", "HOURS", also=("for", "on_day")),)

    worked: float
    for_: str | None = None
    on_day: str | None = None

    def words(self) -> str:
        """As "2.5 h worked, by Wim, 2031-04-02"."""
        return commas(f"{self.worked:g} h worked", self.for_ and f"by {self.for_}", self.on_day)


class AgreedAct(Act, frozen=True):
    """What somebody agreed to.

    agreed: who.
    what: to what, in somebody's own words.
    how: by telephone, by letter…
    amount: for how much, as typed.
    """

    kind = "agreed"
    under = OF_JOB
    listed = "agreed"
    options = (
        Option(
            "agreed",
            "what somebody agreed to; --also how=... --also amount=...",
            "WHO=TEXT",
            also=("how", "amount"),
        ),
    )

    agreed: str
    what: str | None = None
    how: str | None = None
    amount: str | None = None

    def words(self) -> str:
        """As "agreed, Ilse: weld the bracket, by telephone, 80"."""
        return with_reason(f"agreed, {self.agreed}", commas(self.what, self.how, self.amount))


SAID = ("holds_up", "decides", "promised", "tried", "says")
"""What a handover may say in the giver's own words."""


class HandoverAct(Act, frozen=True):
    """The half-finished job is handed to somebody; the command `handover` records it.

    to: whom; the giver's own name: to carry on in the morning.
    handover: true.
    holds_up: what holds the vehicle up, and when that was shaken, in the giver's words.
    decides: who decides what, and until when they can be reached.
    promised: what was promised to whom.
    tried: what was tried and didn't work.
    says: what else the giver wants to say.
    """

    kind = "handover"
    work = False
    under = OF_JOB

    to: str
    handover: bool = True
    holds_up: str | None = None
    decides: str | None = None
    promised: str | None = None
    tried: str | None = None
    says: str | None = None

    def words(self) -> str:
        """As "handed over to Wim"."""
        return f"handed over to {self.to}"

    def whole_words(self) -> str:
        """As "handed over to Wim; holds it up: two stands; promised: Friday"."""
        said = (f"{name.replace('_', ' ')}: {text}" for name in SAID if (text := getattr(self, name)))
        return "; ".join((self.words(), *said))

    page_words = whole_words


class TakenOverAct(Act, frozen=True):
    """Somebody carries on, having seen what was open, or some of it.

    taken_over: true.
    seen: the conditions that were open and were seen.
    reading: the id of the reading that was taken again.
    of: the handovers that could be seen, as ENTRYID/INDEX.
    """

    kind = "taken_over"
    work = False
    under = OF_JOB
    options = (Option("take-over", "take over the job, having seen all that is open", turn=3),)

    taken_over: bool = True
    seen: Names = ()
    reading: str | None = None
    of: Names = ()

    def words(self) -> str:
        """As "taken over, pin-spacing taken again"."""
        again = f"{self.reading} taken again" if self.reading else "no reading taken again"
        return commas("taken over", again)
