"""An act from its table in the file; what this program can't make out is kept word for word."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import blake2b
from typing import Any

from jobtrack.job.acts.base import Act, UnknownAct, keys
from jobtrack.job.acts.registry import KINDS

LONGEST_TEXT, LONGEST_NAME = 10 * 1024, 200
"""Bytes of the longest text that is shown whole, and characters of the longest name."""
LARGEST = 1e100
"""The largest number that an act may hold."""


def read_act(data: Mapping[str, Any]) -> Act:
    """The act that a table of `did` holds; `UnknownAct` for what this program can't make out.

    A table may hold the keys of two kinds (`part` beside `buying`): only one of them knows all that is in it.
    Raises TypeError where it is no table.
    """
    if not isinstance(data, Mapping):
        raise TypeError("an act is a table")
    for key in data:
        if (kind := KINDS.get(key)) is not None and (act := _built(kind, data)) is not None:
            return act
    return UnknownAct(dict(data))


def _built(cls: type[Act], data: Mapping[str, Any]) -> Act | None:
    known = keys(cls)
    if not all(key in known and _fits(known[key].holds, value) for key, value in data.items()):
        return None
    try:
        return cls(**{known[key].attribute: _frozen(value) for key, value in data.items()})
    except TypeError:
        return None


def _frozen(value: Any) -> Any:
    return tuple(bounded(one) for one in value) if isinstance(value, list) else bounded(value)


def bounded(value: Any) -> Any:
    """A text that a stranger made longer than anybody types, cut, and said so; the file keeps it whole.

    The digits tell it from another that begins alike.
    """
    short = not isinstance(value, str) or len(value) <= LONGEST_TEXT // 4
    return value if short or len(value.encode()) <= LONGEST_TEXT else _cut(value, LONGEST_TEXT // 4)


def bounded_name(value: Any) -> Any:
    """As `bounded`, of a name: what it may be long is counted in characters, as where it is typed."""
    return (
        value if not isinstance(value, str) or len(value) <= LONGEST_NAME else _cut(value, LONGEST_NAME // 4)
    )


def _cut(text: str, most: int) -> str:
    told = blake2b(text.encode(), digest_size=4).hexdigest()
    return f"{text[:most]}… (cut: {len(text)} characters in the file, {told})"


def _fits(annotation: str, value: Any) -> bool:
    """Whether a TOML value is of the kind that a field's annotation names."""
    match value:
        case bool():
            return "bool" in annotation or "Plain" in annotation
        case str():
            return "str" in annotation or "Plain" in annotation
        case int() | float():
            return _finite(value) and ("float" in annotation or "Plain" in annotation)
        case list():
            return _list_fits(annotation, value)
        case dict():
            return annotation == "On" and all(
                isinstance(one, str) or (isinstance(one, int | float) and _finite(one))
                for one in value.values()
            )
        case _:
            return False


def _list_fits(annotation: str, value: list[Any]) -> bool:
    if annotation == "Names" or (value and all(isinstance(one, str) for one in value)):
        return (annotation == "Names" or "tuple[str" in annotation) and all(
            isinstance(one, str) for one in value
        )
    return "tuple[float" in annotation and all(
        isinstance(one, int | float) and not isinstance(one, bool) and _finite(one) for one in value
    )


def _finite(value: float) -> bool:
    """Whether a number can be reckoned with; an integer may be larger than any float."""
    return -LARGEST <= value <= LARGEST
