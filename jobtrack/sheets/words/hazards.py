"""Hazard messages in one sentence each, the worst first: for the sheets, the command line and the screens."""

from __future__ import annotations

from collections.abc import Iterable

from jobtrack.sheets.paper.blocks import Message
from jobtrack.template.model import Hazard

WORST = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""The signal words of ANSI Z535.6, the worst first."""


def worst_first(hazards: Iterable[Hazard]) -> list[Hazard]:
    """The messages by their signal word; within one in the template's order."""
    return sorted(hazards, key=lambda one: WORST.index(one.signal) if one.signal in WORST else len(WORST))


def hazard_message(one: Hazard | Message) -> str:
    """What stands beside the signal word: the hazard, what it does, how to avoid it."""
    return f"{one.hazard}. What it does: {one.does}. How to avoid it: {one.avoid}."


def hazard_sentences(hazards: Iterable[Hazard]) -> list[str]:
    """Each message whole, its signal word in front, the worst first."""
    return [f"{one.signal}: {hazard_message(one)}" for one in worst_first(hazards)]
