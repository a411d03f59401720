"""Where each key of a TOML text stands: line and column, both from 1.

A walk over the tokens of a text that tomli has already read, so nothing is judged here. It follows TOML 1.1,
where an inline table may spread over several lines.
"""

from __future__ import annotations

import json
import re
from bisect import bisect_right
from collections.abc import Iterator

from jobtrack.schema.problem import Key

Position = tuple[int, int]

_TOKEN = re.compile(
    r"""(?P<skip>[ \t\r]+|\#[^\n]*)
    |(?P<string>\"{3}(?:\\[\s\S]|[^\\])*?\"{3,5}|'{3}[\s\S]*?'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*')
    |(?P<mark>[\n\[\]{}=,.])
    |(?P<bare>[^\s\[\]{}=,.\#"']+)""",
    re.VERBOSE,
)
_END = ("", 0)


def places(text: str) -> dict[Key, Position]:
    """The place of every key, table and part of a dotted key; the first where one stands twice."""
    found: dict[Key, Position] = {}
    starts = [0, *(match.end() for match in re.finditer("\n", text))]
    for key, offset in _Walk(text).every_key():
        line = bisect_right(starts, offset)
        found.setdefault(key, (line, offset - starts[line - 1] + 1))
    return found


def place_of(key: Key, found: dict[Key, Position]) -> Position:
    """The place of a key, else of the nearest table round it, else the first line."""
    while key and key not in found:
        key = key[:-1]
    return found.get(key, (1, 1))


class _Walk:
    """One pass over the tokens, with one token of foresight."""

    def __init__(self, text: str) -> None:
        self._tokens = (
            (match.group(), match.start()) for match in _TOKEN.finditer(text) if match.lastgroup != "skip"
        )
        self._next = next(self._tokens, _END)

    def _take(self) -> tuple[str, int]:
        token, self._next = self._next, next(self._tokens, _END)
        return token

    def every_key(self) -> Iterator[tuple[Key, int]]:
        """Every key from the top of the file, with the offset at which it is written."""
        table: Key = ()
        while self._next != _END:
            if self._next[0] == "\n":
                self._take()
            elif self._next[0] == "[":
                table, offset = self._header()
                yield from _prefixes((), table, offset)
            else:
                yield from self._statement(table)

    def _header(self) -> tuple[Key, int]:
        while self._next[0] == "[":
            self._take()
        key, offset = self._key()
        while self._next[0] == "]":
            self._take()
        return key, offset

    def _key(self) -> tuple[Key, int]:
        offset, parts = self._next[1], [_name(self._take()[0])]
        while self._next[0] == ".":
            self._take()
            parts.append(_name(self._take()[0]))
        return tuple(parts), offset

    def _statement(self, table: Key) -> Iterator[tuple[Key, int]]:
        key, offset = self._key()
        yield from _prefixes(table, key, offset)
        self._take()
        if self._next[0] == "{":
            yield from self._inline((*table, *key))
        else:
            self._skip_value()

    def _inline(self, table: Key) -> Iterator[tuple[Key, int]]:
        self._take()
        while self._next[0] != "}" and self._next != _END:
            if self._next[0] in {"\n", ","}:
                self._take()
            else:
                yield from self._statement(table)
        self._take()

    def _skip_value(self) -> None:
        depth = 0
        while self._next != _END and (depth or self._next[0] not in {"\n", ",", "}"}):
            depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(self._take()[0], 0)


def _prefixes(table: Key, key: Key, offset: int) -> Iterator[tuple[Key, int]]:
    for count in range(1, len(key) + 1):
        yield (*table, *key[:count]), offset


def _name(token: str) -> str:
    if token.startswith('"'):
        try:
            return str(json.loads(token))
        except ValueError:
            return token[1:-1]
    return token[1:-1] if token.startswith("'") else token
