"""The step: what is open, what to do, the readings; and the line on which a number is typed."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.widgets import Input

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import without_key
from jobtrack.app.parts.photos.arriving import Arriving
from jobtrack.app.parts.photos.photographing import Photographing
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.seldom.rows import Seldom
from jobtrack.app.parts.step import asked
from jobtrack.app.parts.step.answering import Answering
from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.parts.step.beside import WIDE, with_picture
from jobtrack.app.parts.step.desk import StepDesk
from jobtrack.app.parts.step.far import FarView
from jobtrack.app.parts.step.finding import Finding
from jobtrack.app.parts.step.finishing import Finishing
from jobtrack.app.parts.step.one_of_several import Closing, Settling
from jobtrack.app.parts.step.words import Words
from jobtrack.app.parts.undoing import Undoing
from jobtrack.app.reckoner_place import Reckoned
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.step.step_keys import ELSE, STEP_KEYS, offers
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.pages.asking.choices import who_recorded
from jobtrack.pages.job.last_line import onward_step
from jobtrack.pages.pressing import Place
from jobtrack.pages.step.hazards import pinned_lines
from jobtrack.pages.step.items import CLOSING, Item, by_one
from jobtrack.pages.step.page import step_page
from jobtrack.pages.typeset import Line, under

PINNED = ((40, 10), (30, 6), (0, 5))
"""From how many rows of a terminal on the hazard messages that stay in sight may take how many."""


class StepScreen(PageScreen):
    """One step of one job."""

    desk: StepDesk
    HELP = (
        "One step of the job, as on a job card: what is open and what may hurt, what to do, what is measured "
        "and checked. What is asked now stands below the page: type a number and press Enter, or press "
        "{answer-yes} or {answer-no}; recording is never stopped, and {undo} takes back your own last entry. "
        "Where a reading lies is drawn in the table: the thick stretch ━ is what is wanted, the bar ┃ the reading, "
        "the brackets ( ) how sure the instrument is; < or > at an end: the reading lies beyond what is drawn."
    )
    BINDINGS: ClassVar[list[BindingType]] = [*STEP_KEYS, *map(without_key, ELSE)]

    def __init__(self, file: OpenJob, step: str, told: str = "") -> None:
        """`told`: what was done just before it was opened."""
        super().__init__()
        self.told = told
        self.at = AtHand(file, step)
        self.desk = StepDesk(self, file, self.at)
        self.asks = Questions(self)
        self.finishing = Finishing(self.desk, self.asks)
        self.answering = Answering(self.desk, self.asks, self.choose, self.finishing.finish)
        self.recording = Words(self.desk, self.asks)
        self.closing = Closing(self.desk, self.asks)
        self.undoing = Undoing(self.desk, self.asks)
        self.settling = Settling(self.desk, self.asks, self.recording)
        self.photographing = Photographing(self.desk, self.asks)
        self.arriving = Arriving(self.desk)
        self.seldom = Seldom(self.desk, self.asks)
        self.far = FarView(self.at, self.entry)
        self.finding = Finding(self.desk, self.go, self.choose)

    @property
    def step(self) -> str:
        """The step that is shown."""
        return self.at.step

    @property
    def item(self) -> Item | None:
        """The reading or check that an answer goes to."""
        return self.at.item

    def on_mount(self) -> None:
        """Begin at the step it was opened with."""
        self.at.look_at(self.step, self.session.by, self.session.now())
        self.arriving.start()
        self.entry.say("")
        self.entry.tell(self.told)

    def on_unmount(self) -> None:
        """Let go of the job file; what is on its way to it still arrives."""
        self.desk.file.let_go()

    async def take_key(self, event: events.Key) -> bool:
        """As on every page, but for text typed blind, and the second tap of an Enter that chose in the index."""
        blind = self.answering.painted.typed_blind(event) or self.finding.second_tap(event)
        return blind or await super().take_key(event)

    def key_came(self) -> None:
        """Somebody is there: told to what asks after a silence."""
        self.desk.absence.key_came()

    # The page

    def draw(self) -> None:
        """The page as the job stands now; a question or a text that is being typed is left alone."""
        at, at.shown, at.now = self.at, self.session.shown, self.session.now()
        at.keep_up()
        self.desk.draw_frame(at.here, self._pinned())
        self._draw_page()
        if not self.entry.busy:
            self.entry.hint = asked.hint(at, self.tall)
            self.entry.idle(asked.label(at, self.room), asked.about(at, self.tall))
            self.entry.hint_anew()
        self.answering.painted.drawn(at.item)

    def _draw_page(self) -> None:
        at = self.at
        if at.far:
            self.page.show(self.far.lines(self.page.room, self.page.size.height))
            return
        page = step_page(at.job, at.here, self.page.room, at.item, at.whole, at.job_whole, at.shown)
        if self.by_height:
            page = with_picture(self, at, page)
        self.page.show(page, (CLOSING if at.chosen is None else at.chosen) if at.moved else None)

    @property
    def tall(self) -> bool:
        """In the far view only what is needed in one look has room."""
        return super().tall and not self.at.far

    @property
    def by_height(self) -> bool:
        """The far view is as large as fits; a large terminal has the chosen line's picture where there is room."""
        return self.at.far or (self.tall and self.app.size.width >= WIDE)

    @on(Input.Changed)
    @on(EntryLine.Turned)
    def _typed(self) -> None:
        """What is typed stands on the page of the far view."""
        if self.at.far:
            self.draw()

    @property
    def keys_here(self) -> list[Binding]:
        """In the far view the way back comes first."""
        found = super().keys_here
        back = [replace(one, description="page again") for one in found if one.action == "far"]
        return [*back, *(one for one in found if one.action != "far")] if self.at.far else found

    def above_keys(self) -> tuple[list[Line], list[list[Place]]]:
        """In the far view large blocks, where there are rows for them."""
        return self.far.blocks(self.keys_here, self.room) if self._has_blocks else super().above_keys()

    @property
    def _has_blocks(self) -> bool:
        return self.at.far and not self.short

    def key_rows(self) -> list[str]:
        """In the far view the blocks say it all while something is asked."""
        return [] if self._has_blocks and self.entry.busy else super().key_rows()

    def action_far(self) -> None:
        """Another way to draw the same screen, and back."""
        self.at.far = not self.at.far
        self.draw()
        self.page.top()

    def _pinned(self) -> list[Line]:
        """The hazard messages, one or two rows each, as soon as the whole ones may be out of sight."""
        if self.at.hazards_whole:
            return []
        most = next(rows for tall, rows in PINNED if self.app.size.height >= tall)
        found = pinned_lines(self.at.here.step.hazard, self.room, 2 if self.short else most)
        return [*found[:-1], *(under(one, self.room) for one in found[-1:])]  # ruled off from the page below

    def action_hazards(self) -> None:
        """Every message whole, at the top of the page."""
        self.at.whole, self.at.job_whole, self.at.turned = True, True, False
        self.at.far = False
        self.draw()
        self.page.top()

    def action_scroll_page(self, key: str) -> None:
        """Scroll by hand; the hazard messages stay in sight."""
        self.at.turned = True
        self.draw()
        super().action_scroll_page(key)

    def wheel(self, by: int) -> None:
        """As scrolling by keys."""
        self.at.turned = True
        self.draw()
        super().wheel(by)

    # Choosing a line, and answering it

    async def choose_line(self, number: int) -> None:
        """A line that was pressed, unless something is typed or asked."""
        if self.entry.busy:
            self.entry.say("Enter or Escape first; then choose a line.")
        else:
            self.choose(None if number == CLOSING else number)

    def choose(self, number: int | None) -> None:
        """Choose a line of the step."""
        self.at.choose(number)
        self.entry.forget()
        self.draw()
        self.entry.say("")

    def action_next_line(self) -> None:
        """On to the next line without an answer; one left so comes again. Behind the last, on to the next step."""
        if self.at.chosen is None and self.at.is_finished:
            self.action_go_on()
        elif self.at.chosen is not None:
            self.choose(self.at.following)

    def action_mark(self, by: int) -> None:
        """Choose the line above or below; where there is none, scroll."""
        count = len(self.at.items)
        if count:
            self.choose(by_one(self.at.chosen, by, count))
        else:
            (self.page.scroll_up if by < 0 else self.page.scroll_down)(animate=False)

    def number(self, start: str) -> None:
        """A number goes to the chosen line."""
        self.at.turned = self.at.turned or self.at.far  # its page turns to what is typed
        self.answering.type_in(start)

    def action_words(self) -> None:
        """Begin a field for words instead of a number."""
        self.at.turned = self.at.turned or self.at.far
        self.answering.type_in("")

    def action_answer(self, yes: str) -> None:
        """Answer the chosen check."""
        self.answering.answer(yes)

    def reckoned(self, found: Reckoned | None) -> None:
        """Begin a field with a result of the reckoner; like any number it is confirmed with Enter."""
        if found is not None and found.text:
            self.answering.type_in(found.text, found.note)

    # Recording, each duty by its part

    def action_finish(self) -> None:
        """Finish the step."""
        self.finishing.finish()

    def action_release(self) -> None:
        """Release the hold."""
        self.finishing.release()

    def action_undo(self) -> None:
        """Undo one's own last entry; a check that is answered anew isn't answered already."""
        self.at.answered = None
        self.undoing.undo(self.step)

    def action_clock(self) -> None:
        """One's own clock on or off."""
        self.finishing.clock()

    def action_note(self) -> None:
        """A note on the step."""
        self.recording.note()

    def action_private_note(self) -> None:
        """A note that stays off the sheets."""
        self.recording.private_note()

    def action_mark_place(self) -> None:
        """Where somebody is in the step."""
        self.recording.mark()

    def action_unsafe(self) -> None:
        """What is unsafe right now."""
        self.recording.unsafe()

    def action_stands(self) -> None:
        """Looked at again, and still right."""
        self.recording.stands()

    def action_not_needed(self) -> None:
        """The step isn't needed."""
        self.recording.not_needed()

    def action_close(self) -> None:
        """Close a condition."""
        self.closing.close()

    def action_settle(self) -> None:
        """Settle a disagreement."""
        self.settling.settle()

    def action_seldom(self, what: str) -> None:
        """What has its own row in the page of everything else."""
        self.seldom.begin(what)

    def action_swap(self) -> None:
        """Left and right were confused."""
        self.seldom.begin("swap")

    def action_surprise(self) -> None:
        """What somebody met."""
        self.app.opening.surprise(self.desk.file, self.at.here, self._from_surprise)

    def _from_surprise(self, told: str) -> None:
        if told:
            self.desk.tell(told)

    def action_look_again(self) -> None:
        """All that is to be looked at again."""
        self.app.opening.look_again(self.desk.file)

    def action_same_as_other(self) -> None:
        """Type in what the other side has."""
        self.answering.same_as_other()

    def action_by_whom(self) -> None:
        """Who is here."""
        self.asks.by_whom(who_recorded(self.at.job))

    # Other steps and pages

    def action_find(self) -> None:
        """Everything that can be done here, gone to or looked up."""
        self.finding.begin(offers(self.keys_here))

    def go(self, step: str) -> None:
        """Show another step from its top."""
        self.at.look_at(step, self.session.by, self.session.now())
        self.entry.tell("")
        self.draw()
        self.entry.say("")
        self.page.top()

    def action_go_on(self) -> None:
        """Turn to the step that comes next."""
        found = onward_step(self.at.job, self.at.here)
        if found is None:
            self.entry.say(asked.onward(self.at))
        else:
            self.desk.leaving()
            self.go(found)

    def action_turn(self, by: int) -> None:
        """The step before or after this one."""
        order = list(self.at.job.steps)
        self.go(order[(order.index(self.step) + by) % len(order)])

    def action_drawings(self) -> None:
        """The pictures of this step."""
        self.app.opening.drawings(self.desk.file, self.step, self.item)

    def action_outline(self) -> None:
        """The outline of stages and steps."""
        self.app.opening.outline(self.desk.file, self.step, self._to_chosen)

    def action_what_now(self) -> None:
        """What can be done now, by one, by two, side by side."""
        self.app.opening.what_now(self.desk.file, self._to_chosen)

    def _to_chosen(self, step: str | None) -> None:
        if step is not None:
            self.go(step)

    def action_photo(self) -> None:
        """Record a photo."""
        self.photographing.begin()

    def action_photos(self) -> None:
        """Look at the photos of the step."""
        self.photographing.look_at()

    def action_known(self) -> None:
        """The page of what is known."""
        self.app.opening.known(self.desk.file)

    def action_parts(self) -> None:
        """The parts of this step and of the job, and the tools."""
        self.app.opening.parts(self.desk.file, self.step)

    def action_to_buy(self) -> None:
        """The list to buy with."""
        self.app.opening.to_buy(self.desk.file)

    def action_labour_hours(self) -> None:
        """The labour hours of the job."""
        self.app.opening.labour_hours(self.desk.file)

    def action_take_over(self) -> None:
        """Take the job over, where a handover waits."""
        self.app.opening.take_over(self.desk.file)

    def action_hand_over(self) -> None:
        """Hand the job over."""
        self.app.opening.hand_over(self.desk.file)

    def action_jobs(self) -> None:
        """Back to the jobs of the folder."""
        self.app.opening.jobs()
