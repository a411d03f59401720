"""What the annotations of a class say: its keys, the types that may stand there, and the marks beside them."""

from __future__ import annotations

from functools import lru_cache
from types import NoneType, UnionType
from typing import Annotated, Any, NamedTuple, TypeVar, Union, get_args, get_origin

from msgspec import Struct

M = TypeVar("M")
REQUIRED = object()
"""In the place of the default of a key that has to be there."""


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
def fields_of(cls: type[Struct]) -> tuple[FieldOf, ...]:
    """The keys that a table of this class may have, in the class's order."""
    names, defaults = cls.__struct_fields__, cls.__struct_defaults__
    known = (*(REQUIRED for _ in names[len(defaults) :]), *defaults)
    return tuple(
        FieldOf(name.rstrip("_"), name, cls.__annotations__[name], default is REQUIRED, _plain(default))
        for name, default in zip(names, known, strict=True)
    )


def _plain(default: object) -> Any:
    return default if isinstance(default, float | int | str | bool | tuple) else None


def known_keys(cls: type[Struct]) -> list[str]:
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
