"""The mistakes of TOML's own grammar, in our words, each with a line that says how to mend it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import tomli

from jobtrack.schema.stumble_tables import BY_MESSAGE, STUMBLES

LONGEST = 2000
"""So much of a line is looked at."""

MOST = 20
"""So many are named; for each the text is read once more."""

Stumble = tuple[int, int, str, str]
"""Line, column, why and mend."""

_KEY = re.compile(r"\s*([\w.-]+)\s*=")
_TEXT = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'[^']*'")


def explain(error: tomli.TOMLDecodeError) -> Stumble:
    """The first mistake of grammar."""
    return _of_a_line(error) or _of_the_parser(error)


def explain_all(error: tomli.TOMLDecodeError) -> Iterator[Stumble]:
    """The first mistake, and as long as each shows on its line alone, what is found without that line."""
    for _ in range(MOST):
        stumble = _of_a_line(error)
        yield stumble or _of_the_parser(error)
        after = _without(error.doc, stumble[0]) if stumble else None
        if after is None:
            return
        error = after


def _without(text: str, number: int) -> tomli.TOMLDecodeError | None:
    """The next mistake once a line is taken out; None where there is none, or where other lines hang on this one: it
    opens or closes a bracket, or is a header."""
    lines = text.split("\n")
    bare = _TEXT.sub("", lines[number - 1]).strip()
    if bare.startswith("[") or any(bare.count(one) != bare.count(other) for one, other in ("[]", "{}")):
        return None
    lines[number - 1] = ""
    try:
        tomli.loads("\n".join(lines))
    except tomli.TOMLDecodeError as error:
        return error
    return None


def _of_a_line(error: tomli.TOMLDecodeError) -> Stumble | None:
    """What is wrong with the line by itself."""
    line = error.lineno
    for number in _near(line, error.doc):
        text = _line(error.doc, number)
        for pattern, why, mend in STUMBLES:
            found = re.search(pattern, text)
            if found and not _is_sound(text):
                return number, (found.start(found.lastindex or 0) + 1), f"here stands {why}", mend(found)
    return None


def _of_the_parser(error: tomli.TOMLDecodeError) -> Stumble:
    """What the parser says, in our words."""
    line, column = error.lineno, error.colno
    why, mend_line = _from_message(error.msg)
    if "unterminated" in error.msg.lower() and (begun := _last_begun(error.doc)):
        line, column = begun
    if "overwrite" in error.msg.lower() and (first := _first_of(error.doc, line)):
        why += f", first in line {first}"
    return line, column, why, mend_line


def _first_of(text: str, number: int) -> int | None:
    """The line above this one that gives its key in the same table first."""
    key = _KEY.match(_line(text, number))
    for above in range(number - 1, 0, -1) if key else ():
        other = _line(text, above)
        if other.lstrip().startswith("["):
            return None
        if (found := _KEY.match(other)) and key and found[1] == key[1]:
            return above
    return None


def _last_begun(text: str) -> tuple[int, int] | None:
    """Where the last text over several lines begins."""
    at = max(text.rfind('"""'), text.rfind("'''"))
    return (text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)) if at >= 0 else None


def _near(line: int, text: str) -> list[int]:
    """The line named, or the last written one before it where that is empty."""
    above = "\n".join(text.split("\n")[: line - 1]).rstrip()
    return [line, above.count("\n") + 1] if above and not _line(text, line).strip() else [line]


def _line(text: str, number: int) -> str:
    lines = text.split("\n")
    return lines[number - 1][:LONGEST] if 0 < number <= len(lines) else ""


def _is_sound(line: str) -> bool:
    try:
        tomli.loads(line)
    except (ValueError, RecursionError):
        return False
    return True


def _from_message(message: str) -> tuple[str, str]:
    for part, why, mend in BY_MESSAGE:
        if part in message.lower():
            return why, mend
    return f"no sound TOML: {message}", "Mend this line"
