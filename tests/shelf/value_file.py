"""The compact value file of a shipped template: read, each call with the line on which it stands."""

from __future__ import annotations

import re
import shlex
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

OFFSET = "+01:00"
"""The invented shop's own time, all the year round."""
KEYS = {
    "template": str,
    "title": str,
    "by": str,
    "at": str,
    "given": list,
    "ended": str,
    "outside": list,
    "settled": str,
    "taken_again": str,
    "call": list,
}
MAY_BE_LEFT_OUT = {"given": [], "outside": [], "settled": "", "taken_again": ""}
CALL = '["04-01 09:40", "WHO", "STEP or \\"\\"", "words behind record", and perhaps "the copy"]'
_ROW_OR_TEXT = re.compile(
    r"""\#[^\n]*|\"{3}(?:\\[\s\S]|[^\\])*?\"{3}|'{3}[\s\S]*?'{3}|"(?:\\.|[^"\\\n])*"|'[^'\n]*'|\[|\]"""
)


class ValueFileError(AssertionError):
    """A value file that can't be read, with line, reason and mend."""


@dataclass(frozen=True)
class Row:
    """One call: its line, as it is written, and as the replay of the walks makes it."""

    line: int
    words: str
    call: Mapping[str, Any]


@dataclass(frozen=True)
class ValueFile:
    """A job of a template from begun to ended, and how it stands then."""

    path: Path
    template: str
    begin: Mapping[str, Any]
    """As the replay of the walks begins it, but for `template`."""
    ended: str
    outside: tuple[str, ...]
    settled: str
    taken_again: str
    rows: tuple[Row, ...]


def read(path: Path) -> ValueFile:
    """Read a value file. Raises ValueFileError."""
    text = path.read_text(encoding="utf-8")
    try:
        data = {**MAY_BE_LEFT_OUT, **tomllib.loads(text)}
    except tomllib.TOMLDecodeError as error:
        raise ValueFileError(f"{path.name}: {error}") from None
    _look_at_keys(path, data)
    begun = _time(path, 1, data["at"])
    lines = list(_lines_of_calls(text))
    begin = {"title": data["title"], "by": data["by"], "at": begun.isoformat(),
             "args": [word for given in data["given"] for word in ("--given", given)]}  # fmt: skip
    rows = [_row(path, line, row, begun.year) for line, row in zip(lines, data["call"], strict=True)]
    return ValueFile(path, data["template"], begin, data["ended"], tuple(data["outside"]), data["settled"],
                     data["taken_again"], tuple(rows))  # fmt: skip


def _look_at_keys(path: Path, data: Mapping[str, Any]) -> None:
    for key, kind in KEYS.items():
        if not isinstance(data.get(key), kind):
            shape = "[…]" if kind is list else '"…"'
            raise ValueFileError(f"{path.name}: wants {key} = {shape}")
    if strange := sorted(set(data) - set(KEYS)):
        raise ValueFileError(
            f"{path.name}: {strange[0]} is no key of a value file; there are {', '.join(KEYS)}"
        )


def _row(path: Path, line: int, row: Any, year: int) -> Row:
    if not isinstance(row, list) or not all(isinstance(one, str) for one in row):
        raise ValueFileError(f"{path.name}:{line}: a call is {CALL}")
    words = "  ".join(row)
    match row:
        case ["copy", name]:
            return Row(line, words, {"take_copy": name})
        case ["merge", name]:
            return Row(line, words, {"merge": name})
        case [when, who, "handover", to] if not to.lstrip().startswith("--"):
            return Row(line, words, {"at": _moment(path, line, when, year), "by": who, "handover_to": to})
        case [when, who, step, args, *copy] if len(copy) < 2:
            call = {"at": _moment(path, line, when, year), "by": who, "args": _split(path, line, args)}
            call |= ({"step": step} if step else {}) | ({"on_copy": copy[0]} if copy else {})
            return Row(line, words, call)
    raise ValueFileError(
        f'{path.name}:{line}: a call is {CALL}, ["copy", NAME], ["merge", NAME] or [when, who, "handover", to whom]'
    )


def _split(path: Path, line: int, words: str) -> list[str]:
    try:
        return shlex.split(words)
    except ValueError as error:
        raise ValueFileError(
            f"{path.name}:{line}: the words of the call: {error}; look at its quotes"
        ) from None


def _moment(path: Path, line: int, when: str, year: int) -> str:
    return _time(path, line, f"{year}-{when}").isoformat()


def _time(path: Path, line: int, text: str) -> datetime:
    try:
        return datetime.strptime(f"{text}{OFFSET}", "%Y-%m-%d %H:%M%z")
    except ValueError:
        raise ValueFileError(
            f'{path.name}:{line}: no such time: {text}; calls say "MM-DD HH:MM", at = "YYYY-MM-DD HH:MM"'
        ) from None


def _lines_of_calls(text: str) -> Iterator[int]:
    """The line on which each list in the list `call` begins."""
    start = re.search(r"^call\s*=\s*\[", text, re.MULTILINE)
    depth = 1
    for found in _ROW_OR_TEXT.finditer(text, start.end()) if start else ():
        depth += {"[": 1, "]": -1}.get(found.group(), 0)
        if depth == 0:
            return
        if found.group() == "[" and depth == 2:
            yield text.count("\n", 0, found.start()) + 1
