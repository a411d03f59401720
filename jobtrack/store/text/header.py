"""What a job file's header says: the job, and the template that it was begun from.

A header of a newer format is read as far as it is understood, and what it says beside that is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

import tomli

from jobtrack import units
from jobtrack.job.about import About
from jobtrack.schema.bounds import beyond_bounds
from jobtrack.schema.key_lines import place_of, places
from jobtrack.schema.problem import Key, Problem, dotted
from jobtrack.schema.values import LONGEST_NAME, Shape
from jobtrack.template.guard import check_feeding
from jobtrack.template.load import TemplateError, as_error, build_as
from jobtrack.template.model import Template
from jobtrack.template.plan import Plan, plan

FORMAT = 1
"""The format that this program writes."""
TEMPLATE = b"\n[template]\n"
"""Where the part of a header begins that is the same in every job of one template."""
LONGEST_HEAD = 4096
"""Bytes of the part before it, where a program wrote it."""
KEPT = 8
"""So many templates are kept read: a folder of jobs holds each of its few templates many times."""


class HeaderError(ValueError):
    """A header that can't be understood: why, and at which line of the file."""

    def __init__(self, why: str, line: int = 1, newer: int | None = None) -> None:
        super().__init__(why)
        self.line = line
        self.newer = newer
        """The format, where it is newer than this program."""


def about_from(header: Mapping[str, Any], hash: str) -> About:
    """What the tables of a header say. Raises TemplateError, its key from the top of the header."""
    number = header.get("format")
    if type(number) is not int or number < FORMAT:
        raise as_error(Problem(("format",), "no format of a job file", f"It begins with format = {FORMAT}"))
    shape = Shape(newer=number > FORMAT)
    job, template = _table(header, "job"), _table(header, "template")
    planned = _planned(template, shape)
    if not shape.newer:
        return About(_name(job, "id"), _name(job, "title"), planned, hash)
    return About(_name(job, "id"), _name(job, "title"), planned, hash, number, _unknown(header, shape))


def _table(header: Mapping[str, Any], key: str) -> dict[str, Any]:
    table = header.get(key)
    if not isinstance(table, dict):
        raise as_error(Problem((key,), "is no table", f"A header holds a table [{key}]"))
    return table


def _name(job: Mapping[str, Any], key: str) -> str:
    name = job.get(key)
    if not isinstance(name, str) or len(name) > LONGEST_NAME:
        mend = f"Write a text of at most {LONGEST_NAME} characters"
        raise as_error(Problem(("job", key), f"is no {key} of a job", mend))
    return name


def _planned(template: dict[str, Any], shape: Shape) -> Plan:
    try:
        built = build_as(template, shape)
        planned = plan(built)
        for problem in (*_units(built), *check_feeding(planned)):
            raise as_error(problem)
    except TemplateError as error:
        error.key = ("template", *error.key)
        raise
    return planned


def _units(template: Template) -> Iterator[Problem]:
    """Every unit in which numbers couldn't be shown."""
    named: list[tuple[Key, str | None]] = [
        (("given", *name.split("."), "unit"), given.unit) for name, given in template.given.items()
    ]
    for base, step in template.step.items():
        named += [
            (("step", base, "reading", name, "unit"), reading.unit) for name, reading in step.reading.items()
        ]
    for key, unit in named:
        if unit is not None and not units.known(unit):
            yield Problem(key, f"no unit {unit[:40]!r} is known", "Write a unit of the trade, as mm")


def _unknown(header: Mapping[str, Any], shape: Shape) -> tuple[str, ...]:
    known = {"format", "job", "template"}
    keys: list[Key] = [(key,) for key in header if key not in known]
    keys += [("job", key) for key in header["job"] if key not in ("id", "title")]
    keys += [("template", *key) for key in shape.passed_over]
    return tuple(dotted(key)[:LONGEST_NAME] for key in keys)


def read_header(data: bytes, hash: str) -> About:
    """What the bytes of a header, without its own hash, say. Raises HeaderError."""
    return _with_known_template(data, hash) or _read_whole(data, hash)


def _with_known_template(data: bytes, hash: str) -> About | None:
    """A header whose template is read once for all jobs that hold it; None where it is to be read as a whole.

    Each part is TOML by itself, and they share no key: so together they say what they say apart.
    """
    head, mark, text = data.partition(TEMPLATE)
    if not mark or len(head) > LONGEST_HEAD or beyond_bounds(head):
        return None
    try:
        table = tomli.loads(head.decode())
        if table.keys() != {"format", "job"} or type(table["format"]) is not int or table["format"] != FORMAT:
            return None
        job = _table(table, "job")
        planned = _known_plan(mark + text)
        return About(_name(job, "id"), _name(job, "title"), planned, hash) if planned is not None else None
    except ValueError:
        return None


@lru_cache(KEPT)
def _known_plan(text: bytes) -> Plan | None:
    """The plan of a text that is one template and nothing else; None for any other, which is then said elsewhere."""
    if beyond_bounds(text):
        return None
    try:
        table = tomli.loads(text.decode())
        return _planned(_table(table, "template"), Shape()) if table.keys() == {"template"} else None
    except ValueError:
        return None


def _read_whole(data: bytes, hash: str) -> About:
    if beyond := beyond_bounds(data):
        raise HeaderError(beyond[1], beyond[0])
    newer = None
    text = ""
    try:
        text = data.decode()
        table = tomli.loads(text)
        number = table.get("format")
        newer = number if type(number) is int and number > FORMAT else None
        return about_from(table, hash)
    except UnicodeDecodeError as error:
        raise HeaderError("not UTF-8 text", data.count(b"\n", 0, error.start) + 1) from error
    except tomli.TOMLDecodeError as error:
        raise HeaderError(error.msg, error.lineno) from error
    except TemplateError as error:
        raise HeaderError(str(error), place_of(error.key, places(text))[0], newer) from error
