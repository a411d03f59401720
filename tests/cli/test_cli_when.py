"""`--at`: what RFC 3339 writes is taken, anything else is refused with its reason, an odd time is asked about."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from jobtrack.store.machine import now
from tests.support.cli_calls import Shop, entries

NOW = datetime(2031, 4, 2, 9, 41, 7, tzinfo=UTC)
WANTED = "--at wants a time as 2031-04-02T09:41:07+01:00 (RFC 3339), not "
ASKED = "is it right? It is recorded as typed; --undo takes it back."


@pytest.fixture(autouse=True)
def fixed_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """The machine's clock stands still, and the job is begun then."""
    monkeypatch.setattr(now, "local_now", lambda: NOW)


@pytest.fixture
def zone(monkeypatch: pytest.MonkeyPatch) -> Iterator[pytest.MonkeyPatch]:
    """A test may set another local time zone."""
    yield monkeypatch
    monkeypatch.undo()
    time.tzset()


def recorded(shop: Shop, at: str) -> tuple[datetime, str]:
    """The time in the file, and what was said on stderr."""
    ended = shop.done("record", shop.job, "--by", "Wim", "--note", "x", "--at", at)
    found: datetime = entries(shop.job)[-1]["at"]
    return found, ended.err


@pytest.mark.parametrize(
    ("text", "utc"),
    [
        # RFC 3339, 5.8, "Examples", first, second and fifth, each with what it says of the same time in UTC
        ("1985-04-12T23:20:50.52Z", datetime(1985, 4, 12, 23, 20, 50, 520_000)),
        ("1996-12-19T16:39:57-08:00", datetime(1996, 12, 20, 0, 39, 57)),
        ("1937-01-01T12:00:27.87+00:20", datetime(1937, 1, 1, 11, 40, 27, 870_000)),
    ],
)
def test_the_standards_examples_are_taken(shop: Shop, text: str, utc: datetime) -> None:
    """Each is recorded as the time that the standard says it is, and asked about, being so long ago."""
    at, said = recorded(shop, text)
    assert at == utc.replace(tzinfo=UTC)
    assert said == f"--at {text} is more than a year before this job was begun (2031-04-02): {ASKED}\n"


@pytest.mark.parametrize("text", ["1990-12-31T23:59:60Z", "1990-12-31T15:59:60-08:00"])
def test_the_standards_leap_seconds_are_refused_for_what_they_are(shop: Shop, text: str) -> None:
    """RFC 3339, 5.8, third and fourth: right, but no job file can hold them."""
    said = shop.refused("--note", "x", "--at", text)
    assert said.strip() == f"{WANTED}{text!r}: a job file can't hold a leap second; write 59"


@pytest.mark.parametrize(
    "text",
    # RFC 3339, 5.6: "T" and "Z" may be lower case, a space may stand between; 4.3: -00:00, offset not known
    ["2031-04-02T09:40:00Z", "2031-04-02t09:40:00z", "2031-04-02 09:40:00Z", "2031-04-02T09:40:00-00:00",
     "2031-04-02t10:40:00+01:00", "2031-04-01T09:41:00-23:59", "2031-04-02T09:40:00.0000000001z"],
)  # fmt: skip
def test_every_form_of_the_standard_is_taken(shop: Shop, text: str) -> None:
    """In either case of letters; nothing is asked about a time of today."""
    at, said = recorded(shop, text)
    assert at == datetime(2031, 4, 2, 9, 40, tzinfo=UTC)
    assert said == ""


REFUSED = {
    "2031-04-02T09:41:07+01:00:30": "an offset has hours and minutes, no seconds",
    "2031-04-02T09:41:07+01:00:30.5": "an offset has hours and minutes, no seconds",
    "2031-04-02T09:41:07+01": "an offset is written +01:00",
    "2031-04-02T09:41:07+0100": "an offset is written +01:00",
    "2031-04-02T09:41:07+24:00": "an offset is at most 23:59",
    "2031-04-02T09:41:07+01:60": "an offset is at most 23:59",
    "2031-W14-3": "weeks aren't read; write month and day",
    "2031-W14-3T09:41:07Z": "weeks aren't read; write month and day",
    "2031W143": "weeks aren't read; write month and day",
    "2031-092": "days of the year aren't read; write month and day",
    "2031-04-02": "the time of day is missing",
    "2031-04-02T09:41": "the seconds are missing",
    "2031-04-02T09:41+01:00": "the seconds are missing",
    "2031-04-02T09:41:07,5Z": "parts of a second stand behind a dot",
    "2031-13-02T09:41:07Z": "month must be in 1..12",
    "2031-02-29T09:41:07Z": "day is out of range for month",
    "2031-04-02T24:00:00Z": "hour must be in 0..23",
    "2031-04-02T09:41:61Z": "second must be in 0..59",
    "0000-04-02T09:41:07Z": "year 0 is out of range",
    "20310402T094107Z": "",
    "\u0662031-04-02T09:41:07Z": "",
    "2031-04-02T09:41:07Z\n": "",
    "2031-04-02T09:41:07Zulu": "",
    "yesterday": "",
    "": "",
}  # fmt: skip


@pytest.mark.parametrize("text", REFUSED, ids=lambda text: repr(text))
def test_anything_else_is_refused_for_its_own_reason(shop: Shop, text: str) -> None:
    """One line with the form that is wanted, what was typed, and why it isn't that."""
    why = REFUSED[text]
    said = shop.refused("--note", "x", "--at", text)
    assert said.strip() == f"{WANTED}{text!r}" + (f": {why}" if why else "")


@pytest.mark.parametrize(
    "text", ["0001-01-01T00:00:00Z", "0001-01-01T00:00:00+23:59", "2030-04-01T09:41:06Z"]
)
def test_a_time_long_before_the_job_is_asked_about(shop: Shop, text: str) -> None:
    """Recorded as typed, with a question."""
    at, said = recorded(shop, text)
    assert at == datetime.fromisoformat(text)
    assert said == f"--at {text} is more than a year before this job was begun (2031-04-02): {ASKED}\n"


@pytest.mark.parametrize(
    "text", ["9999-12-31T23:59:59Z", "9999-12-31T23:59:59-23:59", "2031-04-02T09:46:08Z"]
)
def test_a_time_to_come_is_asked_about(shop: Shop, text: str) -> None:
    """Recorded as typed, with a question; and the job can be read afterwards."""
    at, said = recorded(shop, text)
    assert at == datetime.fromisoformat(text)
    assert said == f"--at {text} is still to come (it is 2031-04-02T09:41:07+00:00 now): {ASKED}\n"
    for command in (["show"], ["show", "--json"], ["hours"], ["intact"]):
        shop.done(command[0], shop.job, *command[1:])


@pytest.mark.parametrize("minutes", [-366 * 24 * 60, -1, 0, 5])
def test_what_two_clocks_may_differ_by_is_not_asked_about(shop: Shop, minutes: int) -> None:
    """Up to a year back, and up to five minutes ahead."""
    text = (NOW + timedelta(minutes=minutes)).isoformat()
    assert recorded(shop, text)[1] == ""


def test_a_local_offset_with_seconds_is_refused_as_that(shop: Shop, zone: pytest.MonkeyPatch) -> None:
    """Where local time was mean time, 19 minutes and 32 seconds ahead in this zone, the seconds are the reason."""
    zone.setenv("TZ", "LMT-0:19:32")
    time.tzset()
    said = shop.refused("--note", "x", "--at", "1890-05-01T10:00:00")
    assert said.strip().endswith("the local offset then was 0:19:32, with seconds; write one, as +01:00")


def test_local_time_in_year_one_says_what_to_write(shop: Shop) -> None:
    """Where the machine doesn't know the offset of local time then, that is the reason."""
    said = shop.refused("--note", "x", "--at", "0001-01-01T00:00:00")
    assert said.strip().endswith("the local offset at that time isn't known here; write one, as +01:00")
