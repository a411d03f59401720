"""The system calls of `jobtrack.store.file.disk`, watched: one can be made to fail, and all are written down."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any

WATCHED = ("open", "read", "lseek", "fstat", "stat", "write", "fsync", "ftruncate", "close", "link", "rename",
           "replace", "unlink")  # fmt: skip


class WatchedOs:
    """Stands in for the `os` module. `before(name, number)` may raise; `after` hears what was done."""

    def __init__(
        self,
        before: Callable[[str, int], None] = lambda name, number: None,
        after: Callable[[str, tuple[Any, ...], Any], None] = lambda name, arguments, result: None,
    ) -> None:
        self.before = before
        self.after = after
        self.made: list[str] = []

    def __getattr__(self, name: str) -> Any:
        honest = getattr(os, name)
        if name not in WATCHED:
            return honest

        def call(*arguments: Any, **more: Any) -> Any:
            self.made.append(name)
            try:
                self.before(name, len(self.made))
            except OSError:
                if name == "close":  # a close that fails has closed all the same
                    honest(*arguments)
                raise
            result = honest(*arguments, **more)
            self.after(name, arguments, result)
            return result

        return call


def failing_at(number: int, error: int, lasting: bool = False) -> Callable[[str, int], None]:
    """The call of this number fails; or it and every writing call behind it."""

    def before(name: str, count: int) -> None:
        writes = name in ("write", "fsync", "link", "rename", "replace")
        if count == number or (lasting and count > number and writes):
            raise OSError(error, os.strerror(error))

    return before
