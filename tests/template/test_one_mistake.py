"""A folder of small templates with one mistake each, beside the message that each must give."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.template.findings import as_lines
from jobtrack.template.proofread import check

FOLDER = Path(__file__).parent / "one_mistake"
FILES = sorted(FOLDER.glob("*.toml"))


def test_every_template_has_its_message() -> None:
    """No template is without a message, and no message without a template."""
    assert len(FILES) > 100
    assert {file.stem for file in FILES} == {file.stem for file in FOLDER.glob("*.txt")}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_one_mistake_gives_one_message(file: Path) -> None:
    """Each template gives exactly the one finding written beside it, at its line and column."""
    findings = check(file)
    (line,) = as_lines(findings)
    finding = findings[0]
    text = line.removeprefix(f"{file}:{finding.line}: ")
    assert f"{finding.line}:{finding.column}: {text}\n" == file.with_suffix(".txt").read_text("utf-8")
