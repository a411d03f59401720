"""Which line stood painted on the screen when a key came: a key typed ahead is meant for no other."""

from __future__ import annotations

from textual import events

from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import moment
from jobtrack.pages.step.items import Item


class Painted:
    """What the screen asks for, and since when it has been painted, in the time of key events."""

    def __init__(self, screen: PageScreen, at: AtHand) -> None:
        self._screen = screen
        self._at = at
        self._item: Item | None = None
        self._since = 0.0
        self._early = False
        """Whether an Enter came too early for the line that is typed at; what follows it was typed blind, too."""

    def drawn(self) -> None:
        """The screen was drawn; when it has been painted, it asks for what is chosen now."""
        if self._at.item != self._item:
            self._item = None
            self._screen.entry.call_after_refresh(self._painted, self._at.item)

    def _painted(self, item: Item | None) -> None:
        if item == self._at.item and item != self._item:
            self._item, self._since = item, moment()

    def asked_for(self, item: Item) -> bool:
        """Whether the screen asked for this already when the key came that would answer it."""
        asked = item == self._item and self._screen.pressed >= self._since
        self._early = not asked
        return asked

    def typed_blind(self, event: events.Key) -> bool:
        """Whether a key belongs to nothing: text behind an Enter that came too early, before the line was painted.

        Pasted numbers would else run into one.
        """
        blind = self._early and event.is_printable and (self._item is None or event.time < self._since)
        self._early = self._early and (blind or not event.is_printable)
        return blind
