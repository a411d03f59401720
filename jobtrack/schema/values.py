"""Single values read strictly: each reader returns the value, or keeps a problem and returns BAD."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from jobtrack.schema.problem import Key, Problem, dotted

LONGEST_NAME = 200
"""Characters of the longest id, and of the longest name."""

LONGEST_TEXT = 8 * 1024
"""Bytes of the longest text, as of a note."""

MOST_PROBLEMS = 1000
"""So many are kept; a file with more is none that somebody meant as a template."""

LARGEST_NUMBER = 10**12
"""No shop measures more, in any unit."""

ID = r"[a-z0-9]+(-[a-z0-9]+)*"
"""The pattern of an id."""
BAD: Any = object()
"""What a value becomes that can't be used."""


class Shape:
    """A reader that collects problems; what it returns holds only if there are none."""

    def __init__(self, newer: bool = False) -> None:
        self.problems: list[Problem] = []
        self.newer = newer
        """Whether a newer program wrote what is read: keys unknown here are then passed over and kept."""
        self.passed_over: list[Key] = []
        self.groups: frozenset[str] = frozenset()
        """Names that hold tables of their own where a table is grouped."""
        self.elsewhere: Mapping[str, Sequence[str]] = {}
        """The keys of other tables, for the mend where one has swallowed another's key."""

    def add(self, key: Key, why: str, mend: str) -> Any:
        """Keep a problem and return the mark of a value that can't be used."""
        if not self.full:
            self.problems.append(Problem(key, why, mend))
        return BAD

    @property
    def full(self) -> bool:
        """Whether no more problems are kept."""
        return len(self.problems) >= MOST_PROBLEMS

    def wrong(self, key: Key, value: object, wanted: str) -> Any:
        """Keep the problem of a value of the wrong kind."""
        mend = _hint(value, wanted) or wanted
        if (
            isinstance(value, list)
            and any(isinstance(one, dict) for one in value)
            and wanted.startswith("a table")
        ):
            mend = f"[{dotted(key)}], with one bracket on each side"
        return self.add(key, f"here stands {_what(value)}, wanted is {wanted}", f"Write {mend}")


_KINDS: tuple[tuple[type | tuple[type, ...], str], ...] = (
    (bool, "yes or no"),
    (str, "a text"),
    ((int, float), "a number"),
    ((datetime.date, datetime.time), "a date or time"),
)


def _what(value: object) -> str:
    if isinstance(value, (list, dict)):
        return "a list" if isinstance(value, list) else "a table"
    name = next((name for kind, name in _KINDS if isinstance(value, kind)), "something else")
    if isinstance(value, int) and abs(value) > LARGEST_NUMBER:
        return "a number beyond all measure"
    shown = str(value).lower() if isinstance(value, bool) else f"{value!s:.40}"
    return f"{name} ({shown})"


def _hint(value: object, wanted: str) -> str:
    if isinstance(value, dict) and wanted == "a list of texts":
        return "a list of texts, or above it the header that is missing, as [given]"
    if isinstance(value, str):
        return _hint_for_text(value, wanted)
    if wanted.startswith("a text") and (
        _is_number(value) or isinstance(value, (datetime.date, datetime.time))
    ):
        return f'"{value}", in quotes'
    measurable = isinstance(value, bool) or not isinstance(value, (int, float)) or _is_number(value)
    return "" if measurable else "a measurable number"


def _hint_for_text(value: str, wanted: str) -> str:
    if "number" in wanted and re.fullmatch(r"\s*-?\d*[.,]?\d+\s*", value):
        return f"{value.strip().replace(',', '.')}, without quotes"
    if wanted.startswith("true"):
        return "true or false, without quotes"
    return f'["{value}"]' if wanted == "a list of texts" else ""


Reader = Callable[[Shape, Key, Any], Any]
"""Takes where to keep problems, the key, and the value as tomli gives it."""


def text(shape: Shape, key: Key, value: Any) -> Any:
    """A text."""
    if not isinstance(value, str):
        return shape.wrong(key, value, "a text in quotes")
    return value if len(value.encode()) <= LONGEST_TEXT else _too_long(shape, key)


def _too_long(shape: Shape, key: Key) -> Any:
    return shape.add(key, f"a text longer than {LONGEST_TEXT} bytes", "Shorten it")


def whole(shape: Shape, key: Key, value: Any) -> Any:
    """A whole number."""
    fits = type(value) is int and _is_number(value)
    return value if fits else shape.wrong(key, value, "a whole number")


def _is_number(value: Any) -> bool:
    finite = type(value) is int or (isinstance(value, float) and math.isfinite(value))
    return finite and abs(value) <= LARGEST_NUMBER


def count(shape: Shape, key: Key, value: Any) -> Any:
    """A whole number, or the name of one."""
    if isinstance(value, str):
        return text(shape, key, value)
    fits = type(value) is int and _is_number(value)
    return value if fits else shape.wrong(key, value, "a whole number, or a text in quotes")


def number(shape: Shape, key: Key, value: Any) -> Any:
    """A finite number."""
    return value if _is_number(value) else shape.wrong(key, value, "a number")


def yes_no(shape: Shape, key: Key, value: Any) -> Any:
    """True or false."""
    return value if isinstance(value, bool) else shape.wrong(key, value, "true or false")


def scalar(shape: Shape, key: Key, value: Any) -> Any:
    """A number, or the name of one."""
    if isinstance(value, str):
        return text(shape, key, value)
    if _is_number(value):
        return value
    return shape.wrong(key, value, "a number, or a text in quotes")


def plain(shape: Shape, key: Key, value: Any) -> Any:
    """A number, a text, true or false."""
    return value if isinstance(value, bool) else scalar(shape, key, value)


def answer(shape: Shape, key: Key, value: Any) -> Any:
    """A text, true or false."""
    if isinstance(value, str):
        return text(shape, key, value)
    if isinstance(value, bool):
        return value
    return shape.wrong(key, value, "a text in quotes, true or false")


def is_id(shape: Shape, key: Key) -> bool:
    """Whether the last part of a key is an id; if not, that is kept as a problem."""
    name = key[-1]
    if re.fullmatch(ID, name) and len(name) <= LONGEST_NAME:
        return True
    better = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:LONGEST_NAME]
    shape.add(
        key, f"the id {name[:60]!r} has something else in it than small letters, digits and single hyphens",
        f"Write {better}" if better else "Write small letters, digits and hyphens",
    )  # fmt: skip
    return False


def identifier(shape: Shape, key: Key, value: Any) -> Any:
    """An id in a list."""
    got = text(shape, key, value)
    return got if got is not BAD and is_id(shape, (*key, got)) else BAD
