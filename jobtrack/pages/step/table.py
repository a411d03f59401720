"""The ruled inspection table: what is wanted, what was measured, where it lies."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.state.job import Job
from jobtrack.pages.step.items import Item, items, standing
from jobtrack.pages.step.scale import rule
from jobtrack.pages.typeset import Cell, Line, ruled, ruled_head, wrap
from jobtrack.sheets.words.values.in_units import measured_in, wanted_in
from jobtrack.sheets.words.values.readings import doubt_sentences, verdict_words
from jobtrack.sheets.words.values.whose import source_sentences
from jobtrack.template.plan import PlannedStep, Ref
from jobtrack.units.chosen import METRIC_FIRST, Chosen

TABLE_FROM = 72
"""Cells from which on the readings stand in a table; below, one under the other."""
CHOSEN, OTHER = "▸ ", "  "
HEAD = ("reading", "wanted", "measured", "where it lies")


def widths(width: int) -> tuple[int, int, int, int]:
    """The columns of the inspection table; two cells stand between each of them."""
    rest = width - 6
    wanted, measured, lies = (15, 12, 21) if width < 100 else (20, 20, 34)
    return rest - wanted - measured - lies, wanted, measured, lies


def reading_lines(
    job: Job, planned: PlannedStep, width: int, chosen: Item | None, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """The readings of a step, those that are worked out too."""
    readings = planned.step.reading
    if not readings:
        return []
    numbered = {
        item.name: number for number, item in enumerate(items(job, planned)) if item.kind == "reading"
    }
    name = chosen.name if chosen and chosen.kind == "reading" else None
    lines = ruled_head(HEAD, widths(width)) if width >= TABLE_FROM else []
    for reading in readings:
        lines += _row(job, planned, reading, width, reading == name, numbered.get(reading), shown)
    return lines


def whose_lines(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    """What the doubts leave of the limits, and whose limits they are: read once, so below what is answered."""
    said = (*doubt_sentences(job, planned), *source_sentences(job, planned))
    return [row for text in said for row in wrap(text, width, "small", 2)]


def _row(
    job: Job, planned: PlannedStep, name: str, width: int, chosen: bool, of: int | None, shown: Chosen
) -> list[Line]:
    label = f"{CHOSEN if chosen else OTHER}{reading_label(planned, name)}"
    look = "strong" if chosen else ""
    table, columns = width >= TABLE_FROM, widths(width)
    wanted = wanted_in(job, planned, name, shown, columns[1] if table else 0)
    measured = measured_in(job, planned, name, shown, columns[2] if table else 0)
    if not measured and planned.step.reading[name].from_ is not None:
        measured = "not yet"
    if not table:
        below = f"    wanted {wanted}; measured {measured or '-'} {verdict_words(job, planned, name)}"
        return [*wrap(label, width, look, 2, of), *wrap(below, width, "", 4, of)]
    lies = "\n".join(
        part
        for part in (lies_rule(job, planned, name, columns[3]), verdict_words(job, planned, name))
        if part
    )
    cells = (Cell(label, look, 2), Cell(wanted), Cell(measured, "strong"), Cell(_beside(lies, columns[3])))
    return ruled(cells, columns, of)


def _beside(lies: str, width: int) -> str:
    """Rule and word on one row where both fit."""
    one = lies.replace("\n", " ")
    return one if len(one) <= width else lies


def reading_label(planned: PlannedStep, name: str) -> str:
    """What a reading is called, and the instrument that the template names for it."""
    reading = planned.step.reading[name]
    how = "worked out" if reading.from_ else reading.with_
    return f"{reading.say or name}; {how}" if how else reading.say or name


def lies_rule(job: Job, planned: PlannedStep, name: str, width: int, longest: int = 24) -> str:
    """The rule for a reading, short enough to leave its word a place beside it."""
    limits = job.now.limits(planned.id, name)
    value = job.now.reading_value(planned.id, name)
    doubt = job.now.doubt(Ref("reading", f"{planned.id}.{name}", planned.id, name))
    length = width - (8 if len(verdict_words(job, planned, name)) < 8 else 0)
    return rule(_float(limits.low), _float(limits.high), _float(value), doubt, min(length - 1, longest))


def _float(value: object) -> float | None:
    return None if value is None else float(value)  # type: ignore[arg-type]


def reading_wanted(
    job: Job, planned: PlannedStep, item: Item, shown: Chosen = METRIC_FIRST, room: int | None = 0
) -> str:
    """What stands under the name of the reading that a number will enter: the tool, and what is wanted."""
    wanted, _ = reading_wanted_apart(job, planned, item, shown, room)
    tool, more = _tool(planned, item), _more(job, planned, item, shown, room)
    return "; ".join(filter(None, (tool, wanted, *more)))


def reading_wanted_apart(
    job: Job, planned: PlannedStep, item: Item, shown: Chosen, room: int | None = 0
) -> tuple[str, str]:
    """What is wanted of a reading, and the rest of what stands under its name."""
    limited = job.now.limits(planned.id, item.name).wanted
    wanted = wanted_in(job, planned, item.name, shown, room)
    more = _more(job, planned, item, shown, room)
    rest = "; ".join(filter(None, (_tool(planned, item), *more)))
    return (f"wanted: {wanted}" if limited else "recorded only, no limit"), rest


def _tool(planned: PlannedStep, item: Item) -> str:
    tool = planned.step.reading[item.name].with_
    return f"with: {tool}" if tool else ""


def _more(job: Job, planned: PlannedStep, item: Item, shown: Chosen, room: int | None) -> list[str]:
    """How many times, in which unit a number alone is taken, and what is recorded already."""
    reading = planned.step.reading[item.name]
    times = f"{reading.times} repeats, with ; between" if reading.times else ""
    bare = f"a number alone is taken as {units.shown(reading.unit)}" if shown.turns(reading.unit) else ""
    has = standing(job, planned, item).acts
    return [times, bare, f"recorded now: {measured_in(job, planned, item.name, shown, room)}" if has else ""]
