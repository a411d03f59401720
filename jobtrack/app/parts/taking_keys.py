"""The taking of keys, one after the other: for a question that waits, for what they are bound to, for a number."""

from __future__ import annotations

from typing import Protocol

from textual import events
from textual.binding import ActiveBinding, Binding

from jobtrack.app.host import SessionApp
from jobtrack.app.keys import RECORDS
from jobtrack.app.parts.desks.desk import Desk
from jobtrack.app.widgets.entry import EntryLine
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.entering import NUMBER_STARTS

SAME_PRESS = 0.3
"""Seconds within which a key again is the same press, by a shaking hand or held down; keyboards repeat faster."""


class HasKeys(Protocol):
    """A screen whose keys are taken here: what it is asked, and what it is told."""

    pressed: float
    """When the key came that is being taken, in the time of key events."""
    entry: EntryLine

    @property
    def app(self) -> SessionApp:
        """The app, which knows which screen is on top."""

    @property
    def is_active(self) -> bool:
        """Whether it is on top."""

    @property
    def desk(self) -> Desk:
        """What the screen is about."""

    @property
    def active_bindings(self) -> dict[str, ActiveBinding]:
        """What each key is bound to now."""

    @property
    def keys_here(self) -> list[Binding]:
        """What the screen's own keys do."""

    def key_came(self) -> None:
        """Somebody has pressed a key that is no text."""

    def field_key(self, event: events.Key) -> bool:
        """Take a key while text is asked for; False where it is text."""

    def number(self, start: str) -> None:
        """Somebody begins to type a number."""

    def dropped(self) -> None:
        """What was asked is cancelled."""

    def leave_paper(self) -> None:
        """Nothing more is typed in from paper."""


class TakingKeys:
    """Takes the keys of one screen, with all that guards them."""

    def __init__(self, screen: HasKeys) -> None:
        self._screen = screen
        self._recorded_by = ("", 0.0)
        """The last key that recorded at once, and when."""

    async def take(self, event: events.Key) -> bool:
        """Do what a key means now, in the order of typing; False where it is text, or edits it."""
        screen = self._screen
        if not screen.is_active:
            self.hand_on(event)
            return True
        screen.pressed = event.time
        if self._ends_apart(event):
            return True
        if screen.entry.waiting is not None:
            screen.key_came()
            await self._second_key(event)
            return True
        if await self._bound(event.key):
            return True
        if screen.entry.asking is not None:
            return screen.field_key(event)
        self._begin_number(event)
        return True

    def hand_on(self, event: events.Key) -> None:
        """Another screen is on top by now: the key is meant for it."""
        again = events.Key(event.key, event.character)
        again.time = event.time  # when it was pressed: a question that was painted later isn't answered by it
        self._screen.app.screen.post_message(again)

    def _ends_apart(self, event: events.Key) -> bool:
        """Escape at the step, where it cancels nothing, ends typing in from paper; else the walk, or a rehearsal."""
        screen = self._screen
        if event.key != "escape" or screen.desk.here is None or screen.entry.busy:
            return False
        if screen.app.session.on_paper is not None:
            screen.leave_paper()
            return True
        if screen.app.apart is None:
            return False
        screen.app.opening.jobs()
        return True

    async def _bound(self, key: str) -> bool:
        """Run what a key is bound to now: by the field, by its line, or by the screen."""
        screen = self._screen
        found = screen.active_bindings.get(key)
        if found is None or found.node is screen.app:
            return False
        if found.binding.group is RECORDS and self.same_press(key):
            return True
        if found.node is not screen.entry.field:
            screen.key_came()
        if screen.app.apart is not None:
            screen.app.apart.did(found.binding.action)
        await screen.app.run_action(found.binding.action, found.node)
        return True

    def same_press(self, key: str) -> bool:
        """Whether a key that does something at once is still the press before it: tapped twice, or held down."""
        last, since = self._recorded_by
        self._recorded_by = (key, self._screen.pressed)
        return key == last and self._screen.pressed - since < SAME_PRESS

    async def _second_key(self, event: events.Key) -> None:
        """The key that was waited for. No binding can be: any other key cancels, whichever it is."""
        entry = self._screen.entry
        if entry.more and event.key == named("space", "rest"):
            self._screen.app.opening.rest(entry.more)
            return
        waiting = entry.waiting
        then = waiting.meant(_pressed(event)) if waiting is not None else None
        if then is None and waiting is not None and waiting.back is not None:
            if entry.came_after(event.time):
                waiting.back(_pressed(event))
        elif then is None:
            await self._cancelled_by(event)
        elif entry.came_after(event.time):
            then()
        # Else it was typed ahead, for what stood on the screen before: the question stays, and nothing is recorded.
        # So what is typed in one go, before the screen has followed, records nothing that nobody saw.

    async def _cancelled_by(self, event: events.Key) -> None:
        """A key that asks something or begins a number cancels and is taken; one that records only cancels.

        Swallowed, the first key of a number or of words would leave the rest of them to be read as something else.
        """
        self._screen.dropped()
        keys = self._screen.keys_here
        records = any(one.group is RECORDS and _pressed(event) == one.key for one in keys)
        if records or event.key in ("enter", "escape"):
            return
        if not await self._bound(event.key):
            self._begin_number(event)

    def _begin_number(self, event: events.Key) -> None:
        self._screen.key_came()
        if len(_pressed(event)) == 1 and _pressed(event) in NUMBER_STARTS:
            self._screen.number(_pressed(event))


def _pressed(event: events.Key) -> str:
    """A key by its character, or by its name where it has none."""
    return event.character if event.character and event.character.isprintable() else event.key
