"""Keys typed before the line that they would go to has been painted: none of them runs into what was typed before."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual import events

from jobtrack.app.parts.painted import Painted
from jobtrack.app.widgets.entry import moment
from jobtrack.pages.step.items import READING, Item


class Unpainted:
    """A line that is painted when the test says so."""

    def __init__(self) -> None:
        self.paint: Callable[[], None] = lambda: None

    def call_after_refresh(self, then: Callable[..., None], *of: object) -> None:
        self.paint = lambda: then(*of)


def key(character: str, at: float) -> events.Key:
    event = events.Key(character, character)
    event.time = at
    return event


def test_text_behind_an_early_enter_is_typed_blind() -> None:
    """A digit behind an Enter that came too early belongs to nothing until the line has been painted."""
    line: Any = Unpainted()
    item = Item(READING, "step", "Step", "mm")
    painted = Painted(line)
    painted.drawn(item)
    early = moment()
    assert not painted.typed_blind(key("4", early))  # the number itself: its field waits for the line
    assert not painted.was(item, early)
    assert painted.typed_blind(key("5", early))
    assert not painted.typed_blind(events.Key("escape", None))
    assert painted.typed_blind(key("6", early))
    line.paint()
    later = moment()
    assert not painted.typed_blind(key("7", later))
    assert painted.was(item, later)
