"""Blocks written: TOML 1.0, one line a value, each block ended by its hash."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from jobtrack.job.acts.entry import Entry
from jobtrack.schema.toml_text import key_text, value_text
from jobtrack.store.text.blocks import digest


def write_entry(entry: Entry) -> tuple[bytes, str]:
    """The block of an entry and its hash. TOML 1.0, one line a value, the hash last."""
    lines = [f"id = {value_text(entry.id)}", f"n = {entry.n}", f"at = {entry.at.isoformat()}"]
    if entry.typed_at is not None:
        lines.append(f"typed_at = {entry.typed_at.isoformat()}")
    lines.append(f"by = {value_text(entry.by)}")
    if entry.step is not None:
        lines.append(f"step = {value_text(entry.step)}")
    lines.append(f"did = {value_text([act.as_dict() for act in entry.did])}")
    lines.append(f"follows = {value_text(list(entry.follows))}")
    data = ("\n[[entry]]\n" + "\n".join(lines) + "\n").encode()
    written = digest(data)
    return data + f'hash = "{written}"\n'.encode(), written


def write_line(key: str, value: Any) -> str:
    """One `key = value` line."""
    return f"{key_text(key)} = {value_text(value)}\n"


def write_header(job: Mapping[str, Any], template: Mapping[str, Any]) -> bytes:
    """The header: format, job, the whole template, and the hash that it ends with."""
    import tomli_w

    text = tomli_w.dumps({"format": 1, "job": dict(job), "template": dict(template)}) + "\n[header]\n"
    data = text.encode()
    return data + f'hash = "{digest(data)}"\n'.encode()
