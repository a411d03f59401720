"""Hours across offsets and changes of summer time, held against the zone data of the operating system."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest

from jobtrack.hours.labour import labour
from jobtrack.job.time.clock import times, total_hours
from tests.support.builders import DONOR, RECIPIENT, Copy, clock, note

AMSTERDAM = ZoneInfo("Europe/Amsterdam")


def fixed(at: datetime) -> datetime:
    """A time with the offset that it has, as a job file writes it."""
    return datetime.fromisoformat(at.isoformat())


def night(*at: datetime) -> Copy:
    """A clock on, a note in one step, a note in another, off."""
    copy = Copy()
    dos = (clock("on"), note(), note(), clock("off"))
    for time, step, do in zip(at, (None, DONOR, RECIPIENT, None), dos, strict=True):
        copy.call(step, do, at=time)
    return copy


@pytest.mark.parametrize(
    ("day", "hours"),
    [((2031, 3, 29), 7), ((2031, 10, 25), 9), ((2031, 6, 1), 8)],
    ids=["into summer time", "out of it", "no change"],
)
def test_a_night_counts_the_hours_that_went_by(day: tuple[int, int, int], hours: int) -> None:
    """22:00 to 6:00 is seven hours in the night that loses one, nine in the one that has it twice."""
    began = datetime(*day, 22, tzinfo=AMSTERDAM)
    ended = (began + timedelta(days=1)).replace(hour=6)
    really = (ended.astimezone(UTC) - began.astimezone(UTC)) / timedelta(hours=1)
    between = [(began.astimezone(UTC) + timedelta(hours=one)).astimezone(AMSTERDAM) for one in (3, 5)]
    copy = night(*(fixed(at) for at in (began, *between, ended)))
    assert total_hours(times(copy.job).stretches) == really == hours


@pytest.mark.parametrize("offsets", [(0, 0, 0, 0), (1, 2, 2, 1), (-11, 14, 5.5, -3.5)])
def test_the_offset_that_a_time_is_written_in_changes_no_hours(offsets: tuple[float, ...]) -> None:
    """The same moments written at other offsets give the same hours by step."""
    moments = [datetime(2031, 4, 1, 8, tzinfo=UTC) + timedelta(minutes=one) for one in (0, 50, 170, 200)]
    zones = [timezone(timedelta(hours=one)) for one in offsets]
    copy = night(*(at.astimezone(zone) for at, zone in zip(moments, zones, strict=True)))
    found = labour([copy.job], "step")
    assert found.total_hours == pytest.approx(200 / 60)
    assert {one.key: pytest.approx(one.hours * 60) for one in found.groups if one.hours} == {
        DONOR: 50,
        RECIPIENT: 150,
    }
