"""What is found in a template: plain data, and the two ways to print it."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import asdict

NOTHING_FOUND = "No mistake of form found. Whether the work described is right or safe was not examined."


class Finding(Struct, frozen=True):
    """A problem with its place in the file. Lines and columns count from 1."""

    file: str
    line: int
    column: int
    kind: str
    """mistake or remark."""
    key: str
    """Dotted, as written in the file; empty where no key is concerned."""
    why: str
    mend: str


def as_json(findings: Iterable[Finding]) -> str:
    """A JSON list with one object a finding."""
    import json

    return json.dumps([asdict(finding) for finding in findings], ensure_ascii=True, indent=1)


def as_lines(findings: Iterable[Finding]) -> list[str]:
    """One `FILE:LINE: text` a finding; the honest sentence where there is none."""
    return [_line(finding) for finding in findings] or [NOTHING_FOUND]


def _line(finding: Finding) -> str:
    where = f"{finding.key}: " if finding.key else ""
    stop = "" if finding.mend.endswith(("?", ".", "…")) else "."
    text = f"{finding.kind}: {where}{finding.why}. {finding.mend}{stop}"
    return f"{finding.file}:{finding.line}: {_printable(text)}"


def _printable(text: str) -> str:
    return "".join(sign if sign.isprintable() else "\ufffd" for sign in text)
