"""The refusal of an act, and of one that would say again what is recorded already."""

from __future__ import annotations


class Refused(Exception):
    """An act that is refused: one line that says why, and what to do instead."""


class SaidAlready(Refused):
    """An act that the record holds already, word for word: nothing is written, and nothing is wrong."""
