"""The step: what is open, what to do, the readings; and the line on which a number is typed."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.widgets import Input

from jobtrack.app.disk.open_job import OpenJob
from jobtrack.app.keys import without_key
from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.papers import Papers
from jobtrack.app.parts.photos.photographing import Photographing
from jobtrack.app.parts.questions import Questions
from jobtrack.app.parts.seldom.rows import Seldom
from jobtrack.app.parts.step import asked
from jobtrack.app.parts.step.answering import Answering
from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.parts.step.far import FarView
from jobtrack.app.parts.step.finding import Finding
from jobtrack.app.parts.step.finishing import Finishing
from jobtrack.app.parts.step.going import Going
from jobtrack.app.parts.step.in_sight import WIDE, page_lines, pinned
from jobtrack.app.parts.step.one_of_several import Closing, Settling
from jobtrack.app.parts.step.words import Words
from jobtrack.app.parts.undoing import Undoing
from jobtrack.app.reckoner_place import Reckoned
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.step.step_keys import ELSE, STEP_KEYS, offers
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.pages.asking.choices import who_recorded
from jobtrack.pages.pressing import Place
from jobtrack.pages.step.items import CLOSING, Item, by_one
from jobtrack.pages.typeset import Line


def does(call: Callable[[StepScreen], None]) -> Callable[[StepScreen], None]:
    """An action that is one call; what it is, in words, stands with its key in `step_keys.py`."""
    return call


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
        self.papers = Papers(self.desk)
        self.seldom = Seldom(self.desk, self.asks)
        self.far = FarView(self.at, self.entry)
        self.going = Going(self.desk, self.go)
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
        if self.app.watching is not None:
            from jobtrack.app.parts.photos.arriving import Arriving

            Arriving(self.desk).start()
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
        self.desk.draw_frame(at.here, pinned(self, at))
        if at.far:
            self.page.show(self.far.lines(self.page.room, self.page.size.height))
        else:
            self.page.show(page_lines(self, at), at.marked)
        if not self.entry.busy:
            self.entry.hint = asked.hint(at, self.tall)
            self.entry.idle(asked.label(at, self.room), asked.about(at, self.tall))
            self.entry.hint_anew()
        self.answering.painted.drawn(at.item)

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
        return self.far.keys(super().keys_here) if self.at.far else super().keys_here

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
            self.going.on()
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

    def action_answer(self, yes: str) -> None:
        """Answer the chosen check."""
        self.answering.answer(yes)

    def reckoned(self, found: Reckoned | None) -> None:
        """Begin a field with a result of the reckoner; like any number it is confirmed with Enter."""
        if found is not None and found.text:
            self.answering.type_in(found.text, found.note)

    # Recording, each duty by its part

    action_words = does(lambda self: self.number(""))
    action_same_as_other = does(lambda self: self.answering.same_as_other())
    action_finish = does(lambda self: self.finishing.finish())
    action_release = does(lambda self: self.finishing.release())
    action_clock = does(lambda self: self.finishing.clock())
    action_note = does(lambda self: self.recording.note())
    action_private_note = does(lambda self: self.recording.private_note())
    action_mark_place = does(lambda self: self.recording.mark())
    action_unsafe = does(lambda self: self.recording.unsafe())
    action_stands = does(lambda self: self.recording.stands())
    action_not_needed = does(lambda self: self.recording.not_needed())
    action_close = does(lambda self: self.closing.close())
    action_settle = does(lambda self: self.settling.settle())
    action_swap = does(lambda self: self.seldom.begin("swap"))
    action_by_whom = does(lambda self: self.asks.by_whom(who_recorded(self.at.job)))
    action_photo = does(lambda self: self.photographing.begin())

    def action_undo(self) -> None:
        """Undo one's own last entry; a check that is answered anew isn't answered already."""
        self.at.answered = None
        self.undoing.undo(self.step)

    def action_seldom(self, what: str) -> None:
        """What has its own row in the page of everything else."""
        self.seldom.begin(what)

    def action_paper(self, which: str) -> None:
        """A sheet of the job as a file, opened."""
        self.papers.begin(which)

    def _from_surprise(self, told: str) -> None:
        if told:
            self.desk.tell(told)

    # Other steps and pages

    action_find = does(lambda self: self.finding.begin(offers(self.keys_here)))
    action_go_on = does(lambda self: self.going.on())
    action_outline = does(lambda self: self.app.opening.outline(self.desk.file, self.step, self.going.to))
    action_what_now = does(lambda self: self.app.opening.what_now(self.desk.file, self.going.to))
    action_drawings = does(lambda self: self.app.opening.drawings(self.desk.file, self.step, self.item))
    action_photos = does(lambda self: self.photographing.look_at())
    action_surprise = does(
        lambda self: self.app.opening.surprise(self.desk.file, self.at.here, self._from_surprise)
    )
    action_look_again = does(lambda self: self.app.opening.look_again(self.desk.file))
    action_known = does(lambda self: self.app.opening.known(self.desk.file))
    action_parts = does(lambda self: self.app.opening.parts(self.desk.file, self.step))
    action_to_buy = does(lambda self: self.app.opening.to_buy(self.desk.file))
    action_labour_hours = does(lambda self: self.app.opening.labour_hours(self.desk.file))
    action_next_version = does(lambda self: self.app.opening.next_version(self.desk.file))
    action_hand_over = does(lambda self: self.app.opening.hand_over(self.desk.file))
    action_take_over = does(lambda self: self.app.opening.take_over(self.desk.file))
    action_jobs = does(lambda self: self.app.opening.jobs())

    def go(self, step: str) -> None:
        """Show another step from its top."""
        self.at.look_at(step, self.session.by, self.session.now())
        self.entry.tell("")
        self.draw()
        self.entry.say("")
        self.page.top()

    def action_turn(self, by: int) -> None:
        """The step before or after this one."""
        self.going.by(by)
