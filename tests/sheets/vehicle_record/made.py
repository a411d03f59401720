"""Records of small jobs, and what stands on them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

import tomli

from jobtrack.job.about import About
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Section, Sheet, Strong, Table, Text
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.sheets.vehicle_record.pictures import Shown
from jobtrack.sheets.vehicle_record.sections.readings import FREE
from jobtrack.sheets.vehicle_record.sheet import vehicle_record
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from tests.support.builders import START, Copy, entry_id, minutes, template

RATED = {
    "given": {"recipient": {"load": {"ask": "Load on its plate", "unit": "kg"}},
              "donor": {"load": {"ask": "Load on its plate", "unit": "kg"}}},
    "about": "recipient",
    "exchanged": {
        "step": {"vehicle": "recipient", "own": "recipient.load", "gets": "donor.load", "say": "step"},
        "back": {"vehicle": "donor", "own": "donor.load", "gets": "recipient.load", "say": "step",
                 "only_when": {"owner-there": [True]}},
    },
}  # fmt: skip
"""What makes an exchange of the small template."""


def record(
    job: Job,
    vehicle: str = "recipient",
    *including: str,
    shown: Chosen = METRIC_FIRST,
    photos: Shown = MappingProxyType({}),
) -> Sheet:
    """The record as it would be written."""
    return vehicle_record(job, vehicle, including, photos, shown, START)


def forms(sheet: Sheet) -> Iterator[str]:
    """A sheet in each of the three forms."""
    return (written(sheet, ending).decode() for ending in ENDINGS)


def plain(text: Text) -> str:
    """A row of words as one string."""
    parts = (text,) if isinstance(text, str) else text
    return "".join(one if isinstance(one, str) else one.text for one in parts)


def in_section(sheet: Sheet, title: str) -> Section:
    """The section of this name."""
    return next(one for one in sheet.sections if one.title == title)


def rows(section: Section) -> Iterator[tuple[str, ...]]:
    """Every row of the tables of a section and of those in it."""
    for block in section.blocks:
        if isinstance(block, Table):
            yield from (tuple(map(plain, row)) for row in block.rows)
    for inner in section.sections:
        yield from rows(inner)


def stated(sheet: Sheet) -> dict[tuple[str, str], tuple[str, ...]]:
    """Every reading that stands on a record: by step and name, what was wanted, measured, where it lies, with what."""
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for step, name, told in _readings(sheet):
        assert (step, name) not in found
        found[step, name] = told
    return found


def _readings(sheet: Sheet) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    for table in _tables(in_section(sheet, "Readings")):
        step = ""
        for row in table.rows:
            if len(row) == 1:
                step = _strong(row[0])
            else:
                yield step, _name(plain(row[0])), tuple(map(plain, row[1:5]))
    for table in (table for one in sheet.sections if one.title == FREE for table in _tables(one)):
        for (said,) in table.rows:
            for name, value, tool in _in_threes(said[2:]):
                yield _strong(said), name, ("recorded only", value, "", tool)


def _in_threes(text: Text) -> Iterator[tuple[str, str, str]]:
    """What was measured, the value in strong words, with what."""
    parts = [one for one in text if one != " · "]
    for name, value, tool in zip(parts[::3], parts[1::3], parts[2::3], strict=True):
        assert isinstance(name, str)
        assert isinstance(value, Strong)
        assert isinstance(tool, str)
        yield _name(name.removesuffix(": ")), value.text, tool.removeprefix(", ")


def _name(said: str) -> str:
    return said.partition(" · ")[0]


def _strong(text: Text) -> str:
    first = text[0]
    assert isinstance(first, Strong)
    return first.text


def _tables(section: Section) -> Iterator[Table]:
    yield from (one for one in section.blocks if isinstance(one, Table))
    for inner in section.sections:
        yield from _tables(inner)


def numbers(text: str) -> list[float]:
    """The numbers in a text."""
    return [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", text)]


def about_of(data: dict[str, Any]) -> About:
    """What the header of a job file of this template says."""
    raw = write_header({"id": "job-1", "title": "Bay horse-box"}, data)
    header = scan(raw).header
    assert header is not None
    return about_from(tomli.loads(raw.decode()), header.hash)


def merged(data: dict[str, Any], more: Mapping[str, Any]) -> dict[str, Any]:
    """A template's data with more in it."""
    found = {**data}
    for name, value in more.items():
        found[name] = merged(found.get(name, {}), value) if isinstance(value, dict) else value
    return found


def exchange(*givens: tuple[str, str], **more: Any) -> Copy:
    """A job of the small template in which a step goes over, with what was typed at its begin."""
    copy = Copy(Job.fold(about_of(merged(merged(template(), RATED), more)), ()))
    copy.begin(*givens)
    return copy


def put(copy: Copy, step: str | None, *acts: Act, by: str = "Wim") -> Entry:
    """One entry of these acts, as they are."""
    number = len(copy.entries)
    return copy.put(acts, Draft(copy.job, by, minutes(number), step, id=entry_id(number, "as it is")))
