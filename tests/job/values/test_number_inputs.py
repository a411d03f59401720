"""Workings-out that take any number, fed by readings inside a template: they take the unit of what feeds them."""

from __future__ import annotations

from fractions import Fraction

import pytest
import scipy
import tomli

from jobtrack.job.about import About
from jobtrack.job.state.job import Job
from jobtrack.template.load import build
from jobtrack.template.plan import plan
from tests.support.builders import Copy, minutes, read

TEMPLATE = """
format = 1
id = "judge"
title = "Judge a gap"
[stage.only]
title = "Only"
[step.gap]
stage = "only"
title = "Gap"
work_out.where = { use = "verdict", value = "found", low = "least", high = "most", uncertainty = "sure" }
reading.found = { unit = "mm", record_only = true }
reading.least = { unit = "mm", record_only = true }
reading.most = { unit = "UNIT", record_only = true }
reading.sure = { unit = "mm", record_only = true }
"""


def measured(unit: str) -> Job:
    """The gap 0.9 mm between 0.5 and 1 (of a unit), sure to 0.2 mm."""
    about = About("judge", "Judge a gap", plan(build(tomli.loads(TEMPLATE.replace("UNIT", unit)))), "start")
    copy = Copy(Job.fold(about, ()))
    values = {"found": "0.9", "least": "0.5", "most": "1", "sure": "0.2"}
    copy.call("gap", *(read(name, typed) for name, typed in values.items()), at=minutes(0))
    return copy.job


def test_readings_in_millimetres_are_judged() -> None:
    """The verdict and its chance follow from readings in mm, and the inputs keep their unit."""
    outcome = measured("mm").now.outcome("gap", "where")
    assert outcome is not None
    assert outcome.values["verdict"] == "too close to call"
    # Standard uncertainty 0.1: Phi(1) - Phi(-4), from scipy.
    assert outcome.values["chance_within"] == pytest.approx(
        scipy.stats.norm.cdf(1) - scipy.stats.norm.cdf(-4)
    )
    assert outcome.inputs["value"] == Fraction(9, 10)


@pytest.mark.parametrize("unit", ["in", "kg"])
def test_mixed_units_are_judged_by_nobody(unit: str) -> None:
    """Readings in two units give no answer rather than a wrong one; proofread names the mistake."""
    assert measured(unit).now.outcome("gap", "where") is None
