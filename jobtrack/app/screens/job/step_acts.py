"""What can be done in a step beside its readings: finish, release, undo, notes, time, people."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.screens.base import Command
from jobtrack.app.screens.job.by_name import ByName
from jobtrack.app.screens.on_job import JOB
from jobtrack.app.session import draft
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.compose import conditions, mending, people, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.pages.step.hazards import SHOW_ALL
from jobtrack.pages.step.left import left_lines
from jobtrack.pages.wording import step_name
from jobtrack.sheets.answer import stays_open
from jobtrack.sheets.words.acts import entry_words
from jobtrack.template.plan import PlannedStep
from jobtrack.units import UnitError

FINISH_ALL_THE_SAME = "Press Enter to finish it; any other key leaves it as it is."

ACTS = (
    Command("f", "finish", "finish", "Finish the step. Where something is left or gets closed, it says what "
            "and asks for Enter.", records=True),
    Command("?", "all keys", "keys", "This page: what every key does."),
    Command("g", "go on", "go_on", "Go on to the step that comes next."),
    Command("k", "clock", "clock", "Your clock on or off.", records=True),
    Command("!", "unsafe", "unsafe", "Unsafe right now: your words become an open condition."),
    Command("u", "undo", "undo", "Undo your own last entry; again goes one further back.", records=True),
    Command("o", "outline", "outline", "The outline of stages and steps."),
    JOB,
    Command(SHOW_ALL, "hazards", "hazards", "The hazard messages of this step and of the job, whole."),
    Command("Enter", "next line", "next_line", "On to the next reading or check without an answer."),
    Command("w", "words", "words", "Words for the chosen reading instead of a number: can't reach, seized."),
    Command("t", "note", "note", "Write a note on this step."),
    Command("m", "mark", "mark", "Mark where you are: bolt 3, second stage."),
    Command("r", "release", "release", "Release the hold point: asks for a name, then a second r."),
    Command("c", "close", "close", "Close a condition by name: choose it, type your name, c again."),
    Command("p", "break", "break_off", "A break: your clock stops until your next entry.", records=True),
    Command("h", "hand over", "hand_over", "Hand the job over to somebody."),
    Command("s", "settle", "settle", "Settle a disagreement: say which value counts."),
    Command("a", "stands", "stands", "Looked at again, and still right, because …"),
    Command("d", "not needed", "not_needed", "The step is not needed; a reason can be typed."),
    Command("b", "jobs", "jobs", "Back to the jobs."),
    Command("q", "quit", "quit", "End the program; all that is recorded is on the disk."),
    Command("y", "", "keys", "Yes to the chosen check, which stays until Enter or an arrow.", shown=False,
            records=True),
    Command("n", "", "keys", "No to the chosen check.", shown=False, records=True),
    Command("Up", "", "up", "Choose the reading or check above.", shown=False),
    Command("Down", "", "down", "Choose the one below.", shown=False),
    Command("Left", "", "step_before", "The step before this one.", shown=False),
    Command("Right", "", "step_after", "The step after this one.", shown=False),
    Command("Escape", "", "outline", "Cancels what is typed or asked; else the outline.", shown=False),
)  # fmt: skip


def _finish_anew(made: Draft) -> None:
    """Finish; raises Refused where that would only say again what stands already."""
    steps.finished(made)
    made.done()


class StepActs(ByName):
    """The acts of a step, each begun by one key."""

    moved = False

    @property
    def here(self) -> PlannedStep:
        """The step of the screen."""
        return self.job.steps[self.step]

    # Finish, release, undo

    def finish(self) -> None:
        """Finish the step; show first what that closes."""
        self.with_name(self._finish)

    def _finish(self) -> None:
        try:
            closing = self._closed_by(_finish_anew)
        except (Refused, UnitError) as error:
            self.entry.say(str(error))
            return
        about = left_lines(self.job, self.here)
        if closing:
            about += ["Finishing this step closes:", *(f"- {condition_sentence(one)}" for one in closing)]
        if about:
            again = (("f", lambda: None),)  # tapped twice, it neither finishes nor cancels
            self.entry.confirm(
                SecondKey(
                    about,
                    "enter",
                    self._finished,
                    FINISH_ALL_THE_SAME,
                    again,
                    "Enter finish it   Escape leave it as it is",
                )
            )
        else:
            self._finished()

    def _closed_by(self, fill: Callable[[Draft], None]) -> list[OpenCondition]:
        made = draft(self.file, self.bench, self.step, fill)
        left = {one.name for one in made.job.all_open}
        return [one for one in self.job.all_open if one.name not in left]

    def _finished(self) -> None:
        self.put(self.step, steps.finished)

    def release(self) -> None:
        """Ask who releases the hold, then wait for the second key."""
        hold = self.job.hold(self.step)
        if hold is None:
            self.entry.say("This step has no hold point to release.")
            return
        what = [f"Releases the hold of {step_name(self.here)}: {hold.ask}"]
        self.by_name("Who releases it?", "r", what, steps.release_hold)

    def undo(self) -> None:
        """Undo one's own last entry that still counts."""
        self.with_name(self._undo)

    def _undo(self) -> None:
        undone: list[Entry] = []
        told = self.put(self.step, lambda made: undone.append(mending.undo(made)))
        if told.recorded:
            said = [f"Undone: {entry_words(undone[0])}.", stays_open(undone[0]), told.follows]
            self.entry.tell(" ".join([*(one for one in said if one), "u again goes one further back."]))

    # Words

    def note(self) -> None:
        self.words_for(f"A note on “{step_name(self.here)}”:", lambda made, text: made.add(NoteAct(text)))

    def mark(self) -> None:
        ask = f"Where are you in “{step_name(self.here)}”? (bolt 3, second stage)"
        self.words_for(ask, lambda made, text: made.add(MarkAct(text)))

    def unsafe(self) -> None:
        ask = f"Unsafe right now, at “{step_name(self.here)}” - what is it? It becomes an open condition."
        self.words_for(ask, conditions.opens)

    def stands(self) -> None:
        self.words_for("Looked at again, and still right, because:", steps.stands)

    def not_needed(self) -> None:
        ask = "Not needed, because (Enter alone: no reason given):"
        self.words_for(ask, lambda made, text: steps.not_needed(made, text or None), empty=True)

    # Time and people

    def clock(self) -> None:
        """One's own clock on, or off where it runs."""
        self.with_name(self._clock)

    def _clock(self) -> None:
        self.put(None, lambda made: people.clock(made, "off" if self.clock_is_on() else "on"))

    def break_off(self) -> None:
        """A break: one's own clock stops until the next entry."""
        self.with_name(self._break_off)

    def _break_off(self) -> None:
        self.put(None, lambda made: people.clock(made, "break"))

    def hand_over(self) -> None:
        from jobtrack.app.screens.job.handover import HandoverScreen

        self.app.push_screen(HandoverScreen(self.file))

    def jobs(self) -> None:
        """Back to the jobs of the folder, also where the app was begun in this job."""
        from jobtrack.app.screens.jobs import JobsScreen

        if any(isinstance(screen, JobsScreen) for screen in self.app.screen_stack):
            self.app.pop_screen()
        else:
            self.app.switch_screen(JobsScreen())

    def outline(self) -> None:
        from jobtrack.app.screens.job.outline import OutlineScreen

        self.app.push_screen(OutlineScreen(self.file, self.step), self._from_outline)

    def _from_outline(self, step: str | None) -> None:
        if step is not None:
            self.go(step)

    def go(self, step: str) -> None:
        """Show another step."""
        raise NotImplementedError
