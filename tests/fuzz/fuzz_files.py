"""Breaks job files and templates in many ways and reads them: `python tests/fuzz/fuzz_files.py SECONDS [SEED]`.

What is broken gets the right hash again, mostly, or it would never get past the hash. Whatever comes out
but the project's own errors, takes too long or too much memory is a finding, printed with its seed.
"""

from __future__ import annotations

import copy
import json
import random
import re
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import FrameType
from typing import Any

import tomli
import tomli_w

from jobtrack.hours.labour import labour
from jobtrack.literal import visible
from jobtrack.record.blocks import BLOCK_START, HEADER_END, digest
from jobtrack.record.intact import intact
from jobtrack.record.jobfile import JobFile
from jobtrack.record.merge import merge_files
from jobtrack.record.readfile import JobFileError
from jobtrack.sheets.as_json import job_json
from jobtrack.sheets.handover import handover_markdown
from jobtrack.sheets.plain import job_text
from jobtrack.template.load import TemplateError, load
from jobtrack.template.plan import plan
from jobtrack.template.proofread import as_json, as_lines, check

REPO = Path(__file__).parents[2]
sys.path.insert(0, str(REPO / "tests" / "record"))
import record_builders as small  # noqa: E402 - lies beside this folder

TEMPLATES = ("tests/record/bracket.toml", "tests/cli/tow_hook.toml", "job_templates/axle-exchange.toml")
JOBS = tuple(f"sample_jobs/axle-exchange-{how}.job.toml" for how in ("half-done", "finished"))
SECONDS_A_CASE = 5.0
MEMORY = 1 << 30
CONTROLS = "\x1b[2J\x1b]8;;http://x\x07 \x9b31m \u202e \u200b \u2028 [bold] <b> `x` | \x00\x85"
ODD: tuple[Any, ...] = (
    0, -1, 1, 2, 2**63, -(2**63), 10**30, 0.0, -0.0, 1e308, 5e-324, float("inf"), float("nan"), True, False,
    "", " ", "x", "?", "mm", "furlong", "N*m", "1 %", "x %", "1/0", "~5", ">5", "9" * 300, CONTROLS, "é" * 300,
    [], {}, [[]], [{}], [0, "x"], ["x"], ["a", "a"], {"x": 0}, {"": {}}, "side", "vehicle", "shift.left_inboard",
    "pin-spacing.donor.spacing", tomli.loads("a = 2031-04-02")["a"], tomli.loads("a = 0001-01-01T00:00:00+14:00")["a"],
    tomli.loads("a = 9999-12-31T23:59:59-14:00")["a"], tomli.loads("a = 12:00:00")["a"],
    tomli.loads("a = 2031-04-02T00:00:00")["a"],
)  # fmt: skip


class TooLong(BaseException):
    """A case that took longer than it may."""


@cache
def small_job() -> bytes:
    """A job of the small template with a score of entries of many kinds."""
    do = small
    calls: list[tuple[str | None, tuple[do.Do, ...]]] = [
        (do.DONOR, (do.read("spacing", "1012"), do.finish)), (do.RECIPIENT, (do.read("spacing", "38 in"), do.finish)),
        (None, (do.clock("on"),)), ("mark.left", (do.read("moved", "22.8"), do.tick("scribed"))),
        ("mark.left", (do.release,)), ("mark.left", (do.finish,)), (None, (do.opens("oil on the floor"),)),
        (None, (do.note("seen"),)), (do.DONOR, (do.read("spacing", "1013"),)), (None, (do.undo,)),
        ("mark.right", (do.read("moved", ">5"), do.tick("scribed", False))), (None, (do.clock("off"),)),
    ]  # fmt: skip
    with tempfile.TemporaryDirectory() as place:
        file = do.new_file(Path(place))
        for number, (step, acts) in enumerate(calls):
            do.record(file, step, *acts, number=number)
        return file.path.read_bytes()


@dataclass(frozen=True)
class Finding:
    """A case that ended otherwise than it should: its seed, what came, and the bytes."""

    seed: int
    what: str
    data: bytes


Change = Callable[[random.Random, Any, Any], None]


def spots(data: Any) -> Iterator[tuple[Any, Any]]:
    """Every table or list with each of its keys or indices."""
    keys: list[Any] = list(data) if isinstance(data, dict) else list(range(len(data)))
    for key in keys:
        yield data, key
        if isinstance(data[key], dict | list):
            yield from spots(data[key])


def _swap(pick: random.Random, holder: Any, key: Any) -> None:
    holder[key] = copy.deepcopy(pick.choice(ODD))


def _drop(pick: random.Random, holder: Any, key: Any) -> None:
    del holder[key]


def _rename(pick: random.Random, holder: Any, key: Any) -> None:
    if isinstance(holder, dict):
        holder[pick.choice([CONTROLS, "", "x", f"{key}x", *(str(one) for one in holder)])] = holder.pop(key)


def _again(pick: random.Random, holder: Any, key: Any) -> None:
    if isinstance(holder, list):
        holder[key:key] = [copy.deepcopy(holder[key]) for _ in range(pick.choice([1, 3, 60]))]
    else:
        holder[f"{key}-{pick.randrange(9)}"] = copy.deepcopy(holder[key])


def _elsewhere(pick: random.Random, holder: Any, key: Any) -> None:
    other, there = pick.choice(list(spots(holder)))
    holder[key] = json.loads(json.dumps(other[there], default=str))


CHANGES: tuple[Change, ...] = (_swap, _swap, _swap, _drop, _rename, _again, _elsewhere)


def change(pick: random.Random, data: dict[str, Any]) -> None:
    """One to four changes of a table's structure, anywhere in it."""
    for _ in range(pick.choice([1, 1, 2, 4])):
        if found := list(spots(data)):
            pick.choice(CHANGES)(pick, *pick.choice(found))


def bytes_broken(pick: random.Random, data: bytes) -> bytes:
    """A few bytes changed, cut, doubled or put in."""
    for _ in range(pick.choice([1, 1, 3, 10])):
        at, length = pick.randrange(len(data) + 1), pick.choice([0, 1, 1, 5, 200])
        new = pick.choice([b"", bytes([pick.randrange(256)]), data[at : at + 50] * 2, b"[" * 20, b'"', b"\r\n",
                           b"\x1b", b"9" * 5000, b"a." * 20, b"\xff", b"'''", b"inf"])  # fmt: skip
        data = data[:at] + new + data[at + length :]
    return data


def hashed(data: bytes) -> bytes:
    """A header or a block with the right hash behind it."""
    return data + f'hash = "{digest(data)}"\n'.encode()


def entry_text(table: dict[str, Any]) -> bytes:
    """An entry's block, one line a value, with the right hash."""
    lines = [_one_line(key, value) for key, value in table.items() if key != "hash"]
    return hashed(("\n[[entry]]\n" + "".join(lines)).encode())


def _one_line(key: str, value: Any) -> str:
    return f"{_key(key)} = {_inline(value)}\n"


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _inline(key)


def _inline(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_key(str(key))} = {_inline(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(_inline(one) for one in value) + "]"
    if isinstance(value, str):
        return json.dumps(value).replace("\x7f", "\\u007f")
    return tomli_w.dumps({"a": value})[4:].strip()


def template_case(pick: random.Random) -> bytes:
    """A broken template."""
    data = (REPO / pick.choice([*TEMPLATES[:2] * 4, TEMPLATES[2]])).read_bytes()
    if pick.random() < 0.3:
        return bytes_broken(pick, data)
    table = tomli.loads(data.decode())
    change(pick, table)
    return tomli_w.dumps(table).encode()


def job_case(pick: random.Random) -> bytes:
    """A broken job file: its bytes, its header, or some of its entries with the right hash."""
    data = small_job() if pick.random() < 0.9 else (REPO / pick.choice(JOBS)).read_bytes()
    how = pick.random()
    if how < 0.15:
        return bytes_broken(pick, data)
    end = HEADER_END.search(data)
    assert end is not None
    header, rest = data[: end.end()], data[end.end() :]
    starts = [found.start() for found in BLOCK_START.finditer(rest)]
    blocks = [rest[one:other] for one, other in zip(starts, [*starts[1:], len(rest)], strict=True)]
    blocks = blocks[: pick.choice([1, 5, 20, len(blocks)])]
    if how < 0.5:
        header = _header(pick, header)
    else:
        _entries(pick, blocks)
    return header + b"".join(blocks)


def _header(pick: random.Random, header: bytes) -> bytes:
    if pick.random() < 0.2:
        return hashed(bytes_broken(pick, header[: header.rfind(b"hash = ")]))
    table = tomli.loads(header.decode())
    del table["header"]
    if pick.random() < 0.15:
        table["format"] = pick.choice([2, 3, 0, -1, "2", 1.0, True, 10**30])
    change(pick, pick.choice([table, table["job"], table["template"], table["template"]]))
    return hashed(tomli_w.dumps(table).encode() + b"\n[header]\n")


def _entries(pick: random.Random, blocks: list[bytes]) -> None:
    for _ in range(pick.choice([1, 1, 3, 10])):
        at = pick.randrange(len(blocks))
        if pick.random() < 0.2:
            body = blocks[at][: blocks[at].rfind(b"hash = ")]
            blocks[at] = hashed(b"\n[[entry]]\n" + bytes_broken(pick, body[11:]))
            continue
        if not (table := _table(blocks[at])):
            continue
        if pick.random() < 0.3:
            other = _table(pick.choice(blocks))
            keys = [key for key in ("id", "n", "step", "did", "follows") if key in other]
            table |= {key: other[key] for key in keys if pick.random() < 0.5}
        change(pick, pick.choice([table, table["did"] if isinstance(table.get("did"), list) else table]))
        blocks.insert(at, entry_text(table)) if pick.random() < 0.3 else blocks.__setitem__(
            at, entry_text(table)
        )


def _table(block: bytes) -> dict[str, Any]:
    try:
        [table] = tomli.loads(block.decode())["entry"]
    except (ValueError, KeyError):
        return {}
    return table if isinstance(table, dict) else {}


def read_template(path: Path) -> None:
    """All that is done with a template file that somebody sends."""
    try:
        template, _ = load(path)
        plan(template)
    except TemplateError as error:
        _own(str(error))
    found = check(path)
    json.loads(as_json(found))
    for line in as_lines(found):
        _own(line)


def read_job(path: Path) -> None:
    """All that is done with a job file that somebody sends, but recording in it."""
    _own("\n".join(one.text(path).replace("\n", " ") for one in intact(path)), lines=True)
    try:
        file = JobFile(path)
    except JobFileError as error:
        _own(str(error))
        return
    json.dumps(job_json(file.job), allow_nan=False)
    assert "unexpected" not in visible(job_text(file.job)).lower()
    handover_markdown(file.job, "Wim", "Ada")
    for per in ("step", "stage", "person", "vehicle", "job", "template", "month"):
        labour([file.job], per)
    try:
        merge_files([path, path])
    except JobFileError as error:
        _own(str(error))


def _own(message: str, lines: bool = False) -> None:
    """A message of the project's own is one line that doesn't own up to surprise."""
    assert lines or "\n" not in message, f"several lines: {message!r}"
    assert "unexpected" not in message.lower(), message


@contextmanager
def time_limit(seconds: float) -> Iterator[None]:
    """Raise TooLong after some seconds of work; what other programs take of the machine isn't counted."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise TooLong

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def one_case(seed: int, folder: Path) -> Finding | None:
    """One broken file read; None where all is as it should be."""
    pick = random.Random(seed)
    make, read, name = ((template_case, read_template, "a.toml") if pick.random() < 0.4
                        else (job_case, read_job, "a.job.toml"))  # fmt: skip
    data = make(pick)
    path = folder / name
    path.write_bytes(data)
    try:
        with time_limit(SECONDS_A_CASE):
            read(path)
    except TooLong:
        return Finding(seed, f"took longer than {SECONDS_A_CASE} s", data)
    except Exception:  # noqa: BLE001 - whatever comes out is what is looked for
        return Finding(seed, traceback.format_exc(), data)
    return None


def main(seconds: float, seed: int) -> int:
    """Run for some seconds, print what is found; the number of findings of different kinds."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    until = time.monotonic() + seconds
    kinds: Counter[str] = Counter()
    cases = 0
    with tempfile.TemporaryDirectory() as place:
        while time.monotonic() < until:
            found = one_case(seed + cases, Path(place))
            cases += 1
            if found is not None:
                kind = " ".join(found.what.strip().splitlines()[-3:])
                kinds[kind] += 1
                if kinds[kind] == 1:
                    print(f"seed {found.seed}: {found.what}", flush=True)
    print(f"{cases} cases, seeds {seed} to {seed + cases - 1}; {len(kinds)} kinds of findings")
    for kind, count in kinds.most_common():
        print(f"{count} x {kind}")
    return len(kinds)


if __name__ == "__main__":
    sys.exit(bool(main(float(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)))
