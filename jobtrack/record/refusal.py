"""The refusal of an act."""

from __future__ import annotations


class Refused(Exception):
    """An act that is refused: one line that says why, and what to do instead."""
