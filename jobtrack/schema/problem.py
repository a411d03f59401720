"""Something wrong at a key of a TOML text: where, why, and how to mend it."""

from __future__ import annotations

import json

from msgspec import Struct

MISTAKE = "mistake"
REMARK = "remark"

Key = tuple[str, ...]
"""The parts of a dotted key, from the top of the file."""


class Problem(Struct, frozen=True):
    """Something wrong at a key, before anybody has looked for its line."""

    key: Key
    why: str
    mend: str
    kind: str = MISTAKE


def remark(key: Key, why: str, mend: str) -> Problem:
    """A problem that the author may answer instead of mending it."""
    return Problem(key, why, mend, REMARK)


def dotted(key: Key) -> str:
    """The key as it could be written in a TOML file."""
    return ".".join(
        part if part.replace("-", "").replace("_", "").isalnum() else json.dumps(part) for part in key
    )


def in_words(problem: Problem) -> str:
    """A problem on one line."""
    where = f"{dotted(problem.key):.300}: " if problem.key else ""
    return f"{where}{problem.why}; {problem.mend}"
