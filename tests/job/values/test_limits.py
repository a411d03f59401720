"""Bounds, limits and verdicts, reckoned in exact fractions of what was typed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.values.limits import Limits, plain_verdict
from jobtrack.shopmath.catalogue import calculate
from tests.support.builders import DONOR, Copy, given, read, settle, surveyed, tick
from tests.support.said import job_problems, step_problems

MARK = "mark.left"


def verdict(reading: str, *texts: str) -> str:
    """The verdict of one reading of the step `height`, its wanted height 400 mm."""
    copy = Copy()
    copy.call(None, given("step-height", "400"))
    copy.call("height", read(reading, *texts))
    return copy.job.now.verdict("height", reading)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("395", "within"), ("405", "within"), ("394.999", "outside"), ("405.001", "outside"),
        ("~405", "within"), ("~405.1", "outside"), ("15 3/4 in", "within"), ("15.945 in", "outside"),
        ("15 15/16 in", "within"), ("40.5 cm", "within"), ("can't reach", "none"),
    ],
)  # fmt: skip
def test_limits_are_inclusive_and_exact(typed: str, expected: str) -> None:
    """400 ± 5 mm holds both ends in; inches count as exactly 25.4 mm; `~` counts as its number."""
    assert verdict("height", typed) == expected


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        # At least 2 and at most 6 degrees.
        (">2", "none"), (">1.9", "none"), (">6", "outside"), (">7", "outside"), ("<6", "none"), ("<2", "outside"),
        ("<2.1", "none"), ("2..6", "within"), ("2.5..5", "within"), ("1..3", "none"), ("6..7", "none"),
        ("6.1..7", "outside"), ("1..1.9", "outside"), ("1..2", "none"),
    ],
)  # fmt: skip
def test_bounds_are_within_or_outside_only_as_a_whole(typed: str, expected: str) -> None:
    """Over, under and a range are within if wholly inside, outside if wholly outside; `>6` leaves 6 out."""
    assert verdict("tilt", typed) == expected


@pytest.mark.parametrize("typed", [">2", "<2", "2..6", "can't reach", "seized"])
def test_bounds_and_words_have_no_value(typed: str) -> None:
    """What isn't one number has no value, feeds nothing, and is shown as it was typed."""
    copy = Copy()
    copy.call("height", read("tilt", typed))
    assert copy.job.now.reading_value("height", "tilt") is None
    assert copy.job.places.reading("height", "tilt").written == typed


def test_a_bound_feeds_no_target() -> None:
    """A donor spacing of `>1012` leaves the perch shift without a target."""
    copy = surveyed()
    copy.call(DONOR, read("spacing", ">1012"))
    assert copy.job.now.limits(MARK, "moved").target is None
    assert copy.job.now.verdict(MARK, "moved") == "none"


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        # At most 1.0 mm, doubt 0.2 mm (ISO 14253-1: the guard band narrows either zone).
        ("0.8", "within"), ("0.801", "too close to call"), ("1", "too close to call"),
        ("1.2", "too close to call"), ("1.201", "outside"), ("~0.1", "too close to call"),
        ("<1", "within"), ("<0.5", "within"), (">1", "outside"), (">0.5", "too close to call"),
        ("0.1..0.9", "within"), ("0.9..1.1", "too close to call"),
    ],
)  # fmt: skip
def test_strict_readings_leave_the_doubt_open(typed: str, expected: str) -> None:
    """A strict reading is within or outside only where its doubt leaves no question."""
    assert verdict("gap", typed) == expected


@pytest.mark.parametrize(
    ("texts", "value", "expected"),
    [
        (("8", "8.1", "8.2"), Fraction("8.1"), "within"), (("8.25", "8.25", "8.25"), Fraction("8.25"), "within"),
        (("8.2", "8.3", "8.26"), Fraction("24.76") / 3, "outside"),
        (("5/16 in",), Fraction("7.9375"), "within"),
    ],
)  # fmt: skip
def test_the_mean_of_repeats_counts(texts: tuple[str, ...], value: Fraction, expected: str) -> None:
    """Of three repeats the exact mean is judged against 8 ± 0.25 mm."""
    copy = Copy()
    copy.call("height", read("plate", *texts))
    assert copy.job.now.verdict("height", "plate") == expected
    assert float(copy.job.now.reading_value("height", "plate") or 0) == pytest.approx(float(value))


def test_fewer_repeats_than_asked_are_a_problem() -> None:
    """Two of three readings count, and the step says how many there are."""
    copy = Copy()
    copy.call("height", read("plate", "8", "8.1"))
    assert "plate: 2 of 3 readings taken" in step_problems(copy.job, "height")


def test_repeats_are_plain_numbers() -> None:
    """Words and bounds aren't taken among repeats."""
    with pytest.raises(Refused, match=r"repeats are plain numbers"):
        Copy().call("height", read("plate", "8", ">8"))


@pytest.mark.parametrize(("typed", "expected"), [("198", "within"), ("202", "within"), ("197.9", "outside")])
def test_a_tolerance_as_a_share(typed: str, expected: str) -> None:
    """1 % of 200 mm is 2 mm either way."""
    assert verdict("share", typed) == expected


@pytest.mark.parametrize(("typed", "expected"), [("10", "within"), ("12", "within"), ("9.99", "outside")])
def test_a_one_sided_tolerance(typed: str, expected: str) -> None:
    """With `over_by` alone nothing below the target is within."""
    assert verdict("lean", typed) == expected


@pytest.mark.parametrize(
    ("other", "slope", "expected"),
    [("1.8", "2.1", "within"), ("1.8", "1.5", "within"), ("-0.1", "0.3", "outside")],
)
def test_a_worked_out_reading(other: str, slope: str, expected: str) -> None:
    """Level is slope less the other's slope, within 0.3 degrees of 0, exact where floats would miss the end."""
    copy = Copy()
    copy.call("tack.left", read("other", other), read("slope", slope))
    assert copy.job.now.verdict("tack.left", "level") == expected


def test_no_target_no_verdict() -> None:
    """While the wanted height isn't known there is no verdict, and none of the limits."""
    copy = Copy()
    copy.call("height", read("height", "400"))
    assert copy.job.now.verdict("height", "height") == "none"
    assert copy.job.now.limits("height", "height").known is False


def test_outside_is_said_with_its_limits() -> None:
    """A reading outside is a problem of its step, with the limits that it misses."""
    copy = surveyed()
    copy.call(MARK, read("moved", "30"))
    assert "moved: 30 mm is outside (22.5 mm to 24.5 mm)" in step_problems(copy.job, MARK)


def test_the_other_side_may_differ() -> None:
    """A target by member gives each side its own reference; here both are the same half."""
    job = surveyed("965", "1012").job
    assert [job.now.limits(f"mark.{side}", "moved").target for side in ("left", "right")] == [-23.5, -23.5]


def apart(left: str, right: str) -> Copy:
    """Two donor spacings, taken in two copies that didn't know of each other."""
    copy = Copy()
    other = copy.split("other")
    copy.call(DONOR, read("spacing", left))
    other.call(DONOR, read("spacing", right), by="Ada")
    return copy.take(other)


def test_two_values_apart_are_a_disagreement() -> None:
    """Both stay visible, neither counts, and the step names both with their people."""
    job = apart("1012", "1013").job
    standing = job.places.reading(DONOR, "spacing")
    assert (standing.value, standing.agreed, len(standing.acts)) == (None, False, 2)
    [said] = [one for one in step_problems(job, DONOR) if "disagreement" in one]
    assert "1012 (Wim)" in said
    assert "1013 (Ada)" in said


@pytest.mark.parametrize(("left", "right"), [("1012", "1012"), ("965.2", "38 in"), ("1012", "101.2 cm")])
def test_equal_values_apart_agree(left: str, right: str) -> None:
    """Equal values measured apart are no disagreement, whatever the unit that was typed."""
    standing = apart(left, right).job.places.reading(DONOR, "spacing")
    assert (standing.agreed, len(standing.acts)) == (True, 2)


def test_a_number_and_words_disagree() -> None:
    """A number beside *can't reach* is a disagreement."""
    assert apart("1012", "can't reach").job.places.reading(DONOR, "spacing").agreed is False


def test_a_later_reading_that_saw_both_ends_the_disagreement() -> None:
    """Measured again with both in sight, the new value counts."""
    copy = apart("1012", "1013")
    copy.call(DONOR, read("spacing", "1012.5"))
    assert copy.job.places.reading(DONOR, "spacing").value == Fraction("1012.5")


def test_ticks_that_disagree_count_as_no() -> None:
    """Yes here and no there: the check counts as no, and the step says that they disagree."""
    copy = Copy()
    other = copy.split("other")
    copy.call(MARK, tick("scribed", yes=True))
    other.call(MARK, tick("scribed", yes=False))
    job = copy.take(other).job
    standing = job.places.tick(MARK, "scribed")
    assert (standing.value, standing.agreed) == (False, False)
    problems = step_problems(job, MARK)
    assert "Scribed line past the old and the new place? a disagreement; it counts as no" in problems


def test_givens_that_disagree_count_as_unknown() -> None:
    """Two heights wanted apart: neither counts, and the job says so until it is settled."""
    copy = Copy()
    other = copy.split("other")
    copy.call(None, given("step-height", "400"))
    other.call(None, given("step-height", "410"))
    copy.take(other)
    assert copy.job.places.given("step-height").value is None
    assert "step-height: a disagreement; it counts as not known" in job_problems(copy.job)
    copy.call(None, settle("step-height", "410"))
    assert copy.job.places.given("step-height").value == 410
    assert job_problems(copy.job) == []


def test_two_readings_of_one_place_in_one_call() -> None:
    """The later of two in one call has seen the earlier, and counts."""
    copy = Copy()
    copy.call(DONOR, read("spacing", "1012"), read("spacing", "1013"))
    assert copy.job.places.reading(DONOR, "spacing").value == 1013


def test_the_doubt_of_the_instrument_really_used_counts() -> None:
    """An act's own doubt stands in the place of the template's."""
    copy = Copy()
    copy.call("height", lambda draft: draft.add(ReadingAct("gap", 0.9, "mm", "0.9", doubt=0.05)))
    assert copy.job.now.verdict("height", "gap") == "within"


def test_the_doubt_of_a_target_is_carried_through_its_working_out() -> None:
    """Half of a difference of two readings of 1.0 mm each has the doubt sqrt(0.5² + 0.5²), JCGM 100 5.1.3."""
    job = surveyed().job
    ref = job.plan.resolve("shift.left_inboard", job.steps[MARK])
    assert ref is not None
    assert job.now.doubt(ref) == pytest.approx(0.5**0.5)


@pytest.mark.parametrize("typed", ["0.85", "1", "1.1", "1.19"])
def test_too_close_to_call_says_what_to_do(typed: str) -> None:
    """At most 1 mm, sure to 0.2 mm: no chance invites a yes; it counts as outside, or is measured finer."""
    copy = Copy()
    copy.call("height", read("gap", typed))
    [problem] = [one for one in step_problems(copy.job, "height") if one.startswith("gap")]
    advice = "count it as outside, or measure with a finer instrument"
    assert problem == f"gap: {typed} mm is too close to call (at most 1 mm; {advice})"


def test_no_room_between_the_guards_shows_nothing_within() -> None:
    """Where twice the doubt is the whole tolerance, record and working-out both call the middle too close."""
    limits = Limits(low=Fraction(0), high=Fraction(1))
    assert plain_verdict(Fraction(1, 2), limits, Fraction(1, 2)) == "too close to call"
    assert plain_verdict(Fraction(1, 2), limits, Fraction(499, 1000)) == "within"
    assert calculate("verdict", {"value": Fraction(1, 2), "uncertainty": Fraction(1, 2), "low": 0, "high": 1}).values[
        "verdict"] == "too close to call"  # fmt: skip
