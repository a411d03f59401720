"""How a command ends: exit statuses, and one line on stderr for what went wrong."""

from __future__ import annotations

import sys
from typing import Any

from jobtrack.literal import visible

LONGEST = 10 * 1024
"""Bytes of the longest text that is taken."""
LONGEST_NAME = 200
"""Characters of the longest name or title."""
DONE, FINDING, BAD_INPUT, NOT_RECORDED = 0, 1, 2, 3


class BadInput(Exception):
    """Bad input or a refused act: one line that says what, where and how to mend it."""


def typed(what: str, text: str) -> str:
    """A person's text as it was typed. Raises BadInput where it is empty, too long or not UTF-8."""
    if not text.strip():
        raise BadInput(f"{what} is empty; say what is meant, or leave it out")
    try:
        length = len(text.encode())
    except UnicodeEncodeError:
        raise BadInput(f"{what} isn't UTF-8 text; type it anew") from None
    if length > LONGEST:
        raise BadInput(f"{what} is longer than {LONGEST} bytes; write the rest into a note of its own")
    return text


def typed_name(what: str, text: str) -> str:
    """A name or a title, trimmed. Raises BadInput."""
    name = " ".join(typed(what, text).split())
    if len(name) > LONGEST_NAME:
        raise BadInput(f"{what} is longer than {LONGEST_NAME} characters; shorten it")
    return name


def day(what: str, text: str) -> str:
    """A day as YYYY-MM-DD. Raises BadInput."""
    from datetime import datetime

    try:
        return datetime.strptime(text, "%Y-%m-%d").date().isoformat()
    except ValueError:
        raise BadInput(f"{what} wants a day as 2031-04-02, not {text!r}") from None


def say(text: str) -> None:
    """One line for the person, made visible."""
    print(visible(text))


def say_lines(text: str) -> None:
    """Lines of ours, people's texts in them visible already; each made visible once more."""
    for line in text.removesuffix("\n").split("\n"):
        print(visible(line))


def complain(text: str) -> None:
    """One line on stderr."""
    print(visible(" ".join(text.splitlines())), file=sys.stderr)


def say_json(data: Any) -> None:
    """Data as one line of JSON."""
    import json

    print(json.dumps(data, ensure_ascii=True, allow_nan=False))
