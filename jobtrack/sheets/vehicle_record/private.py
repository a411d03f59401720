"""What of an act is private, and stays off the record unless somebody marks it for it; what never stands on it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from msgspec.structs import replace

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.state.history import Done

PRIVATE_NOTES, PRICES, HOURS = "private-notes", "prices", "hours"
MAY_BE_INCLUDED = (PRIVATE_NOTES, PRICES, HOURS)
"""What `--including` may name."""

KEYS: dict[str, dict[str, str]] = {"buying": {"price": PRICES}, "agreed": {"amount": PRICES}}
"""Keys that are private in acts that stand on the record, by kind of act."""
WHOLE: dict[str, str] = {"worked": HOURS, "clock": HOURS}
"""Kinds of acts that are private as a whole."""
OFF: dict[str, tuple[str, ...]] = {
    "mark": (), "handover": (), "taken_over": (), "undoes": (), "taken_in": (), "set_aside": (),
    "place": ("tool",), "job_closed": ("differently", "tool_lacked"),
}  # fmt: skip
"""What is the shop's own and never stands on it: these keys, or, where none is named, the whole act."""


def is_private(act: Act) -> str | None:
    """Under which name an act as a whole is private; None: it isn't."""
    if isinstance(act, NoteAct):
        return PRIVATE_NOTES if act.private else None
    return WHOLE.get(act.kind)


def said(done: Done, including: Collection[str]) -> Done | None:
    """An act without what stays off the record; None where nothing of it is left."""
    act, kind = done.act, done.act.kind
    private = is_private(act)
    if OFF.get(kind) == () or (private is not None and private not in including):
        return None
    kept_off = [
        *OFF.get(kind, ()),
        *(key for key, name in KEYS.get(kind, {}).items() if name not in including),
    ]
    return replace(done, act=replace(act, **dict.fromkeys(kept_off))) if kept_off else done


def all_said(acts: Iterable[Done], including: Collection[str]) -> Iterator[Done]:
    """What is left of these acts on the record."""
    return (one for done in acts if (one := said(done, including)) is not None)
