"""What the terminal that the app runs in can be expected to show."""

from __future__ import annotations

import os

FEW_CHARACTERS = ("ansi", "dumb", "linux", "vt100", "vt102", "vt220")
"""Kinds of terminal whose own font has no dots of braille; the console of Linux is one."""


def draws_plain() -> bool:
    """Whether pictures are drawn with ASCII alone."""
    return os.environ.get("TERM", "") in FEW_CHARACTERS
