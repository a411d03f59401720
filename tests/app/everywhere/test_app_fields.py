"""Every field of the app takes text that spoils screens: shown literally, stored exactly, the screen as before."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from typing import NamedTuple

import pytest
from textual.binding import Binding
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app import screens
from jobtrack.app.main import JobApp
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.step_keys import ELSE
from jobtrack.job.compose import values
from jobtrack.store.file.writer import JobFile
from tests.app.job.test_app_every_act import Fill, Row
from tests.app.job.test_app_every_act import opened as job_opened
from tests.support.else_rows import choose_row
from tests.support.hostile import LONG, NAME, SIGNS, TOO_LONG, WORDS, intact, one_of, shows_some, texts_in
from tests.support.invented_jobs import seen
from tests.support.where import one_place

Keys = tuple[str | Row, ...]


class Way(NamedTuple):
    """How an action's fields are reached, and what each of them takes where it takes no words."""

    keys: Keys
    takes: tuple[str, ...] = ()
    """What is typed, one after another, where a text is refused."""
    step: str | None = None
    job: str = "half-done"
    before: tuple[tuple[str | None, str, Fill], ...] = ()
    behind: Keys = ()
    """Keys that come when all is answered."""
    by: str | None = "Hob Tansley"
    kept: bool = True
    """Whether what is taken stands in the job file."""


AGAIN = (("pin-spacing.donor", "Mara Quill", lambda made: values.reading(made, "spacing", ["1018"])),)
APART = (("donor-axle", "Hob Tansley", lambda made: values.reading(made, "backlash", ["0.15"])),
         ("donor-axle", "Mara Quill", lambda made: values.reading(made, "backlash", ["0.21"])))  # fmt: skip
MET = ("s", "e")
TEMPLATE = ("o", "b", "end", "enter")

WAYS: dict[str, Way] = {
    "StepScreen.note": Way(("t",)),
    "StepScreen.mark_place": Way(("m",)),
    "StepScreen.unsafe": Way(("a",)),
    "StepScreen.private_note": Way((Row("private_note"),)),
    "StepScreen.stands": Way((Row("stands"),), step="pin-spacing.donor", before=AGAIN),
    "StepScreen.not_needed": Way((Row("not_needed"),), step="offer-up"),
    "StepScreen.words": Way(("w",), step="cut.right"),
    "StepScreen.number": Way(("2",), step="cut.right"),
    "StepScreen.same_as_other": Way(("=",), step="cut.right"),
    "StepScreen.release": Way(("r",), step="mark.right"),
    "StepScreen.close": Way(("c", "down", "enter")),
    "StepScreen.by_whom": Way(("b",), behind=("t", "x", "enter")),
    "StepScreen.photo": Way(("i",), kept=False),
    "StepScreen.find": Way(("e",), kept=False),
    "StepScreen.settle": Way((Row("settle"), "down", "down", "enter"), ("0.2",), "donor-axle", "surveyed", APART),
    "StepScreen.seldom('before')": Way((Row("seldom('before')"),)),
    "StepScreen.seldom('after')": Way((Row("seldom('after')"),)),
    "StepScreen.seldom('agreed')": Way((Row("seldom('agreed')"),)),
    "StepScreen.seldom('hours')": Way((Row("seldom('hours')"),), ("2.5", "1")),
    "StepScreen.seldom('paper')": Way((Row("seldom('paper')"),), kept=False),
    "StepScreen.seldom('tool')": Way((Row("seldom('tool')"),)),
    "SurpriseScreen.met": Way(("s", "e"), behind=("n",)),
    "SurpriseScreen.endangers": Way(("s", "e", "enter", "y")),
    "SurpriseScreen.part": Way((*MET, "enter", "n", "p")),
    "SurpriseScreen.note": Way((*MET, "enter", "n", "t")),
    "SurpriseScreen.step": Way((*MET, "enter", "n", "f")),
    "PartsScreen.ordered": Way(("p", "o")),
    "PartsScreen.fate": Way(("p", "f"), ("1",)),
    "PartsScreen.kept": Way(("p", "k"), ("1",)),
    "PartsScreen.lies": Way(("p", "l")),
    "PartsScreen.another": Way(("p", "m")),
    "PartsScreen.unsafe": Way(("p", "a")),
    "PartsScreen.tool": Way(("p", "t")),
    "HandoverScreen.hand_over": Way(("h", "h")),
    "EndScreen.close_job": Way(("o", "e", "c"), job="nearly done"),
    "EndScreen.stop": Way(("o", "e", "s")),
    "TakeOverScreen.take_over": Way(("end", "i"), job="handed-over"),
    "TakeOverScreen.again": Way(("m", "enter"), ("1",), job="handed-over", kept=False),
    "KnownScreen.type_it": Way((Row("known"), "enter"), ("760",)),
    "LookAgainScreen.reason": Way((Row("look_again"), "y", "enter"), before=AGAIN),
    "BeginScreen.ask": Way(TEMPLATE, behind=("t", "x", "enter")),
    "BeginScreen.other_name": Way((*TEMPLATE, "tab"), behind=("t", "x", "enter")),
    "ReckonerScreen.choose": Way(("x",), kept=False),
    "WorkingScreen.take_input": Way(("x", "enter"), kept=False),
    # Fields that no key of their own opens
    "nobody is there": Way(("t",), by=None),
    "a number where none is": Way(("o", "2"), kept=False),
    "a bolt's value": Way((*["down"] * 4, "3"), ("33",), "u-bolts"),
    "a bolt in words": Way((*["down"] * 4, "w"), ("snug",), "u-bolts"),
    "a weld's current and rod": Way((*["down"] * 4, "9"), ("95",), "weld.right"),
    "from two metres": Way(("v", "t")),
}  # fmt: skip
"""By the action that opens the field."""


NO_FIELD = {
    "opens a page": """all_keys drawings due_done end_job job_page jobs known labour_hours look_again next_version
        outline parts photos put_in reckoner rehearse rest seldom('due') surprise to_buy walk what_now begin_walk
        JobsScreen.choose StepScreen.hand_over OutlineScreen.hand_over JobPage.hand_over StepScreen.take_over""",
    "goes or shows": """back leave leave_reckoner mark turn scroll_row scroll_page go_on next_line next_look far hazards
        units done quit sort_hours ChooseScreen.choose FindScreen.choose OutlineScreen.choose WhatNowScreen.choose""",
    "records by a key": """answer buying clock finish include looked need_all paper seen swap undo write
        AnswerScreen.note""",
}
"""Actions that ask for no words, with what they do instead."""


def all_screens() -> Iterator[type[PageScreen]]:
    """Every screen that there is."""
    for module in walk_packages(screens.__path__, f"{screens.__name__}."):
        import_module(module.name)
    kinds = [PageScreen]
    for kind in kinds:
        kinds += kind.__subclasses__()
    yield from {*kinds[1:]}


def names_of(screen: type[PageScreen], action: str) -> set[str]:
    """What an action of a screen may stand by in the lists."""
    return {f"{screen.__name__}.{one}" for one in (action, action.partition("(")[0])}


def way_of(screen: type[PageScreen], action: str) -> bool:
    """Whether the fields that an action of a screen opens are tried."""
    return bool(names_of(screen, action) & {*WAYS})


def no_field(screen: type[PageScreen], action: str) -> bool:
    """Whether an action is listed as one that asks for no words."""
    listed = {one for names in NO_FIELD.values() for one in names.split()}
    return bool({action, action.partition("(")[0], *names_of(screen, action)} & listed)


@pytest.mark.parametrize("screen", sorted(all_screens(), key=str), ids=lambda screen: screen.__name__)
def test_each_action_has_its_field_or_has_none(screen: type[PageScreen]) -> None:
    """A new action, with a key or a row of Find, has to say which."""
    actions = [one.action for one in screen.BINDINGS if isinstance(one, Binding)]
    assert [one for one in actions if way_of(screen, one) == no_field(screen, one)] == []


async def test_rows_of_find_without_a_field_ask_nothing(folder: Path) -> None:
    """Those that are listed so, each done from a step."""
    app = opened(Way(()), folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        step = app.screen
        assert isinstance(step, StepScreen)
        for row in ELSE:
            if no_field(StepScreen, row.action) and row.action != "jobs":
                await step.run_action(row.action)
                await pilot.pause()
                assert isinstance(app.screen, PageScreen)
                assert app.screen.entry.asking is None, row
                while app.screen is not step:
                    await pilot.press("escape")


async def press(pilot: Pilot[int], keys: Sequence[str | Row]) -> None:
    """Keys, and rows chosen in Find."""
    for one in keys:
        if isinstance(one, Row):
            await choose_row(pilot, one.action)
        else:
            await pilot.press(one)
            await pilot.pause()


class Answers:
    """Puts a text into each field that is asked, one after another, and looks at the screen."""

    def __init__(self, pilot: Pilot[int], way: Way, text: str) -> None:
        assert isinstance(pilot.app, JobApp)
        self.pilot, self.app, self.way, self.text = pilot, pilot.app, way, text
        self.others = [NAME if text == LONG else WORDS, *way.takes]
        """What is typed where the text is refused."""
        self.taken: list[str] = []
        self.refused = 0

    @property
    def screen(self) -> PageScreen:
        screen = self.app.screen
        assert isinstance(screen, PageScreen)
        return screen

    @property
    def is_far(self) -> bool:
        """Whether what is typed stands in large characters."""
        return isinstance(self.screen, StepScreen) and self.screen.at.far

    async def all(self) -> None:
        """Until nothing is asked any more, or what is asked takes no words."""
        for _ in range(12):
            intact(self.app)
            one_place(self.app)
            asking, waiting = self.screen.entry.asking, self.screen.entry.waiting
            if waiting is not None:
                await self.pilot.press(waiting.key)
                await self.pilot.pause()
            elif asking is None or not await self._answered():
                break
        intact(self.app)

    async def _answered(self) -> bool:
        """Type the text; where it is refused, what the field takes. Whether one of them was taken."""
        assert await self._refuses(TOO_LONG)
        for text in (self.text, *self.others):
            if not await self._refuses(text):
                self.taken += [] if text in self.way.takes else [text]
                return True
            self.refused += 1
        return False

    async def _refuses(self, text: str) -> bool:
        """Whether a text isn't taken; then it stays where it was typed."""
        asking = self.screen.entry.asking
        await self._fill(text)
        stays = self.screen.entry.text == text
        assert stays or self.screen.entry.asking is not asking
        return stays

    async def _fill(self, text: str) -> None:
        field = self.screen.query_one(Input)
        field.value = text
        field.cursor_position = len(text)
        await self.pilot.pause()
        intact(self.app)
        if not self.is_far:
            assert shows_some(self.app, text), seen(self.app)
        await self.pilot.press("enter")
        await self.pilot.pause()
        intact(self.app)


def opened(way: Way, folder: Path) -> JobApp:
    app = job_opened(way, folder)  # type: ignore[arg-type]
    app.session.by = way.by
    return app


def stored(folder: Path) -> Iterator[str]:
    """Every text of every job in the folder: what was done, by whom, and what the jobs are called."""
    for path in folder.glob("*.job.toml"):
        job = JobFile(path).job
        yield job.about.title
        for entry in job.view.entries:
            yield entry.by
            for act in entry.did:
                yield from texts_in(act.as_dict())


@pytest.mark.parametrize(
    "text", [pytest.param(SIGNS, id="signs"), pytest.param(LONG, id="10 kB", marks=pytest.mark.whole)]
)
@pytest.mark.parametrize("action", WAYS)
async def test_every_field_takes_any_text(action: str, text: str, folder: Path) -> None:
    """Put into each field that the action asks; what is taken stands in the file to the sign."""
    way = WAYS[action]
    app = opened(way, folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        if way.step is not None:
            assert isinstance(app.screen, StepScreen)
            app.screen.go(way.step)
            await pilot.pause()
        await press(pilot, way.keys)
        answers = Answers(pilot, way, text)
        await answers.all()
        await press(pilot, way.behind)
        intact(app)
    assert answers.taken or not way.kept or way.takes
    found = list(stored(folder))
    if way.kept:
        assert [one[:20] for one in answers.taken if not one_of(one) & {*found}] == []
