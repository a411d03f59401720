"""A number that nobody typed as it stands is said no finer than it was measured, and on its own side of its limits."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.values.in_units import measured_in
from jobtrack.sheets.words.values.readings import given_words
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.units.chosen import METRIC_FIRST
from jobtrack.units.rounding import beside
from tests.sheets.vehicle_record.made import exchange
from tests.support.builders import read

INCH = Fraction(254, 10)


def sample(name: str = "axle-exchange-finished") -> Job:
    return JobFile(shipped("sample_jobs") / f"{name}.job.toml").job


@pytest.mark.parametrize(
    ("step", "reading", "words"),
    [
        ("ride-height.donor", "ride-right", "428.6 mm (16 7/8 in)"),
        ("pin-spacing.donor", "spacing", "1050.9 mm (41 3/8 in; 41 3/8 in; 41 3/8 in) (mean of 3, 3 asked)"),
        ("brake-survey.donor", "bore", "22.22 mm (7/8 in)"),
    ],
    ids=["a tape", "a mean", "a caliper"],
)
def test_typed_in_inches_beside_millimetres(step: str, reading: str, words: str) -> None:
    """To the tenth of a tape and the hundredth of a caliper; as typed beside it."""
    job = sample()
    assert measured_in(job, job.steps[step], reading, METRIC_FIRST, None) == words


def test_typed_in_the_templates_own_unit_it_stays_as_typed() -> None:
    """With as many figures as somebody typed, bare or with its unit."""
    for typed in ("23.075", "23.075 mm"):
        copy = exchange()
        copy.call("mark.left", read("moved", typed))
        assert measured_in(copy.job, copy.job.steps["mark.left"], "moved", METRIC_FIRST).startswith(
            "23.075 mm"
        )


def test_a_limit_that_was_worked_out_is_said_alike_among_what_stands_against_a_step() -> None:
    """As in the table: rounded to the cautious side, not with all its places (29.0376 %)."""
    job = sample()
    [against] = [one for one in with_names(job, step_problems(job, "brake-balance")) if "outside" in one]
    assert against.endswith("30 % is outside (at most 29 %)")


def test_a_sixteenth_stands_as_it_is() -> None:
    """Said as 0.06 in it would let through what is less."""
    copy = exchange(("step-height", "1/16 in"), given={"step-height": {"ask": "Least lining", "unit": "in"}})
    assert given_words(copy.job, "step-height") == "0.0625 in"


@given(st.fractions(0, 100, max_denominator=6400), st.fractions(0, 100, max_denominator=640), st.booleans())
def test_never_onto_a_limit_nor_over_it(value: Fraction, limit: Fraction, upper: bool) -> None:
    """Whatever was typed in inches, with a tape's doubt and a caliper's."""
    for doubt in (1, 0.05):
        limits = (None, limit * INCH) if upper else (limit * INCH, None)
        said = beside(value * INCH, limits, "mm", doubt, typed=False).rounded
        assert (said > limit * INCH) == (value > limit)
        assert (said < limit * INCH) == (value < limit)
