"""The sheets and the command line say things as a person in the shop says them, over the samples and the template."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from jobtrack.cli.main import main
from jobtrack.sheets.words.sentences import FIRST_WORD, NO_CONDITION
from jobtrack.shopmath import catalogue
from jobtrack.store.file.writer import JobFile
from tests.support import exchange
from tests.support.handed import unescaped

HALF_DONE, FINISHED = (path.name for path in exchange.SAMPLES)
BY = ("--by", "Teo Banfield")
NOT_SAID = re.compile(
    r"\bdrops? it\b|\bDropped\b|shall stand|one thing that is wanted|\bit wants\b|not yet; it|holds these letters"
    r"|\bany to\b|stands against this|Wanted here|a name is then wanted|which says nothing about the vehicle"
    r"|over the rating: (?:yes|no)|without trouble"
)
"""Turns of phrase that nobody uses beside a vehicle, and answers that are to be figures side by side."""

ECHOES = re.compile(r"\b(?:Courier|Carter|Corvane|Dunmore)\b")
"""Names of vehicles that echoed real ones."""

OTHER_WORDS = re.compile(
    r"\bhand ?brake|emergency brake|propshaft|propeller shaft|half[- ]shaft|drive ?shaft|jack stand|axle stand"
    r"|beam torque wrench",
    re.I,
)
"""Second words for what is called parking brake, prop shaft, axle shaft, stands and torque wrench; the instruments in
a handover are called as the template's author does."""

CHANCE = re.compile(r"\bchance\b")
"""Stays in the reckoner: beside a drum it invites a yes."""

TOO_FINE = re.compile(r"(?<!± )(?<![\d.])\d+\.\d{4,}")
"""A figure finer than any instrument of the shop tells; a tolerance (a share of its target) is left out here."""

Say = Callable[..., str]


@pytest.fixture
def say(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Say:
    """What a command prints or writes, on copies of the two samples and the template beside them."""
    for path in exchange.SAMPLES:
        shutil.copyfile(path, tmp_path / path.name)
    shutil.copyfile(exchange.EXCHANGE, tmp_path / "template.toml")

    def said(*arguments: str) -> str:
        capsys.readouterr()
        main([str(tmp_path / one) if one.endswith((".toml", ".md")) else one for one in arguments])
        printed = capsys.readouterr()
        written = [tmp_path / one for one in arguments if one.endswith(".md")]
        return "\n".join([printed.out, printed.err, *(one.read_text(encoding="utf-8") for one in written)])

    return said


SHEETS = {
    **{f"show {job}": [("show", job)] for job in (HALF_DONE, FINISHED)},
    **{
        f"handover{out} of {job}": [("handover", job, *BY, "--to", "Ada Prosser", *(("--out", out) if out else ()))]
        for job in (HALF_DONE, FINISHED)
        for out in ("", "sheet.md")
    },
    "begin": [("begin", "template.toml", "--out", "new.job.toml", *BY), ("show", "new.job.toml")],
    "proofread": [("proofread", "template.toml")],
    "record": [
        ("record", HALF_DONE, "mark.right", *BY, "--reading", "moved=0.7", "--finished"),
        ("record", HALF_DONE, "tack.right", *BY, "--reading", "gap=3/64 in", "--note", "early"),
        ("record", HALF_DONE, *BY, "--clock", "on"),
        ("record", HALF_DONE, *BY, "--undo"),
        ("record", HALF_DONE, "no-such-step", *BY, "--finished"),
        ("record", HALF_DONE, *BY, "--close-job"),
        ("show", HALF_DONE),
    ],
}  # fmt: skip
"""Commands by what they are, one after the other."""


def rendered(say: Say, sheet: str) -> str:
    text = "\n".join(say(*command) for command in SHEETS[sheet])
    assert len(text.split()) > 10
    return text


@pytest.mark.parametrize("sheet", SHEETS)
def test_no_sheet_says_it_as_nobody_would(sheet: str, say: Say) -> None:
    """None drops what is typed, wants what it asks for, answers for the vehicle, or doubles a mark."""
    text = rendered(say, sheet).replace("\\", "")
    assert NOT_SAID.findall(text) == []
    assert ECHOES.findall(text) == []
    assert OTHER_WORDS.findall(re.sub("^- Readings by instrument.*", "", text, flags=re.M)) == []
    assert CHANCE.findall(text) == []
    assert re.findall(r"\?:|\.\.(?!\.)(?=\s)|;;|: :", text) == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_sides_stand_in_brackets_everywhere(sheet: str, say: Say) -> None:
    """No title has its side or vehicle behind a comma."""
    text = rendered(say, sheet).replace("\\", "")
    steps = JobFile(exchange.HALF_DONE).job.steps.values()
    assert [one.id for one in steps if one.member and f"{one.step.title}, {one.member}" in text] == []


@pytest.mark.parametrize("sheet", [one for one in SHEETS if one not in ("record", "proofread")])
def test_no_figure_is_finer_than_can_be_told(sheet: str, say: Say) -> None:
    """A result is rounded to what its instrument tells; what was typed stays as typed."""
    assert [line for line in rendered(say, sheet).splitlines() if TOO_FINE.search(line)] == []


@pytest.mark.parametrize("name", [one for topic in catalogue.by_topic().values() for one in topic])
def test_no_working_out_answers_for_the_vehicle(name: str, say: Say) -> None:
    """Each example in words: figures beside whose limit, no yes or no about a rating, no figure too fine."""
    found = catalogue.find(name)
    text = say("work-out", name, *(f"{key}={typed}" for key, typed in found.example.items()))
    assert NOT_SAID.findall(text) == []
    assert len(text.split()) > 5


@pytest.mark.parametrize("job", [HALF_DONE, FINISHED])
def test_step_problems_hold_no_ids(job: str, say: Say) -> None:
    """What stands against a step names other steps by their titles, on every sheet."""
    ids = sorted(JobFile(exchange.HALF_DONE.with_name(job)).job.steps)
    for command in (("show", job), ("handover", job, *BY, "--to", "Ada")):
        for line in say(*command).replace("\\", "").splitlines():
            if line.lstrip(" -").casefold().startswith(("! ", "wrong or missing: ", "not yet: ")):
                assert [one for one in ids if re.search(rf"[: ]{re.escape(one)}(?:,|$)", line)] == []


# The cautions


def test_the_handover_puts_what_is_open_and_the_donts_first_and_names_the_hazards(say: Say) -> None:
    """What is open and what not to touch stand above all else; the job's own hazards with how to avoid each."""
    text = unescaped(say("handover", HALF_DONE, *BY, "--to", "Ada"))
    assert (
        text.index("## Recorded as open")
        < text.index("Don't press the pedal")
        < text.index("## Where inside")
    )
    for one in JobFile(exchange.HALF_DONE).job.plan.template.hazard:
        assert f"{one.signal} {one.hazard}. What it does: {one.does}. How to avoid it: {one.avoid}." in text


def test_the_jobs_own_hazards_stand_where_it_is_begun(say: Say) -> None:
    """Whoever begins a job on the command line reads them whole, and what the program doesn't know."""
    text = say("begin", "template.toml", "--out", "new.job.toml", *BY)
    assert FIRST_WORD in text
    for one in JobFile(exchange.HALF_DONE).job.plan.template.hazard:
        assert f"{one.signal}: {one.hazard}. What it does: {one.does}. How to avoid it: {one.avoid}." in text


def test_nothing_open_is_said_in_the_agreed_words(say: Say) -> None:
    """In the handover of a job in which nothing is open."""
    assert NO_CONDITION == "No open condition is recorded. That does not say that the vehicle is safe: look."
    assert NO_CONDITION in say("handover", FINISHED, *BY, "--to", "Ada").replace("\\", "")


def test_a_typed_limit_is_never_the_templates(say: Say) -> None:
    """The drum's discard mark, the axle's rating and the clear tube wanted are those of who typed them."""
    text = say("show", FINISHED)
    for name in ("Drum, inside, left", "Rear axle load, recipient, as used", "Clear tube, left"):
        [line] = [one for one in text.splitlines() if one.startswith(f"      {name}: ")]
        assert "no published source)" not in line
        assert "typed by " in line


def test_finishing_says_what_is_left(say: Say) -> None:
    """Unanswered checks and an unreleased hold stand in the answer of the command that finishes the step."""
    text = say("record", HALF_DONE, "mark.right", *BY, "--finished")
    assert "Punch marks and scribed line reach past the old and the new place? not answered" in text
    assert "hold not released: Cut release" in text


def test_stand_load_sets_figures_side_by_side(say: Say) -> None:
    """What each stand bears and what it is rated for; no answer."""
    found = catalogue.find("stand-load")
    text = say("work-out", "stand-load", *(f"{key}={typed}" for key, typed in found.example.items()))
    assert re.search(r"\d+ kg.*\d+ kg", text)
    assert not re.search(r":\s*(?:yes|no)\b", text)
