"""Awkward command lines: never a traceback, one line on stderr, the exit status of the contract."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.cli_calls import Shop, one_line

NAMED = ["--by", "Wim"]

BAD_INPUT: list[list[str]] = [
    ["nonsense"],
    ["sho", "hook.job.toml"],
    ["--nonsense"],
    ["--folder"],
    ["--folder", "hook.job.toml"],
    ["--fold", "jobs"],
    ["open"],
    ["open", "no.job.toml"],
    ["open", "a-folder"],
    ["open", "binary.job.toml"],
    ["show"],
    ["show", "no.job.toml"],
    ["show", ""],
    ["show", "a-folder"],
    ["show", "binary.job.toml"],
    ["show", "empty.job.toml"],
    ["show", "half.job.toml"],
    ["show", "nobodys.job.toml"],
    ["show", "x" * 300],
    ["show", "\x1b[31mred.job.toml"],
    ["show", "two\nlines.job.toml"],
    ["show", "\udcff.job.toml"],
    ["show", "hook.job.toml", "--jso"],
    ["show", "hook.job.toml", "left-over"],
    ["record", "hook.job.toml"],
    ["record", "hook.job.toml", *NAMED],
    ["record", "hook.job.toml", "--by"],
    ["record", "hook.job.toml", "--by", "", "--note", "x"],
    ["record", "hook.job.toml", "--by", "x" * 201, "--note", "x"],
    ["record", "hook.job.toml", "--by", "\udcff", "--note", "x"],
    ["record", "hook.job.toml", *NAMED, "--not", "x"],
    ["record", "hook.job.toml", *NAMED, "--fin"],
    ["record", "hook.job.toml", "", *NAMED, "--finished"],
    ["record", "hook.job.toml", "\x1b[2J", *NAMED, "--finished"],
    ["record", "no.job.toml", *NAMED, "--note", "x"],
    ["record", "a-folder", *NAMED, "--note", "x"],
    ["record", "binary.job.toml", *NAMED, "--note", "x"],
    ["record", "empty.job.toml", *NAMED, "--note", "x"],
    ["record", "hook.job.toml", *NAMED, "--photo", "a-folder"],
    ["record", "hook.job.toml", *NAMED, "--photo", "x" * 300],
    ["record", "hook.job.toml", *NAMED, "--note", "x", "--at", ""],
    ["record", "hook.job.toml", *NAMED, "--note", "x", "--at", "2031-13-45"],
    *(["record", "hook.job.toml", "plate.left", *NAMED, "--reading", f"moved={text}"] for text in (
        "", "NaN", "inf", "-inf", "1e400", "1e5", "1" * 5000, "1_000", "0x10", "1/0", "--", "~", "<>",
        "..2", "5..1",
        "1012..", "5 furlong", "5 mm mm", "5 ton", "[5]", "1 2 3 4", "\u0663",
    )),
    ["begin"],
    ["begin", "axle-exchange"],
    ["begin", "no-such", "--out", "new.job.toml", *NAMED],
    ["begin", "a-folder", "--out", "new.job.toml", *NAMED],
    ["begin", "binary.job.toml", "--out", "new.job.toml", *NAMED],
    ["begin", "empty.job.toml", "--out", "new.job.toml", *NAMED],
    ["begin", "axle-exchange", "--out", "a-folder", *NAMED],
    ["begin", "axle-exchange", "--out", "", *NAMED],
    ["begin", "axle-exchange", "--out", "x" * 300, *NAMED],
    ["begin", "axle-exchange", "--out", "new.job.toml", *NAMED, "--title", "x" * 201],
    ["begin", "axle-exchange", "--out", "new.job.toml", *NAMED, "--title", "\udcff"],
    ["hours"],
    ["hours", "no"],
    ["hours", "no.job.toml"],
    ["hours", "hook.job.toml", "--per", "year"],
    ["handover", "hook.job.toml", *NAMED],
    ["handover", "hook.job.toml", "--by", "", "--to", "Ada"],
    ["handover", "no.job.toml", *NAMED, "--to", "Ada"],
    ["merge", "hook.job.toml", "--out", "new.job.toml"],
    ["merge", "hook.job.toml", "hook.job.toml"],
    ["merge", "hook.job.toml", "no.job.toml", "--out", "new.job.toml"],
    ["merge", "hook.job.toml", "a-folder", "--out", "new.job.toml"],
    ["merge", "hook.job.toml", "binary.job.toml", "--out", "new.job.toml"],
    ["merge", "hook.job.toml", "empty.job.toml", "--out", "new.job.toml"],
    ["merge", "hook.job.toml", "hook.job.toml", "--out", "no/new.job.toml"],
    ["intact"],
    ["intact", "no.job.toml"],
    ["intact", "a-folder"],
    ["proofread"],
    ["proofread", "no.toml"],
    ["proofread", "no.toml", "--json"],
    ["proofread", "a-folder"],
    ["proofread", "binary.job.toml", "no.toml"],
    ["proofread", "/dev/null"],
    ["templates", "left-over"],
    ["templates", "--js"],
    ["work-out", ""],
    ["work-out", "no-such"],
]  # fmt: skip


@pytest.fixture
def yard(shop: Shop) -> Shop:
    """A folder with one job and much that is none."""
    shop.record("--note", "x")
    Path("a-folder").mkdir()
    Path("binary.job.toml").write_bytes(bytes(range(256)) * 20)
    Path("empty.job.toml").write_bytes(b"")
    Path("half.job.toml").write_bytes(shop.job.read_bytes()[:300])
    Path("nobodys.job.toml").write_bytes(shop.job.read_bytes().replace(b"format = 1", b"format = 0", 1))
    return shop


def _contents(folder: Path) -> dict[Path, bytes]:
    return {
        path: path.read_bytes() for path in folder.rglob("*") if path.is_file() and path.suffix != ".lock"
    }


@pytest.mark.parametrize("arguments", BAD_INPUT, ids=lambda one: ascii(" ".join(one))[1:45])
def test_bad_input_is_one_line(yard: Shop, arguments: list[str]) -> None:
    """Exit 2, exactly one printable line on stderr, nothing on stdout, and no file made or changed."""
    before = _contents(yard.folder)
    ended = yard.run(*arguments)
    assert (ended.status, ended.out) == (2, "")
    assert re.fullmatch("[^\x00-\x1f\x7f-\x9f]{10,}", one_line(ended.err))
    assert _contents(yard.folder) == before


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["intact", "binary.job.toml"], 1),
        (["intact", "empty.job.toml"], 1),
        (["intact", "half.job.toml"], 1),
        (["proofread", "binary.job.toml"], 1),
        (["proofread", "empty.job.toml", "--json"], 1),
        (["hours", "a-folder"], 0),
        (["hours", "binary.job.toml"], 0),
        (["work-out"], 0),
    ],
)
def test_what_is_found_is_no_bad_input(yard: Shop, arguments: list[str], status: int) -> None:
    """A finding has its own exit status, and stands on stdout."""
    ended = yard.run(*arguments)
    assert ended.status == status
    assert ended.out
    assert "Traceback" not in ended.out + ended.err


COMMANDS = [
    "open",
    "templates",
    "begin",
    "record",
    "show",
    "hours",
    "handover",
    "merge",
    "intact",
    "proofread",
]


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_has_help_with_an_example(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """`--help` ends with an example of the command."""
    from jobtrack.cli.main import main

    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    assert f"Example: jobtrack {command}" in capsys.readouterr().out


# As a process of its own


def start(*arguments: str | bytes, **environment: str) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "jobtrack", *arguments]
    return subprocess.run(
        command, capture_output=True, timeout=60, check=False, env={**os.environ, **environment}
    )


def test_it_runs_as_a_module(yard: Shop) -> None:
    """`python -m jobtrack` does what `jobtrack` does."""
    ended = start("show", "hook.job.toml")
    assert ended.returncode == 0
    assert ended.stdout.startswith(b"Tow hook moved\n")
    assert start("show", "no.job.toml").returncode == 2


def test_bytes_that_are_no_text(yard: Shop) -> None:
    """A note or a file name that isn't UTF-8: exit 2 and one line."""
    for ended in (
        start("record", "hook.job.toml", "--by", "Wim", "--note", b"\xff"),
        start("show", b"\xff.job.toml"),
    ):
        assert ended.returncode == 2
        assert ended.stderr.count(b"\n") == 1


def test_a_terminal_that_knows_few_characters(yard: Shop) -> None:
    """What it can't show comes as the character's number; nothing stops."""
    yard.record("--note", "Spanner \N{WRENCH}", "--opens", "Oil \N{WRENCH}")
    ended = start("show", "hook.job.toml", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert ended.returncode == 0
    assert b"Oil \\U0001f527" in ended.stdout


def test_a_reader_that_goes_away(yard: Shop) -> None:
    """`jobtrack show | head -1` leaves no traceback."""
    command = f"{sys.executable} -m jobtrack show hook.job.toml | head -1"
    ended = subprocess.run(["bash", "-c", command], capture_output=True, timeout=60, check=True)
    assert ended.stdout == b"Tow hook moved\n"
    assert ended.stderr == b""
