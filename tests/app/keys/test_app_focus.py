"""Every action has a key or a row of Find, and one place on each screen shows where typing goes."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from textual.binding import Binding

from jobtrack.app.keys import UNSET
from jobtrack.app.main import JobApp
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.job.end import EndScreen
from jobtrack.app.screens.job.handover import HandoverScreen
from jobtrack.app.screens.job.job_page import JobPage
from jobtrack.app.screens.job.look_again import LookAgainScreen
from jobtrack.app.screens.job.next_version import NextVersionScreen
from jobtrack.app.screens.job.to_buy import ToBuyScreen
from jobtrack.app.screens.job.vehicle_record import VehicleRecordScreen
from jobtrack.app.screens.key_page import KeysScreen, RestScreen
from jobtrack.app.screens.look_up.hours import HoursScreen
from jobtrack.app.screens.reckoner.answer import AnswerScreen
from jobtrack.app.screens.step.drawings import DrawingsScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.step_keys import ELSE, offers
from jobtrack.app.screens.step.surprise import SurpriseScreen
from jobtrack.app.screens.walk import WalkScreen
from tests.app.everywhere.test_app_everywhere import every_screen
from tests.app.everywhere.test_app_fields import all_screens
from tests.support.hostile import intact
from tests.support.where import one_place

OnJobs = Callable[[str], JobApp]


def actions(screen: type[PageScreen]) -> Iterator[str]:
    """What a screen can do, by the names of its methods."""
    for kind in screen.__mro__[: screen.__mro__.index(PageScreen) + 1]:
        yield from (name.removeprefix("action_") for name in vars(kind) if name.startswith("action_"))


def bound(screen: type[PageScreen]) -> dict[str, str]:
    """The keys of a screen by what they do, without what stands in brackets."""
    return {one.action.partition("(")[0]: one.key for one in screen.BINDINGS if isinstance(one, Binding)}


SHARED = {*actions(PageScreen)} - {"scroll_page", "units"}
"""What screens share, each of which lists the key of what it offers; the step offers all of it."""


@pytest.mark.parametrize("screen", sorted(all_screens(), key=str), ids=lambda screen: screen.__name__)
def test_every_action_has_a_key_or_a_row(screen: type[PageScreen]) -> None:
    """A method that does something for a person is reached by a key, or is offered by Find."""
    keys = bound(screen)
    own = {*actions(screen)} - SHARED
    without = own - {*keys} - {*bound(PageScreen)}
    assert without == set()
    rows = {one.action.partition("(")[0] for one in ELSE}
    assert {name for name, key in keys.items() if key == UNSET} <= rows


async def test_find_offers_whatever_has_no_key(on_job: OnJobs) -> None:
    """Each row of what has none, and each key of the step beside it; what screens share is reached from the step."""
    app = on_job("half-done")
    async with app.run_test():
        step = app.screen
        assert isinstance(step, StepScreen)
        offered = {one.action for one in offers(step.keys_here)}
        assert {row.action for row in ELSE} <= offered
        assert SHARED - {"leave"} <= {*bound(StepScreen)}


READ = {DrawingsScreen, JobPage, EndScreen, HandoverScreen, AnswerScreen, ToBuyScreen, KeysScreen, RestScreen,
        SurpriseScreen, HoursScreen, WalkScreen, LookAgainScreen, NextVersionScreen, VehicleRecordScreen}  # fmt: skip
"""Screens that are read and worked by the keys in their row alone; nothing is to be looked at again in that job."""


@pytest.mark.parametrize("size", [(80, 24), pytest.param((120, 40), marks=pytest.mark.whole)])
async def test_one_place_shows_where_typing_goes(on_job: OnJobs, size: tuple[int, int]) -> None:
    """On each screen the cursor of the field, the marker of the list or the line that is asked; never two of them."""
    app = on_job("half-done")
    async with app.run_test(size=size) as pilot:
        async for screen in every_screen(app, pilot):
            intact(app)
            assert (one_place(app) == "nowhere") == (type(screen) in READ), type(screen)
