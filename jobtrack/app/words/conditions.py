"""What is recorded as open, the worst first: what can't be read, what forbids the step at hand, what has a tag."""

from __future__ import annotations

from jobtrack.app.paper import Line, Span, rows, shortened
from jobtrack.app.words.plain import NO_CONDITION, of_member
from jobtrack.record.conditions import OpenCondition
from jobtrack.record.job import Job
from jobtrack.template.plan import PlannedStep

MOST = 4
"""Lines that the open conditions take at the top of a screen."""


def worst_first(job: Job, here: PlannedStep | None = None) -> list[OpenCondition]:
    """What can't be read, what forbids the step at hand, what has a tag, the rest; within each the oldest first."""
    return sorted(job.open_conditions, key=lambda one: _rank(one, here))


def _rank(one: OpenCondition, here: PlannedStep | None) -> int:
    if one.since is None:
        return 0
    if here is not None and {one.id, one.name} & set(here.step.not_while):
        return 1
    return 2 if one.tag else 3


def condition_sentence(one: OpenCondition) -> str:
    """One condition in words, with its tag and why it is still open where somebody might think otherwise."""
    tag = f"{one.tag}: " if one.tag else ""
    remark = f"; {one.remark}" if one.remark else ""
    return f"{tag}{one.words}{remark}"


def top_lines(job: Job, width: int, most: int = MOST, here: PlannedStep | None = None) -> list[Line]:
    """At most `most` rows: the worst conditions in words, then every other one by its tag, none of them cut."""
    found = worst_first(job, here)
    if not found:
        return [Line((Span(row),)) for row in rows(NO_CONDITION, width)]
    whole = all_lines(job, width)
    if len(whole) <= most:
        return whole
    if len(found) <= most:
        return [_row(one, width) for one in found]
    for shown in range(most - 1, 0, -1):
        top = [*_whole(found[0], width), *(_row(one, width) for one in found[1:shown])]
        more = _more(found[shown:], width)
        if len(top) + len(more) <= most:
            return [*top, *more]
    return [_row(found[0], width), *_more(found[1:], width)][:most]


def _row(one: OpenCondition, width: int) -> Line:
    return _bold_tag(shortened(f"Open: {condition_sentence(one)}", width), one)


def _bold_tag(row: str, one: OpenCondition) -> Line:
    """A condition's first row, what it begins with in bold."""
    bold = len(f"Open: {one.tag}:") if one.tag else len("Open:")
    return Line((Span(row[:bold], "strong"), Span(row[bold:])))


def _more(more: list[OpenCondition], width: int) -> list[Line]:
    named = ", ".join(of_member(one.tag or one.text, one.member) for one in more)
    return [Line((Span(row, "strong"),)) for row in rows(f"and {len(more)} more open: {named}", width)]


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
