"""What the typing of a job's values leaves open in what is worked out from them."""

from __future__ import annotations

import pytest

from tests.support.builders import surveyed


@pytest.mark.parametrize(
    ("donor", "recipient", "left_open"),
    [
        ("1012", "965", 0.25),  # half a millimetre of one of them, shared by two sides
        ("1012.0", "965", 0.25),  # the coarser one counts
        ("1012.0", "965.5", 0.025),
        ("39.84 in", "965.50", 0.0635),  # half of 0.01 in is 0.127 mm
        ("39 13/16 in", "965.50", 0.0025),  # a fraction leaves nothing open
    ],
)
def test_half_of_the_last_place_reaches_the_result(donor: str, recipient: str, left_open: float) -> None:
    """By hand: half of the place, halved by the two sides, whichever of the two typed values is the coarser."""
    job = surveyed(donor, recipient).job
    name = next(f"{step}.{work}.left_inboard" for step, one in job.steps.items()
                for work in one.step.work_out if one.step.work_out[work].use == "perch-shift")  # fmt: skip
    ref = job.plan.resolve(name)
    assert ref is not None
    assert job.now.told(ref) == pytest.approx(left_open)
