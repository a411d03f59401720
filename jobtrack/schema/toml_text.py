"""A value as TOML 1.0 text, on one line; and a key."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import Any

BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def value_text(value: Any) -> str:
    """A value on one line. Raises TypeError for what TOML has no form for, ValueError for a number without an end."""
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return _string(value)
        case int() | float():
            return _number(value)
        case Mapping():
            return (
                "{ " + ", ".join(f"{key_text(key)} = {value_text(one)}" for key, one in value.items()) + " }"
                if value
                else "{}"
            )
        case list() | tuple():
            return "[" + ", ".join(value_text(one) for one in value) + "]"
        case _:
            raise TypeError(f"no TOML for {type(value).__name__}")


def key_text(key: str) -> str:
    """A key, in quotes where it isn't plain."""
    return key if BARE_KEY.fullmatch(key) else _string(key)


def _number(value: float) -> str:
    if not math.isfinite(value):
        raise ValueError("a number that is written is finite")
    return repr(value)


def _string(text: str) -> str:
    """A basic string on one line. A lone surrogate can't be written as UTF-8 and becomes U+FFFD."""
    out = []
    for char in text.encode("utf-8", "replace").decode("utf-8"):
        if char in '"\\':
            out.append("\\" + char)
        elif ord(char) < 32 or 127 <= ord(char) < 160:
            out.append(f"\\u{ord(char):04x}")
        else:
            out.append(char)
    return '"' + "".join(out) + '"'
