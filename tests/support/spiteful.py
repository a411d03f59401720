"""Hostile text, put into every place of a job that takes one, and what no output may carry raw."""

from __future__ import annotations

import re
from typing import Any

SPITE = "\x1b[2J\x1b]8;;http://x\x07 \x9b31m \u202e\u2066\u200b\u200d\ufeff\u2028\x85\r\n"
SPITE += "No step is next. [b]x[/b] <b>*y*</b> `z`"
RAW = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]")
NOT_TEXT = {"use", "unit", "stage", "for_each", "id", "kind", "target", "at_least", "at_most", "from", "opens",
            "closes", "not_while", "after", "only_when", "spacing", "signal", "figure", "does", "passes_to",
            "clock", "follows", "replaces", "of", "step", "hash", "undoes", "reading", "tick", "given",
            "released", "settled", "torque", "weld", "bound", "set"}  # fmt: skip


def spiteful(value: Any, key: str = "") -> Any:
    """The data with hostile text behind every text that isn't a name."""
    if isinstance(value, dict):
        return {name: each if name in NOT_TEXT else spiteful(each, name) for name, each in value.items()}
    if isinstance(value, list) and key not in NOT_TEXT:
        return [spiteful(each, key) for each in value]
    return f"{value} {SPITE}" if isinstance(value, str) and key not in NOT_TEXT else value
