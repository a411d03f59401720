"""What is decided about a step: a value settled, added, not needed, finished, released: the acts and their options."""

from __future__ import annotations

from jobtrack.job.acts.base import (
    APART,
    IN_STEP,
    OF_JOB,
    Act,
    Names,
    On,
    Option,
    Plain,
    field,
    plain_words,
    what_was_typed,
    with_reason,
)


class SettledAct(Act, frozen=True):
    """Which of several values that were measured apart counts; it stands as that value from then on.

    settled: the id of the reading or check in the entry's step, or the name of a given.
    value: the value that counts: a number in `unit` (a list for the repeats of whose it is), a text, or true and
        false for yes and no.
    unit: the template's unit of a number.
    typed: what was typed, a list for repeats.
    whose: the person whose value it is, if it was settled so.
    of: the acts of that place that could be seen.
    """

    kind = "settled"
    under = APART
    on_page = IN_STEP
    options = (
        Option(
            "settle", "which value counts in a disagreement; --also whose=NAME", "ID=VALUE", also=("whose",)
        ),
    )

    settled: str
    value: Plain | tuple[float, ...] | None = None
    unit: str | None = None
    typed: str | tuple[str, ...] | None = None
    whose: str | None = None
    of: Names = ()

    def words(self) -> str:
        """As "settled spacing: 1012, by Wim"."""
        value = what_was_typed(self.typed) or plain_words(self.value)
        return f"settled {self.settled}: {value}{f', by {self.whose}' if self.whose else ''}"

    def replaced(self) -> Names:
        """The acts that disagreed: the settlement stands in the place of all of them."""
        return self.of


class AddedStepAct(Act, frozen=True):
    """A step that the template doesn't have.

    step: its id, which no other step has.
    title: what is to be done.
    after: the step that it stands behind, or
    before: the step that it stands ahead of.
    added_step: true.
    """

    kind = "added_step"
    on_page = OF_JOB
    options = (
        Option(
            "add-step",
            "a step that the template doesn't have; --also before=STEP or after=STEP",
            "ID=TITLE",
            also=("after", "before"),
        ),
    )

    step: str
    title: str
    after: str | None = None
    before: str | None = None
    added_step: bool = True

    def words(self) -> str:
        """As "step free-nut added: Free the seized nut"."""
        return f"step {self.step} added: {self.title}"


class NotNeededAct(Act, frozen=True):
    """The step isn't needed.

    not_needed: true.
    because: why, in somebody's own words.
    of: the step's acts that could be seen.
    """

    kind = "not_needed"
    work = False
    options = (Option("not-needed", "the step isn't needed", "REASON", may_be_bare=True, also=("because",)),)

    not_needed: bool = True
    because: str | None = None
    of: Names = ()

    def words(self) -> str:
        """As "marked not needed: new already"."""
        return with_reason("marked not needed", self.because)


class StandsAct(Act, frozen=True):
    """Steps that were to be looked at again were looked at, and stand.

    stands: the steps.
    because: why they still stand, in somebody's own words.
    on: the values that they stand on, as they counted then.
    """

    kind = "stands"
    work = False
    options = (
        Option(
            "stands",
            "looked at again, and still right, because",
            "REASON",
            may_be_bare=True,
            also=("because",),
        ),
    )

    stands: Names = ()
    because: str | None = None
    on: On = field(default_factory=dict)

    def words(self) -> str:
        """As "looked at again, stands: measured on the same pads"."""
        return with_reason("looked at again, stands", self.because)

    def whole_words(self) -> str:
        """As "looked at again, perch.left stands: measured on the same pads"."""
        return with_reason(f"looked at again, {', '.join(self.stands)} stands", self.because)


class FinishedAct(Act, frozen=True):
    """The step is finished.

    finished: true.
    on: every typed value that its readings, targets and workings-out stand on, as they counted then.
    """

    kind = "finished"
    on_page = APART
    options = (Option("finished", "the step is finished, on the values as they count now", turn=1),)

    finished: bool = True
    on: On = field(default_factory=dict)

    def words(self) -> str:
        """That it is finished; the step is the entry's."""
        return "finished"


class ReleasedAct(Act, frozen=True):
    """The hold behind a step is released by the person who records it.

    released: the step.
    on: the values that it stands on, as they counted then.
    """

    kind = "released"
    under = APART
    options = (Option("release-hold", "release the hold after the step", turn=2),)

    released: str
    on: On = field(default_factory=dict)

    def words(self) -> str:
        """That its hold is released; who and when stand in the entry."""
        return "hold released"


class SwappedAct(Act, frozen=True):
    """Left and right were confused: the readings of the two change places.

    swapped: the step in which it was found.
    of: the readings, as ENTRYID/INDEX.
    """

    kind = "swapped"
    options = (Option("swap", "left and right were swapped: the readings change sides"),)

    swapped: str
    of: Names = ()

    def words(self) -> str:
        """That the two sides changed places."""
        return "the two sides swapped"
