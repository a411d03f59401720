"""The keys that sentences name, as somebody has set them in the settings."""

from __future__ import annotations

from collections.abc import Mapping
from contextvars import ContextVar

_SET: ContextVar[Mapping[str, str]] = ContextVar("keys as set", default={})  # noqa: B039


def go_by(keys: Mapping[str, str]) -> None:
    """From now on these are the keys of the actions that it names; the others keep theirs."""
    _SET.set(dict(keys))


def named(key: str, action: str) -> str:
    """The key of an action as it stands in a sentence: this one, where nobody has set another."""
    return _SET.get().get(action, key)
