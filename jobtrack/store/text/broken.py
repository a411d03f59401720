"""What is left of a block that isn't whole: torn (a broken-off write at the end), an entry's remains, other text."""

from __future__ import annotations

import re
from itertools import islice

from jobtrack.job.state.damage import Legible

OPENING = b"\n[[entry]]\n"
LINE = re.compile(
    rb'(?:(?:id|by|step) = ".*"|n = \d+|(?:at|typed_at) = [0-9T:.+Z-]+|(?:did|follows) = \[[^\n]*\])'
)
NEXT: dict[bytes, tuple[bytes, ...]] = {
    b"": (b"id",), b"id": (b"n",), b"n": (b"at",), b"at": (b"typed_at", b"by"), b"typed_at": (b"by",),
    b"by": (b"step", b"did"), b"step": (b"did",), b"did": (b"follows",), b"follows": (b"hash",),
}  # fmt: skip
"""Which keys may follow which: the program writes them in this order, each on its line."""
HASH_BEGUN = re.compile(rb'hash = "(?:[0-9a-f]{0,31}|[0-9a-f]{32}"?)')
"""A hash line cut anywhere; whole but for its line's end, too: without that a block isn't whole."""
OF_AN_ENTRY = re.compile(rb'^(?:\[\[entry\]\]|did = \[|follows = \[|hash = ")', re.MULTILINE)
HASH = re.compile(rb"(?<![0-9a-f])[0-9a-f]{32}(?![0-9a-f])")
"""32 digits and no more: a part of a longer row is no hash of ours."""
STEP = re.compile(rb'^step = "([^"\\\n]{1,400})"', re.MULTILINE)
OPENS = re.compile(rb'\bopens = "((?:[^"\\\n]|\\.){1,400})"(?:, member = "([^"\\\n]{1,400})")?')
"""An opening as it is written; in a text the quotation marks would stand behind backslashes."""
MOST_OPENINGS = 20
"""So many are named of one damaged block."""
HOLE = bytes(16)
"""A written block holds no NUL; so many of them are a part that a broken-off write never filled."""


def broken_off(data: bytes) -> bool:
    """Whether this, at a file's very end, is the beginning of a block and nothing else.

    In doubt it isn't: a damaged entry stays where it is, while what was broken off counts for nothing.
    """
    if HOLE in data or OPENING.startswith(data):
        return True
    # A file system may have made a file longer and not filled it: noughts at the end are no damage of an entry.
    # Behind a whole hash line they stand where its line's end was: then the entry is damaged, not broken off.
    begun = data.rstrip(b"\0")
    if not begun.startswith(OPENING) or (begun != data and begun.endswith(b'"') and _hash_is_whole(begun)):
        return False
    *lines, rest = begun[len(OPENING) :].split(b"\n")
    key = b""
    for line in lines:
        found = line.partition(b" = ")[0]
        if found not in NEXT[key] or not LINE.fullmatch(line):
            return False
        key = found
    return any(_begins(rest, one) for one in NEXT[key])


def _hash_is_whole(data: bytes) -> bool:
    return HASH_BEGUN.fullmatch(data[data.rfind(b"\n") + 1 :]) is not None


def _begins(rest: bytes, key: bytes) -> bool:
    start = key + b" = "
    if start.startswith(rest):
        return True
    if key == b"hash":
        return HASH_BEGUN.fullmatch(rest) is not None
    return rest.startswith(start) and b"\0" not in rest


def of_an_entry(data: bytes) -> bool:
    """Whether a stretch without a block's beginning and end holds a line that only an entry has."""
    return OF_AN_ENTRY.search(data) is not None


def last_line(data: bytes) -> int:
    """Where the last line that isn't empty begins."""
    return data.rstrip(b"\r\n").rfind(b"\n") + 1


def content(data: bytes) -> bytes:
    """What stands before the hash line, or before what is left of it."""
    begun = data.rfind(b"\nhash = ")
    return data[: begun + 1 if begun >= 0 else last_line(data)]


def hash_left(data: bytes) -> str:
    """The hash that can still be read in the last line of a block whose hash line is damaged; else nothing."""
    # Where the line's end before it is damaged, `follows` stands in the same line: those hashes are of other blocks.
    found = HASH.findall(data[last_line(data) :].rpartition(b"follows = [")[2].rpartition(b"]")[2])
    return found[-1].decode() if found else ""


def legible(data: bytes) -> Legible:
    """The step, and the openings, that a damaged block still names."""
    step = STEP.search(data)
    found = islice(OPENS.finditer(data), MOST_OPENINGS)
    opens = tuple((_text(one[1]), _text(one[2]) if one[2] else None) for one in found)
    return Legible(_text(step[1]) if step else None, opens)


def _text(written: bytes) -> str:
    return re.sub(r'\\(["\\])', r"\1", written.decode(errors="replace"))
