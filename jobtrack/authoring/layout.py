"""A template's data as a file that is good to read: a line a thing, the readings inside their step, comments above."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from jobtrack.literal import visible
from jobtrack.schema.problem import Key
from jobtrack.schema.toml_text import key_text, value_text

Table = Mapping[str, Any]
Notes = Mapping[Key, Sequence[str]]
"""Comments, by the key that they stand above; those of the whole file by ()."""

HEADINGS = {
    "given": 'What is known at the start; "don\'t know yet" is an answer to all of it',
    "exchanged": "What goes over from one vehicle to the other, and how it is rated",
    "condition": "What a step may leave open",
    "part": "On the bench before the work needs it",
    "stage": "The order of the work",
    "due_afterwards": "Once the job is closed",
}
IN_STEP = ("reading", "tick", "work_out", "compare", "part", "torque", "weld")
"""Tables of a step whose every entry has a line of its own."""


def template_text(data: Table, notes: Notes | None = None) -> str:
    """The file's text; read again, it is the same data in the same order of steps, stages and all inside them."""
    known = notes or {}
    blocks = [[*_comments(known, ()), *([""] if known.get(()) else []), *_top(data, known)]]
    for name, table in data.items():
        if isinstance(table, Mapping):
            blocks += _blocks(data, name, table, known)
    return "\n\n".join("\n".join(lines) for lines in blocks if lines) + "\n"


def _comments(notes: Notes, key: Key) -> list[str]:
    return [f"# {visible(text)}" if text else "#" for text in notes.get(key, ())]


def _top(data: Table, notes: Notes) -> list[str]:
    """The lines that belong to the whole template."""
    return [
        row for name, value in data.items() if not isinstance(value, Mapping)
        for row in (*_comments(notes, (name,)), *_lines(name, value))
    ]  # fmt: skip


def _lines(name: str, value: Any) -> list[str]:
    """A key with its value; several hazard messages one under the other."""
    if name == "hazard" and len(value) > 1:
        return [f"{name} = [", *(f"  {value_text(row)}," for row in value), "]"]
    return [f"{key_text(name)} = {value_text(value)}"]


def _blocks(data: Table, name: str, table: Table, notes: Notes) -> list[list[str]]:
    """The blocks of one of the template's tables, under their heading."""
    heading = [f"# ---- {HEADINGS[name]} ----"] if name in HEADINGS else []
    above = [*heading, *_comments(notes, (name,))]
    if name == "step" and table:
        return list(_steps(data, table, notes))
    if name == "given":
        return [*([above] if above else []), *_givens(table, set(data.get("vehicle", ())), notes)]
    lines = _entries((name,), table, notes)
    return [above, [f"[{name}]", *lines]] if heading else [[*above, f"[{name}]", *lines]]


def _entries(above: Key, table: Table, notes: Notes) -> list[str]:
    """A line an entry of a table."""
    return [
        row for name, value in table.items()
        for row in (*_comments(notes, (*above, name)), *_lines(name, value))
    ]  # fmt: skip


def _givens(table: Table, vehicles: set[str], notes: Notes) -> Iterator[list[str]]:
    """A table a vehicle, and one of those that are no vehicle's, in the order in which they come."""
    own = {name: value for name, value in table.items() if name not in vehicles}
    for name, value in table.items():
        if name in vehicles:
            yield [f"[given.{key_text(name)}]", *_entries(("given", name), value, notes)]
        elif own:
            yield ["[given]", *_entries(("given",), own, notes)]
            own = {}
    if not table:
        yield ["[given]"]


def _steps(data: Table, steps: Table, notes: Notes) -> Iterator[list[str]]:
    """A table a step; where a stage begins, its title."""
    last = None
    for id, step in steps.items():
        stage = step.get("stage")
        if stage != last:
            title = data.get("stage", {}).get(stage, {}).get("title", stage)
            yield [
                f"# ---- {visible(' '.join(str(title).split()))} ----",
                *_comments(notes, ("stage", str(stage), "steps")),
            ]
        last = stage
        yield [*_comments(notes, ("step", id)), f"[step.{key_text(id)}]", *_step(id, step, notes)]


def _step(id: str, step: Table, notes: Notes) -> list[str]:
    lines = []
    for name, value in step.items():
        lines += _comments(notes, ("step", id, name))
        if name in IN_STEP and value:
            lines += [f"{name}.{key_text(one)} = {value_text(table)}" for one, table in value.items()]
        else:
            lines += _lines(name, value)
    return lines
