"""Times on a sheet with their zone: said once in its head, and beside each time that was recorded in another."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from jobtrack.job.state.job import Job
from jobtrack.sheets.words.zones import Times, zone_words
from tests.support.builders import Copy, about, note
from tests.support.handed import handed, unescaped


def at(text: str) -> datetime:
    return datetime.fromisoformat(text)


def times(*recorded: str) -> Times:
    copy = Copy(Job.fold(about(), ()))
    for one in recorded:
        copy.call(None, note(), at=at(one))
    return Times(copy.job)


def test_one_zone_is_said_once() -> None:
    """In the head, and beside no time."""
    found = times("2031-04-01T09:00:00+01:00", "2031-04-01T10:00:00+01:00")
    assert found.head == "Times are local, UTC+01:00."
    assert found.said(at("2031-04-01T09:41:59+01:00")) == "1 Apr 09:41"
    assert found.said(at("2031-04-01T09:41:00+01:00"), year=True) == "1 Apr 2031 09:41"


def test_a_time_of_another_zone_says_so() -> None:
    """After the clocks went forward, with as many entries before as after: the zone is the last entry's."""
    found = times("2031-03-29T09:00:00+01:00", "2031-03-30T09:00:00+02:00")
    assert found.head == "Times are local, UTC+02:00 where nothing else is said."
    assert found.said(at("2031-03-29T09:00:00+01:00")) == "29 Mar 09:00 UTC+01:00"
    assert found.said(at("2031-03-30T09:00:00+02:00")) == "30 Mar 09:00"


def test_the_zone_is_that_of_most_entries() -> None:
    """A laptop whose zone was never set writes one entry: the other times don't all say theirs for it."""
    found = times("2031-04-01T09:00:00+01:00", "2031-04-01T10:00:00+01:00", "2031-04-01T09:30:00+00:00")
    assert found.head == "Times are local, UTC+01:00 where nothing else is said."
    assert found.said(at("2031-04-01T10:00:00+01:00")) == "1 Apr 10:00"
    assert found.said(at("2031-04-01T09:30:00+00:00")) == "1 Apr 09:30 UTC"


def test_without_an_entry_no_zone_is_made_up() -> None:
    """A job with nothing recorded."""
    found = times()
    assert found.head == "Times are local."
    assert found.said(at("2031-04-01T09:41:00+01:00")) == "1 Apr 09:41 UTC+01:00"


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "UTC"),
        (60, "UTC+01:00"),
        (345, "UTC+05:45"),
        (-210, "UTC-03:30"),
        (-30, "UTC-00:30"),
        (840, "UTC+14:00"),
    ],
)
def test_a_zone_in_words(minutes: int, words: str) -> None:
    """As ISO 8601 writes an offset: sign, two digits each; UTC where there is none."""
    assert zone_words(timedelta(minutes=minutes)) == words


def test_the_handover_says_zones() -> None:
    """In its head, and beside what was recorded elsewhere."""
    copy = Copy(Job.fold(about(), ()))
    copy.call("mark.left", note("in the other country"), at=at("2031-03-29T09:00:00-05:00"))
    copy.call("mark.left", note("here"), at=at("2031-03-30T09:00:00+01:00"))
    sheet = unescaped(handed(copy.job))
    assert "Times are local, UTC+01:00 where nothing else is said." in sheet
    assert "Note: in the other country (Wim, 29 Mar 09:00 UTC-05:00)" in sheet
    assert "Note: here (Wim, 30 Mar 09:00)" in sheet
