"""Bolts and weld runs answered one by one: a key a click, what is typed of them, and the rod that is asked once."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack import units
from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.step import asked
from jobtrack.app.widgets.entry import Ask, moment
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.doing import runs
from jobtrack.pages.doing.typed_bolts import as_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import TORQUE, WELD, Item

SAME_PRESS = 0.5
"""Seconds within which a second press of the key is the same press: a glove, a key that bounces or is held."""
TOO_SOON = "Enter came before this line stood on the screen: look, then Enter records it."
NOTHING = "Nothing is typed; Escape cancels."


class Presses:
    """Presses of a key that records, by the clock of key events."""

    def __init__(self) -> None:
        self._last = -SAME_PRESS

    def same(self, at: float) -> bool:
        """Whether a press belongs to the last one that counted, or to one that followed it as closely."""
        same = at - self._last < SAME_PRESS
        self._last = at if same else self._last
        return same

    def counts(self, at: float) -> None:
        """A press that was taken."""
        self._last = at


class Turning:
    """Takes the clicks and the runs of the chosen line."""

    def __init__(
        self,
        desk: StepDesk,
        asks: Questions,
        was_asked: Callable[[Item], bool],
        enter: Callable[[Item, str], str | None],
    ) -> None:
        """`was_asked`: whether the line stood on the screen when the key came; `enter` records, or says why not."""
        self._at = desk.at
        self._screen = desk.screen
        self._entry = desk.screen.entry
        self._asks = asks
        self._was_asked = was_asked
        self._enter = enter
        self._presses = Presses()

    def press(self, item: Item, yes: str) -> None:
        """The key of one click, or of a run without its current."""
        key = named("y", "answer-yes")
        if yes != "yes":
            what = "it clicked" if item.kind == TORQUE else "the run was welded"
            self._entry.say(
                f"{key}: {what}. What went wrong goes into a note, or {named('u', 'undo')} undoes."
            )
        elif self._presses.same(self._screen.pressed):
            self._entry.say(
                f"Pressed twice within half a second: that is one. Press {key} again for the next."
            )
        elif not self._was_asked(item):
            self._entry.say("That key came before this line stood on the screen: look, then press it again.")
        else:
            self._asks.with_name(lambda: self._click(item))

    def _click(self, item: Item) -> None:
        refused = self._enter(item, "")
        if refused is None:
            self._presses.counts(self._screen.pressed)
        else:
            self._entry.say(refused)

    def type_in(self, item: Item, start: str) -> None:
        """Begin a field: a number is a torque or a current; words say more."""
        at, here = self._at, self._at.here
        words = item.kind == TORQUE and not start
        read: Callable[[str], str] = as_words if words else str.strip
        self._entry.ask(Ask(
            asked.label(at, self._screen.room), lambda text: self._typed(item, read(text)),
            _forms(item) if words or self._screen.tall else [], start,
            lambda text: entering.echo(at.meant, here, item, read(text)),
        ))  # fmt: skip

    def _typed(self, item: Item, text: str) -> str | None:
        """Take what was typed; of a run ask for the rod where none goes with it yet."""
        if not text.strip():
            return NOTHING
        if not self._was_asked(item):
            return TOO_SOON
        offered = runs.rod_offered(self._at.meant, self._at.here, item.name) if item.kind == WELD else None
        if offered is None or runs.typed_run(text).rod:
            return self._enter(item, text)
        try:
            runs.echo_words(self._at.meant, self._at.here, item.name, text)
        except (units.UnitError, Refused) as error:
            return str(error)
        self._ask_rod(item, text, offered)
        return None

    def _ask_rod(self, item: Item, text: str, offered: str) -> None:
        """Ask with what it was welded; what is taken here goes with the next runs by itself."""
        painted: list[float] = []

        def typed(rod: str) -> str | None:
            if not painted or self._screen.pressed < painted[0]:
                return TOO_SOON
            return self._enter(item, f"{text}, rod {rod.strip()}" if rod.strip() else text)

        wanted = self._at.here.step.weld[item.name].rod
        about = [f"The template wants: {wanted}. Enter takes what stands there: type what was really used."]
        about = about if wanted else []
        self._asks.ask("Which rod or wire? It goes with the next runs too.", typed, about, start=offered)
        self._entry.call_after_refresh(lambda: painted.append(moment()))


def _forms(item: Item) -> list[str]:
    """What can be typed, with examples."""
    if item.kind == TORQUE:
        return ["finger, snug, final; another bolt: 3 snug, 3 final, bolt 3; all of them: all snug"]
    return ["The current and the rod: 95, or 95 rod 2.5 mm"]
