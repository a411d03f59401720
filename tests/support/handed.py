"""A job handed over on paper, in one of the forms of a sheet."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import datetime

from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.fasteners import TITLE
from jobtrack.sheets.handover.sheet import handover_sheet
from jobtrack.sheets.paper.blocks import Sheet, Table
from jobtrack.sheets.paper.forms import written
from jobtrack.units.chosen import METRIC_FIRST, Chosen

AT = datetime.fromisoformat("2031-06-01T17:00:00+01:00")
"""When it is handed over: after all that the samples and the invented jobs record."""


def handed(
    job: Job,
    by: str = "Wim",
    to: str = "Bo",
    ending: str = ".md",
    said: Mapping[str, str] | None = None,
    shown: Chosen = METRIC_FIRST,
    at: datetime = AT,
) -> str:
    """The sheet as a file of this ending would hold it."""
    return written(handover_sheet(job, by, to, said, shown, at), ending).decode()


def sheet_of(job: Job) -> Sheet:
    """The sheet as data."""
    return handover_sheet(job, "Wim", "Bo", None, METRIC_FIRST, AT)


def bolts_told(job: Job) -> set[str]:
    """The bolts that have a row in a table of the fasteners, by their names."""
    [fasteners] = [one for one in sheet_of(job).sections if one.title == TITLE]
    tables = [block for one in fasteners.sections for block in one.blocks if isinstance(block, Table)]
    return {str(row[0]) for table in tables for row in table.rows}


def unescaped(markdown: str) -> str:
    """Markdown as it is read: without the strokes that keep people's text literal, and without strong stars."""
    return re.sub(r"\\(.)", r"\1", markdown.replace("**", ""))


def section(markdown: str, title: str) -> list[str]:
    """The lines under one heading of a Markdown sheet, down to the next of its size."""
    found = re.search(rf"^## {re.escape(title)}\n(.*?)(?=^## |^\*This|\Z)", markdown, re.M | re.S)
    assert found, f"no section {title!r}"
    return [line for line in found[1].splitlines() if line]
