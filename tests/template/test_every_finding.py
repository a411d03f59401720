"""The folder of broken templates has an example of everything that can be found, counted from the code."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from jobtrack.template.proofread import check
from tests.support.finding_sites import BUILT_WITH, Watch, called, reasons, sites, trees
from tests.support.mistakes import MISTAKES, SOUND, Mistake
from tests.template.test_bounds import BOMBS, CHAIN, HEAD, TOO_LARGE

BEYOND = [HEAD + CHAIN, *(text for text, _, _ in BOMBS.values()), *(text for text, _, _ in TOO_LARGE)]
"""Texts that ask for more than a machine holds: too large for the folder."""


@pytest.fixture(scope="module")
def examples(tmp_path_factory: pytest.TempPathFactory) -> tuple[Watch, set[str]]:
    """Every broken template proofread: where its finding came from in the code, and why."""
    watch, whys = Watch(sites()), set()
    path = tmp_path_factory.mktemp("broken") / "a.toml"
    for text in [mistake.text for mistake in MISTAKES] + BEYOND:
        path.write_text(text, "utf-8")
        whys |= {finding.why for finding in watch.run(lambda: check(path))}
    return watch, whys


def test_every_place_in_the_code_that_gives_a_finding_has_an_example(
    examples: tuple[Watch, set[str]],
) -> None:
    """Each call that makes a finding, or asks a function of several callers for one, is reached by some template."""
    places = sites()
    assert len(places) > 150
    assert [str(site) for site in places if not examples[0].reached(site)] == []


def test_every_reason_of_a_refusal_has_an_example(examples: tuple[Watch, set[str]]) -> None:
    """What is said of a text before its keys are looked at stands in tables: each row has its template."""
    missing = [reason for reason in reasons() if not any(reason in why for why in examples[1])]
    assert sorted(missing) == []


def test_a_finding_is_built_only_where_its_line_shows_it() -> None:
    """No line builds one in one case and something else in another: then its being run would say nothing."""
    for name, tree in trees().items():
        for node in ast.walk(tree):
            if isinstance(node, (ast.IfExp, ast.BoolOp)):
                assert not any(called(inner) in BUILT_WITH for inner in ast.walk(node)), (
                    f"{name}:{node.lineno}"
                )


FIRST_WORDS = (
    "Add", "Begin", "Close", "Declare", "Did you mean", "Give", "Keep", "Known here", "Leave", "Look", "Make", "Mend",
    "Move", "Name", "Nothing of that kind is declared", "Put", "Remove", "Rename", "Repeat", "Say", "Shorten", "Split",
    "Swap", "Take", "This program reads", "Turn", "Type", "Use", "Write",
)  # fmt: skip


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_each_says_how_to_mend_it(mistake: Mistake, tmp_path: Path) -> None:
    """What to do, what could stand there, or whether another name was meant."""
    [found] = check(mistake.written(tmp_path))
    assert found.mend.startswith(FIRST_WORDS)


def test_a_file_from_another_system_has_its_keys_in_the_same_places(tmp_path: Path) -> None:
    """A byte order mark and CRLF change neither what is found nor where."""
    plain, other = tmp_path / "plain.toml", tmp_path / "other.toml"
    for text in [SOUND.read_text("utf-8"), *(mistake.text for mistake in MISTAKES)]:
        plain.write_text(text, "utf-8", newline="\n")
        other.write_text("\ufeff" + text, "utf-8", newline="\r\n")
        found = [
            [(one.line, one.column, one.key, one.why, one.mend) for one in check(path)]
            for path in (plain, other)
        ]
        assert found[0] == found[1]


def test_a_file_of_another_writing_is_named(tmp_path: Path) -> None:
    """A text program's old writing of °, µ or ä: the line, and how to save it."""
    path = tmp_path / "a.toml"
    path.write_bytes('format = 1\ntitle = "Bis 60 °C"\n'.encode("cp1252"))
    [found] = check(path)
    assert (found.line, found.why, found.mend) == (2, "not UTF-8 text", "save the file as UTF-8")
