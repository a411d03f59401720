"""The sample jobs, whole and cut short, damaged at random: a byte changed, entries taken out, two changed about."""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

from jobtrack.job.state.job import Job
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.blocks import BLOCK_START
from tests.support.exchange import FINISHED, HALF_DONE

SAMPLES = {"half-done": HALF_DONE, "finished": FINISHED}
LENGTHS = (12, 25, 40, 55, 70, 85, 999)
"""So many entries of a sample are kept at most: what is open differs along the way."""
KINDS = ("byte", "byte", "byte", "taken out", "changed about")


@dataclass(frozen=True)
class Sound:
    """A sample as far as it goes, in a file of its own that this machine has seen."""

    path: Path
    parts: tuple[bytes, ...]
    job: Job


@dataclass(frozen=True)
class Case:
    """A damaged file and the job that it was."""

    seed: int
    kind: str
    path: Path
    data: bytes
    before: Job


@cache
def parts(sample: str) -> tuple[bytes, ...]:
    """The header of a sample and its blocks."""
    data = SAMPLES[sample].read_bytes()
    bounds = [0, *(found.start() for found in BLOCK_START.finditer(data)), len(data)]
    return tuple(data[one:other] for one, other in pairwise(bounds))


@cache
def sound(sample: str, length: int, folder: Path) -> Sound:
    kept = parts(sample)[: length + 1]
    path = folder / f"{sample}-{length}.job.toml"
    path.write_bytes(b"".join(kept))
    return Sound(path, kept, JobFile(path).job)


def case(seed: int, folder: Path) -> Case:
    """The damage of one seed."""
    pick = random.Random(seed)
    sample = list(SAMPLES)[seed % 2]
    one = sound(sample, min(pick.choice(LENGTHS), len(parts(sample)) - 1), folder)
    kind = pick.choice(KINDS)
    return Case(seed, kind, one.path, _damaged(pick, kind, one.parts), one.job)


def _damaged(pick: random.Random, kind: str, parts: tuple[bytes, ...]) -> bytes:
    if kind == "byte":
        return _byte(pick, parts)
    header, *blocks = parts
    if kind == "taken out":
        at = pick.randrange(len(blocks))
        del blocks[at : at + pick.choice([1, 1, 1, 2, 5])]
    else:
        one, other = pick.sample(range(len(blocks)), 2)
        blocks[one], blocks[other] = blocks[other], blocks[one]
    return b"".join([header, *blocks])


def _byte(pick: random.Random, parts: tuple[bytes, ...]) -> bytes:
    """A byte of one part, whichever, is another; a header is as likely as any entry, however long it is."""
    at = pick.randrange(len(parts))
    part = bytearray(parts[at])
    part[pick.randrange(len(part))] ^= pick.choice([1 << bit for bit in range(8)] + [pick.randrange(1, 256)])
    return b"".join([*parts[:at], bytes(part), *parts[at + 1 :]])
