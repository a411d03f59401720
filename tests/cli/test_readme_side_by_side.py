"""The README's table of the app beside the command line: whole, and true on both sides."""

from __future__ import annotations

import re
import shlex
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from textual.binding import Binding

from jobtrack.app.keys import cap
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.begin import BeginScreen
from jobtrack.app.screens.job.end import EndScreen
from jobtrack.app.screens.job.handover import HandoverScreen
from jobtrack.app.screens.job.job_page import JobPage
from jobtrack.app.screens.job.known import KnownScreen
from jobtrack.app.screens.job.next_version import NextVersionScreen
from jobtrack.app.screens.job.outline import OutlineScreen
from jobtrack.app.screens.job.parts import PartsScreen
from jobtrack.app.screens.job.take_over import TakeOverScreen
from jobtrack.app.screens.job.to_buy import ToBuyScreen
from jobtrack.app.screens.job.vehicle_record import VehicleRecordScreen
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.app.screens.reckoner.answer import AnswerScreen
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.app.screens.step.step_keys import ELSE
from jobtrack.app.screens.step.surprise import SurpriseScreen
from jobtrack.cli.commands import COMMANDS
from jobtrack.cli.main import parser
from jobtrack.job.acts.registry import OPTIONS
from jobtrack.store.machine.jobs_folder import shipped
from tests.support.cli_calls import Shop, entries

README = Path(__file__).parents[2] / "README.md"
SAMPLE = "axle-exchange-half-done.job.toml"
PAGES: dict[str, type[PageScreen]] = {
    "jobs": JobsScreen, "begin": BeginScreen, "step": StepScreen, "outline": OutlineScreen,
    "what is known": KnownScreen, "surprise": SurpriseScreen, "take over": TakeOverScreen, "end": EndScreen,
    "handover": HandoverScreen, "parts": PartsScreen, "to buy": ToBuyScreen, "answer": AnswerScreen,
    "job": JobPage, "next version": NextVersionScreen, "vehicle record": VehicleRecordScreen,
}  # fmt: skip
"""The pages that the table names, by what it calls them."""
PAGE_AND_KEYS = re.compile(rf"\b({'|'.join(PAGES)}) ((?:`[^`]+`(?: |$|,|;)?)+)")
STEPS = {
    "torque": "u-bolts.left", "weld": "weld.left", "part": "axle-out", "photo": "weld.left", "not-needed": "roll-test",
    "closes": "warm.left", "release-hold": "mark.right",
}  # fmt: skip
"""Where the sample takes an example; any other is one of `mark.left`, or of the whole job."""
OF_THE_JOB = (
    "given",
    "agreed",
    "clock",
    "worked",
    "due-done",
    "undo",
    "take-over",
    "stop-job",
    "buying",
    "place",
    "add-step",
)
WANT_MORE = ("--settle moved= ", "--stands", "--take-in", "--close-job")
"""What the sample refuses as it is: nothing is apart, unsettled or altered in it, and much is left to do."""


class Row(NamedTuple):
    """A function with its two sides."""

    what: str
    app: str
    command: str


def table() -> list[Row]:
    """The rows of the table, without its heads."""
    text = README.read_text(encoding="utf-8")
    part = text[text.index("## The app and the command line, side by side") :]
    rows = [one.strip("| ") for one in part[: part.index("\n## ", 5)].splitlines() if one.startswith("| ")]
    return [Row(*(cell.strip() for cell in row.split(" | "))) for row in rows[1:]]


def code(text: str) -> list[str]:
    """What stands between backticks."""
    return re.findall(r"`([^`]+)`", text)


def examples() -> list[str]:
    """The examples that go behind `record`."""
    return [
        one
        for row in table()
        for one in code(row.command)
        if one.startswith("--") and not one.startswith("--by")
    ]


def test_each_row_has_both_sides() -> None:
    """Three cells a row, none of them empty, and no function twice."""
    rows = table()
    assert len(rows) > 40
    assert all(all(row) for row in rows)
    assert len({row.what for row in rows}) == len(rows)


@pytest.mark.parametrize("option", OPTIONS)
def test_each_act_with_an_option_stands_there(option: str) -> None:
    """Every way in which `record` makes an act is some function's plain form."""
    assert [one for one in examples() if f"--{option}" in shlex.split(one)]


@pytest.mark.parametrize("command", [one.name for one in COMMANDS if one.name != "record"])
def test_each_command_stands_there(command: str) -> None:
    """Every command but `record`, which has its own rows, is in the right-hand column."""
    assert any(one.split()[0] == command for row in table() for one in code(row.command))


def test_each_command_line_is_taken() -> None:
    """What stands behind `jobtrack` has the options that the command has."""
    names = {one.name for one in COMMANDS}
    whole = [one for row in table() for one in code(row.command) if one.split()[0] in names and " " in one]
    assert len(whole) > 8
    for one in whole:
        asked = shlex.split(one)
        assert parser(asked).parse_args(asked).command == asked[0]


@pytest.mark.parametrize("example", examples())
def test_each_example_is_recorded(example: str, empty_shop: Shop) -> None:
    """In a copy of the sample each is taken; what wants more than the sample has is read and refused in one line."""
    job = job_for(example, empty_shop)
    (empty_shop.folder / "weld.jpg").write_bytes(b"\xff\xd8\xff\xe0" + bytes(64))
    parts = shlex.split(example)
    option = parts[0].removeprefix("--")
    step = [] if option in OF_THE_JOB else [STEPS.get(option, "mark.left")]
    before = len(entries(job))
    ended = empty_shop.run("record", job, *step, "--by", "Wim", *parts)
    if example.startswith(WANT_MORE):
        assert ended.status == 2
        assert len(ended.err.splitlines()) == 1
        assert len(entries(job)) == before
    else:
        assert ended.status == 0, ended.err
        assert len(entries(job)) == before + 1


def job_for(example: str, shop: Shop) -> Path:
    """The sample with a clock of Wim's on; a job just begun where its first question is asked."""
    job = shop.folder / SAMPLE
    if "ask-first" in example:
        shop.done("begin", "axle-exchange", "--out", job, "--by", "Wim")
    else:
        shutil.copyfile(shipped("sample_jobs") / SAMPLE, job)
    shop.done("record", job, "--by", "Wim", "--clock", "on")
    return job


def keys_of(page: type[PageScreen]) -> set[str]:
    """The keys of a page as they stand on the screen."""
    return {cap(one) for one in page.BINDINGS if isinstance(one, Binding)}


def named_keys() -> Iterator[tuple[str, str]]:
    """Each key of the left-hand side with its page."""
    for row in table():
        for page, keys in PAGE_AND_KEYS.findall(row.app):
            for key in code(keys):
                yield page, key


def test_each_key_is_one_of_its_page() -> None:
    """Every key that the table names works on the page that it is named with, and every row behind e is one."""
    found = list(named_keys())
    assert len(found) > 30
    assert [one for one in found if one[1] not in keys_of(PAGES[one[0]])] == []
    said = {one for row in table() for one in re.findall(r"\*([^*]+)\*", row.app)}
    assert said == {one.name for one in ELSE if one.action not in ("known", "jobs")}


def test_no_key_is_named_without_its_page() -> None:
    """Each key in the left-hand column follows the name of a page."""
    for row in table():
        named = [key for _, keys in PAGE_AND_KEYS.findall(row.app) for key in code(keys)]
        assert sorted(code(row.app)) == sorted(named), row
