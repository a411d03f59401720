"""Workings-out on the step's page: title, sentence, how sure, what went in, whose source."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from jobtrack.job.about import About
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.pages.step.workings_here import working_lines
from jobtrack.shopmath import catalogue
from jobtrack.store.file.writer import JobFile, create
from jobtrack.template.model import Stage, Step, Template, WorkOut
from jobtrack.template.plan import plan
from jobtrack.workings.answers import answer, read_inputs
from tests.support.invented_jobs import START

Make = Callable[[str], JobFile]
NAMES = [
    name
    for names in catalogue.by_topic().values()
    for name in names
    if not any(one.items for one in catalogue.find(name).inputs)
]
"""Those that take no list, which a template can only give as repeats of a reading."""


def shown(job: Job, step: str) -> str:
    """A step's workings-out as one text."""
    return " ".join(" ".join(line.plain for line in working_lines(job, job.steps[step], 78)).split())


def plain(value: catalogue.Value) -> Any:
    """A value as a template holds it."""
    return float(value) if isinstance(value, Fraction) else value


def typed(value: Any) -> str:
    """A template's value as one would type it; a number of a template is taken as it stands, so to many places."""
    if isinstance(value, float):
        return f"{value!r}000000"
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)


@pytest.mark.parametrize("name", NAMES)
def test_step_says_it_as_the_command_does(name: str) -> None:
    """Any working-out in a step, also one whose limit its inputs decide, stands in the command's own sentence."""
    work = catalogue.find(name)
    inputs = {key: plain(value) for key, value in read_inputs(work, work.example).items()}
    step = Step("only", "Work it out", work_out={"try-it": WorkOut(name, inputs)})
    template = Template(1, "one", "One step", stage={"only": Stage("Only")}, step={"it": step})
    job = Job.fold(About("one", "One step", plan(template), "start"), ())
    text = shown(job, "it")
    said = answer(name, {key: typed(value) for key, value in inputs.items()}).as_text()
    sentence = " ".join(said.split("\n\n")[1].split("\nSource: ")[0].split())
    assert text.startswith(f"Worked out, try it: {sentence}")
    assert f"By {name}. Source: {' '.join(work.source.split())}." in text


def test_how_sure_and_what_went_in(make: Make) -> None:
    """A shift from two spacings of ± 1 mm each: half of the root of two either way (JCGM 100), and both spacings."""
    text = shown(make("half-done").job, "mark.right")
    assert text.startswith("Worked out, shift: Spacing now 1012 mm, wanted 965.2 mm: left 23.4 mm")
    assert "How sure (k = 2, from the doubts of the readings that went in): left inboard ± 0.71 mm" in text
    assert "(donor): 1012 mm; Pin to pin, Spacing of the spring centre pins (recipient): 965.2 mm." in text


def test_not_sure_and_whose_plate(make: Make) -> None:
    """Where nothing that went in has a doubt, that is said; a given of a vehicle names its vehicle."""
    text = shown(make("half-done").job, "decide")
    assert "How sure: not known; nothing that went in has its doubt recorded." in text
    assert "From Rear axle load on its plate (recipient): 1350 kg;" in text


def test_what_is_missing_is_named(make: Make) -> None:
    """Without its readings a working-out says which it wants, in the template's words."""
    assert shown(make("surveyed").job, "strip").startswith(
        "Worked out, faces: not yet; still missing: Wheel face to wheel face; Left wheel face to left perch centre"
    )


def test_a_list_stands_as_it_was_read(tmp_path: Path) -> None:
    """Repeats of a reading that go in as a list are shown one by one, not as their mean."""
    step = {
        "stage": "only", "title": "Time it",
        "reading": {"took": {"unit": "h", "times": 3}},
        "work_out": {"next": {"use": "learned-time", "expected": 3, "doubt": 0.4, "scatter": 0.3, "seen": "took"}},
    }  # fmt: skip
    template = {
        "format": 1,
        "id": "one",
        "title": "One",
        "stage": {"only": {"title": "Only"}},
        "step": {"it": step},
    }
    file = create(tmp_path / "one.job.toml", "one", "One", template)
    draft = Draft(file.job, "Hob Tansley", START, "it")
    values.reading(draft, "took", ["3.5", "5 h", "4.2"])
    file.append(draft.done(), draft.by, draft.at, id=draft.id, step="it")
    assert "took: 3.5 h, 5 h, 4.2 h (3 items). By learned-time." in shown(file.job, "it")
