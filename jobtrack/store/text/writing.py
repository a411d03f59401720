"""Blocks written: TOML 1.0, one line a value, each block ended by its hash."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import Any

from jobtrack.job.acts.entry import Entry
from jobtrack.store.text.blocks import digest

BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def write_entry(entry: Entry) -> tuple[bytes, str]:
    """The block of an entry and its hash. TOML 1.0, one line a value, the hash last."""
    lines = [f"id = {_value(entry.id)}", f"n = {entry.n}", f"at = {entry.at.isoformat()}"]
    if entry.typed_at is not None:
        lines.append(f"typed_at = {entry.typed_at.isoformat()}")
    lines.append(f"by = {_value(entry.by)}")
    if entry.step is not None:
        lines.append(f"step = {_value(entry.step)}")
    lines.append(f"did = {_value([act.as_dict() for act in entry.did])}")
    lines.append(f"follows = {_value(list(entry.follows))}")
    data = ("\n[[entry]]\n" + "\n".join(lines) + "\n").encode()
    written = digest(data)
    return data + f'hash = "{written}"\n'.encode(), written


def write_line(key: str, value: Any) -> str:
    """One `key = value` line."""
    return f"{_key(key)} = {_value(value)}\n"


def write_header(job: Mapping[str, Any], template: Mapping[str, Any]) -> bytes:
    """The header: format, job, the whole template, and the hash that it ends with."""
    import tomli_w

    text = tomli_w.dumps({"format": 1, "job": dict(job), "template": dict(template)}) + "\n[header]\n"
    data = text.encode()
    return data + f'hash = "{digest(data)}"\n'.encode()


def _value(value: Any) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return _string(value)
        case int() | float():
            return _number(value)
        case Mapping():
            return (
                "{ " + ", ".join(f"{_key(key)} = {_value(one)}" for key, one in value.items()) + " }"
                if value
                else "{}"
            )
        case list() | tuple():
            return "[" + ", ".join(_value(one) for one in value) + "]"
        case _:
            raise TypeError(f"no TOML for {type(value).__name__}")


def _number(value: float) -> str:
    if not math.isfinite(value):
        raise ValueError("a number in an entry is finite")
    return repr(value)


def _key(key: str) -> str:
    return key if BARE_KEY.fullmatch(key) else _string(key)


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
