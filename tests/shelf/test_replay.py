"""The replay of the shelf finds what it is there to find, and says where."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.shelf.replay import main, problems, value_files
from tests.shelf.value_file import ValueFileError, read

BOARD = Path(__file__).parent / "board"
TEMPLATE = BOARD / "board.toml"
FILES = [BOARD / "board-brackets.toml", BOARD / "board-stopped.toml"]


def found(folder: Path, files: list[Path] = FILES) -> list[str]:
    """What is wrong with the board and these value files."""
    return problems(TEMPLATE, files, folder, lambda walked: None)


def changed(folder: Path, old: str, new: str) -> list[Path]:
    """The value files, the first with another text in the place of one that stands in it once."""
    text = FILES[0].read_text(encoding="utf-8")
    assert text.count(old) == 1
    path = folder / FILES[0].name
    path.write_text(text.replace(old, new), encoding="utf-8")
    return [path, FILES[1]]


def test_nothing_is_found_where_nothing_is_wrong(tmp_path: Path) -> None:
    assert found(tmp_path) == []


@pytest.mark.parametrize(
    ("old", "new", "wanted"),
    [
        ('outside = ["bracket.right.height"]', "", "bracket.right.height is outside, but outside doesn't say so"),
        ('["bracket.right.height"]', '["bracket.left.height", "bracket.right.height"]',
         "outside says bracket.left.height, but it isn't"),
        ('settled = "measure.board"', "", "measure.board is settled, but settled doesn't say so"),
        ('settled = "measure.board"', "", "settled: none in all value files of the template; one is wanted"),
        ('taken_again = "measure.wall"', 'taken_again = "measure.board"',
         "taken_again says measure.board, but it isn't"),
        ("--settle board=898 ", "", "measure.board: two values that disagree, not settled"),
        ('ended = "closed"', 'ended = "stopped"', "the job is closed at the end, ended says stopped"),
        ('"--tick lies=yes --finished"', '"--tick lies=yes"', "step lay is in hand when the job is closed"),
        ('"bracket.left", "--reading height=1501 --finished"', '"bracket.left", "--not-needed \'one is enough\'"',
         "step bracket.left is finished in no value file"),
        ('"measure", "--release-hold"', '"measure", "--note x"',
         "the hold behind measure is released in no value file"),
        (" --closes ask-first", "", "condition ask-first is closed in no value file"),
        (" --closes ask-first", "", "ask-first is still open when the job is closed"),
        ("wall=1206", "wal=1206", "board-brackets.toml:13: call 3 of 16: 04-01 08:21  Nell Orrick  measure"),
        ('["merge", "second"]', '["merge", "third"]', "third.job.toml: can't be read"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said(old: str, new: str, wanted: str, tmp_path: Path) -> None:
    """Each with the file; a failing call with its line, number, words and what the program said."""
    lines = found(tmp_path, changed(tmp_path, old, new))
    assert any(wanted in line for line in lines), lines


def test_a_failing_call_says_what_the_program_said(tmp_path: Path) -> None:
    """And the calls behind it are made all the same; a row over two lines doesn't put the count out."""
    lines = found(tmp_path, changed(tmp_path, "height=1501", "heihgt=1501"))
    assert lines[0].startswith("board-brackets.toml:23: call 12 of 16: ")
    assert "heihgt" in lines[0].splitlines()[1]
    assert not any("call 13" in line for line in lines)


def test_a_template_without_a_value_file_is_named(tmp_path: Path) -> None:
    assert found(tmp_path, []) == ["board has no value file; write values/board.toml"]


@pytest.mark.parametrize(
    ("old", "new", "wanted"),
    [
        ('by = "Nell Orrick"\n', "", 'wants by = "…"'),
        ('taken_again = "measure.wall"', 'taken = "measure.wall"', "taken is no key of a value file"),
        ('["copy", "second"]', '["copy"]', ":14: a call is"),
        ('"04-01 08:20"', '"04-31 08:20"', ":12: no such time: 2031-04-31 08:20"),
        ("'Ivo Hask=go on'", "'Ivo Hask=go on", ":11: the words of the call: No closing quotation"),
    ],
)
def test_a_value_file_that_cannot_be_read_says_why(old: str, new: str, wanted: str, tmp_path: Path) -> None:
    with pytest.raises(ValueFileError) as refused:
        read(changed(tmp_path, old, new)[0])
    assert wanted in str(refused.value)


def test_value_files_are_found_by_the_id_of_their_template(tmp_path: Path) -> None:
    """A longer id that begins alike is another template's."""
    for path in FILES:
        (tmp_path / path.name).write_bytes(path.read_bytes())
    other = FILES[1].read_text(encoding="utf-8").replace('"board"', '"board-long"')
    (tmp_path / "board-long.toml").write_text(other, encoding="utf-8")
    assert [path.name for path in value_files("board", tmp_path)] == [path.name for path in FILES]
    assert [path.name for path in value_files("board-long", tmp_path)] == ["board-long.toml"]


def test_a_template_that_is_not_shipped_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["nothing-of-the-kind"]) == 2
    assert "ID is one of " in capsys.readouterr().out
