"""A surprise: what was met, on what, whether it endangers somebody, and what follows from it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import events
from textual.binding import BindingType

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import ALL_KEYS, QUIT, REST, also, key
from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.painted import Painted
from jobtrack.app.parts.questions import GOES_ON, Questions
from jobtrack.app.parts.seldom.added_step import AddedStep
from jobtrack.app.parts.taking_keys import SAME_PRESS
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.session import Fill
from jobtrack.job.acts.doing import ASKED
from jobtrack.job.compose import conditions, doing, said
from jobtrack.job.compose.draft import Draft
from jobtrack.pages.asking.choices import numbered_choice, numbered_words
from jobtrack.pages.asking.surprise import (
    LETTERS,
    danger_lines,
    follows_lines,
    head_lines,
    met_words,
    name_lines,
    part_names,
    what_lines,
)
from jobtrack.pages.typeset import Line
from jobtrack.template.plan import PlannedStep

BACK = "Back to the step."
WHAT, ON, DANGER, FOLLOWS = "what", "on", "danger", "follows"
"""What the page asks, one after another."""


class SurpriseScreen(PageScreen):
    """Asks by single keys; what endangers nobody is recorded at once, the rest in somebody's own words."""

    desk: JobDesk
    HELP = (
        "Something that nobody planned: one key says what was met, one more whether it endangers somebody. "
        "What endangers nobody is recorded at once; the rest becomes an open condition in your own words."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *(key(letter, met, f"met('{met}')", f"You met: {met}.") for letter, met in LETTERS.items()),
        key("n", "no, nobody", "endangers('no')", "It endangers nobody: recorded as met, at once.", records=True),
        key("y", "yes, it does", "endangers('yes')", "It endangers somebody: recorded as open, in your words."),
        key("p", "part", "part", "A part is needed: asked for."),
        key("f", "step before", "step('before')", "A step more, before this one."),
        key("a", "step after", "step('after')", "A step more, after this one."),
        key("t", "note", "note", "A note on the step."),
        key("enter", "back to the step", "done", BACK),
        key("escape", "back", "back", "One question back; from the first one, and when it is recorded, to the step."),
        ALL_KEYS,
        QUIT,
        also("*", "endangers('yes')", "Yes, on the number pad."),
        also("/", "endangers('no')", "No, on the number pad.", records=True),
        REST,
    ]  # fmt: skip
    PHASES: ClassVar[dict[str, tuple[str, ...]]] = {
        "met": (WHAT,), "endangers": (DANGER,), "part": (FOLLOWS,), "step": (FOLLOWS,),
        "note": (FOLLOWS,), "done": (FOLLOWS,),
    }  # fmt: skip
    """When a key means something; any other does nothing."""

    def __init__(self, file: OpenJob, planned: PlannedStep) -> None:
        super().__init__()
        self.desk = JobDesk(self, file)
        self.asks = Questions(self)
        self.planned = planned
        self.names = part_names(file.job, planned)
        self.phase = WHAT
        self.painted = Painted(self.entry)
        self.met = self.on = ""
        self.letter, self.chosen_at = "", 0.0

    # The page

    def draw(self) -> None:
        """What is asked now."""
        self.desk.draw_frame()
        self.page.show([*head_lines(self.planned, self.page.room), *self._asked(self.page.room)])
        if not self.entry.busy:
            self.entry.idle()
        self.painted.drawn(self.phase)

    def _asked(self, width: int) -> list[Line]:
        if self.phase == WHAT:
            return what_lines(width)
        if self.phase == ON:
            return name_lines(self.names, width)
        lines = danger_lines if self.phase == DANGER else follows_lines
        return lines(self.met, self.on, width)

    def offers(self, action: str) -> bool:
        """What can be answered to the question that stands there."""
        phases = self.PHASES.get(action.partition("(")[0])
        return phases is None or self.phase in phases

    def _turn(self, phase: str) -> None:
        """Ask the next; only a key that comes when it has been painted answers it."""
        self.phase = phase
        self.entry.idle()
        self.draw()
        self.entry.say("")

    def _too_early(self) -> bool:
        return not self.painted.was(self.phase, self.pressed)

    async def take_key(self, event: events.Key) -> bool:
        """A letter tapped twice is one letter, and none of the words behind it."""
        if self.phase == ON and event.key == self.letter and event.time - self.chosen_at < SAME_PRESS:
            return True
        return await super().take_key(event)

    def number(self, start: str) -> None:
        """No number is asked for here; it does nothing."""

    def dropped(self) -> None:
        """Escape in a field: one question back."""
        if self.phase == ON:
            self._turn(WHAT)
        else:
            self._turn(self.phase)
            self.entry.say("Cancelled: nothing is recorded; choose again.")

    # What, on what

    def action_met(self, met: str) -> None:
        """What was met."""
        if self._too_early():
            return
        self.met, self.chosen_at = met, self.pressed
        self.letter = next(letter for letter, one in LETTERS.items() if one == met)
        self._ask_on("")

    def _ask_on(self, start: str) -> None:
        self._turn(ON)
        label = f"{met_words(self.met, '')}. On what? Your words, or nothing."
        self.asks.ask(label, self._on, hint=GOES_ON, start=start)

    def _on(self, text: str) -> str | None:
        self.on = numbered_choice(text, self.names)
        self._turn(DANGER)
        return None

    # Whether it endangers somebody

    def action_endangers(self, somebody: str) -> None:
        """Yes asks for the words in which it stands open; no records it as met."""
        if not self._too_early():
            self.asks.with_name(self._ask_unsafe if somebody == "yes" else self._record_met)

    def _record_met(self) -> None:
        self._put(self._fill_met)

    def _fill_met(self, made: Draft) -> None:
        said.met(made, self.met, self.on or None)

    def _ask_unsafe(self) -> None:
        start = met_words(self.met, self.on) if self.on else ""
        ask = "What is unsafe, in your words? It becomes an open condition."
        self.asks.ask(ask, self._record_unsafe, start=start)

    def _record_unsafe(self, text: str) -> str | None:
        words = text.strip()
        if not words:
            return "Type what is unsafe; Escape goes back."

        def both(made: Draft) -> None:
            self._fill_met(made)
            conditions.opens(made, words)

        return self._put(both)

    def _put(self, fill: Fill) -> str | None:
        """Record it, and ask what follows; what is refused is said, and nothing turns."""
        refused = self.desk.record(self.planned.id, fill, then=self.desk.answer_with)
        if refused is None:
            self._turn(FOLLOWS)
        else:
            self.entry.say(refused)
        return refused

    # What follows

    def action_part(self) -> None:
        """A part is needed."""

        def needed(made: Draft, text: str) -> None:
            doing.buying(made, numbered_choice(text, self.names), ASKED)

        offered = [f"By number, or any other part: {numbered_words(self.names)}"] if self.names else []
        self._words("Which part is needed?", self.on, needed, offered)

    def action_note(self) -> None:
        """A note."""
        self._words("A note on this:", "", said.note)

    def _words(
        self, label: str, start: str, fill: Callable[[Draft, str], None], about: Sequence[str] = ()
    ) -> None:
        def typed(text: str) -> str | None:
            words = text.strip()
            return self._put(lambda made: fill(made, words)) if words else "Nothing is typed; Escape cancels."

        self.asks.ask(label, typed, about, start=start)

    def action_step(self, where: str) -> None:
        """A step more."""
        added = AddedStep(self.desk, self.planned)
        (added.before if where == "before" else added.after)()

    # Back

    def action_back(self) -> None:
        """One question back; nothing that was recorded is taken back."""
        if self.phase == DANGER:
            self._ask_on(self.on)
        else:
            self.action_done()

    def action_done(self) -> None:
        """To the step, which says what was recorded."""
        self.dismiss(self.entry.last)
