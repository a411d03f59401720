"""The reckoner: all workings-out, narrowed by a few letters; the step's own come first."""

from __future__ import annotations

from textual.widgets import Input

from jobtrack.app.reckoner_place import Place, Reckoned
from jobtrack.app.screens.base import Command
from jobtrack.app.screens.choose import ARROWS, CHOSEN, OTHER, Listing
from jobtrack.app.screens.on_job import FOLLOW_EVERY
from jobtrack.app.widgets.entry import Ask
from jobtrack.pages.job.conditions import MOST, top_lines
from jobtrack.pages.reckoner.list import Pick, matching, picks
from jobtrack.pages.typeset import Line, line, shortened, wrap
from jobtrack.pages.wording import counted
from jobtrack.store.file.reader import JobFileError


class Reckoning(Listing):
    """A page of the reckoner, with a job's open conditions on top where one is open."""

    WHILE_TYPING = ("enter", "escape", "up", "down", "pageup", "pagedown")

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.from_where = place

    def on_mount(self) -> None:
        self.set_interval(FOLLOW_EVERY, self.follow)

    def on_screen_resume(self) -> None:
        self.draw()

    def follow(self) -> None:
        """Take in what others have added: something may have been recorded as open."""
        file = self.from_where.file
        if file is None or self.app.screen is not self:
            return
        try:
            changed = file.refresh()
        except JobFileError as error:
            self.entry.say(str(error))
            return
        if changed:
            self.draw()

    def draw_frame(self, title: str) -> None:
        """Open conditions and a title on top, the keys below."""
        job = self.from_where.job
        rows = 2 if self.short else MOST
        top = top_lines(job, self.room, rows, self.from_where.planned) if job is not None else []
        self.show_part("head", [*top, *wrap(title, self.room, "strong")])
        self.show_part("last", [])
        self.show_keys()

    def dropped(self) -> None:
        self.back()

    def back(self) -> None:
        """One page back; what was typed is kept as long as the reckoner is open."""
        self.dismiss(None)


class ReckonerScreen(Reckoning):
    """The list."""

    KEYS_WHILE_TYPING = True

    COMMANDS_HERE = (
        Command("Enter", "choose", "choose", "Choose the marked one."),
        Command("Escape", "back", "back", "Back to where you were."),
        *ARROWS,
    )

    def __init__(self, place: Place) -> None:
        super().__init__(place)
        self.all = picks(place.job, place.planned)
        self.shown = self.all
        self.kept: dict[str, dict[str, str]] = {}
        """What was typed for each, by its name."""

    def on_mount(self) -> None:
        label = [line("Type a few letters of a name, or of what it is about", "strong")]
        self.entry.ask(Ask(label, self._entered, echo=self._count))

    def draw(self) -> None:
        self.draw_frame("Reckoner: the calculator at the bench")
        self.draw_items()

    def entries(self) -> list[list[Line]]:
        """A working-out each; while nothing is typed each topic has its heading."""
        headed = self.shown is self.all
        heads = [self._head(one) if headed else "" for one in self.shown]
        return [
            [*self._heading(heads, number), *self._row(number, one)] for number, one in enumerate(self.shown)
        ]

    def _head(self, one: Pick) -> str:
        return "This step, with its own values" if one.title else one.work.topic.capitalize()

    def _heading(self, heads: list[str], number: int) -> list[Line]:
        if number and heads[number] == heads[number - 1]:
            return []
        return wrap(heads[number], self.page.room, "strong") if heads[number] else []

    def _row(self, number: int, one: Pick) -> list[Line]:
        """One row; the marked one with its whole formula."""
        text = f"{one.name}: {one.work.formula}"
        if number == self.chosen:
            return wrap(f"{CHOSEN}{text}", self.page.room, "strong", 4)
        return [line(shortened(f"{OTHER}{text}", self.page.room))]

    def on_input_changed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        shown = matching(self.all, event.value) if event.value.strip() else self.all
        if shown != self.shown:
            self.shown, self.chosen = shown, 0
            self.draw()

    def _count(self, text: str) -> str:
        found = len(matching(self.all, text)) if text.strip() else len(self.all)
        if not found:
            return "No working-out has these letters in it; Backspace takes one off."
        return f"{counted(found, 'working-out', 'workings-out')}; Up and Down mark one, Enter chooses it."

    def _entered(self, text: str) -> str | None:
        self.choose()
        return None

    def choose(self) -> None:
        """Open the marked one, with what was typed for it before."""
        if not self.shown:
            return
        from jobtrack.app.screens.reckoner.working import WorkScreen

        one = self.shown[self.chosen]
        typed = self.kept.setdefault(one.name, dict(one.typed))
        self.app.push_screen(WorkScreen(self.from_where, one, typed), self._came_back)

    def _came_back(self, found: Reckoned | None) -> None:
        if found is not None:
            self.dismiss(found)
