"""Painting on a terminal that may be gone: its window closed, its line to another machine cut."""

from __future__ import annotations

import errno
from typing import IO, Any


class OutlivesTerminal:
    """A terminal's stream. What can't reach the terminal any more goes nowhere, all else as from the stream.

    Textual paints from a thread of its own, which an error ends; the queue before it then fills, and the app,
    on its way out, would wait on it for ever.
    """

    def __init__(self, stream: IO[str]) -> None:
        self._stream = stream

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)

    def write(self, text: str) -> int:
        """Write a text; its length. Raises OSError for anything but a terminal that is gone."""
        try:
            return self._stream.write(text)
        except OSError as error:
            _only_gone(error)
            return len(text)

    def flush(self) -> None:
        """Send out what was written. Raises OSError for anything but a terminal that is gone."""
        try:
            self._stream.flush()
        except OSError as error:
            _only_gone(error)


def _only_gone(error: OSError) -> None:
    if error.errno != errno.EIO:
        raise error
