"""Ways to break a job file or a template, most with the right hash put on what was broken."""

from __future__ import annotations

import copy
import json
import random
import re
import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import tomli
import tomli_w

from jobtrack.store.text.blocks import BLOCK_START, HEADER_END, digest
from tests.support import builders as small

REPO = Path(__file__).parents[2]
TEMPLATES = (
    "tests/support/bracket.toml",
    "tests/support/tow_hook.toml",
    "tests/support/exchange/axle-exchange.toml",
)
JOBS = tuple(f"tests/support/exchange/axle-exchange-{how}.job.toml" for how in ("half-done", "finished"))
CONTROLS = "\x1b[2J\x1b]8;;http://x\x07 \x9b31m \u202e \u200b \u2028 [bold] <b> `x` | \x00\x85"
ODD: tuple[Any, ...] = (
    0, -1, 1, 2, 2**63, -(2**63), 10**30, 0.0, -0.0, 1e308, 5e-324, float("inf"), float("nan"), True, False,
    "", " ", "x", "?", "mm", "furlong", "N*m", "1 %", "x %", "1/0", "~5", ">5", "9" * 300, CONTROLS, "é" * 300,
    [], {}, [[]], [{}], [0, "x"], ["x"], ["a", "a"], {"x": 0}, {"": {}}, "side", "vehicle", "shift.left_inboard",
    "pin-spacing.donor.spacing", tomli.loads("a = 2031-04-02")["a"], tomli.loads("a = 0001-01-01T00:00:00+14:00")["a"],
    tomli.loads("a = 9999-12-31T23:59:59-14:00")["a"], tomli.loads("a = 12:00:00")["a"],
    tomli.loads("a = 2031-04-02T00:00:00")["a"],
)  # fmt: skip


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
