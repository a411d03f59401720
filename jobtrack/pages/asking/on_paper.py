"""When something was done that is typed in afterwards from paper: read, and said back."""

from __future__ import annotations

import re
from datetime import datetime, time

from jobtrack.pages.asking.hours import day_meant
from jobtrack.units.names import printable

CLOCK = re.compile(r"(\d{1,2})[:.](\d{2})", re.ASCII)


def done_at(day: str, clock: str, now: datetime) -> datetime:
    """A day as of hours typed afterwards and a time of day, in local time. Raises ValueError with what to type."""
    found = CLOCK.fullmatch(clock.strip())
    if found is None or int(found[1]) > 23 or int(found[2]) > 59:
        raise ValueError(f"Type the time of day as 16:20; not {printable(clock)!r}.")
    at = datetime.combine(day_meant(day, now.date()), time(int(found[1]), int(found[2]))).astimezone()
    if at > now:
        raise ValueError(f"{day_and_time(at)} is still to come; type when it was done.")
    return at


def day_and_time(at: datetime) -> str:
    """ "Wednesday 14 May 2031, 16:20"."""
    return f"{at:%A} {at.day} {at:%B %Y, %H:%M}"


def on_paper_words(at: datetime, can_end: bool) -> str:
    """What stands on the screen while a time is set; `can_end`: Escape ends it here and now."""
    said = f"Typed in from paper: what you record counts as done on {day_and_time(at)}."
    return f"{said} Escape ends it." if can_end else said
