"""Finishing a step, releasing its hold, and one's own clock."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.step import asked
from jobtrack.app.session import draft
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import people, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused, SaidAlready
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import person
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.items import left_lines
from jobtrack.pages.wording import of_member, step_name
from jobtrack.sheets.words.sentences import tag_questions
from jobtrack.units import UnitError

FINISH_ALL_THE_SAME = "Press Enter to finish it; any other key leaves it as it is."
CLOCK_KEYS = "o turns it off; b is a break, until your next entry; Escape leaves it on."


class Finishing:
    """What is done to a step as a whole, begun by one key."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._desk = desk
        self._at = desk.at
        self._entry = desk.screen.entry
        self._asks = asks

    def finish(self) -> None:
        """Finish the step; show first what that closes."""
        self._asks.with_name(self._finish)

    def _finish(self) -> None:
        try:
            closing, left = self._closed_by(_finish_anew)
        except SaidAlready:
            self._entry.say(f"This step is finished already. {asked.onward(self._at)}")
            return
        except (Refused, UnitError) as error:
            self._entry.say(str(error))
            return
        self._desk.leaving(finishing=True)
        meant = self._desk.file.meant
        about = left_lines(meant, meant.steps[self._at.step], self._at.shown)
        if closing:
            about += [
                f"Finishing “{step_name(self._at.here)}” closes{' all the same' if about else ''}:",
                *(f"- {condition_sentence(one)}" for one in closing),
                *tag_questions(closing, left),
            ]
        if not about:
            self._finished()
            return
        tapped_twice = ((named("f", "finish"), lambda: None),)  # neither finishes nor cancels
        self._entry.confirm(SecondKey(
            about, "enter", self._finished, FINISH_ALL_THE_SAME, tapped_twice,
            "Enter finish it   Escape leave it as it is",
        ))  # fmt: skip

    def _closed_by(self, fill: Callable[[Draft], None]) -> tuple[list[OpenCondition], list[OpenCondition]]:
        """What it closes, and what it leaves open."""
        made = draft(self._desk.file, self._desk.screen.session, self._at.step, fill)
        left = made.job.all_open
        names = {one.name for one in left}
        return [one for one in made.before.all_open if one.name not in names], left

    def _finished(self) -> None:
        """Whatever line was chosen, what comes after the step is asked next, or a line that has no answer."""
        self._at.choose(None)
        self._desk.put(self._at.step, steps.finished)

    def release(self) -> None:
        """Ask who releases the hold, then wait for the second key."""
        hold = self._at.job.hold(self._at.step)
        if hold is None:
            self._entry.say(f"This step has no hold point to release; {named('f', 'finish')} finishes it.")
            return
        here = self._at.here

        def named_by(name: str) -> None:
            about = [f"Releases the hold of {step_name(here)}: {hold.ask}", self._by_whom(name)]
            self._entry.confirm(SecondKey(about, named("r", "release"), lambda: self._release(name)))

        self._asks.name(f"{of_member('Who releases it', here.member)}? {hold.ask}", named_by)

    def _by_whom(self, by: str) -> str:
        """Who releases, and where they have done something in the step, that it's no second pair of eyes."""
        entries = self._at.job.view.in_step(self._at.step)
        same = any(done.act.work for done in entries if person(done.entry.by) == person(by))
        return f"By {by} (as typed){', also at work in this step: no second person' if same else ''}."

    def _release(self, by: str) -> None:
        self._desk.put(self._at.step, steps.release_hold, by)

    def clock(self) -> None:
        """One's own clock on, or off where it runs."""
        self._asks.with_name(self._clock)

    def _clock(self) -> None:
        """On at once; where it runs, ask what becomes of it."""
        if not self._desk.clock_is_on():
            self._turn_clock("on")
            return
        others = (("b", lambda: self._turn_clock("break")), (named("k", "clock"), lambda: None))
        self._entry.confirm(SecondKey(
            [f"The clock of {self._desk.screen.session.by} is on."], "o", lambda: self._turn_clock("off"),
            CLOCK_KEYS, others, "o clock off   b break   Escape it stays on",
        ))  # fmt: skip

    def _turn_clock(self, what: str) -> None:
        self._desk.put(None, lambda made: people.clock(made, what))


def _finish_anew(made: Draft) -> None:
    """Finish; raises Refused where that would only say again what stands already."""
    steps.finished(made)
    made.done()
