"""Which pictures a step has, which of them fit the chosen line, and how they stand on a page."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from jobtrack.figures.drawing import Drawing, Label
from jobtrack.job.state.job import Job
from jobtrack.pages.drawings.page import (
    LEAST,
    NONE,
    Room,
    behind_line,
    below_table,
    picture_lines,
    picture_page,
    room_behind,
    room_below,
)
from jobtrack.pages.step.items import TORQUE, Item, items
from jobtrack.pages.step.page import step_page
from jobtrack.pages.typeset import line
from jobtrack.sheets.drawings.of_step import PLACE, WORK, StepPicture, Subject, first_picture, step_pictures
from jobtrack.store.file.writer import JobFile
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from tests.support.builders import read, record

Make = Callable[[str], JobFile]


@pytest.fixture
def job(make: Make) -> Job:
    """Half done: the left perch is tacked, the right one isn't."""
    return make("half-done").job


def line_of(job: Job, step: str, name: str) -> Item:
    return next(one for one in items(job, job.steps[step]) if one.name == name)


def pictures(job: Job, step: str, name: str | None = None, shown: Chosen = METRIC_FIRST) -> list[StepPicture]:
    """The pictures of a step with this line chosen."""
    return step_pictures(job, job.steps[step], line_of(job, step, name) if name else None, shown)


def subjects(job: Job, step: str, name: str | None = None) -> list[tuple[str, str, str]]:
    return [(one.of.kind, one.of.step, one.of.name) for one in pictures(job, step, name)]


def said(picture: StepPicture) -> str:
    return "\n".join(row.plain for row in picture_lines(picture, Room(76, 18)))


def test_a_measured_reading_shows_where_it_lies_first(job: Job) -> None:
    """Then what its limit comes from."""
    assert subjects(job, "mark.left", "moved") == [
        (PLACE, "mark.left", "moved"),
        (WORK, "mark.left", "shift"),
    ]


def test_before_it_is_measured_what_it_is_measured_for(make: Make) -> None:
    """The axle with the arrow that says how far and which way."""
    job = make("surveyed").job
    found = pictures(job, "mark.right", "moved")
    assert [one.of.kind for one in found] == [WORK, PLACE]
    assert "inboard" in said(found[0])
    assert found[1].note == "Not measured yet."


def test_what_can_be_drawn_comes_first(job: Job) -> None:
    """A slope without a number: the level that it is for has its lines, the two faces can't be drawn yet."""
    found = pictures(job, "tack.right", "slope")
    assert [one.of for one in found[:2]] == [
        Subject(PLACE, "tack.right", "level"),
        Subject(WORK, "tack.right", "off"),
    ]
    assert found[0].drawing is not None
    assert found[1].drawing is None
    assert "Slope of the OTHER perch" in found[1].note
    assert "Slope of this perch" in found[1].note


def test_limits_from_another_step_bring_its_picture(job: Job) -> None:
    """The place of the perch was worked out when the axle was stripped, by way of a reading that is worked out."""
    assert (WORK, "strip", "faces") in subjects(job, "tack.right", "face-to-perch")[:2]


def test_a_given_brings_what_it_limits(job: Job) -> None:
    """What the clear tube has to be: both readings that are held against it."""
    found = subjects(job, "donor-axle", "clear-wanted")
    assert found[:2] == [(PLACE, "donor-axle", "clear-left"), (PLACE, "donor-axle", "clear-right")]


def test_a_check_has_all_pictures_of_its_step_in_order(job: Job) -> None:
    """The same as without any chosen line, each of them once."""
    for step in job.steps:
        found = subjects(job, step)
        assert len(set(found)) == len(found)
        for item in items(job, job.steps[step]):
            mine = pictures(job, step, item.name)
            assert {one.of for one in mine} >= {one.of for one in pictures(job, step)}
            first = first_picture(job, job.steps[step], item, METRIC_FIRST)
            assert first == (mine[0] if mine else None)


def test_a_limit_not_known_is_named(make: Make) -> None:
    """The drum's discard mark isn't typed yet."""
    found = pictures(make("half-done").job, "brakes", "drum-left")
    assert found[0].drawing is None
    assert "still missing: " in found[0].note


def test_words_instead_of_a_number_are_said(make: Make) -> None:
    """No mark is drawn for what is no number."""
    file = make("half-done")
    record(file, "tack.right", read("gap", "can't reach"))
    found = pictures(file.job, "tack.right", "gap")[0]
    assert "can't reach" in found.note


def test_an_angle_is_a_level_and_a_length_a_scale(job: Job) -> None:
    """With both limits, and with what was measured and its verdict."""
    level, scale = pictures(job, "tack.left", "pinion-to-pad")[0], pictures(job, "tack.left", "gap")[0]
    assert "Bubble" in said(level)
    assert "Box" in said(scale)
    assert "within" in said(level)


def test_in_the_other_system_all_figures_turn(job: Job) -> None:
    """Each label but the verdict's word is in inches; in the template's system none is."""
    drawing = pictures(job, "mark.left", "moved", Chosen("US"))[0].drawing
    assert drawing is not None
    labels = [one.text for one in drawing.shapes if isinstance(one, Label)]
    assert not any("mm" in text for text in labels)
    assert sum(" in" in text for text in labels) == 3
    assert " in" not in said(pictures(job, "mark.left", "moved")[0]).replace(" inboard", "").replace(
        "within", ""
    )


def test_a_limit_without_tolerance_is_said_once(job: Job) -> None:
    """The circle is worked out for four holes, no more and no fewer."""
    drawing = pictures(job, "flange.donor", "holes")[0].drawing
    assert drawing is not None
    labels = [one.text for one in drawing.shapes if isinstance(one, Label)]
    assert sorted(labels) == ["4, within", "wanted 4"]


def test_without_a_picture_it_is_said(job: Job) -> None:
    """A step that only has checks."""
    page = picture_page(pictures(job, "secure"), 0, job.steps["secure"], Room(76, 18))
    assert " ".join(" ".join(row.plain for row in page).split()).endswith(NONE)


@pytest.mark.parametrize("rows", [14, 18, 22, 30])
def test_a_page_of_a_picture_fits(job: Job, rows: int) -> None:
    """Every picture of every step, with its title and notes, in the rows that there are."""
    for step in job.steps:
        for at, _ in enumerate(found := pictures(job, step)):
            page = picture_page(found, at, job.steps[step], Room(76, rows, plain=True))
            assert len(page) <= rows
            assert all(len(row.plain) <= 76 for row in page)
            assert all(row.plain.isascii() for row in page[2:] if "“" not in row.plain)


@pytest.mark.parametrize("height", [16, 24, 28, 34, 40, 60])
def test_a_picture_pushes_no_line_out_of_sight(job: Job, height: int) -> None:
    """With it every line that takes an answer still stands in the rows of the page, and nothing is lost."""
    for step, planned in job.steps.items():
        page = step_page(job, planned, 116, next(iter(items(job, planned)), None), True)
        room = room_below(page, Room(116, height))
        if room is not None:
            assert room.rows >= LEAST
            there = below_table(page, [line("picture")] * room.rows)
            assert max(row for row, one in enumerate(there) if one.of is not None and one.of >= 0) < height
            assert [one for one in there if one.plain not in ("picture", "")] == [
                one for one in page if one.plain
            ]
        assert step  # each step was looked at


@pytest.mark.parametrize("height", [12, 24, 28, 60])
def test_bolts_go_with_their_line(job: Job, height: int) -> None:
    """The picture belongs to the line of the bolts, so that both are scrolled into sight together, and both fit."""
    planned = job.steps["u-bolts"]
    number = next(at for at, one in enumerate(items(job, planned)) if one.kind == TORQUE)
    page = step_page(job, planned, 116, items(job, planned)[number], True)
    room = room_behind(page, number, Room(116, height))
    assert (room is not None) == (height > 12)
    if room is not None:
        there = behind_line(page, number, [line("picture")] * room.rows)
        rows = [row for row, one in enumerate(there) if one.of == number]
        assert rows == list(range(rows[0], rows[-1] + 1))
        assert len(rows) <= height
        assert there[rows[-1]].plain == "picture"


def test_a_unit_that_cannot_be_drawn_is_said(job: Job) -> None:
    """A template's unit may be any text; the page says it and goes on."""
    odd = StepPicture(Subject(PLACE, "a", "b"), "Odd", Drawing((Label((0, 0), "3 🔧"),)))
    assert "Can't be drawn" in said(odd)
