"""The outline of stages and steps, a page of its own."""

from __future__ import annotations

from jobtrack.app.screens.base import Command
from jobtrack.app.screens.choose import ARROWS, ChooseScreen, Listing
from jobtrack.app.screens.on_job import JOB, OnJob
from jobtrack.job.compose import ending
from jobtrack.job.remarks.problems import step_problems
from jobtrack.pages.job.outline import (
    due_afterwards,
    job_lines,
    ordered_steps,
    stage_heads,
    step_line,
    summary,
)
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.pages.wording import FIRST_WORD, steps_named
from jobtrack.store.file.writer import JobFile


class OutlineScreen(OnJob, Listing):
    """All steps; Enter turns to the marked one."""

    COMMANDS_HERE = (
        Command("Enter", "go", "choose", "Go to the marked step."),
        Command("e", "end the job", "end", "End the job: closed, or stopped with a reason."),
        Command("h", "hand over", "hand_over", "Hand the job over to somebody."),
        JOB,
        Command("d", "due done", "due_done", "Record something due afterwards as done."),
        Command("Escape", "back", "back", "Back to the step."),
        Command("?", "all keys", "keys", "This page."),
        Command("q", "quit", "quit", "End the program."),
        Command("o", "", "back", "Back to the step.", shown=False),
        Command("b", "", "back", "Back to the step.", shown=False),
        *ARROWS,
    )

    def __init__(self, file: JobFile, step: str | None) -> None:
        super().__init__(file)
        steps = ordered_steps(self.job)
        self.chosen = steps.index(step) if step in steps else 0

    def draw(self) -> None:
        self.draw_frame()
        self.draw_items()
        self.entry.idle()

    def before(self) -> list[Line]:
        width = self.page.room
        lines = wrap(f"Outline of {self.job.about.title}. {summary(self.job)}.", width, "strong")
        return lines + [row for text in job_lines(self.job) for row in wrap(text, width, "", 2)]

    def entries(self) -> list[list[Line]]:
        """Each step under its stage's heading, with what stands against it."""
        heads, width = stage_heads(self.job), self.page.room
        found: list[list[Line]] = []
        for number, step in enumerate(ordered_steps(self.job)):
            lines = wrap(heads[step], width, "strong") if step in heads else []
            lines = [line(), *lines] if lines else []
            lines += item(self.marked(number, step_line(self.job, step), width), number)
            lines += [
                row
                for text in step_problems(self.job, step)
                for row in wrap(f"      - {steps_named(self.job, text, self.job.steps[step])}", width, "", 8)
            ]
            found.append(lines)
        if found:
            found[-1] += self._behind(width)
        return found

    def _behind(self, width: int) -> list[Line]:
        due = due_afterwards(self.job)
        lines = [line(), *wrap("Due afterwards", width, "strong")] if due else []
        lines += [row for text in due for row in wrap(f"  {text}", width, "", 4)]
        return [*lines, line(), *wrap(FIRST_WORD, width, "small")]

    def choose(self) -> None:
        """Turn to the marked step."""
        self.dismiss(ordered_steps(self.job)[self.chosen])

    def back(self) -> None:
        self.dismiss(None)

    def end(self) -> None:
        from jobtrack.app.screens.job.end import EndScreen

        self.app.push_screen(EndScreen(self.file))

    def hand_over(self) -> None:
        from jobtrack.app.screens.job.handover import HandoverScreen

        self.app.push_screen(HandoverScreen(self.file))

    def due_done(self) -> None:
        """Choose what was due afterwards and is done."""
        names = list(self.job.plan.template.due_afterwards)
        if not names:
            self.entry.say("Nothing is due afterwards in this job.")
            return

        def chosen(number: int | None) -> None:
            if number is not None:
                self.with_name(lambda: self._due_done(names[number]))

        self.app.push_screen(ChooseScreen("What is done?", due_afterwards(self.job)), chosen)

    def _due_done(self, name: str) -> None:
        self.put(None, lambda made: ending.due_done(made, name))
