"""What is recorded as open, the worst first: what can't be read, then what has a tag, then the oldest."""

from __future__ import annotations

from jobtrack.app.paper import Line, Span, rows, shortened
from jobtrack.app.words.plain import NO_CONDITION, of_member
from jobtrack.record.conditions import OpenCondition
from jobtrack.record.job import Job

MOST = 4
"""Lines that the open conditions take at the top of a screen."""


def worst_first(job: Job) -> list[OpenCondition]:
    """What can't be read, what has a tag, then the rest; within each the oldest first."""
    return sorted(job.open_conditions, key=_rank)


def _rank(one: OpenCondition) -> int:
    unread = one.since is None
    return 0 if unread else 1 if one.tag else 2


def condition_sentence(one: OpenCondition) -> str:
    """One condition in words, with its tag and why it is still open where somebody might think otherwise."""
    tag = f"{one.tag}: " if one.tag else ""
    remark = f"; {one.remark}" if one.remark else ""
    return f"{tag}{of_member(one.text, one.member)}{remark}"


def top_lines(job: Job, width: int, most: int = MOST) -> list[Line]:
    """At most `most` rows: the worst conditions, and how many more there are with their tags."""
    found = worst_first(job)
    if not found:
        return [Line((Span(row),)) for row in rows(NO_CONDITION, width)]
    whole = all_lines(job, width)
    if len(whole) <= most:
        return whole
    shown = found if len(found) <= most else found[: max(most - 1, 1)]
    lines = [_row(one, width) for one in shown]
    more = found[len(shown) :]
    return [*lines, _more(more, width)] if more and most > 1 else lines


def _row(one: OpenCondition, width: int) -> Line:
    return _bold_tag(shortened(f"Open: {condition_sentence(one)}", width), one)


def _bold_tag(row: str, one: OpenCondition) -> Line:
    """A condition's first row, what it begins with in bold."""
    bold = len(f"Open: {one.tag}:") if one.tag else len("Open:")
    return Line((Span(row[:bold], "strong"), Span(row[bold:])))


def _more(more: list[OpenCondition], width: int) -> Line:
    named = ", ".join(one.tag or of_member(one.text, one.member) for one in more)
    return Line((Span(shortened(f"and {len(more)} more open: {named}", width), "strong"),))


def all_lines(job: Job, width: int) -> list[Line]:
    """Every open condition at full length, or the honest sentence."""
    found = worst_first(job)
    if not found:
        return [Line((Span(row),)) for row in rows(NO_CONDITION, width)]
    lines: list[Line] = []
    for one in found:
        first, *more = rows(f"Open: {condition_sentence(one)}", width)
        lines += [
            _bold_tag(first, one),
            *(Line((Span(f"  {row}"),)) for row in rows(" ".join(more), width - 2) if more),
        ]
    return lines
