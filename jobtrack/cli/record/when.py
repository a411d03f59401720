"""When something was done: a time as RFC 3339 writes it, refused with its reason, asked about where it is odd."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone

from msgspec import Struct

from jobtrack.cli.saying import BadInput
from jobtrack.job.state.job import Job
from jobtrack.store.machine import now

DATE_TIME = re.compile(
    r"([0-9]{4})-([0-9]{2})-([0-9]{2})[Tt ]([0-9]{2}):([0-9]{2}):([0-9]{2})(?:\.([0-9]+))?"
    r"([Zz]|([+-])([0-9]{2}):([0-9]{2}))?"
)
"""RFC 3339, 5.6, `date-time`; the offset may be left out, and then local time is meant."""
STRANGE: tuple[tuple[str, str], ...] = (
    (r"[0-9]{4}-?W.*", "weeks aren't read; write month and day"),
    (r"[0-9]{4}-[0-9]{3}(?:[Tt ].*)?", "days of the year aren't read; write month and day"),
    (r"[0-9]{4}-[0-9]{2}-[0-9]{2}", "the time of day is missing"),
    (r".*[+-][0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.[0-9]+)?", "an offset has hours and minutes, no seconds"),
    (r".*[0-9][+-][0-9]{2}(?:[0-9]{2})?", "an offset is written +01:00"),
    (r"[0-9-]+[Tt ][0-9]{2}:[0-9]{2}(?:[Zz]|[+-][0-9:]+)?", "the seconds are missing"),
    (r".*[0-9],[0-9].*", "parts of a second stand behind a dot"),
)
"""What is often written instead, and what is wrong with it."""
ODDLY_EARLY = timedelta(days=366)
"""So long before its job was begun somebody has likely typed another year."""
AHEAD = timedelta(minutes=5)
"""So far two clocks may be apart."""


class When(Struct, frozen=True):
    """When something was done, and when it was typed in where that is later."""

    at: datetime
    typed_at: datetime | None = None
    remarks: tuple[str, ...] = ()
    """What was taken, and what is asked, a sentence each."""


def when(text: str | None, job: Job) -> When:
    """The time that was typed; now, where none was. Raises BadInput."""
    typed = now.local_now()
    if text is None:
        return When(typed)
    at = _read(text)
    remarks = []
    if at.tzinfo is None:
        at = _local(at, text)
        remarks.append(f"--at {text} has no offset from UTC; taken as local time, {at.isoformat()}")
    remarks += _questions(text, at, typed, job)
    return When(at, typed if typed > at else None, tuple(remarks))


def _read(text: str) -> datetime:
    found = DATE_TIME.fullmatch(text)
    if found is None:
        why = next((why for shape, why in STRANGE if re.fullmatch(shape, text)), "")
        raise _refused(text, why)
    if found[6] == "60":
        raise _refused(text, "a job file can't hold a leap second; write 59")
    year, month, day, hour, minute, second = (int(one) for one in found.group(1, 2, 3, 4, 5, 6))
    part = int((found[7] or "0")[:6].ljust(6, "0"))
    try:
        at = datetime(year, month, day, hour, minute, second, part)
        return at if found[8] is None else at.replace(tzinfo=_offset(found))
    except ValueError as error:
        raise _refused(text, str(error)) from None


def _offset(found: re.Match[str]) -> timezone:
    if found[9] is None:
        return UTC
    hours, minutes = int(found[10]), int(found[11])
    if hours > 23 or minutes > 59:
        raise ValueError("an offset is at most 23:59")
    return timezone((-1 if found[9] == "-" else 1) * timedelta(hours=hours, minutes=minutes))


def _local(at: datetime, text: str) -> datetime:
    """The same in local time. Raises BadInput where its offset then isn't known, or can't be written."""
    try:
        local = at.astimezone()
        offset = local.utcoffset() or timedelta(0)
    except (ValueError, OverflowError, OSError):
        raise _refused(text, "the local offset at that time isn't known here; write one, as +01:00") from None
    if offset % timedelta(minutes=1):
        raise _refused(text, f"the local offset then was {offset}, with seconds; write one, as +01:00")
    return local


def _questions(text: str, at: datetime, typed: datetime, job: Job) -> Iterator[str]:
    entries = job.view.entries
    begun = (entries[0].typed_at or entries[0].at) if entries else typed
    if at - typed > AHEAD:
        yield _asked(f"--at {text} is still to come (it is {typed.isoformat()} now)")
    elif begun - at > ODDLY_EARLY:
        yield _asked(f"--at {text} is more than a year before this job was begun ({begun:%Y-%m-%d})")


def _asked(what: str) -> str:
    return f"{what}: is it right? It is recorded as typed; --undo takes it back."


def _refused(text: str, why: str) -> BadInput:
    behind = f": {why}" if why else ""
    return BadInput(f"--at wants a time as 2031-04-02T09:41:07+01:00 (RFC 3339), not {text!r}{behind}")
