"""The page of parts and tools: those of the step first; and the page of what is to be bought."""

from __future__ import annotations

from jobtrack.job.doing.parts import PartOf, ToolAt, parts_of, tools_of
from jobtrack.job.state.job import Job
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import step_name
from jobtrack.sheets.to_buy import NONE, to_buy_sections
from jobtrack.sheets.words.doing.parts import NOTHING, before_words, part_title, place_words, recorded_words

Kept = PartOf | ToolAt
NO_PARTS = "The template of this job names no part and no tool here."
OF_JOB, OTHERS, TOOLS = "Parts of the job", "Other parts of the job", "Tools"


def kept(job: Job, step: str | None) -> list[Kept]:
    """Parts of the step, other parts, tools: what the page lists, in its order."""
    return [*parts_of(job, step), *tools_of(job, step)]


def head_of(job: Job, step: str | None, listed: list[Kept], number: int) -> str:
    """The heading above one of those listed, where it is the first of its kind; else empty."""
    own = _head(job, step, listed, number)
    return own if number == 0 or _head(job, step, listed, number - 1) != own else ""


def _head(job: Job, step: str | None, listed: list[Kept], number: int) -> str:
    one, first = listed[number], listed[0]
    if isinstance(one, ToolAt):
        return TOOLS
    if step is not None and one.of_step is not None:
        return f"Parts of “{step_name(job.steps[step])}”"
    return OTHERS if isinstance(first, PartOf) and first.of_step is not None else OF_JOB


def title_words(one: Kept) -> str:
    """What it is, and how many are wanted from where."""
    return one.name if isinstance(one, ToolAt) else part_title(one)


def more_lines(job: Job, step: str | None, one: Kept, width: int, chosen: bool) -> list[Line]:
    """What is recorded of it, under its title; of the chosen one also before what it is wanted."""
    texts = place_words(one.places) if isinstance(one, ToolAt) else recorded_words(job, one, step)
    before = before_words(job, one) if chosen and isinstance(one, PartOf) else ""
    return [
        row for text in (*(texts or [NOTHING]), before) if text for row in wrap(f"      {text}", width, "", 8)
    ]


def to_buy_page(job: Job, width: int) -> list[Line]:
    """What is missing and what is on its way, or the honest sentence."""
    lines = wrap(f"To buy for {job.about.title}", width, "strong")
    for head, rows in to_buy_sections(job):
        lines += [line(), *wrap(head, width, "strong")]
        lines += [row for text in rows for row in wrap(f"- {text}", width, "", 2)]
    return lines if to_buy_sections(job) else [*lines, line(), *wrap(NONE, width)]
