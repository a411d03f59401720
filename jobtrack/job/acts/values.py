"""What is measured, looked at and known: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import APART, Act, Names, Option, Plain, plain_words, what_was_typed


class ReadingAct(Act, frozen=True):
    """A measured value, or several where the template asks for repeats; their mean counts.

    reading: the id of the reading in the entry's step.
    value: the number in `unit`, a list for repeats; missing where a word or a bound was typed.
    unit: the template's unit, by which `value`, `low`, `high` and `doubt` go.
    typed: what was typed, a list for repeats.
    with: what it was measured with, in somebody's own words.
    doubt: how sure the instrument really used is, in `unit`, where it isn't the one that was asked for.
    bound: `about` (a number with ~), `over`, `under` or `range`; missing for a plain number.
    low: the lower end of what was typed as a bound, in `unit`.
    high: the upper end.
    word: why there is no number: can't reach, seized…
    mistyped: true where it replaces a number that was typed wrong; the measuring is the same.
    replaces: every earlier act of this reading that could be seen, replaced ones too.
    """

    kind = "reading"
    under = APART
    options = (
        Option(
            "reading",
            "a measured value; again for repeats; --also mistyped=yes corrects a slip",
            "ID=VALUE",
            also=("with", "doubt", "mistyped"),
            repeats=True,
        ),
    )

    reading: str
    value: float | tuple[float, ...] | None = None
    unit: str | None = None
    typed: str | tuple[str, ...] | None = None
    with_: str | None = None
    doubt: float | None = None
    bound: str | None = None
    low: float | None = None
    high: float | None = None
    word: str | None = None
    mistyped: bool = False
    replaces: Names = ()

    def words(self) -> str:
        """As "spacing 1012.5", repeats parted by `;`, as typed."""
        value = what_was_typed(self.typed) or self.value
        return f"{self.reading} {value}{', typed wrong before' if self.mistyped else ''}"


class TickAct(Act, frozen=True):
    """A check looked at.

    tick: the id of the check in the entry's step.
    yes: true for *yes*, which is always what is wanted.
    replaces: every earlier act of this check that could be seen, replaced ones too.
    """

    kind = "tick"
    under = APART
    options = (Option("tick", "a check looked at", "ID=yes|no"),)

    tick: str
    yes: bool
    replaces: Names = ()

    def words(self) -> str:
        """As "pads-clean yes"."""
        return f"{self.tick} {plain_words(self.yes)}"


class GivenAct(Act, frozen=True):
    """Something known of a vehicle or of the job, or not known yet.

    given: its name, `VEHICLE.NAME` where it is a vehicle's.
    value: a number in `unit`, a text, a date as 2031-04-02, or true and false for yes and no.
    unit: the template's unit of a number.
    typed: what was typed.
    unknown: true for *don't know yet*; then there is no value.
    replaces: every earlier act of this given that could be seen, replaced ones too.
    """

    kind = "given"
    work = False
    under = APART
    options = (Option("given", "something known; ? is don't know yet", "[VEHICLE.]NAME=VALUE"),)

    given: str
    value: Plain | None = None
    unit: str | None = None
    typed: str | None = None
    unknown: bool = False
    replaces: Names = ()

    def words(self) -> str:
        """As "donor.track 1420", or "donor.track not known yet"."""
        return f"{self.given} {'not known yet' if self.unknown else self.typed or plain_words(self.value)}"
