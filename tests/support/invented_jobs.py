"""Invented jobs built through the record itself, and what tests do at the keyboard."""

from __future__ import annotations

import asyncio
import threading
import time
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path

from textual.app import App
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.host import SessionApp
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.compose import conditions, people, steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.store.file.beginning import first_acts
from jobtrack.store.file.writer import JobFile, create
from jobtrack.template.load import load
from tests.support.exchange import EXCHANGE

START = datetime(2031, 5, 12, 8, 0, tzinfo=UTC)
NOW = datetime(2031, 5, 14, 9, 41, tzinfo=UTC)
ODD = "bolt [3/4] [/x] \x1b[31mred 🔧"
"""What a person may well type: brackets, a stroke, a terminal's control sequence, a picture."""


class Builder:
    """Records calls in a job at fixed times, ten minutes apart."""

    def __init__(self, path: Path, title: str) -> None:
        _, data = load(EXCHANGE)
        self.file = create(path, "invented", title, data)
        self.at = START
        self.by = "Hob Tansley"

    def call(self, step: str | None, *fills: Callable[[Draft], object], by: str | None = None) -> None:
        """One call of somebody, ten minutes after the one before."""
        draft = Draft(self.file.job, by or self.by, self.at, step)
        for fill in fills:
            fill(draft)
        self.file.append(draft.done(), draft.by, draft.at, id=draft.id, step=step)
        self.at += timedelta(minutes=10)

    def begin(self, **givens: str) -> None:
        """The first entry, and the question that must be asked first, answered."""
        named = [(name.replace("__", ".").replace("_", "-"), text) for name, text in givens.items()]
        draft = first_acts(self.file.job, named, self.by, self.at)
        self.file.append(draft.done(), draft.by, draft.at, id=draft.id)
        self.at += timedelta(minutes=10)

    def done(self, step: str, **readings: str) -> None:
        """A step with these readings, all its checks yes, released and finished."""
        planned = self.file.job.steps[step]
        fills: list[Callable[[Draft], object]] = []
        for name, text in readings.items():
            fills.append(partial(values.reading, name=name.replace("_", "-"), texts=[text]))
        for tick in planned.step.tick:
            fills.append(partial(values.tick, name=tick, yes=True))
        fills.append(steps.finished)
        self.call(step, *fills)
        if planned.hold:
            self.call(step, steps.release_hold, by="Mara Quill")


def survey(job: Builder) -> None:
    """Both vehicles measured, the first in inches here and there."""
    job.done("decide", rear_load="1190")
    job.call(
        None,
        lambda d: d.add(AgreedAct("Ruth Dole, inspector", what="comes before paint")),
        lambda d: conditions.closes(d, "ask-first"),
    )
    job.done("pad-slopes.recipient", gearbox="4", pinion="3.2", pad_left="1.0", pad_right="1.2")
    job.done("pad-slopes.donor", gearbox="4.4", pinion="2.5", pad_left="0.5", pad_right="0.6")
    job.done("pin-spacing.recipient", spacing="38 in")
    job.done("pin-spacing.donor", spacing="1012")
    job.done("wheels.recipient", ride_left="395", ride_right="397", wheelbase_left="2604",
             wheelbase_right="2606", tyre_to_spring="31", studs="5", stud_to_stud="67.0")  # fmt: skip
    job.done("wheels.donor", ride_left="402", ride_right="401", wheelbase_left="2510", wheelbase_right="2511",
             tyre_to_spring="28", studs="5", stud_to_stud="67.1")  # fmt: skip
    job.done("flange.recipient", pilot="57.15", holes="4", hole="10.5", across="69")
    job.done("flange.donor", pilot="60.0", holes="4", hole="10.5", across="72.4")


def strip_down(job: Builder) -> None:
    """From the donor axle's survey to the bare axle on its stands."""
    job.done("donor-axle", ratio="3.9", turning_torque="12 in-lb", backlash="0.15", face_run_out="0.06",
             pilot_run_out="0.08", clear_left="210", clear_right="208", uncut_left="2.0",
             uncut_right="2.2")  # fmt: skip
    job.call("side-by-side", lambda d: values.given(d, "follow-spacing", "move"),
             lambda d: values.tick(d, "all-said", True), steps.finished)  # fmt: skip
    job.call("side-by-side", steps.release_hold, by="Mara Quill")
    for step in ("secure", "disconnect", "axle-out"):
        job.done(step)
    job.done("offer-up", arch_gap="34")
    job.done("strip", face_distance="1524", face_to_left="256", face_to_right="256", bars="0.5")


def perch(job: Builder, side: str) -> None:
    """One perch from the mark to the cold look."""
    job.done(f"mark.{side}", moved="23.2")
    job.done(f"cut.{side}", wall_loss="0.2")
    job.done(f"tack.{side}", gap="1.0", other="2.0", slope="2.1", face_to_perch="279.0", pinion_to_pad="2.0")
    job.done(f"weld.{side}", metal="24", leg="5.5")
    job.done(f"cold.{side}", bars="0.7", face_to_perch="279.2")


def surveyed(path: Path, title: str = "Horse-box: axle from the old flat-bed") -> JobFile:
    """A job in which both vehicles are measured and the donor axle isn't yet looked at."""
    job = Builder(path, title)
    job.begin(recipient__name="Tarn horse-box", donor__name="Bexley flat-bed", donor__axle_is="loose",
              recipient__rear_plate="1350", recipient__tyre_load="800", donor__rear_plate="1700")  # fmt: skip
    job.call(None, lambda d: people.clock(d, "on"))
    survey(job)
    return job.file


def half_done(path: Path) -> JobFile:
    """A loose donor axle: the left perch welded and cold, the right one marked and not yet released."""
    file = surveyed(path, "Bread van: loose axle from the yard")
    job = Builder.__new__(Builder)
    job.file, job.by, job.at = file, "Hob Tansley", START + timedelta(hours=5)
    strip_down(job)
    perch(job, "left")
    job.call(
        "mark.right",
        lambda d: values.reading(d, "moved", ["22.8"]),
        lambda d: values.tick(d, "own-marks", True),
    )
    job.call("mark.right", lambda d: d.add(MarkAct("scribed, front edge not yet punched")))
    job.call("mark.right", lambda d: d.add(NoteAct("Scriber is in the blue tin")))
    return file


def handed_over(path: Path) -> JobFile:
    """The half-done job, given to somebody who hasn't taken it over."""
    file = half_done(path)
    job = Builder.__new__(Builder)
    job.file, job.by, job.at = file, "Hob Tansley", START + timedelta(hours=24)
    job.call(None, lambda d: people.hand_over(d, "Ada Prosser"))
    return file


JOBS: dict[str, Callable[[Path], JobFile]] = {
    "surveyed": surveyed, "half-done": half_done, "handed-over": handed_over,
}  # fmt: skip


def seen(app: App[int]) -> str:
    """The rows of the terminal as text."""
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)


def on_top(app: App[int]) -> object:
    """The screen that is shown."""
    return app.screen


HELD = threading.Event()
"""Set while a test holds the disk: then nothing waits for it."""


async def at_rest(pilot: Pilot[int], pause: Callable[..., Awaitable[None]]) -> None:
    """Wait until nothing is on its way to the disk, and what came of it is painted."""
    if not _disk_is_busy(pilot.app):
        return
    until = time.monotonic() + 20
    while _disk_is_busy(pilot.app):
        assert time.monotonic() < until, "the disk never came to rest"
        await asyncio.sleep(0.005)
    await pause(pilot)


def _disk_is_busy(app: App[int]) -> bool:
    return isinstance(app, SessionApp) and app.is_running and not app.at_rest and not HELD.is_set()


async def type_in(pilot: Pilot[int], text: str) -> None:
    """Begin a field with the first character, put the rest in, and press Enter."""
    await pilot.press(text[0])
    await fill(pilot, text)


async def fill(pilot: Pilot[int], text: str) -> None:
    """Put a text into the field that is open, and press Enter."""
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()
