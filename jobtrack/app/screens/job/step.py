"""The step: what is open, what to do, the readings; and the line on which a number is typed."""

from __future__ import annotations

from jobtrack.app.reckoner_place import Place, Reckoned
from jobtrack.app.screens.job.away import Away
from jobtrack.app.screens.job.step_acts import ACTS, StepActs
from jobtrack.app.screens.on_job import PINNED
from jobtrack.app.session import Told, record
from jobtrack.app.widgets.entry import Ask, moment
from jobtrack.job.acts.base import replace
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.job.state.job import FINISHED
from jobtrack.pages.job.last_line import next_step
from jobtrack.pages.step import entering
from jobtrack.pages.step.hazards import pinned_lines, seen_today
from jobtrack.pages.step.items import READING, TICK, Item, first_open, items
from jobtrack.pages.step.page import step_page
from jobtrack.pages.step.table import reading_wanted
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap
from jobtrack.sheets.words.readings import RECKONER
from jobtrack.store.file.writer import JobFile

ALL_ANSWERED = "Every reading and check of this step has an answer; f finishes it."

WITH_NOTE = "A note goes with it, in the same entry: the working-out, what went in, its source."

SAME_CHECK = "y or n answers it anew."

MEASURE_AGAIN = "This step is finished. A number typed here is a new measurement."


class StepScreen(StepActs, Away):
    """One step of one job."""

    COMMANDS_HERE = ACTS

    def __init__(self, file: JobFile, step: str) -> None:
        super().__init__(file)
        self.step = step
        self.chosen: int | None = None
        self.whole = True
        self.job_whole = False
        self.turned = False
        """Whether the page may have left its top, with the whole messages on it."""
        self.answered: tuple[Item, str] | None = None
        """The check that was answered last and is still chosen, and the answer."""
        self.named: Item | None = None
        self.named_since = 0.0
        """What the screen asks for, and since when it has been painted, in the time of key events."""

    @property
    def item(self) -> Item | None:
        """The reading or check that an answer goes to."""
        found = items(self.job, self.here)
        return found[self.chosen] if self.chosen is not None and self.chosen < len(found) else None

    def on_mount(self) -> None:
        self.look_at(self.step)
        self.entry.say("")

    def look_at(self, step: str) -> None:
        """Turn to a step, its first reading without an answer chosen."""
        self.step, self.answered = step, None
        self.whole = not seen_today(self.job, self.here, self.bench.by, self.bench.now())
        self.turned = self.job_whole = False
        self.chosen = first_open(self.job, self.here)
        if self.chosen is None and items(self.job, self.here):
            self.chosen = 0

    def go(self, step: str) -> None:
        """Show another step from its top."""
        self.look_at(step)
        self.entry.tell("")
        self.draw()
        self.entry.say("")
        self.page.top()

    def draw(self) -> None:
        self.draw_frame()
        self.page.show(
            step_page(self.job, self.here, self.page.room, self.item, self.whole, self.job_whole),
            self._in_sight(),
        )
        if self.entry.asking is None and self.entry.waiting is None:
            self.entry.hint = self._hint()
            self.entry.idle(self._label(), self._about())
        if self.item != self.named:
            self.named = None
            self.entry.call_after_refresh(self._names, self.item)

    def _names(self, item: Item | None) -> None:
        """The screen has been painted, and asks for this."""
        if item == self.item and item != self.named:
            self.named, self.named_since = item, moment()

    def _was_named(self, item: Item) -> bool:
        """Whether the screen asked for this already when the key came that would answer it."""
        return item == self.named and self.pressed >= self.named_since

    def pinned(self) -> list[Line]:
        """The hazard messages, one or two rows each, as soon as the whole ones may be out of sight."""
        if self.whole and not self.turned:
            return []
        most = next(rows for tall, rows in PINNED if self.app.size.height >= tall)
        return pinned_lines(self.here.step.hazard, self.room, 2 if self.short else most)

    def hazards(self) -> None:
        """Every message whole, at the top of the page."""
        self.whole, self.job_whole, self.turned = True, True, False
        self.draw()
        self.page.top()

    def _scroll(self, key: str) -> None:
        self.turned = True
        self.draw()
        super()._scroll(key)

    def _in_sight(self) -> int | None:
        """The item to scroll to; none before one was chosen or answered, so that the top is read first."""
        return self.chosen if self.moved else None

    def _label(self) -> list[Line]:
        """What is entered next: a reading's name in spaced capitals, with side or vehicle and unit."""
        item = self.item
        if item is None:
            return [line("Nothing is measured in this step; t writes a note.", "strong")]
        if item.kind != READING:
            return wrap(item.label, self.room, "strong")
        unit = f" ({item.unit})" if item.unit else ""
        side = f"{self.here.member}: " if self.here.member else ""
        capitals = spaced_rows(side + item.label, self.room - len(unit))
        return [line(row + (unit if row is capitals[-1] else ""), "strong") for row in capitals]

    def _about(self) -> list[str]:
        item = self.item
        if item is None or self.short:
            return []
        if item.kind == READING:
            return [reading_wanted(self.job, self.here, item)]
        if item.yes_or_no:
            return []
        return [
            f"Choose by number: {entering.choices(item)}"
            if item.choose
            else "A number or words; ? is don't know yet"
        ]

    def _hint(self) -> str:
        if self.item is None:
            return ""
        if self.job.state(self.step) == FINISHED:
            return MEASURE_AGAIN
        if first_open(self.job, self.here) is None:
            return f"{SAME_CHECK} {ALL_ANSWERED}" if self._stands_answered() else ALL_ANSWERED
        if self._stands_answered():
            return f"{SAME_CHECK} Enter goes on to the next line."
        if self.item.yes_or_no:
            return "y or n answers it; Enter leaves it for later; Up and Down choose another."
        return "Type the number, or w and words; Up and Down choose another."

    def _stands_answered(self) -> bool:
        """Whether the chosen check has just been answered, and waits for the key that goes on."""
        return self.answered is not None and self.answered[0] == self.item

    # Choosing and typing

    def take(self, pressed: str) -> bool:
        """The first character of a number begins a field; y and n answer a check."""
        if pressed in ("y", "n"):
            self.answer("yes" if pressed == "y" else "no")
            return True
        if len(pressed) == 1 and pressed in entering.NUMBER_STARTS:
            self.type_in(pressed)
            return True
        return False

    def next_line(self) -> None:
        """On to the next line that has no answer yet; a line left without one comes again."""
        self._choose(first_open(self.job, self.here, self.chosen if self.chosen is not None else -1))

    def _choose(self, number: int | None) -> None:
        if number is not None:
            self.chosen = number
        self.answered = None
        self.moved = self.turned = True
        self.entry.forget()
        self.draw()
        self.entry.say("")

    def up(self) -> None:
        self._move(-1)

    def down(self) -> None:
        self._move(1)

    def _move(self, by: int) -> None:
        count = len(items(self.job, self.here))
        if not count:
            (self.page.scroll_up if by < 0 else self.page.scroll_down)(animate=False)
            return
        self._choose(((self.chosen or 0) + by) % count)

    def words(self) -> None:
        """Begin a field for words instead of a number."""
        self.type_in("")

    def place(self) -> Place:
        """The job, this step, and the reading that a number would enter."""
        item = self.item if self.item is not None and self.item.kind == READING else None
        return Place(self.file, self.step, item, takes_number=True)

    def reckoned(self, found: Reckoned | None) -> None:
        """Begin a field with a result of the reckoner; like any number it is confirmed with Enter."""
        if found is not None and found.text:
            self.type_in(found.text, found.note)

    def type_in(self, start: str, note: str = "") -> None:
        """Begin a field for the chosen reading or given; a note may go with it, in the same entry."""
        item = self.item
        if item is None or item.yes_or_no:
            self._misplaced(item, start)
            return
        here = self.here
        self.entry.ask(Ask(
            self._label(), lambda text: self._typed(item, text, note),
            [*self._about(), *([WITH_NOTE] if note else [])], start,
            lambda text: entering.echo(self.job, here, item, text),
        ))  # fmt: skip

    def _misplaced(self, item: Item | None, start: str) -> None:
        """A number where the step takes none at this line."""
        if item is None:
            self.misplaced(start, ["Nothing is measured in this step."])
            return
        about = [f"The line chosen is a check: {item.label} It takes y or n."]
        self.misplaced(start, about, {"up": lambda: self._give_to(-1), "down": lambda: self._give_to(1)})

    def _give_to(self, by: int) -> None:
        """Choose the next line that takes a number, up or down, and keep what was typed in its field."""
        text, found = self.entry.text, items(self.job, self.here)
        order = [((self.chosen or 0) + by * far) % len(found) for far in range(1, len(found))]
        taking = next((number for number in order if not found[number].yes_or_no), None)
        if taking is None:
            self.entry.say("No line of this step takes a number. Escape cancels.")
            return
        self.entry.idle()
        self._choose(taking)
        self.type_in(text)

    def _typed(self, item: Item, text: str, note: str) -> str | None:
        """Take what was typed, where the screen had asked for it when Enter was pressed."""
        if not self._was_named(item):
            return "Enter came before this line stood on the screen: look, then Enter records it."
        return self.enter(item, text, note)

    def answer(self, yes: str) -> None:
        """Answer the chosen check."""
        item = self.item
        if item is None or not item.yes_or_no:
            self.entry.say("This is no check: type a number, or w and words.")
        elif not self._was_named(item):
            self.entry.say("That key came before this check stood on the screen: nothing is recorded.")
        elif self.answered == (item, yes):
            self.entry.say(f"{yes.capitalize()} is recorded for it already. Enter goes on to the next line.")
        else:
            self.with_name(lambda: self._answer(item, yes))

    def _answer(self, item: Item, yes: str) -> None:
        refused = self.enter(item, yes)
        if refused is not None:
            self.entry.say(refused)

    def enter(self, item: Item, text: str, note: str = "") -> str | None:
        """Record an answer, with its note where it has one; what is refused comes back and the text is kept."""
        if self.bench.by is None:
            self.with_name(lambda: self._enter_again(item, text, note))
            return None

        def fill(made: Draft) -> None:
            entering.enter(made, item, text)
            if note:
                if isinstance(made.did[-1], ReadingAct):
                    made.amend(replace(made.did[-1], with_=RECKONER))
                made.add(NoteAct(note))

        odd = entering.slip(self.job, self.here, item, text)
        told = record(self.file, self.bench, self.step, fill)
        if not told.taken:
            return told.text
        self._recorded(item, text, told, odd)
        return None

    def _enter_again(self, item: Item, text: str, note: str) -> None:
        refused = self.enter(item, text, note)
        if refused is not None:
            self.type_in(text, note)
            self.entry.say(refused)

    def _recorded(self, item: Item, text: str, told: Told, odd: str) -> None:
        """Say what was recorded; a reading's next line is chosen, a check stays until another key goes on."""
        following = first_open(self.job, self.here, self.chosen if self.chosen is not None else -1)
        if item.yes_or_no:
            self.answered = (item, text)
        elif following is not None:
            self.chosen = following
        self.moved = True
        self.turned, self.whole, self.job_whole = True, False, False
        self.entry.idle()
        self.draw()
        self.entry.say("")
        words = entering.recorded_words(self.job, self.here, item, text)
        stays = told.kept or bool(odd) or entering.wants_a_look(self.job, self.here, item)
        self.entry.tell(" ".join(filter(None, (told.of(words), odd, self._still_to_ask(item, text)))), stays)

    def _still_to_ask(self, item: Item, text: str) -> str:
        """A check of the step that decides, answered yes, closes nothing by itself: say how that is closed."""
        asked = [one for one in self.job.all_open if one.id == ASK_FIRST]
        if item.kind != TICK or text != "yes" or not asked or self.here.step.go_or_stop is None:
            return ""
        return f"Still recorded as open: {asked[0].words}. If that was asked, c closes it."

    # Other steps

    def go_on(self) -> None:
        """Turn to the step that comes next."""
        found = next_step(self.job, self.here)
        if found is None or found == self.step:
            self.entry.say("No other step is next." if found is None else "This step is next itself.")
        else:
            self.go(found)

    def step_before(self) -> None:
        self._turn(-1)

    def step_after(self) -> None:
        self._turn(1)

    def _turn(self, by: int) -> None:
        order = list(self.job.steps)
        self.go(order[(order.index(self.step) + by) % len(order)])
