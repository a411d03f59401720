"""Keys typed before the line that they would go to has been painted: none of them runs into what was typed before."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest
from textual import events

from jobtrack.app.parts.step.painted import Painted
from jobtrack.app.widgets.entry import moment
from jobtrack.pages.step.items import READING, Item


class Unpainted:
    """A screen that is painted when the test says so."""

    def __init__(self) -> None:
        self.pressed = 0.0
        self.entry = self
        self.paint: Callable[[], None] = lambda: None

    def call_after_refresh(self, then: Callable[..., None], *of: object) -> None:
        self.paint = lambda: then(*of)


def key(character: str, at: float) -> events.Key:
    event = events.Key(character, character)
    event.time = at
    return event


@pytest.fixture
def screen() -> Any:
    return Unpainted()


def test_text_behind_an_early_enter_is_typed_blind(screen: Any) -> None:
    """A digit behind an Enter that came too early belongs to nothing until the line has been painted."""
    item = Item(READING, "step", "Step", "mm")
    painted = Painted(screen, SimpleNamespace(item=item))  # type: ignore[arg-type]
    painted.drawn()
    screen.pressed = moment()
    assert not painted.typed_blind(key("4", screen.pressed))  # the number itself: its field waits for the line
    assert not painted.asked_for(item)
    assert painted.typed_blind(key("5", screen.pressed))
    assert not painted.typed_blind(events.Key("escape", None))
    assert painted.typed_blind(key("6", screen.pressed))
    screen.paint()
    later = moment()
    assert not painted.typed_blind(key("7", later))
    screen.pressed = later
    assert painted.asked_for(item)
