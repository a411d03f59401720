"""The labour hours of one job: by stage, step and person, each on one ruled scale; and what hours don't say."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from rich.cells import set_cell_size

from jobtrack.hours.labour import BetweenJobs, Group, Labour, labour
from jobtrack.job.state.job import FINISHED, Job
from jobtrack.job.time.typed_hours import NO_STEP
from jobtrack.pages.job.outline import ordered_steps
from jobtrack.pages.look_up.hour_scale import BOTH, MARK, TEMPLATE, scale, scale_head
from jobtrack.pages.typeset import Cell, Line, Span, line, ruled, ruled_head, wrap
from jobtrack.sheets.words.hours import hours_words, time_words
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.sentences import clock_lines

LEGEND = (
    f"On the scales: {MARK} this job so far, {TEMPLATE} the template's estimate, {BOTH} both at one place."
)
ESTIMATE = (
    "The estimate is the mean of the template's short, likely and long time, of every step that isn't marked not "
    "needed."
)
NARROW = 60
"""Cells below which there is no room for a table."""
Order = Callable[[Iterable[Group]], list[Group]]


def hours_page(job: Job, width: int, by_hours: bool) -> list[Line]:
    """All of it, a part under the other; `by_hours`: the most hours first, else in the order of the work."""
    by_step, by_stage, by_person = (labour([job], per) for per in ("step", "stage", "person"))
    names, order = Names(job), most_first if by_hours else list
    parts = (
        [row for text in _said(job, by_step) for row in wrap(text, width)],
        _whole(by_step, width),
        _table("stage", _stages(job, by_stage.groups), width, lambda key: _stage(job, key), order),
        _table("step", _steps(job, by_step.groups), width, names.step, order),
        _table("person", by_person.groups, width, str, order),
        [row for text in _remarks(job, by_step) for row in wrap(f"- {text}.", width, "", 2)],
    )
    title = wrap(f"Labour hours of {job.about.title}", width, "strong")
    return [*title, *(row for part in parts if part for row in (line(), *part))]


def _said(job: Job, found: Labour) -> list[str]:
    """The sums, whose clock runs or stands in a break, and what the marks mean."""
    estimate = sum(one.estimated_hours or 0 for one in found.groups)
    so_far = sum(one.estimated_hours or 0 for one in found.groups if _finished(job, one.key))
    total = f"This job so far: {hours_words(found.total_hours)}."
    template = f"The template: {hours_words(estimate)}, of which {hours_words(so_far)} for the steps that are finished."
    estimated = [template, f"{LEGEND} {ESTIMATE}"] if estimate else ["The template estimates no times."]
    return [total, *estimated, *clock_lines(found.running, found.on_break)]


def _whole(found: Labour, width: int) -> list[Line]:
    """The whole job on one scale over the width."""
    estimate = sum(one.estimated_hours or 0 for one in found.groups)
    longest = max(found.total_hours, estimate)
    if not longest:
        return []
    return [
        line(scale_head(longest, width), "small"),
        line(scale(found.total_hours, estimate or None, longest, width)),
    ]


def _finished(job: Job, step: str) -> bool:
    return step in job.steps and job.state(step) == FINISHED


def _remarks(job: Job, found: Labour) -> list[str]:
    """What was counted once, typed afterwards or taken back."""
    of_job = [one for one in (*found.overlaps, *found.remarks) if not isinstance(one, BetweenJobs)]
    return [time_words(one.remark, Names(job)) for one in of_job]


# Groups in an order


def most_first(groups: Iterable[Group]) -> list[Group]:
    """The most hours first, then the most estimated."""
    return sorted(groups, key=lambda one: (-one.hours, -(one.estimated_hours or 0)))


def _steps(job: Job, groups: Iterable[Group]) -> list[Group]:
    """Those with hours or an estimate, stage by stage; what is in no step of this job stands last."""
    return _in_order(ordered_steps(job), groups)


def _stages(job: Job, groups: Iterable[Group]) -> list[Group]:
    return _in_order(list(job.plan.template.stage), groups)


def _in_order(keys: Sequence[str], groups: Iterable[Group]) -> list[Group]:
    place = {key: number for number, key in enumerate(keys)}
    return sorted(groups, key=lambda one: place.get(one.key, len(place)))


def _stage(job: Job, key: str) -> str:
    return job.plan.template.stage[key].title if key in job.plan.template.stage else key


# The table with its scale


def _table(
    what: str, groups: Sequence[Group], width: int, name: Callable[[str], str], order: Order
) -> list[Line]:
    """A ruled table: what the hours are of, how many, the template's, and both on a scale."""
    if not groups:
        return []
    if width < NARROW:
        return [
            wrap(what, width, "strong")[0],
            *(row for one in order(groups) for row in _narrow(one, name, width)),
        ]
    columns = widths(width, any(one.estimated_hours is not None for one in groups))
    longest = max(max(one.hours, one.estimated_hours or 0) for one in groups)
    estimated = len(columns) == 4
    head = [what, "hours", *(["template"] if estimated else []), ""]
    rows = [row for one in order(groups) for row in _row(one, columns, _named(one.key, name), longest)]
    return [*_head(head, columns, scale_head(longest, columns[-1])), *rows]


def _narrow(one: Group, name: Callable[[str], str], width: int) -> list[Line]:
    """A group without a table, where there is no room for one."""
    template = f"; template {hours_words(one.estimated_hours)}" if one.estimated_hours is not None else ""
    return wrap(f"{_named(one.key, name)}: {hours_words(one.hours)}{template}", width, "", 2)


def _head(names: Sequence[str], columns: Sequence[int], figures: str) -> list[Line]:
    """The heading with the scale's figures, whose places are kept, at its end."""
    first, under = ruled_head(names, columns)
    return [Line((*first.spans[:-1], Span(set_cell_size(figures, columns[-1]), "small"))), under]


def _named(key: str, name: Callable[[str], str]) -> str:
    return "outside any step" if key == NO_STEP else name(key)


def widths(width: int, estimated: bool) -> tuple[int, ...]:
    """The columns: name, hours, the template's where it has some, and the scale, which takes what is left."""
    name = max(16, min(36, width * 2 // 5))
    figures = (8, 8) if estimated else (8,)
    return name, *figures, width - name - sum(figures) - 2 * (len(figures) + 1)


def _row(one: Group, columns: Sequence[int], name: str, longest: float) -> list[Line]:
    figures = [hours_words(one.hours) if one.hours else ""]
    if len(columns) == 4:
        figures.append(hours_words(one.estimated_hours) if one.estimated_hours is not None else "")
    cells = [Cell(name, "", 2), *(Cell(text) for text in figures),
             Cell(scale(one.hours, one.estimated_hours, longest, columns[-1]))]  # fmt: skip
    return ruled(cells, columns)
