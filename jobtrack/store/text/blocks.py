"""The job file as bytes: a header, then one block an entry, each ended by its own hash.

Reading goes block by block, so that one damaged byte costs one entry. Nothing here touches a disk.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from datetime import datetime
from hashlib import blake2b
from itertools import pairwise
from typing import Any

import tomli
from msgspec import Struct

from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.entry import Entry
from jobtrack.store.text.acts import bounded_name, read_act
from jobtrack.store.text.broken import OPENING, broken_off, content, hash_left, last_line, of_an_entry

LINE_LIMIT = 64 * 1024
DEPTH_LIMIT = 8
LINES_LIMIT = 64
"""Lines of the longest entry: one a value, and a newer program may write more kinds of them."""
NUMBER_LIMIT = 2**63
HEADER_END = re.compile(rb'\n\[header\]\r?\nhash = "([0-9a-f]{32})"\r?\n')
BLOCK_START = re.compile(rb"\r\n\[\[entry\]\]\r\n|(?:(?<![^\n])\r)?\n\[\[entry\]\]\r?\n")
"""The empty line ahead of a block, and the block's first: in CRLF, in LF, or in both.

In the last of these, `(?<![^\n])\r` takes a CR in only where it begins a line, as an empty line's own; one behind
other text is left to the block before.
"""
HASH_LINE = re.compile(rb'\nhash = "([0-9a-f]{32})"\r?\n')


def digest(data: bytes) -> str:
    """BLAKE2b, 16 bytes, hex: finds accidents and casual edits, not a forger."""
    return blake2b(data, digest_size=16).hexdigest()


class Block(Struct, frozen=True):
    """A stretch of the file behind the header."""

    kind: str
    """sound, altered, stray or torn."""
    line: int
    data: bytes
    hash: str = ""
    """As written; empty where none is written."""
    entry: Entry | None = None
    """What a sound block says; None where it is of no shape that this program knows."""

    @property
    def name(self) -> str:
        """Its hash as written; its bytes' own where none is."""
        return self.hash or digest(self.data)

    @property
    def names(self) -> frozenset[str]:
        """The hashes that it may be known by: where only its hash line is damaged, its content gives the right one."""
        if self.kind != "altered":
            return frozenset((self.name,))
        return frozenset((self.name, digest(content(self.data))))


class Header(Struct, frozen=True):
    """Everything ahead of the first block: the job, its template, and the hash of both."""

    data: bytes
    hash: str
    """As written; where it isn't sound, what the first entries follow, if there are any."""
    sound: bool
    """False: its bytes don't give the hash that it ends with."""


class Scan(Struct, frozen=True):
    """What a file holds."""

    header: Header | None
    blocks: tuple[Block, ...]
    crlf: bool
    """Whether lines end in CRLF: forgiven where those of a whole block do."""

    @property
    def entries(self) -> tuple[Entry, ...]:
        """What the sound blocks say, in the order of the file; one that stands twice comes twice."""
        return tuple(block.entry for block in self.blocks if block.entry is not None)

    @property
    def torn(self) -> Block | None:
        """What a broken-off write has left at the very end."""
        return self.blocks[-1] if self.blocks and self.blocks[-1].kind == "torn" else None


def scan(raw: bytes) -> Scan:
    """Take a whole file apart. Never raises: what can't be understood is named, not dropped."""
    end = HEADER_END.search(raw)
    start = end.end() if end else _first_block(raw)
    text = _as_lf(raw[:start])
    blocks = tuple(scan_blocks(raw[start:], raw.count(b"\n", 0, start) + 1))
    header = _header(text, end[1].decode() if end else "", blocks) if text else None
    left = sum(part.count(b"\r\n") for part in (text, *(block.data for block in blocks)))
    return Scan(header, blocks, raw.count(b"\r\n") > left)


def _first_block(raw: bytes) -> int:
    found = BLOCK_START.search(raw)
    return found.start() if found else len(raw)


def _as_lf(data: bytes) -> bytes:
    """The same with LF, where every line was changed to CRLF; a single one is as damaged as any other byte."""
    return data.replace(b"\r\n", b"\n") if data.count(b"\r\n") == data.count(b"\n") else data


def _header(text: bytes, written: str, blocks: tuple[Block, ...]) -> Header:
    """A header that isn't sound goes by the hash that the first entries follow."""
    if written and digest(text[: last_line(text)]) == written and b"\r" not in text:
        return Header(text, written, sound=True)
    first = [
        parent for block in blocks if block.entry and block.entry.n == 1 for parent in block.entry.follows
    ]
    return Header(text, first[0] if first else written or digest(text), sound=False)


def scan_blocks(data: bytes, line: int) -> list[Block]:
    """Take what follows a header, or a later part of it, apart. `line` is that of its first byte."""
    starts = [found.start() for found in BLOCK_START.finditer(data)]
    # What stands ahead of the first block is a stretch of its own; where nothing does, it isn't one.
    bounds = [0, *starts, len(data)] if not starts or starts[0] else [*starts, len(data)]
    blocks: list[Block] = []
    for start, end in pairwise(bounds):
        if chunk := data[start:end]:
            blocks += _chunk(chunk, line, last=end == len(data))
            line += chunk.count(b"\n")
    return blocks


def _chunk(chunk: bytes, line: int, last: bool) -> Iterator[Block]:
    """One block and what stands behind it before the next."""
    start = 0
    for found in HASH_LINE.finditer(chunk):
        part = chunk[start : found.end()]
        yield _block(part, found[1].decode(), line + _blank(part))
        line += part.count(b"\n")
        start = found.end()
    if rest := chunk[start:]:
        yield _remains(rest, line, last)


def _blank(part: bytes) -> int:
    """How many empty lines stand before the first that isn't."""
    return part.count(b"\n", 0, len(part) - len(part.lstrip(b"\r\n")))


def _block(part: bytes, written: str, line: int) -> Block:
    data = _as_lf(part)
    opened = data.startswith(OPENING) and b"\r" not in data
    if not opened or digest(data[: last_line(data)]) != written:
        return Block("altered", line, data, written)
    return Block("sound", line, data, written, _entry(data, written))


def _remains(rest: bytes, line: int, last: bool) -> Block:
    """What has no hash line: a write that was broken off, a damaged entry, or other text."""
    data = rest.replace(b"\r\n", b"\n")
    if last and broken_off(data.removesuffix(b"\r") if b"\r\n" in rest else data):
        return Block("torn", line + data.startswith(OPENING), data)
    if of_an_entry(data):
        return Block("altered", line + _blank(data), data, hash_left(data))
    return Block("stray", line, data)


def _entry(data: bytes, written: str) -> Entry | None:
    """What a sound block says. None where it is nonsense: it is then shown as an unknown entry."""
    lines = data.split(b"\n")
    if len(lines) > LINES_LIMIT or max(map(len, lines)) > LINE_LIMIT or _depth(data) > DEPTH_LIMIT:
        return None
    try:
        [table] = tomli.loads(data.decode("utf-8"))["entry"]
        return _built(table, written)
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, KeyError, TypeError, ValueError, RecursionError):
        return None


def _depth(data: bytes) -> int:
    """How deep brackets nest, or keys go in dots, outside strings. A literal string, which nobody writes
    here, could hide both: it counts as too deep."""
    bare = re.sub(rb'"(?:[^"\\\n]|\\.)*"', b"", data)
    deepest = depth = DEPTH_LIMIT + 1 if b"'" in bare else 0
    for byte in re.findall(rb"[\[\]{}]", bare):
        depth += (byte in b"[{") - (byte in b"]}")
        deepest = max(deepest, depth)
    return max(deepest, *(key.count(b".") for key in re.split(rb"[^\w\-. \t]+", bare)))


def _built(table: dict[str, Any], written: str) -> Entry:
    if not all(isinstance(table[key], list) for key in ("did", "follows")):
        raise TypeError("not the shape of an entry")
    known = {"id", "n", "at", "typed_at", "by", "step", "did", "follows", "hash"}
    did = tuple(read_act(act) for act in table["did"])
    if unknown := {key: table[key] for key in table if key not in known}:
        did = (*did, UnknownAct(unknown))
    entry = Entry(
        id=table["id"],
        n=table["n"],
        at=table["at"],
        by=bounded_name(table["by"]),
        did=did,
        hash=written,
        follows=tuple(table["follows"]),
        step=bounded_name(table.get("step")),
        typed_at=table.get("typed_at"),
    )
    if not _shaped(entry):
        raise ValueError("not the shape of an entry")
    return entry


def _shaped(entry: Entry) -> bool:
    texts = (entry.id, entry.by, *entry.follows, *(() if entry.step is None else (entry.step,)))
    times = (entry.at, *(() if entry.typed_at is None else (entry.typed_at,)))
    return (
        all(isinstance(text, str) and len(text) <= LINE_LIMIT for text in texts)
        and all(isinstance(time, datetime) and time.tzinfo is not None for time in times)
        and isinstance(entry.n, int)
        and not isinstance(entry.n, bool)
        and 0 < entry.n < NUMBER_LIMIT
    )
