"""The refusal of an act, and what it says of the names that there are."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


class Refused(Exception):
    """An act that is refused: one line that says why, and what to do instead."""


class SaidAlready(Refused):
    """An act that the record holds already, word for word: nothing is written, and nothing is wrong."""


class Wants(Refused):
    """What was typed isn't what is wanted; the line begins with the name of the option that makes the act."""


class NoReason(Refused):
    """An act that is recorded with a reason only."""


def nearest(step: str, steps: Iterable[str]) -> str:
    """The members of a step that was named without one, else the nearest spelling."""
    members = [one for one in steps if one.startswith(f"{step}.")]
    near = members or get_close_matches(step, list(steps), 3)
    return f"; did you mean {' or '.join(near)}?" if near else "; `show` lists them"


def known(names: Iterable[object]) -> str:
    """The first dozen of the names that there are; nothing where there is none."""
    some = [str(name) for name in names][:12]
    return f"; there are: {', '.join(some)}" if some else ""


def all_known(names: Iterable[str]) -> str:
    """All names that there are, or that there is none."""
    return f"; there are: {', '.join(names) or 'none'}"
