"""What the screen asked for, as somebody could read it, when a key came."""

from __future__ import annotations

from textual import events

from jobtrack.app.widgets.entry import EntryLine, moment


class Painted:
    """Holds a key against what was painted before it, so that what is typed ahead answers nothing unread."""

    def __init__(self, entry: EntryLine) -> None:
        self._entry = entry
        self._what: object = None
        self._since = 0.0
        """Since when it has been painted, in the time of key events."""
        self._early = False
        """Whether a key came too early to answer; the text behind it was typed as blindly."""

    def drawn(self, what: object) -> None:
        """The screen was drawn; when it has been painted, it asks for this."""
        if what != self._what:
            self._what = None
            self._entry.call_after_refresh(self._painted, what)

    def _painted(self, what: object) -> None:
        if what != self._what:
            self._what, self._since = what, moment()

    def was(self, what: object, pressed: float) -> bool:
        """Whether the screen asked for this already when a key was pressed."""
        asked = what == self._what and pressed >= self._since
        self._early = not asked
        return asked

    def typed_blind(self, event: events.Key) -> bool:
        """Whether a key is text behind an Enter that came too early, typed before the line was painted.

        It belongs to nothing: pasted numbers would else run into one.
        """
        blind = self._early and event.is_printable and (self._what is None or event.time < self._since)
        self._early = self._early and (blind or not event.is_printable)
        return blind
