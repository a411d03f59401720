"""Copies of a job joined: the sorted set of the sound blocks under the one sound header, byte for byte.

So merging is commutative, associative and idempotent. Damaged blocks stay in the file that they are in.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from jobtrack.job.acts.mending import SetAsideAct, TakenInAct
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.text.blocks import Block, Header, Scan, scan
from jobtrack.store.text.sizes import counted, sized

LEFT_OUT = {"torn": "a torn end", "stray": "text that belongs to no entry"}


class Merged(Struct, frozen=True):
    """The bytes of the joined file, what was left out of it, and what stops it."""

    data: bytes
    left_out: tuple[str, ...] = ()
    stopped_by: tuple[tuple[str, str], ...] = ()
    """Damaged blocks that no copy holds sound: their hash, and where they stand."""


def merge_files(paths: Sequence[Path], without: Sequence[str] = ()) -> Merged:
    """Join copies of a job. Raises JobFileError where their headers differ or none is sound."""
    scans = [(path, _scan(path)) for path in paths]
    return merge(scans, _one_header(scans), without)


def merge(scans: Sequence[tuple[Path, Scan]], header: Header, without: Sequence[str] = ()) -> Merged:
    """Join what was read of several copies under their header."""
    sound = {block.hash: block for _, one in scans for block in one.blocks if block.kind == "sound"}
    answered = {
        name
        for block in sound.values()
        if block.entry is not None
        for act in block.entry.did
        if isinstance(act, TakenInAct | SetAsideAct)
        for name in act.of
    }
    accounted = {*sound, *answered, *without}
    stopped = [
        (block.name, f"{path}:{block.line}")
        for path, one in scans
        for block in one.blocks
        if block.kind == "altered" and not block.names & accounted
    ]
    left_out = tuple(
        f"{path}:{block.line}: {LEFT_OUT[block.kind]} was left out"
        for path, one in scans
        for block in one.blocks
        if block.kind in LEFT_OUT
    )
    blocks = sorted(sound.values(), key=_order)
    return Merged(
        header.data + b"".join(block.data for block in blocks), left_out, tuple(dict(stopped).items())
    )


def _order(block: Block) -> tuple[int, str, str]:
    entry = block.entry
    return entry.order if entry is not None else (2**63, "", block.hash)


def _scan(path: Path) -> Scan:
    try:
        sized(path)
        return scan(counted(path.read_bytes()))
    except OSError as error:
        raise JobFileError(f"{path}: can't be read: {error.strerror}; name a job file") from error


def _one_header(scans: Sequence[tuple[Path, Scan]]) -> Header:
    sound = {one.header.data: one.header for _, one in scans if one.header is not None and one.header.sound}
    if not sound:
        raise JobFileError(f"{scans[0][0]}:1: no copy has a sound header; take one from an older copy")
    changed = [path for path, one in scans if one.header is None or not one.header.sound]
    if changed:
        raise JobFileError(
            f"{changed[0]}:1: its header was changed; merge without it, or mend it from a copy"
        )
    if len(sound) > 1:
        first = scans[0][1].header
        other = next(path for path, one in scans if one.header != first)
        raise JobFileError(
            f"{other}:1: a different job, or begun from another template; merge copies of one job"
        )
    return next(iter(sound.values()))
