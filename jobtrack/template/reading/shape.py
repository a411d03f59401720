"""Reading parsed TOML into the classes of `model.py`, strictly: every problem is kept, none is guessed away.

The classes are the one declaration of what may be written: a field's annotation says how it is read.
"""

from __future__ import annotations

from dataclasses import MISSING, Field, fields
from typing import Any

from jobtrack.template import model
from jobtrack.template.findings import Key
from jobtrack.template.guard import too_large
from jobtrack.template.reading.scalars import (
    BAD,
    Reader,
    Shape,
    answers,
    limit,
    list_of,
    map_of,
    members,
    number,
    numbers,
    one_or_more,
    pairs_of,
    plain,
    scalar,
    text,
    texts,
    whole,
    yes_no,
)

ASK_FIRST = "Not yet asked: does this need an approval, a licensed person, an inspection?"
"""What `ask_first = true` stands for."""


def read_template(data: dict[str, Any], shape: Shape) -> model.Template | None:
    """The template, or None; problems are in `shape`."""
    if type(data.get("format")) is int and data["format"] != 1 and not (shape.newer and data["format"] > 1):
        shape.add(("format",), "this format isn't known here", "This program reads format = 1")
        return None
    vehicles = data.get("vehicle")
    shape.vehicles = frozenset(vehicles if isinstance(vehicles, dict) else ())
    template = _record(model.Template, shape, (), data)
    if not isinstance(template, model.Template) or shape.problems:
        return None
    shape.problems += too_large(template)
    return None if shape.problems else template


def known_keys(cls: type) -> list[str]:
    """The keys that a table of this class may have, as written in the file."""
    return [field.name.rstrip("_") for field in fields(cls)]


def _record(cls: type, shape: Shape, key: Key, value: Any) -> Any:
    if not isinstance(value, dict):
        return shape.wrong(key, value, "a table, as { … }")
    kinds = {field.name.rstrip("_"): field for field in fields(cls)}
    for name in [name for name in value if name not in kinds]:
        _unknown(cls, shape, (*key, name), list(kinds))
    got = {field.name: _field(cls, field, shape, key, value) for field in kinds.values()}
    if BAD in got.values():
        return BAD
    return cls(**{name: item for name, item in got.items() if item is not MISSING})


def _field(cls: type, field: Field[Any], shape: Shape, key: Key, table: dict[str, Any]) -> Any:
    name = field.name.rstrip("_")
    if name in table:
        return reader_of(cls, field)(shape, (*key, name), table[name])
    if field.default is MISSING and field.default_factory is MISSING:
        return shape.add(key or (name,), f"the key {name} is missing", f"Add {name} = …")
    return MISSING


def _unknown(cls: type, shape: Shape, key: Key, known: list[str]) -> None:
    if shape.newer:
        shape.passed_over.append(key)
        return
    if shape.full:
        return
    from difflib import get_close_matches

    near = get_close_matches(key[-1], known, 1)
    where = " or ".join(
        place for place, keys in _ELSEWHERE.items() if key[-1] in keys and place != cls.__name__
    )
    if near:
        mend = f"Did you mean {near[0]}?"
    elif where:
        mend = (
            f"{key[-1]} is a key of another table ({where.lower()}): a table header above has swallowed it. "
            "Move it up, or write the swallowing table on one line as { … }"
        )
    else:
        mend = f"Known here: {', '.join(known)}"
    shape.add(key, f"unknown key {key[-1]}", mend)


def _hazard(shape: Shape, key: Key, value: Any) -> Any:
    parts = texts(shape, key, value)
    if parts is not BAD and len(parts) != 4:
        return shape.add(
            key, f"a hazard message has four parts, here are {len(parts)}",
            'Write ["WARNING", "the hazard", "what it does", "how to avoid it"]',
        )  # fmt: skip
    return BAD if parts is BAD else model.Hazard(*parts)


def _figure(shape: Shape, key: Key, value: Any) -> Any:
    if not isinstance(value, dict):
        return text(shape, key, value)
    if value.keys() != {"value", "source"}:
        return shape.add(
            key, "a figure needs its value and its source", 'Write { value = "55 N*m", source = "…" }'
        )
    return map_of(text)(shape, key, value)


def _ask_first(shape: Shape, key: Key, value: Any) -> Any:
    if value is True:
        return ASK_FIRST
    if isinstance(value, str):
        return text(shape, key, value)
    return shape.wrong(key, value, "the question as a text in quotes, or true")


OLD_THEN = "follows"
"""How a comparison's key `then` was called; read in its place for one more version, and remarked on."""


def _compared(shape: Shape, key: Key, value: Any) -> Any:
    if isinstance(value, dict) and OLD_THEN in value and "then" not in value:
        value = {"then" if name == OLD_THEN else name: each for name, each in value.items()}
    return _record(model.CompareRow, shape, key, value)


def _tables(cls: type) -> Reader:
    return map_of(lambda shape, key, value: _record(cls, shape, key, value), ids=True)


def _work_out(shape: Shape, key: Key, value: Any) -> Any:
    if not isinstance(value, dict):
        return shape.wrong(key, value, "a table, as { use = … }")
    if "use" not in value:
        return shape.add(key, "the key use is missing", "Add use = the name of the working-out")
    use = text(shape, (*key, "use"), value["use"])
    inputs = map_of(plain)(shape, key, {name: each for name, each in value.items() if name != "use"})
    return BAD if BAD in (use, inputs) else model.WorkOut(use, inputs)


def _givens(shape: Shape, key: Key, value: Any) -> Any:
    if not isinstance(value, dict):
        return shape.wrong(key, value, "a table")
    pairs: list[tuple[Key, Any]] = []
    for name, each in value.items():
        if isinstance(each, dict) and (name in shape.vehicles or _holds_tables(each)):
            pairs += [((*key, name, inner), table) for inner, table in each.items()]
        else:
            pairs.append(((*key, name), each))
    return pairs_of(
        shape, pairs, len(key), lambda shape, key, value: _record(model.Given, shape, key, value), ids=True
    )


def _holds_tables(table: dict[str, Any]) -> bool:
    return bool(table) and "ask" not in table and all(isinstance(inner, dict) for inner in table.values())


_READERS: dict[str, Reader] = {
    "str": text,
    "str | None": text,
    "int": whole,
    "int | None": whole,
    "float | int | None": number,
    "bool": yes_no,
    "float | int | str | None": scalar,
    "float | int | str | bool | None": plain,
    "Scalar | PerMember | None": limit,
    "tuple[str, ...]": texts,
    "tuple[str, ...] | None": one_or_more,
    "tuple[float | int, ...]": numbers,
    "tuple[Hazard, ...]": list_of(_hazard, "a list of hazard messages, as [[ … ]]"),
    "dict[str, tuple[str | bool, ...]]": map_of(answers),
    "dict[str, str] | str": _figure,
    "dict[str, str]": map_of(text, ids=True),
    "dict[str, tuple[str, ...]]": map_of(members, ids=True),
    "dict[str, Given]": _givens,
    "dict[str, WorkOut]": map_of(_work_out, ids=True),
    "dict[str, CompareRow]": map_of(_compared, ids=True),
    "Hold | None": lambda shape, key, value: _record(model.Hold, shape, key, value),
}

_SPECIAL: dict[tuple[type, str], Reader] = {
    (model.Template, "ask_first"): _ask_first,
    (model.Stage, "after"): one_or_more,
}

_ELSEWHERE: dict[str, list[str]] = {
    cls.__name__: known_keys(cls)
    for cls in (
        model.Template,
        model.Stage,
        model.Step,
        model.Reading,
        model.Given,
        model.Condition,
        model.Torque,
    )
}


def reader_of(cls: type, field: Field[Any]) -> Reader:
    """How a field of a class is read, by its annotation."""
    kind = str(field.type)
    found = _SPECIAL.get((cls, field.name)) or _READERS.get(kind)
    if found:
        return found
    return _tables(getattr(model, kind.removeprefix("dict[str, ").removesuffix("]")))
