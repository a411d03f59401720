"""An invented step with six readings and six checks, and what a typist at random does to it."""

from __future__ import annotations

import random
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from textual import events
from textual.app import App
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.pages.typeset import spaced
from jobtrack.store.file.writer import JobFile, create

READINGS = {"bore": "Bore", "step": "Step", "depth": "Depth", "gap": "Gap", "lip": "Lip", "ridge": "Ridge"}
CHECKS = {
    "clean": "Seat wiped clean?", "pinned": "Both pins in?", "marked": "Marks in line?",
    "dry": "No oil on the face?", "loose": "Nothing loose?", "cool": "Cold to the hand?",
}  # fmt: skip
SECOND_TAP = 0.03
"""Seconds between the two keys of a double tap."""


def template() -> dict[str, Any]:
    """A template with one step in which something is measured, and one in which nothing is."""
    reading: dict[str, Any] = {name: {"unit": "mm", "say": say} for name, say in READINGS.items()}
    reading["bore"] |= {"target": 23.5, "off_by": 1}
    reading["gap"] |= {"at_most": 0.5}
    step = {
        "measure": {"stage": "only", "title": "Measure the seat", "reading": reading,
                    "tick": {name: {"ask": ask} for name, ask in CHECKS.items()}},
        "sweep": {"stage": "only", "title": "Sweep the floor"},
    }  # fmt: skip
    return {"format": 1, "id": "seat", "title": "Seat", "stage": {"only": {"title": "Only"}}, "step": step}


def seat(path: Path) -> JobFile:
    """A job of that template, nothing recorded yet."""
    return create(path, "seat", "A seat", template())


@dataclass(frozen=True, slots=True)
class Burst:
    """Keys that go in with nothing painted between them; an answer's keys are meant for a check."""

    keys: tuple[str, ...]
    answers: bool = False
    second_tap: bool = False


def number(chance: random.Random) -> str:
    """What somebody may type as a measured value."""
    return chance.choice(
        ["0.4", "23.1", "1/4 in", "12 mm", "37 15/16 in", "~9", "9999999", "12 thou", "1 nm"]
    )


def act(chance: random.Random) -> list[Burst]:
    """One thing that a typist does: a number slowly, at once, two at once; a double tap; a key that moves."""
    what = chance.randrange(10)
    if what < 4:
        return [*(Burst((key,)) for key in number(chance)), Burst((chance.choice(["enter", "escape"]),))]
    if what < 6:
        return [Burst((*number(chance), "enter"))]
    if what < 7:
        return [Burst((*number(chance), "enter", *number(chance), "enter"))]
    if what < 8:
        key = chance.choice("yn")
        return [Burst((key,), answers=True), Burst((key,), answers=True, second_tap=True)]
    if what < 9:
        return [Burst((chance.choice(["enter", "up", "down", "down"]),))]
    return [Burst((chance.choice("yn"), "enter", chance.choice("yn")), answers=True)]


@dataclass(frozen=True, slots=True)
class Wrong:
    """An entry that shouldn't be there, and the keys that made it."""

    why: str
    what: str
    keys: tuple[str, ...]


def question(app: App[Any]) -> str:
    """The painted rows below the page, where the screen says what is asked."""
    top = app.screen.query_one(EntryLine).region.y
    strips = app.screen._compositor.render_strips()
    return " ".join(" ".join("".join(part.text for part in strip) for strip in strips[top:]).split())


def names(said: str, done: Act) -> bool:
    """Whether what was painted asked for what was then recorded."""
    if isinstance(done, ReadingAct):
        return " ".join(spaced(READINGS[done.reading]).split()) in said
    return isinstance(done, TickAct) and CHECKS[done.tick] in said


class Typist:
    """Types into the app, and holds each new entry against what the screen had named before the keys."""

    def __init__(self, pilot: Pilot[int]) -> None:
        self.pilot, self.app = pilot, pilot.app
        assert isinstance(self.app, JobApp)
        assert self.app.file is not None
        self.path = self.app.file.path
        self.known = 0
        self.readings = 0
        self.tapped = False
        """Whether the keys before these recorded something."""
        self.wrong: list[Wrong] = []

    async def type(self, burst: Burst) -> None:
        """Put the keys in at once; afterwards look at what the file holds more."""
        said = question(self.app)
        await self._send(burst)
        assert isinstance(self.app, JobApp)
        assert self.app.file is not None
        entries = self.app.file.job.view.entries
        new, self.known = entries[self.known :], len(entries)
        twice = burst.second_tap and self.tapped and bool(new)
        self.tapped = bool(new)
        self.wrong += (
            [Wrong("both keys of a double tap recorded", str(new[0].did), burst.keys)] if twice else []
        )
        for done in [one for entry in new for one in entry.did]:
            self.readings += isinstance(done, ReadingAct)
            self.wrong += [Wrong(why, str(done), burst.keys) for why in faults(said, done, burst)]

    async def answer(self, key: str) -> None:
        """Look at the screen, and press a key where it asks about a number."""
        if self.app.screen.query_one(EntryLine).waiting is not None:
            await self.type(Burst((key,)))

    async def look_up(self) -> None:
        """Look at the screen, and cancel what stands in the field."""
        if self.app.screen.query_one(EntryLine).asking is not None:
            await self.type(Burst(("escape",)))

    async def _send(self, burst: Burst) -> None:
        driver = self.app._driver
        assert driver is not None
        for key in burst.keys:
            event = events.Key(*_key(key))
            event.set_sender(self.app)
            driver.send_message(event)
        await self.pilot.pause(SECOND_TAP)


def faults(said: str, done: Act, burst: Burst) -> Iterator[str]:
    """What is wrong with an act that these keys recorded."""
    if not isinstance(done, ReadingAct | TickAct):
        yield "neither a reading nor a check"
    elif not names(said, done):
        yield "not named on the screen before the keys"
    if isinstance(done, TickAct) and not burst.answers:
        yield "a check answered by a key typed for a number"


def _key(key: str) -> tuple[str, str | None]:
    if len(key) > 1:
        return key, "\r" if key == "enter" else None
    return (key if key.isalnum() else unicodedata.name(key).lower().replace("-", "_").replace(" ", "_")), key
