"""Hours typed afterwards, read and said back before they are recorded."""

from __future__ import annotations

import re
from datetime import date, timedelta
from fractions import Fraction

from jobtrack import units
from jobtrack.pages.wording import counted
from jobtrack.units.names import printable

HOURS_AND_MINUTES = re.compile(r"^(\d+) ?h ?(\d{1,2})$", re.ASCII)
DAYS_AGO = {"": 0, "today": 0, "yesterday": 1}
LONGEST_DAY = 24
"""Hours above which an amount for one day is asked about."""


def hours_text(text: str) -> str:
    """An amount as it is read: 2h30, as clocks are spoken of, is 2 h 30 min."""
    return HOURS_AND_MINUTES.sub(r"\1 h \2 min", text.strip())


def hours_read(text: str) -> Fraction:
    """An amount in hours, as 2.5 or 2 h 30 min. Raises UnitError; ValueError for what is no number above nought."""
    value = units.read(hours_text(text), "h").value
    if value is None or value <= 0:
        raise ValueError("Type hours above nought, as 2.5 or 2 h 30 min.")
    return Fraction(value)


def hours_words(hours: Fraction) -> str:
    """An amount both ways: "2.5 h = 2 h 30 min"; to the nearest minute where it is no whole number of them."""
    minutes = round(hours * 60)
    about = "=" if minutes == hours * 60 else "≈"
    return f"{float(hours):.4g} h {about} {minutes // 60} h {minutes % 60} min"


def day_meant(text: str, today: date) -> date:
    """The day that somebody means: nothing typed is today, 1 is yesterday, 2 the day before; or a date.

    Raises ValueError with what to type instead.
    """
    typed = text.strip()
    if (ago := DAYS_AGO.get(typed.casefold())) is not None:
        return today - timedelta(days=ago)
    if typed.isdecimal() and len(typed) <= 2:
        return today - timedelta(days=int(typed))
    try:
        return date.fromisoformat(typed)
    except ValueError:
        raise ValueError(
            f"Type how many days ago (1 is yesterday), or a date as {today.isoformat()}; not {printable(typed)!r}."
        ) from None


def worked_words(hours: Fraction, whose: str, day: date, today: date) -> str:
    """All of it as it would be recorded, and what is odd about it: "2.5 h = 2 h 30 min by Wim on Friday 2 May 2031"."""
    said = f"{hours_words(hours)} by {whose} on {day:%A} {day.day} {day:%B %Y}"
    return " ".join([f"{said}{_how_long_ago(day, today)}.", *_odd(hours, day, today)])


def _how_long_ago(day: date, today: date) -> str:
    ago = (today - day).days
    near = {0: ", today", 1: ", yesterday"}
    return near.get(ago, f", {counted(ago, 'day')} ago" if ago > 0 else "")


def _odd(hours: Fraction, day: date, today: date) -> list[str]:
    questions = []
    if hours > LONGEST_DAY:
        questions.append("That is more than a day has. Is it typed right?")
    if day > today:
        questions.append("That day is still to come. Is it typed right?")
    return questions
