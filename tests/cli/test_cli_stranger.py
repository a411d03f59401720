"""A job file with hostile text in every place that takes one: no output carries any of it raw."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import tomli
import tomli_w

from jobtrack.job.acts.entry import Entry
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.blocks import digest, scan
from jobtrack.store.text.writing import write_entry
from tests.support.cli_calls import Shop
from tests.support.handed import handed
from tests.support.spiteful import RAW, SPITE, spiteful


@pytest.fixture
def hostile(shop: Shop) -> Path:
    """The job of the calls below, rewritten with hostile text, every hash right."""
    shop.record(
        "--opens",
        "oil",
        "--note",
        "n",
        "--mark",
        "m",
        "--place",
        "bar=x",
        "--add-step",
        "x=T",
        "--agreed",
        "me=y",
    )
    shop.record("tack", "--note", "n", "--mark", "m", "--finished")
    shop.record("x", "--note", "n", "--clock", "on")
    data = tomli.loads(shop.job.read_text("utf-8"))
    head = tomli_w.dumps({"format": 1, **{key: spiteful(data[key], key) for key in ("job", "template")}})
    body = head.encode() + b"\n[header]\n"
    out = body + f'hash = "{digest(body)}"\n'.encode()
    ends = (digest(body),)
    for entry in scan(shop.job.read_bytes()).entries:
        acts = tuple(type(act)(**_fields(act)) for act in entry.did)
        step = f"x {SPITE}" if entry.step == "x" else entry.step
        block, hash = write_entry(Entry(entry.id, entry.n, entry.at, f"W {SPITE}", acts, ends, "", step))
        out, ends = out + block, (hash,)
    path = shop.folder / "spite.job.toml"
    path.write_bytes(out)
    return path


def _fields(act: Any) -> dict[str, Any]:
    values = {name: getattr(act, name) for name in act.__slots__}
    free = {"opens", "note", "mark", "place", "tool", "title", "agreed", "what", "typed", "step"}
    return {
        name: f"{one} {SPITE}" if name in free and isinstance(one, str) else one
        for name, one in values.items()
    }


def test_nothing_raw_comes_out(shop: Shop, hostile: Path) -> None:
    """`show`, `hours`, `intact`, the handover and every refusal: no control, no hidden sign, no line of its own."""
    shown = shop.done("show", hostile)
    assert "No step is next." in shown.out
    assert "No step is next." not in [line.strip() for line in shown.out.splitlines()]
    outputs = [
        shown,
        shop.done("intact", hostile),
        shop.run("record", hostile, "nosuch", "--by", "W", "--note", "x"),
    ]
    outputs += [
        shop.done("hours", hostile, "--per", per) for per in ("step", "stage", "person", "job", "template")
    ]
    outputs.append(shop.done("record", hostile, "--by", "Wim", "--note", "x"))
    outputs.append(shop.done("handover", hostile, "--by", f"W{SPITE}", "--to", "Ada"))
    for one in outputs:
        assert not RAW.search(one.out + one.err)


def test_the_sheet_has_no_markup_of_theirs(hostile: Path) -> None:
    """Every sign that Markdown or HTML would act on has its backslash, but for the marks of ours."""
    sheet = handed(JobFile(hostile).job, SPITE, f"x{SPITE}")
    assert not RAW.search(sheet)
    sheet = re.sub(
        r"^> |(?<=^)\| | \| | \|$|^\|[ -|]*\|$", "", sheet, flags=re.MULTILINE
    )  # ours: tables, messages
    assert not re.search(r"(?<!\\)[\[\]`<>&|~]", sheet)
    assert not re.search(r"(?<!\\)https?://", sheet)


def test_json_is_ascii(shop: Shop, hostile: Path) -> None:
    """`show --json` escapes all of it, and taken apart holds it as it is."""
    out = shop.done("show", hostile, "--json").out
    assert out.isascii()
    assert not RAW.search(out)
    title: str = json.loads(out)["job"]["title"]
    assert title.endswith(SPITE)


def test_a_template_with_spite_is_proofread_in_plain_signs(shop: Shop, tmp_path: Path) -> None:
    """Findings quote what stands there, made visible, as text and as JSON."""
    path = tmp_path / "spite.toml"
    keys = {f"k{SPITE}": 1, "format": 1, "id": f"a{SPITE}", "title": 5, "step": {f"s{SPITE}": {"do": SPITE}}}
    path.write_text(tomli_w.dumps(keys), "utf-8")
    for more in ((), ("--json",)):
        ended = shop.run("proofread", path, *more)
        assert ended.status == 1
        assert not RAW.search(ended.out)
    refused = shop.run("begin", path, "--out", "new.job.toml", "--by", "Wim")
    assert refused.status == 2
    assert not RAW.search(refused.err)
