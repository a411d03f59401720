"""Small templates with one mistake each, and the message that each must give."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.template.findings import as_lines
from jobtrack.template.proofread import check
from tests.support.mistakes import MISTAKES, SOUND, Mistake


def test_there_are_many_and_all_differ() -> None:
    """Each is another template."""
    assert len(MISTAKES) > 100
    assert len({mistake.text for mistake in MISTAKES}) == len(MISTAKES)


def test_the_template_without_a_mistake_gives_none() -> None:
    """What is found in the others comes of the change that was put in."""
    assert check(SOUND) == []


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_one_mistake_gives_one_message(mistake: Mistake, tmp_path: Path) -> None:
    """Each template gives exactly the one finding written beside it, at its line and column."""
    file = mistake.written(tmp_path)
    findings = check(file)
    (line,) = as_lines(findings)
    finding = findings[0]
    text = line.removeprefix(f"{file}:{finding.line}: ")
    assert f"{finding.line}:{finding.column}: {text}" == f"{mistake.at}: {mistake.finds}"
