"""Hostile text in every free text of a job's template and entries is text on every sheet, page and table.

Each is held against the same job with as many plain letters in the place of that text: elements, headings, lists and
tables are the same. A new kind of act, and a new field of an act or of the template, falls in by itself.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator, Sequence
from datetime import datetime, timedelta, timezone
from functools import cache
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token
from msgspec import Struct

from jobtrack import sheets
from jobtrack.hours.labour import KEYS, labour
from jobtrack.job.acts.doing import PhotoAct
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.people import SAID
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.pages.job.conditions import all_lines, top_lines
from jobtrack.pages.job.page import job_page
from jobtrack.pages.job.parts import to_buy_page
from jobtrack.pages.paper import paper_lines
from jobtrack.pages.step.page import step_page
from jobtrack.pages.typeset import Line
from jobtrack.sheets.csv_text import BEGINS_A_FORMULA, hours_csv
from jobtrack.sheets.handover.sheet import handover_sheet
from jobtrack.sheets.job_card.sheet import job_card
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.paper.blocks import Photo, Sheet
from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.tag.sheet import tag_sheet
from jobtrack.sheets.vehicle_record.private import MAY_BE_INCLUDED
from jobtrack.sheets.vehicle_record.sheet import vehicle_record
from jobtrack.template import model
from jobtrack.units.chosen import METRIC_FIRST
from tests.sheets.paper.every_block import PIXEL
from tests.sheets.paper.test_hostile import BREAKING_OUT, read
from tests.support.said_everywhere import job_saying
from tests.support.spiteful import RAW

AT = datetime(2031, 5, 15, 15, 45, tzinfo=timezone(timedelta(hours=1)))
WORST = "=1+1</style><script>x()</script>]]>-->&#60;i>{{7*7}}{%x%}[a](http://x.com)`c`**b** <b>\x1b[31m\x1b]8;;u\x07"
WORST += "\x9b2J\u202e\u2066\u200b\u2028\r\n# h\n| t | t |\n- p www.x.com a@b.com "
"""What each reader would act on, first what a spreadsheet would; 170 signs of the 200 that a name may have."""
AS_LONG_AS_A_NAME = 170
WIDTH = 80


def _tag(job: Job) -> Sheet:
    sheet = tag_sheet(job, _last(job), AT)
    assert sheet is not None
    return sheet


def _last(job: Job) -> str:
    """Somebody who recorded in it, whose name says what all of it says."""
    return job.view.entries[-1].by


def _handover(job: Job, to: str = "Ada") -> Sheet:
    by = _last(job)
    return handover_sheet(job, by, f"{by} {to}" if to else by, dict.fromkeys(SAID, by), METRIC_FIRST, AT)


def _record(job: Job, vehicle: str, including: Sequence[str]) -> Sheet:
    names = [done.act.photo for done in job.view.of_kind(PhotoAct) if isinstance(done.act, PhotoAct)]
    photos = {name: Photo(PIXEL, "image/png", name) for name in names}
    return vehicle_record(job, vehicle, including, photos, METRIC_FIRST, AT)


SHEETS: dict[str, Callable[[Job], Sheet]] = {
    "tag": _tag,
    "handover": _handover,
    "handover to oneself": lambda job: _handover(job, ""),
    "job-card": lambda job: job_card(job, METRIC_FIRST, AT, empty=False),
    "job-card empty": lambda job: job_card(job, METRIC_FIRST.turned, AT, empty=True),
    "vehicle-record": lambda job: _record(job, "recipient", ()),
    "vehicle-record with all": lambda job: _record(job, "donor", MAY_BE_INCLUDED),
}
"""Every sheet; the first word is its kind."""


def test_every_sheet_is_in_the_table() -> None:
    """A folder of `sheets/` that has a sheet has a row above."""
    kinds = {path.parent.name.replace("_", "-") for path in Path(sheets.__file__).parent.glob("*/sheet.py")}
    assert kinds == {name.partition(" ")[0] for name in SHEETS}


@cache
def job_with(hostile: str) -> Job:
    return job_saying(lambda text: f"{hostile}{text}")


def harmless(hostile: str) -> Job:
    """The same job with plain letters there, as many; blanks and the ends of lines, which are paragraphs', stay."""
    return job_with(re.sub(r"[^ \n]", "x", hostile))


def elements(sheet: Sheet) -> list[tuple[str, ...]]:
    return read(sheet).tags


def markdown_parts(sheet: Sheet) -> list[str]:
    """What a reader of Markdown that makes links of addresses finds, without words, strokes and strong ones."""
    reader = MarkdownIt("commonmark", {"linkify": True}).enable(["table", "linkify", "strikethrough"])
    tokens = reader.parse(written(sheet, ".md").decode())
    plain = (
        "inline",
        "text",
        "text_special",
        "softbreak",
        "strong_open",
        "strong_close",
        "em_open",
        "em_close",
    )
    return [one.type for one in _every(tokens) if one.type not in plain and not _between_a_mail_address(one)]


def _every(tokens: list[Token]) -> Iterator[Token]:
    for one in tokens:
        yield one
        yield from one.children or ()


def _between_a_mail_address(one: Token) -> bool:
    """Code that `md` puts there itself."""
    return one.type == "code_inline" and set(one.content) == {"@"}


def check_sheet(name: str, hostile: str) -> None:
    """One sheet in its three forms and on a page of the app."""
    bad, plain = SHEETS[name](job_with(hostile)), SHEETS[name](harmless(hostile))
    assert bad.kind == name.partition(" ")[0]
    assert elements(bad) == elements(plain)
    assert markdown_parts(bad) == markdown_parts(plain)
    assert visible(hostile).strip() in "".join(read(bad).texts)
    for ending in (".html", ".md", ".txt"):
        assert not RAW.search(written(bad, ending).decode())
    assert not RAW.search("\n".join(line.plain for line in paper_lines(bad, WIDTH)))


def page_lines(job: Job) -> Iterator[Line]:
    """What pages of the app show of it: the job, what is open, what is to be bought, each step whole."""
    yield from (
        *job_page(job, WIDTH),
        *all_lines(job, WIDTH),
        *top_lines(job, WIDTH),
        *to_buy_page(job, WIDTH),
    )
    for planned in job.steps.values():
        yield from step_page(job, planned, WIDTH, None, True, True)


def check_terminal(hostile: str) -> None:
    """`show`, and pages of the app: nothing that a terminal acts on, and no row of its own."""
    bad, plain = job_with(hostile), harmless(hostile)
    assert not RAW.search(job_text(bad))
    assert job_text(bad).count("\n") == job_text(plain).count("\n")
    assert job_text(bad).count(visible(hostile).strip()) > 80
    shown = "\n".join(line.plain for line in page_lines(bad))
    assert not RAW.search(shown)
    assert re.sub(r"\s", "", shown).count(re.sub(r"\s", "", visible(hostile))) > 40


def check_tables(hostile: str) -> None:
    """No cell begins a formula, whoever parts the cells at a comma or a semicolon, and none has a row of its own."""
    cells = [cell for per in KEYS for cell in _cells(hours_csv(labour([job_with(hostile)], per)))]
    assert any(visible(hostile).strip() in cell for cell in cells)
    assert not any(cell.startswith(BEGINS_A_FORMULA) or RAW.search(cell) for cell in cells)


def _cells(table: str) -> list[str]:
    rows = list(csv.reader(StringIO(table, newline=""), strict=True))
    assert {len(row) for row in rows} == {3}
    assert table.count("\n") == len(rows)
    return [cell for row in rows for cell in row]


def check_all(hostile: str) -> None:
    for name in SHEETS:
        check_sheet(name, hostile)
    check_terminal(hostile)
    check_tables(hostile)


def test_every_act_and_every_table_of_a_template_says_it() -> None:
    """No kind of act is left out but the undoing, which takes the last one away; no class of the template's model."""
    job = job_with(WORST)
    assert {type(act) for entry in job.view.entries for act in entry.did} == {*KINDS.values()} - {UndoesAct}
    declared = {one for one in vars(model).values() if isinstance(one, type) and issubclass(one, Struct)}
    assert declared - {*_structs(job.plan.template)} == {Struct, model.Exchanged}
    assert all(len(one) < 200 for one in (job.about.title, *(entry.by for entry in job.view.entries)))


def _structs(value: object) -> Iterator[type]:
    if isinstance(value, Struct):
        yield type(value)
        yield from (one for name in value.__struct_fields__ for one in _structs(getattr(value, name)))
    elif isinstance(value, dict | tuple):
        yield from (
            one for each in (value.values() if isinstance(value, dict) else value) for one in _structs(each)
        )


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet_holds_the_worst_as_text(name: str) -> None:
    """HTML, Markdown, plain text and the page of the app."""
    check_sheet(name, WORST)


def test_terminal_and_tables_hold_the_worst_as_text() -> None:
    """`show`, pages, and the table of hours under each heading."""
    check_terminal(WORST)
    check_tables(WORST)


PIECES = [
    *BREAKING_OUT,
    *"<>\"'&{}%#`*_[]()|~\\-+=@:/! \n\t\x00\x1b\u202e",
    "a",
    "1.",
    "---",
    "```",
    "http://x.com",
]


@settings(max_examples=3, derandomize=True, database=None)
@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=5).map("".join))
def test_any_mixture_is_text_everywhere(typed: str) -> None:
    """Whatever is put together of what any of the readers gives a meaning."""
    check_all(f"{typed[:AS_LONG_AS_A_NAME]}q")
