"""Which run of a weld is next, the rod that is remembered, and what finishing leaves open."""

from __future__ import annotations

from functools import partial

from jobtrack.job.compose import doing
from jobtrack.job.remarks.of_step import NotWelded, left_open
from jobtrack.sheets.words.problems import with_ids
from tests.job.doing.rig import STEP, apart, joined, rig, runs
from tests.support.builders import Do, undo


def run(number: str, amps: str = "", rod: str | None = None) -> Do:
    """A run of the weld."""
    return partial(doing.weld, name="pad", run=number, amps=amps, rod=rod)


def test_run_by_run() -> None:
    """The first that nothing is recorded of; an undo asks for it again."""
    copy = rig()
    assert runs(copy).next == "1"
    copy.call(STEP, run("1", "95"))
    assert runs(copy).next == "2"
    copy.call(STEP, run("3"))
    assert runs(copy).next == "2"
    copy.call(STEP, undo)
    copy.call(STEP, run("2", "100"))
    assert (runs(copy).next, runs(copy).left) == ("3", ("3",))
    copy.call(STEP, run("3", "100"))
    assert runs(copy).next is None


def test_the_rod_is_remembered() -> None:
    """That of the run recorded last; a run without one changes nothing."""
    copy = rig()
    assert runs(copy).rod is None
    copy.call(STEP, run("1", "95", "2.5 mm, oven dry"))
    copy.call(STEP, run("2", "95"))
    assert runs(copy).rod == "2.5 mm, oven dry"
    copy.call(STEP, run("1", "95", "3.2 mm"))
    assert runs(copy).rod == "3.2 mm"


def test_what_two_recorded_apart_counts_once() -> None:
    """A run is recorded once somebody has recorded it, whatever the order of arrival."""
    copy = rig()
    other = apart(copy, "other")
    copy.call(STEP, run("1", "95"))
    other.call(STEP, run("1", "97"), run("2", "97"), by="Ada")
    assert runs(joined(copy, other)).left == runs(joined(other, copy)).left == ("3",)


def test_finishing_leaves_open_the_runs_without_an_entry() -> None:
    """As it is said of readings."""
    copy = rig()
    copy.call(STEP, run("2"))
    found = [one for one in left_open(copy.job, STEP) if isinstance(one, NotWelded)]
    assert found == [NotWelded(STEP, "pad", ("1", "3"))]
    assert with_ids(copy.job, found) == ["pad: runs 1 and 3 not recorded"]
