"""Answering the chosen line of a step: a number or words typed, a check answered by one key."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.painted import Painted
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.step import asked
from jobtrack.app.parts.step.asking_twice import AskingTwice, Typed
from jobtrack.app.parts.step.turning import Turning
from jobtrack.app.session import Told
from jobtrack.app.widgets.entry import Ask
from jobtrack.job.acts.base import Act
from jobtrack.job.compose import said
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.job.state.job import Job
from jobtrack.pages.doing.typed import recorded_words
from jobtrack.pages.own_keys import named
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import READING, TICK, Item
from jobtrack.pages.step.waits import soon_words
from jobtrack.sheets.words.values.readings import RECKONER
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen

WITH_NOTE = "A note goes with it, in the same entry: the working-out, what went in, its source."


class Answering:
    """Takes answers for the line that the screen asks for, and for no other."""

    def __init__(
        self,
        desk: StepDesk,
        asks: Questions,
        choose: Callable[[int | None], None],
        finish: Callable[[], None],
    ) -> None:
        """`choose`: chooses another line of the step; `finish`: finishes it, when every line has an answer."""
        self._desk = desk
        self._at = desk.at
        self._screen = desk.screen
        self._entry = desk.screen.entry
        self._asks = asks
        self._choose = choose
        self._finish = finish
        self._twice = AskingTwice(desk, self.type_in, self._answered)
        self.painted = Painted(desk.screen.entry)
        self._turning = Turning(
            desk, asks, self._asked_for, lambda item, text: self._go_on(Typed(item, text))
        )

    def _asked_for(self, item: Item) -> bool:
        """Whether the screen asked for this line already when the key came that would answer it."""
        return self.painted.was(item, self._screen.pressed)

    # Numbers and words

    def type_in(self, start: str, note: str = "") -> None:
        """Begin a field for the chosen reading or given; a note may go with it, in the same entry."""
        at, item = self._at, self._at.item
        if item is None or item.yes_or_no:
            self._misplaced(item, start)
            return
        if item.one_by_one:
            self._turning.type_in(item, start)
            return
        here = at.here
        about = [*asked.about(at, self._screen.tall), *([WITH_NOTE] if note else [])]
        self._entry.ask(Ask(
            asked.label(at, self._screen.room), lambda text: self._typed(item, text, note), about, start,
            lambda text: entering.echo(at.job, here, item, text, at.shown),
        ))  # fmt: skip

    def same_as_other(self) -> None:
        """Begin a field with what the other side has for the chosen reading."""
        item = self._at.item
        found = entering.other_side(self._at.job, self._at.here, item) if item is not None else None
        if found is None:
            self._entry.say("The other side has no value for this line; type the number.")
        else:
            self.type_in(found)

    def _misplaced(self, item: Item | None, start: str) -> None:
        """A number where the step takes none at this line."""
        if item is None and not self._at.items:
            self._desk.misplaced(start, ["Nothing is measured in this step."])
            return
        others = {"up": lambda: self._give_to(-1), "down": lambda: self._give_to(1)}
        self._desk.misplaced(start, [_takes(item), *self._would_take()], others)

    def _would_take(self) -> list[str]:
        """The line that Up gives a number to."""
        taking = self._taking(-1)
        return [] if taking is None else [f"Up gives it to “{self._at.items[taking].label}”."]

    def _taking(self, by: int) -> int | None:
        """The next line, up or down, that takes a number."""
        found = self._at.items
        start = self._at.chosen if self._at.chosen is not None else -1 if by > 0 else len(found)
        order = [(start + by * far) % len(found) for far in range(1, len(found) + 1)]
        return next((number for number in order if not found[number].yes_or_no), None)

    def _give_to(self, by: int) -> None:
        """Choose the next line that takes a number, up or down, and keep what was typed in its field."""
        text, taking = self._entry.text, self._taking(by)
        if taking is None:
            self._entry.say("No line of this step takes a number. Escape cancels.")
            return
        self._entry.idle()
        self._choose(taking)
        self.type_in(text)

    def _typed(self, item: Item, text: str, note: str) -> str | None:
        """Take what was typed, where the screen had asked for it when Enter was pressed."""
        if not self._asked_for(item):
            return "Enter came before this line stood on the screen: look, then Enter records it."
        return self._go_on(Typed(item, text, note))

    # Checks

    def answer(self, yes: str) -> None:
        """Answer the chosen check."""
        item = self._at.item
        if item is None and yes == "yes" and not self._at.is_finished:
            self._finish()
        elif item is not None and item.one_by_one:
            self._turning.press(item, yes)
        elif item is None or not item.yes_or_no:
            self._entry.say(f"This is no check: type a number, or {named('w', 'words')} and words.")
        elif not self._asked_for(item):
            self._entry.say("That key came before this check stood on the screen: look, then press it again.")
        elif self._at.answered == (item, yes):
            self._entry.say(f"{yes.capitalize()} is recorded for it already. Enter goes on to the next line.")
        else:
            self._asks.with_name(lambda: self._answer(item, yes))

    def _answer(self, item: Item, yes: str) -> None:
        refused = self._go_on(Typed(item, yes))
        if refused is not None:
            self._entry.say(refused)

    # Recording

    def _go_on(self, typed: Typed) -> str | None:
        """Record an answer, when what has to be asked first was; what is refused comes back and the text is kept."""
        if self._screen.session.by is None:
            self._asks.with_name(lambda: self._answered(typed))
            return None
        return None if self._twice.asks(typed) else self._record(typed)

    def _answered(self, typed: Typed) -> None:
        """Something about it was asked and answered."""
        refused = self._go_on(typed)
        if refused is not None:
            self.type_in(typed.text, typed.note)
            self._entry.say(refused)

    def _record(self, typed: Typed) -> str | None:
        before, here, done = self._at.job, self._at.here, list[Act]()
        refused = self._desk.record(
            self._at.step,
            lambda made: done.append(_fill(made, typed)),
            then=lambda told: self._recorded(before, here, typed, told, done[-1]),
        )
        if refused is None:
            self._at.answer(typed.item, typed.text)
            self._entry.idle()
            self._screen.draw()
            self._entry.say("")
        return entering.by_label(refused, typed.item)

    def _recorded(self, before: Job, here: PlannedStep, typed: Typed, told: Told, act: Act) -> None:
        """Say what was recorded, whatever is shown and asked by now."""
        self._entry.hint_anew()
        job, item, text = self._at.job, typed.item, typed.text
        words = _words(job, here, typed, act, self._at.shown)
        wrong = "The number before was typed wrong." if typed.mistyped else ""
        stays = told.kept or entering.wants_a_look(job, here, item)
        answer = (
            told.of(f"{words} {wrong}".rstrip()),
            *_worked_out(before, job, here, self._at.shown),
            soon_words(job, here, item),
            _still_to_ask(job, here, item, text),
            _what_now(job, here, item),
        )
        self._desk.tell(" ".join(filter(None, answer)), stays)


def _takes(item: Item | None) -> str:
    """Why a number has no place at the line that is chosen."""
    if item is None:
        return "No line is chosen: every one has an answer."
    yes, no = named("y", "answer-yes"), named("n", "answer-no")
    return f"The line chosen is a check: {item.label} It takes {yes} or {no}."


def _worked_out(before: Job, job: Job, here: PlannedStep, shown: Chosen) -> list[str]:
    """Readings of the step that are worked out and have moved with what was recorded, and where they lie."""
    then, now = before.now, job.now
    moved = [
        (one.say or name, name)
        for name, one in here.step.reading.items()
        if one.from_ and then.reading_value(here.id, name) != now.reading_value(here.id, name)
    ]
    return [f"{said}: {entering.lies_words(job, here, name, shown)}." for said, name in moved]


def _what_now(job: Job, here: PlannedStep, item: Item) -> str:
    """A reading that doesn't lie within stops nothing by itself: what somebody can do about it."""
    if item.kind != READING or not entering.wants_a_look(job, here, item):
        return ""
    note, surprise = named("t", "note"), named("s", "surprise")
    return (
        f"Measure it again, or say what was decided and by whom: {note}; {surprise} where something is wrong."
    )


def _still_to_ask(job: Job, here: PlannedStep, item: Item, text: str) -> str:
    """A check of the step that decides, answered yes, closes nothing by itself: say how that is closed."""
    asked = [one for one in job.all_open if one.id == ASK_FIRST]
    if item.kind != TICK or text != "yes" or not asked or here.step.go_or_stop is None:
        return ""
    return f"Still recorded as open: {asked[0].words}. If that was asked, {named('c', 'close')} closes it."


def _words(job: Job, here: PlannedStep, typed: Typed, act: Act, shown: Chosen) -> str:
    """What was recorded: of a bolt or a run as the act has it, of the others as it was typed and now stands."""
    if typed.item.one_by_one:
        return recorded_words(job, here, act, shown)
    return entering.recorded_words(job, here, typed.item, typed.text, shown)


def _fill(made: Draft, typed: Typed) -> Act:
    """Put an answer into a call, with its note; the act that it is."""
    entering.enter(made, typed.item, typed.text, RECKONER if typed.note else None, typed.mistyped)
    act = made.did[-1]
    if typed.note:
        said.note(made, typed.note)
    return act
