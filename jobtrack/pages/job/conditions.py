"""What is recorded as open, the worst first: what endangers somebody before what is to be asked."""

from __future__ import annotations

from rich.cells import cell_len

from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, Span, line, rows, shortened
from jobtrack.pages.wording import NO_CONDITION
from jobtrack.sheets.words.sentences import tag_or_words, worst_first
from jobtrack.template.plan import PlannedStep

MOST = 4
"""Lines that the open conditions take at the top of a screen."""
JOB_KEY = "j"
"""The key of the page on which everything that is open stands whole."""


def condition_sentence(one: OpenCondition) -> str:
    """One condition in words, with its tag and why it is still open where somebody might think otherwise."""
    tag = f"{one.tag}: " if one.tag else ""
    remark = f"; {one.remark}" if one.remark else ""
    return f"{tag}{one.words}{remark}"


def top_lines(job: Job, width: int, most: int = MOST, here: PlannedStep | None = None) -> list[Line]:
    """At most `most` rows: as many of the worst in words as fit, then every other one by its tag, none of them cut."""
    found = worst_first(job, here)
    if not found:
        return [Line((Span(row),)) for row in rows(NO_CONDITION, width)]
    for shown in range(min(len(found), most), -1, -1):
        top = [row for one in found[:shown] for row in _whole(one, width)]
        more = _more(found[shown:], bool(shown), width)
        if len(top) + len(more) <= most:
            return [*top, *more]
    return _too_long(found, width, most)


def open_names(job: Job, here: PlannedStep | None = None) -> list[str]:
    """What is open by its tag, or in words where it has none, the worst first."""
    return [tag_or_words(one) for one in worst_first(job, here)]


def tag_lines(job: Job, width: int, here: PlannedStep | None = None) -> list[Line]:
    """One row: what is open, by tag or in words, the worst first, as many whole as fit, and how many more there are."""
    names = open_names(job, here)
    if not names:
        return [line(row, "strong") for row in rows(NO_CONDITION, width)]
    for shown in range(len(names), 0, -1):
        row = f"{len(names)} open: {', '.join(names[:shown])}{_and_more(len(names) - shown)}"
        if cell_len(visible(row)) <= width:
            return [line(row, "strong")]
    tail = f"{_and_more(len(names) - 1) or ' …'}, {named(JOB_KEY, 'job-page')} shows it"
    return [line(shortened(f"{len(names)} open: {names[0]}", width - len(tail)) + tail, "strong")]


def _and_more(more: int) -> str:
    return f" and {more} more" if more else ""


def _too_long(found: list[OpenCondition], width: int, most: int) -> list[Line]:
    """What is far too long for the top of a screen: how it begins, and where it stands whole."""
    others = f"; {len(found) - 1} more open" if len(found) > 1 else ""
    return [
        *_whole(found[0], width)[: most - 1],
        line(shortened(f"… {named(JOB_KEY, 'job-page')} shows it whole{others}", width), "strong"),
    ]


def _bold_tag(row: str, one: OpenCondition) -> Line:
    """A condition's first row, what it begins with in bold."""
    bold = len(f"Open: {one.tag}:") if one.tag else len("Open:")
    return Line((Span(row[:bold], "strong"), Span(row[bold:])))


def _more(more: list[OpenCondition], others: bool, width: int) -> list[Line]:
    """The rest by tag, or in words where one has none, and how many they are."""
    if not more:
        return []
    named = ", ".join(tag_or_words(one) for one in more)
    count = f"and {len(more)} more open" if others else f"{len(more)} open"
    return [Line((Span(row, "strong"),)) for row in rows(f"{count}: {named}", width)]


def all_lines(job: Job, width: int) -> list[Line]:
    """Every open condition at full length, or the honest sentence."""
    found = worst_first(job)
    if not found:
        return [Line((Span(row),)) for row in rows(NO_CONDITION, width)]
    return [line for one in found for line in _whole(one, width)]


def _whole(one: OpenCondition, width: int) -> list[Line]:
    """One condition at full length, its further rows set in."""
    first, *more = rows(f"Open: {condition_sentence(one)}", width)
    rest = rows(" ".join(more), width - 2) if more else []
    return [_bold_tag(first, one), *(Line((Span(f"  {row}"),)) for row in rest)]
