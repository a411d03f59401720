"""Pages in the unit system that is shown: what turns, in what order, and that the sheets' words stay."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.pages.reckoner.working import answer_lines
from jobtrack.pages.step.workings_here import compare_lines, working_lines
from jobtrack.sheets.words.values.in_units import measured_in, wanted_in
from jobtrack.sheets.words.values.readings import limit_words, measured_words
from jobtrack.store.file.writer import JobFile
from jobtrack.units.chosen import METRIC_FIRST, US, Chosen
from jobtrack.workings.answers import answer

Make = Callable[[str], JobFile]
US_FIRST = Chosen(US)


def test_metric_first_are_the_words_of_the_sheets(make: Make) -> None:
    """Each reading of a whole job, which is measured in millimetres and kilograms, stands as `show` has it."""
    job = make("half-done").job
    for step, planned in job.steps.items():
        for name, reading in planned.step.reading.items():
            limits, value = job.now.limits(step, name), job.now.reading_value(step, name)
            assert wanted_in(job, planned, name, METRIC_FIRST) == limit_words(limits, reading.unit, value)
            assert measured_in(job, planned, name, METRIC_FIRST) == measured_words(job, planned, name)


def test_what_was_typed_in_inches_is_shown_as_typed(make: Make) -> None:
    """38 in on a template's millimetres: as typed where inches come first, else its 965.2 mm with it in brackets."""
    job = make("half-done").job
    planned = job.steps["pin-spacing.recipient"]
    assert measured_in(job, planned, "spacing", US_FIRST) == "38 in"
    assert measured_in(job, planned, "spacing", US_FIRST, None) == "38 in (965.2 mm)"
    assert measured_in(job, planned, "spacing", METRIC_FIRST) == "965.2 mm (38 in)"


def test_brackets_where_there_is_room(make: Make) -> None:
    """1012/25.4 = 39.843: the nearest 64th is 39 27/32; with less room the figure alone."""
    job = make("half-done").job
    planned = job.steps["pin-spacing.donor"]
    assert measured_in(job, planned, "spacing", US_FIRST, 40) == "39.84 in (39 27/32, 1012 mm)"
    assert measured_in(job, planned, "spacing", US_FIRST, 20) == "39.84 in (39 27/32)"
    assert measured_in(job, planned, "spacing", US_FIRST, 12) == "39.84 in"
    assert measured_in(job, planned, "spacing", METRIC_FIRST, 20) == "1012 mm (39.84 in)"


def test_workings_out_turn_with_what_went_in(make: Make) -> None:
    """The same shift: half of 1012 - 965.2 mm, 23.4 mm, is 0.921 in; its doubt of 0.71 mm is 0.028 in."""
    job = make("half-done").job
    said = " ".join(line.plain.strip() for line in working_lines(job, job.steps["mark.right"], 118, US_FIRST))
    assert "Spacing now 39.84 in, wanted 38 in" in said
    assert "left 0.92 in (59/64, 23.4 mm)" in said
    assert "left inboard ± 0.028 in" in said


def test_both_vehicles_side_by_side_turn(make: Make) -> None:
    """46.8 mm apart is 1.843 in, each with its doubt in inches too."""
    job = make("half-done").job
    said = " ".join(line.plain for line in compare_lines(job, job.steps["side-by-side"], 118, None, US_FIRST))
    assert "1.843" in said
    assert " mm" not in said


def test_an_answer_of_the_reckoner_has_both_the_chosen_one_first() -> None:
    """By hand: half of 1012 - 965.2 mm."""
    found = answer("perch-shift", {"spacing_now": "1012", "spacing_wanted": "38 in"})
    assert any("left inboard: 23.4 mm = 0.92 in (59/64)" in one.plain for one in answer_lines(found, 118))
    turned = [one.plain for one in answer_lines(found, 118, US_FIRST)]
    assert any("left inboard: 0.92 in (59/64) = 23.4 mm" in one for one in turned)
