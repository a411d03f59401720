"""What the annotations of a class say: its keys, the types that may stand there, and the marks beside them."""

from __future__ import annotations

from dataclasses import MISSING, fields
from functools import lru_cache
from types import NoneType, UnionType
from typing import Annotated, Any, NamedTuple, TypeVar, Union, get_args, get_origin

M = TypeVar("M")


class FieldOf(NamedTuple):
    """One key of a class's table."""

    key: str
    """As it stands in the file: without the underscore that a Python keyword has here."""
    name: str
    """As the class has it."""
    kind: Any
    """Its annotation."""
    required: bool
    default: Any
    """None where there is none."""


@lru_cache
def fields_of(cls: type) -> tuple[FieldOf, ...]:
    """The keys that a table of this class may have, in the class's order."""
    return tuple(
        FieldOf(
            one.name.rstrip("_"), one.name, one.type,
            one.default is MISSING and one.default_factory is MISSING,
            None if one.default is MISSING else one.default,
        )
        for one in fields(cls)
    )  # fmt: skip


def known_keys(cls: type) -> list[str]:
    """The keys that a table of this class may have, as written in the file."""
    return [one.key for one in fields_of(cls)]


def marks_of(kind: Any) -> tuple[Any, ...]:
    """What an annotation says beside its type."""
    return get_args(kind)[1:] if get_origin(kind) is Annotated else ()


def mark_of(kind: Any, how: type[M]) -> M | None:
    """The mark of this sort that an annotation has, or None."""
    return next((mark for mark in marks_of(kind) if isinstance(mark, how)), None)


def members_of(kind: Any) -> frozenset[Any]:
    """The types that an annotation allows, without None: no file can hold it."""
    base = get_args(kind)[0] if get_origin(kind) is Annotated else kind
    several = get_origin(base) in (Union, UnionType)
    return frozenset(get_args(base) if several else (base,)) - {NoneType}
