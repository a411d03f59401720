"""What is asked between a number's Enter and its entry: whether it was meant, and whether it was measured again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.step import asked
from jobtrack.app.parts.taking_keys import SAME_PRESS
from jobtrack.app.session import draft
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.asking.again import WHICH, before_words, has_number
from jobtrack.pages.asking.slips import slip
from jobtrack.pages.asking.unsettles import unsettles
from jobtrack.pages.own_keys import named
from jobtrack.pages.step import entering
from jobtrack.pages.step.entering import NUMBER_STARTS
from jobtrack.pages.step.items import Item
from jobtrack.pages.wording import NOT_RECORDED_YET
from jobtrack.units import Slip, UnitError

BACK = "Escape goes back to the number"
MISTYPED = "t"
AGAIN = f"Enter measured again   {MISTYPED} the number before was typed wrong"


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed for a line of the step."""

    item: Item
    text: str
    note: str = ""
    """The note that goes with it, in the same entry."""
    meant: bool = False
    """Whether somebody has said that it is what they meant."""
    again: bool = False
    """Whether somebody has said that it was measured again, or that the number before was typed wrong."""
    mistyped: bool = False


class AskingTwice:
    """Asks on the entry line, each by one key; Escape goes back to the number, and a number begins it anew."""

    def __init__(
        self, desk: StepDesk, back: Callable[[str, str], None], enter: Callable[[Typed], None]
    ) -> None:
        """`back`: a field again with a text and a note; `enter`: goes on with what was answered."""
        self._desk = desk
        self._at = desk.at
        self._back = back
        self._enter = enter

    def asks(self, typed: Typed) -> bool:
        """Whether something had to be asked first, and is."""
        job, here = self._desk.file.meant, self._at.here
        odd = None if typed.meant else slip(job, here, typed.item, typed.text)
        if odd is not None:
            self._ask_meant(typed, odd)
            return True
        return not typed.again and has_number(job, here, typed.item) and self._ask_again(typed)

    def _ask_meant(self, typed: Typed, odd: Slip) -> None:
        """Yes takes what was likely meant and no what was typed; where nothing was likely, yes what was typed."""

        def as_typed() -> None:
            self._enter(replace(typed, meant=True))

        def as_meant() -> None:
            self._enter(replace(typed, text=odd.meant or typed.text, meant=True))

        def back() -> None:
            self._back(typed.text, typed.note)

        yes, no = named("y", "answer-yes"), named("n", "answer-no")
        if odd.meant is None:
            does, does_not, keys = as_typed, back, f"{yes} yes, as typed   {no} no"
        else:
            does, does_not = as_meant, as_typed
            keys = f"{yes} yes: {odd.meant}   {no} no: {typed.text.strip()} as typed"
        others = ((no, does_not), ("*", does), ("/", does_not), ("enter", lambda: None))
        self._confirm(typed, [odd.question], yes, does, others, keys)

    def _ask_again(self, typed: Typed) -> bool:
        """What it unsettles stands there before; False for what can't be recorded, which is said where it is tried."""
        try:
            made = draft(self._desk.file, self._desk.screen.session, self._at.step,
                         lambda made: entering.enter(made, typed.item, typed.text))  # fmt: skip
        except (Refused, UnitError):
            return False
        before = before_words(made.before, self._at.here, typed.item, typed.text, self._at.shown)
        screen = self._desk.screen
        about = [before, WHICH, unsettles(made.before, made.job, screen.session.shown)]
        asked_at = screen.pressed

        def again() -> None:
            # Within that time it is still the Enter of the number, tapped twice.
            if screen.pressed - asked_at >= SAME_PRESS:
                self._enter(replace(typed, again=True))

        wrong = ((MISTYPED, lambda: self._enter(replace(typed, again=True, mistyped=True))),)
        self._confirm(typed, about, "enter", again, wrong, AGAIN)
        return True

    def _confirm(
        self,
        typed: Typed,
        about: list[str],
        key: str,
        then: Callable[[], None],
        others: Sequence[tuple[str, Callable[[], None]]],
        keys: str,
    ) -> None:
        def back(pressed: str) -> None:
            anew = len(pressed) == 1 and pressed in NUMBER_STARTS
            self._back(*((pressed, "") if anew else (typed.text, typed.note)))

        self._desk.screen.entry.confirm(SecondKey(
            about, key, then, f"{NOT_RECORDED_YET}. {BACK}; a number begins it anew.", others, keys,
            asked.label(self._at, self._desk.screen.room), back,
        ))  # fmt: skip
