"""Which pictures of a step stand on a sheet, and the hours of a job as a picture."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from jobtrack.figures.drawing import Arrow, Label
from jobtrack.hours.labour import labour
from jobtrack.job.state.job import Job
from jobtrack.pictures.labour import NO_SHOP
from jobtrack.sheets.drawings.hours import labour_picture
from jobtrack.sheets.drawings.of_step import WORK, step_pictures
from jobtrack.sheets.drawings.on_paper import DRAWN, pictures_in
from jobtrack.sheets.words.hours import hours_words
from jobtrack.store.file.writer import JobFile
from jobtrack.units.chosen import METRIC_FIRST, US, Chosen
from tests.support.builders import Copy, read, surveyed
from tests.support.job_fixtures import folder, make

__all__ = ["folder", "make"]

Make = Callable[[str], JobFile]
MARK = "mark.left"


def titles(job: Job, step: str, shown: Chosen = METRIC_FIRST) -> list[str]:
    return [one.title for one in pictures_in(job, job.steps[step], shown)]


def texts(job: Job, step: str, shown: Chosen) -> set[str]:
    """What stands in the pictures."""
    shapes = (shape for one in pictures_in(job, job.steps[step], shown) for shape in one.drawing.shapes)
    return {shape.text for shape in shapes if isinstance(shape, Label)}


def measured(moved: str) -> Copy:
    copy = surveyed()
    copy.call(MARK, read("moved", moved))
    return copy


@pytest.mark.parametrize(("moved", "stands"), [("23.5", False), ("30", True)])
def test_a_reading_has_a_picture_where_it_lies_outside(moved: str, stands: bool) -> None:
    """Within its limits the table of the sheet says as much."""
    where = [one for one in titles(measured(moved).job, MARK) if one.startswith("Where it lies")]
    assert bool(where) == stands


def test_a_picture_is_in_the_readers_system() -> None:
    """30 mm is 1.1811 in."""
    assert any(text.startswith("1.181 in") for text in texts(measured("30").job, MARK, Chosen(US)))
    assert any(text.startswith("30 mm") for text in texts(measured("30").job, MARK, METRIC_FIRST))


def test_the_workings_out_of_the_step_itself_stand_there(make: Make) -> None:
    """Over a whole job: each that says what is changed and can be drawn, once; none of another step."""
    job = make("half-done").job
    for step, planned in job.steps.items():
        pictures = step_pictures(job, planned, None, METRIC_FIRST)
        own = [
            one.title
            for one in pictures
            if one.of.kind == WORK
            and one.of.step == step
            and one.drawing
            and planned.step.work_out[one.of.name].use in DRAWN
        ]
        assert [one for one in titles(job, step) if one.startswith("Worked out")] == own


def test_the_hours_of_a_job_on_their_scale(make: Make) -> None:
    """Its own and the template's, as the sums of `hours` have them; the shop's only where somebody has it."""
    job = make("half-done").job
    found = labour([job], "job")
    (group,) = found.groups
    assert group.estimated_hours is not None
    one, with_shop = labour_picture(job), labour_picture(job, shop=40.0)
    said = {shape.text for shape in one.drawing.shapes if isinstance(shape, Label)}
    assert {f"this job {hours_words(group.hours)}", f"template {hours_words(group.estimated_hours)}"} <= said
    assert hours_words(group.estimated_hours) in one.note
    assert NO_SHOP in one.drawing.caption
    assert NO_SHOP not in with_shop.drawing.caption
    arrows = [sum(isinstance(shape, Arrow) for shape in each.drawing.shapes) for each in (one, with_shop)]
    assert arrows == [2, 3]


def test_hours_of_some_steps_alone(make: Make) -> None:
    """As `hours` groups them, rounded to a hundredth by step."""
    job = make("half-done").job
    (step, *_) = (one for one in labour([job], "step").groups if one.hours and one.estimated_hours)
    texts = {
        shape.text
        for shape in labour_picture(job, lambda id: id == step.key).drawing.shapes
        if isinstance(shape, Label)
    }
    assert {
        f"this job {hours_words(step.hours)}",
        f"template {hours_words(step.estimated_hours or 0)}",
    } <= texts


def test_levels_stand_with_the_perches(make: Make) -> None:
    """The left perch is tacked: the angle read last there, of those between limits; the right one isn't set yet."""
    job = make("half-done").job
    (one,) = (one for one in pictures_in(job, job.steps["strip"], METRIC_FIRST) if "faces" in one.title)
    levels = [shape for shape in one.drawing.shapes if isinstance(shape, Label) and "level" in shape.text]
    measured = job.now.reading_value("tack.left", "pinion-to-pad")
    assert measured is not None
    assert [label.text for label in levels] == [f"level {float(measured):g} deg, within"]
    assert levels[0].at[0] < 0
    assert one.note.startswith("Levels: Pinion to pad, ")
    assert "(left)" in one.note
    assert "(right)" not in one.note
