"""The list to buy with: what is missing, and what is on its way, as far as it is recorded; plain text."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from jobtrack.job.acts.doing import ORDERED
from jobtrack.job.doing.parts import PartOf, parts_of
from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.sheets.words.doing.parts import to_buy_rows

NONE = "No part is recorded as missing, asked for or ordered. What lies on the bench wasn't counted: look."
MISSING, ON_THE_WAY = "To get:", "On the way:"


def outstanding(job: Job) -> list[PartOf]:
    """The parts that are missing or on their way."""
    return [one for one in parts_of(job) if one.outstanding]


def to_buy_sections(job: Job) -> list[tuple[str, list[str]]]:
    """What is to be got, then what is on its way, a heading each; without rows a section is left out."""
    found = outstanding(job)
    on_the_way = [one for one in found if one.states == {ORDERED}]
    missing = [one for one in found if one not in on_the_way]
    sections = ((MISSING, missing), (ON_THE_WAY, on_the_way))
    return [(head, list(to_buy_rows(parts))) for head, parts in sections if parts]


def to_buy_text(job: Job, at: datetime) -> str:
    """The list as a text file, people's words made visible."""
    return "".join(f"{visible(row)}\n" for row in _rows(job, at))


def _rows(job: Job, at: datetime) -> Iterator[str]:
    yield f"To buy for: {job.about.title}"
    yield f"Written {at.day} {at:%B %Y, %H:%M}"
    for head, rows in to_buy_sections(job) or [(NONE, [])]:
        yield ""
        yield head
        yield from (f"- {row}" for row in rows)
