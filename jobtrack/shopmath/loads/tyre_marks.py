"""Loads: what is written on a tyre's wall: its size and its date. Length in mm, time in years."""

from __future__ import annotations

import math
import re
from datetime import date, timedelta
from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    ONE,
    Number,
    WorkingOutError,
    at_least,
    gives,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import between, plain
from jobtrack.shopmath.common.threads import INCH
from jobtrack.shopmath.loads.tyre_tables import AGE_ADVICE
from jobtrack.shopmath.quantity import said

NO_ASPECT = 80
"""Percent, where none is printed; some older tyres have 82 (an owners' page)."""

YEAR = Fraction(1461, 4)
"""Days in a year of the working-out."""

_METRIC = re.compile(
    r"(?:P|LT|ST|T)?(\d{2,3}(?:\.\d)?)(?:/(\d{2,3}))?[A-Z]{0,2}?[RDB-](\d{1,2}(?:\.\d)?)(?:C|LT|XL)?"
)
_FLOTATION = re.compile(
    r"(?:LT)?(\d{2}(?:\.\d{1,2})?)X(\d{1,2}(?:\.\d{1,2})?)[RDB-](\d{1,2}(?:\.\d)?)(?:C|LT)?"
)
_SERVICE = re.compile(r"(?<![RDB-])\s\(?\d{2,3}(?:/\d{2,3})?\s?[A-Z]\d?\)?$")
"""Load index and speed letter after the size."""


class TyreSize(NamedTuple):
    """Outside diameter, mm, and turns a kilometre of a new, unloaded tyre."""

    diameter: Number
    turns_per_km: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "tyre-size",
    topic="loads",
    inputs=[takes("size", "text")],
    results=gives(diameter="mm", turns_per_km=shown("ratio", step=ONE)),
    formula="metric w/aRd: diameter = 25.4 d + 2 w a / 100; with the diameter printed first: that times 25.4; "
    "turns = 1000000 divided by (pi times the diameter)",
    source="meaning of the size marks: a rolling-circumference page (mvwautotechniek.nl), an owners' list of 1997 "
    "(team.net), a handbook's tyre chart for sizes that begin with the diameter",
    sentence="{size}: diameter {diameter}, {turns_per_km} turns a km, new and unloaded; "
    "eight sizes of one maker's sheet turn 2.6 to 3 % more under load.",
    example={"size": "195/70R14"},
    remarks=(
        "By the mark alone: a worn or loaded tyre differs by 2 to 4 %; the maker's turns win over it.",
        "Approval tables round rims and heights to whole mm and differ by a mm or two.",
    ),
)
def tyre_size(size: str) -> TyreSize:
    """Diameter by the mark: 25.4 d + 2 w a / 100 mm (w section mm, a percent, d rim in), or printed in inches.

    Turns a km 10^6 / (pi D): geometric, new, unloaded. Source: see the entry; published diameters and turns are
    in the tests, and a rolled polygon is the independent route for the turns. Without an aspect ratio 80 counts.
    Refuses marks that can't be read, widths outside 100 to 400 mm, aspects outside 25 to 100, rims outside 8 to
    26 in, and a printed diameter not above the rim.
    """
    words = " ".join(size.upper().replace("×", "X").split())
    mark = _SERVICE.sub("", words).replace(" ", "")
    if match := _FLOTATION.fullmatch(mark):
        diameter, remarks = _printed_diameter(Fraction(match[1]), Fraction(match[3]))
    elif match := _METRIC.fullmatch(mark):
        diameter, remarks = _from_section(Fraction(match[1]), match[2], Fraction(match[3]))
    else:
        raise WorkingOutError(
            f"size: {said(size)} can't be read; write it as 195/70R14, 195R14, LT285/75R16 or 31x10.50R15"
        )
    return TyreSize(diameter, 10**6 / (math.pi * diameter), remarks)


def _printed_diameter(outside: Fraction, rim: Fraction) -> tuple[Fraction, tuple[str, ...]]:
    between("size: the rim in inches", rim, 8, 26)
    if outside <= rim:
        raise WorkingOutError(
            f"size: a diameter of {plain(outside)} in is not above the rim of {plain(rim)} in; "
            "write the diameter first, as 31x10.50R15"
        )
    return outside * INCH, ()


def _from_section(width: Fraction, aspect: str | None, rim: Fraction) -> tuple[Fraction, tuple[str, ...]]:
    between("size: the width in mm", width, 100, 400)
    percent = Fraction(aspect or NO_ASPECT)
    between("size: the aspect ratio", percent, 25, 100)
    between("size: the rim in inches", rim, 8, 26)
    remark = f"No aspect ratio in the mark: {NO_ASPECT} is taken; some older tyres have 82."
    return rim * INCH + 2 * width * percent / 100, () if aspect else (remark,)


class TyreAge(NamedTuple):
    """The first day of the week the tyre was made in, and its age on a day, years of 365.25 days."""

    week_begins: str
    age: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "tyre-age",
    topic="loads",
    inputs=[takes("date_code", "text"), takes("on", "date")],
    results=gives(week_begins="date", age=at_least("years", against=("5", "6", "7", "10"))),
    formula="four digits are week and year since 2000; week 01 is the first full week, Sunday to Saturday; "
    "age = days since that Sunday divided by 365.25",
    source="49 CFR 574.5 (its opening), a maker's handbook of 2006 (first full week), "
    "574.5(b)(3) from memory (Sunday to Saturday)",
    sentence=f"Made in the week from {{week_begins}}, {{age}} old on {{on}}; {AGE_ADVICE}.",
    example={"date_code": "0301", "on": "2026-06-30"},
    remarks=(
        "Read the date on every tyre, the spare too; it can stand on the inner wall.",
        "Counted from the first day of the week; the tyre is up to six days younger.",
    ),
)
def tyre_age(date_code: str, on: str) -> TyreAge:
    """First day and age from the last four digits of a tyre's mark, as 0301: week 3 of 2001.

    Week 01 is the first full calendar week, Sunday to Saturday, so a year has 52 or 53 weeks. Age in years of
    365.25 days. Source: 49 CFR 574.5 and a maker's handbook; the independent route is the calendar, day by day.
    Refuses anything but four digits (three: a tyre made before 2000, the decade not known), week 00 or above 53,
    and a week that begins after the day asked for. Week 53 in a year without one is taken, with a remark.
    """
    code, today = date_code.strip(), date.fromisoformat(on)
    week, year = _week_and_year(code, today)
    begins = _first_sunday(year) + timedelta(weeks=week - 1)
    if begins > today:
        raise WorkingOutError(
            f"date_code: week {week} of {year} begins on {begins}, after {today}; give a week that has begun"
        )
    remark = f"{year} has no week 53 by the rule of full weeks; makers who count ISO weeks print one."
    stray = week == 53 and begins.year > year
    return TyreAge(begins.isoformat(), (today - begins).days / YEAR, (remark,) if stray else ())


def _week_and_year(code: str, today: date) -> tuple[int, int]:
    if not re.fullmatch(r"\d{3,4}", code, re.ASCII):
        raise WorkingOutError(
            f"date_code: {said(code)} is not four digits; give the last four of the mark, week and year, as 0301"
        )
    week = int(code[:2])
    between("date_code: the week", week, 1, 53)
    if len(code) == 3:
        raise WorkingOutError(_three_digits(week, 1990 + int(code[2]), today))
    return week, 2000 + int(code[2:])


def _three_digits(week: int, year: int, today: date) -> str:
    least = (today - _first_sunday(year) - timedelta(weeks=week - 1)).days / YEAR
    return (
        f"date_code: three digits are week {week} of {year} or of a decade before, the decade is not known: at "
        f"least {max(math.floor(least), 0)} years old on {today}; give four digits, as tyres made since 2000 have them"
    )


def _first_sunday(year: int) -> date:
    first = date(year, 1, 1)
    return first + timedelta(days=6 - first.weekday())
