"""Reading parsed TOML into frozen classes, strictly: every problem is kept, none is guessed away.

The classes are the one declaration of what may be written: a field's annotation says how it is read.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from difflib import get_close_matches
from functools import lru_cache, partial
from typing import Any, NamedTuple, get_args, get_origin

from msgspec import Struct

from jobtrack.schema import marks
from jobtrack.schema.fields import FieldOf, fields_of, known_keys, mark_of, marks_of, members_of
from jobtrack.schema.problem import Key
from jobtrack.schema.values import (
    BAD,
    Reader,
    Shape,
    answer,
    count,
    identifier,
    is_id,
    number,
    plain,
    scalar,
    text,
    whole,
    yes_no,
)

_PLAIN: dict[frozenset[Any], Reader] = {
    frozenset({str}): text,
    frozenset({int}): whole,
    frozenset({int, str}): count,
    frozenset({bool}): yes_no,
    frozenset({float, int}): number,
    frozenset({str, bool}): answer,
    frozenset({float, int, str}): scalar,
    frozenset({float, int, str, bool}): plain,
}
_COUNTS = {2: "two", 3: "three", 4: "four"}


@lru_cache
def reader_of(kind: Any) -> Reader:
    """How a value is read that has this annotation."""
    for mark in marks_of(kind):
        if made := _MARKED.get(type(mark)):
            return made(next(iter(members_of(kind))), mark)
    members = members_of(kind)
    if members in _PLAIN:
        return _PLAIN[members]
    if len(members) > 1:
        return _table_or_plain(members)
    return _structure(next(iter(members)))


def _structure(kind: Any) -> Reader:
    if isinstance(kind, type) and issubclass(kind, Struct):
        return partial(read_record, kind)
    of, inner = get_origin(kind), get_args(kind)
    if of is tuple:
        return _list_of(inner[0])
    if of is dict:
        return partial(_table, reader_of(inner[1]), mark_of(inner[0], marks.Id) is not None)
    raise TypeError(f"no way to read {kind}")


def _table_or_plain(members: frozenset[Any]) -> Reader:
    """A table of one kind, or a plain value."""
    table = next(one for one in members if get_origin(one) is dict)
    as_table, alone = _structure(table), _PLAIN[members - {table}]
    return lambda shape, key, value: (as_table if isinstance(value, dict) else alone)(shape, key, value)


def _list_of(item: Any) -> Reader:
    read, wanted, row = reader_of(item), _words_of_list(item), mark_of(item, marks.InOrder)

    def read_list(shape: Shape, key: Key, value: Any) -> Any:
        if not isinstance(value, list):
            return shape.wrong(key, value, wanted)
        if row and value and all(isinstance(each, str) for each in value):
            why = f"here stands {row.what} by itself, wanted is {wanted}"
            return shape.add(key, why, "Put one more bracket on each side, as [[ … ]]")
        got = tuple(read(shape, key, each) for each in value)
        return BAD if BAD in got else got

    return read_list


def _words_of_list(item: Any) -> str:
    if row := mark_of(item, marks.InOrder):
        return f"a list of {row.what.removeprefix('a ')}s, as [[ … ]]"
    words = {frozenset({str}): "a list of texts", frozenset({float, int}): "a list of numbers"}
    return words.get(members_of(item), "a list")


def _table(item: Reader, ids: bool, shape: Shape, key: Key, value: Any) -> Any:
    if not isinstance(value, dict):
        return shape.wrong(key, value, "a table, as { … }")
    return _pairs(item, ids, shape, len(key), (((*key, name), each) for name, each in value.items()))


def _pairs(item: Reader, ids: bool, shape: Shape, depth: int, pairs: Iterable[tuple[Key, Any]]) -> Any:
    """A table from full keys and values; what stands below `depth` becomes the name, with dots."""
    got = {}
    for key, value in pairs:
        if ids and _in_no_place(shape, key, value):
            got[""] = shape.add(
                key, f"here is no place for the key {key[-1]}", _mend_swallowed(shape, key[-1])
            )
        elif not ids or is_id(shape, key):
            got[".".join(key[depth:])] = item(shape, key, value)
        else:
            got[""] = BAD
    return BAD if any(value is BAD for value in got.values()) else got


def _in_no_place(shape: Shape, key: Key, value: Any) -> bool:
    """Whether this is a key of another table: a plain value, where a table at the top holds only names."""
    holds_names = len(key) == 2 and key[0] != "vehicle" and not isinstance(value, (dict, list))
    return holds_names and any(key[1] in keys for keys in shape.elsewhere.values())


class _Table(NamedTuple):
    """A class as a table is read into it."""

    known: frozenset[str]
    required: tuple[FieldOf, ...]
    readers: tuple[tuple[str, str, Reader], ...]
    """Key, name in the class, how it is read."""
    formerly: tuple[tuple[str, str], ...]
    """Old and new names of a key."""
    rest: tuple[str, Reader] | None
    """The field that takes all other keys, and how it is read."""


@lru_cache
def _table_of(cls: type[Struct]) -> _Table:
    known = fields_of(cls)
    rest = next((one for one in known if mark_of(one.kind, marks.Rest)), None)
    keys = [one for one in known if one is not rest]
    return _Table(
        frozenset(one.key for one in keys),
        tuple(one for one in keys if one.required),
        tuple((one.key, one.name, reader_of(one.kind)) for one in keys),
        tuple((mark.old, one.key) for one in keys if (mark := mark_of(one.kind, marks.Formerly))),
        (rest.name, reader_of(rest.kind)) if rest else None,
    )


def read_record(cls: type[Struct], shape: Shape, key: Key, value: Any) -> Any:
    """A table as one of this class; BAD if anything in it is wrong, which is kept in `shape`."""
    table = _table_of(cls)
    if not isinstance(value, dict):
        return shape.wrong(key, value, _example(table))
    for old, new in table.formerly:
        if old in value and new not in value:
            value = {new if name == old else name: each for name, each in value.items()}
    others = [name for name in value if name not in table.known]
    bad = bool(others) and table.rest is None and _unknown(cls, shape, key, others)
    bad = _missing(table, shape, key, value, _meant(table, others) if bad else set()) or bad
    got = {name: read(shape, (*key, one), value[one]) for one, name, read in table.readers if one in value}
    if table.rest:
        name, read = table.rest
        got[name] = read(shape, key, {one: value[one] for one in others})
    return BAD if bad or BAD in got.values() else cls(**got)


def _example(table: _Table) -> str:
    first = f"{table.required[0].key} = " if table.required else ""
    return f"a table, as {{ {first}… }}"


def _meant(table: _Table, unknown: list[str]) -> set[str]:
    """The keys that unknown ones are taken for."""
    return {near for name in unknown for near in get_close_matches(name, table.known, 1)}


def _missing(table: _Table, shape: Shape, key: Key, value: dict[str, Any], meant: set[str]) -> bool:
    """Keep every key that has to be there and isn't, not even misspelt; whether there was one."""
    missing = [one for one in table.required if one.key not in value and one.key not in meant]
    for one in missing:
        says = mark_of(one.kind, marks.Says)
        mend = f"Add {one.key} = {says.words if says else '…'}"
        shape.add(key or (one.key,), f"the key {one.key} is missing", mend)
    return bool(missing)


def _unknown(cls: type[Struct], shape: Shape, key: Key, names: list[str]) -> bool:
    """Keep every key that the class doesn't know; whether that is a mistake."""
    for name in names:
        if shape.newer:
            shape.passed_over.append((*key, name))
        elif not shape.full:
            shape.add((*key, name), f"unknown key {name}", _mend_unknown(cls, shape, name, known_keys(cls)))
    return not shape.newer


def _mend_unknown(cls: type[Struct], shape: Shape, name: str, known: list[str]) -> str:
    if near := get_close_matches(name, known, 1):
        return f"Did you mean {near[0]}?"
    return _mend_swallowed(shape, name, cls.__name__) or f"Known here: {', '.join(known)}"


def _mend_swallowed(shape: Shape, name: str, here: str = "") -> str:
    """Where a key belongs that stands below the header of a table that doesn't know it."""
    places = (place for place, keys in shape.elsewhere.items() if name in keys and place != here)
    if where := " or ".join(places):
        where = where.lower().replace("template", "the head of the file")
        return (
            f"Move it up: it is a key of another table ({where}), and the table header above has swallowed it; "
            "or write the swallowing table on one line as { … }"
        )
    return ""


def _one_or_more(kind: Any, mark: marks.OneOrMore) -> Reader:
    read = reader_of(kind)
    return lambda shape, key, value: read(shape, key, value if isinstance(value, list) else [value])


def _in_order(cls: type[Struct], mark: marks.InOrder) -> Reader:
    read, count = _list_of(str), len(fields_of(cls))

    def read_row(shape: Shape, key: Key, value: Any) -> Any:
        parts = read(shape, key, value)
        if parts is not BAD and len(parts) != count:
            why = f"{mark.what} has {_COUNTS[count]} parts, here are {len(parts)}"
            return shape.add(key, why, f"Write {mark.example}")
        return BAD if parts is BAD else cls(*parts)

    return read_row


def _keys(kind: Any, mark: marks.Keys) -> Reader:
    def read_keys(shape: Shape, key: Key, value: Any) -> Any:
        if isinstance(value, str):
            return text(shape, key, value)
        if not isinstance(value, dict) or value.keys() != set(mark.keys):
            return shape.add(key, mark.why, mark.mend)
        return _table(text, False, shape, key, value)

    return read_keys


def _true_for(kind: Any, mark: marks.TrueFor) -> Reader:
    def read_text(shape: Shape, key: Key, value: Any) -> Any:
        if value is True:
            return mark.text
        return text(shape, key, value) if isinstance(value, str) else shape.wrong(key, value, mark.wanted)

    return read_text


def _matching(kind: Any, mark: marks.Matching) -> Reader:
    def read_matching(shape: Shape, key: Key, value: Any) -> Any:
        fits = isinstance(value, str) and re.search(mark.pattern, value) and len(value) <= mark.longest
        return value if fits else shape.wrong(key, value, mark.wanted)

    return read_matching


def _one_of(kind: Any, mark: marks.OneOf) -> Reader:
    wanted = " or ".join(f'"{one}"' for one in mark.texts)

    def read_one_of(shape: Shape, key: Key, value: Any) -> Any:
        return value if value in mark.texts else shape.wrong(key, value, wanted)

    return read_one_of


def _grouped(kind: Any, mark: marks.Grouped) -> Reader:
    """Tables by name; what stands in a group's own table is named GROUP.NAME."""
    cls = get_args(kind)[1]
    needed = next(one.key for one in fields_of(cls) if one.required)

    def read_grouped(shape: Shape, key: Key, value: Any) -> Any:
        if not isinstance(value, dict):
            return shape.wrong(key, value, "a table, as { … }")
        pairs: list[tuple[Key, Any]] = []
        for name, each in value.items():
            if isinstance(each, dict) and (name in shape.groups or _holds_tables(each, needed)):
                pairs += [((*key, name, inner), table) for inner, table in each.items()]
            else:
                pairs.append(((*key, name), each))
        return _pairs(partial(read_record, cls), True, shape, len(key), pairs)

    return read_grouped


def _holds_tables(table: dict[str, Any], needed: str) -> bool:
    return bool(table) and needed not in table and all(isinstance(inner, dict) for inner in table.values())


_MARKED: dict[type[Any], Callable[[Any, Any], Reader]] = {
    marks.Id: lambda kind, mark: identifier,
    marks.OneOrMore: _one_or_more,
    marks.InOrder: _in_order,
    marks.Keys: _keys,
    marks.TrueFor: _true_for,
    marks.Matching: _matching,
    marks.OneOf: _one_of,
    marks.Grouped: _grouped,
}
"""The marks that change how a value is read; the others only say more of its key."""
