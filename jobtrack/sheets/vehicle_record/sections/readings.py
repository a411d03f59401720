"""Every reading of the vehicle: what was wanted and measured, where it lies, with what, and whose the limit is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from jobtrack import units
from jobtrack.job.values.limits import NO_VERDICT
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Strong, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.words.sentences import OWN_LIMIT, step_name
from jobtrack.sheets.words.values.in_units import measured_in, wanted_in
from jobtrack.sheets.words.values.readings import RECKONER
from jobtrack.sheets.words.values.whose import NOT_KNOWN, limit_source
from jobtrack.template.plan import PlannedStep, Ref

HEAD = ("What was measured", "Wanted", "Measured", "Lies", "With, and its doubt", "Whose limit (note)")
BRAKES = "At the brakes"
OF_BRAKES = re.compile(r"(?i)\b(brak|drum|shoe|pedal)")
MEASURED_AT_BRAKES = re.compile(r"(?i)\b(brake force|brake held|parking brake|drum|shoe|pedal)")
NONE = "No reading is recorded."
FREE = "Readings without a limit, step by step"
FREE_HEAD = ("What was measured, with what, and its doubt",)
WHOSE = {"limit typed by ": "typed", "limit worked out by ": "worked out"}
"""Whose a limit is in a word, by how that begins in full."""
Row = tuple[Text, ...]


def readings(page: Page) -> Section:
    """The readings by stage and step, those at the brakes first and whole; of the others those that have a limit."""
    stages: dict[str, list[Row]] = {}
    for planned in sorted(page.on.steps, key=lambda one: not _at_brakes(one)):
        whole = _at_brakes(planned)
        names = [name for name in _recorded(page, planned) if whole or _limited(page, planned, name)]
        title = BRAKES if whole else planned.stage.title
        stages.setdefault(title, []).extend(_step(page, planned, names))
    free = sum(len(_free(page, planned)) for planned in page.on.steps)
    below = (
        [Paragraph(f"Without a limit, and not among these: {free}, at the end, “{FREE}”.")] if free else []
    )
    return section("Readings", below, none=NONE, sections=_tables(HEAD, stages))


def without_limit(page: Page) -> Section:
    """What was measured for its own sake, or for what is worked out from it: tight, by stage and step."""
    stages: dict[str, list[Row]] = {}
    for planned in page.on.steps:
        if names := _free(page, planned):
            stages.setdefault(planned.stage.title, []).append(_free_row(page, planned, names))
    return section(FREE, (), sections=_tables(FREE_HEAD, stages))


def _tables(head: tuple[str, ...], stages: dict[str, list[Row]]) -> list[Section]:
    return [Section(title, (Table(head, tuple(rows), "small"),)) for title, rows in stages.items() if rows]


def _free(page: Page, planned: PlannedStep) -> list[str]:
    """The readings of a step that have no limit, but for those at the brakes, which stand together."""
    names = () if _at_brakes(planned) else _recorded(page, planned)
    return [name for name in names if not _limited(page, planned, name)]


def _limited(page: Page, planned: PlannedStep, name: str) -> bool:
    return page.job.now.limits(planned.id, name).wanted


def _recorded(page: Page, planned: PlannedStep) -> list[str]:
    return [name for name in planned.step.reading if recorded(page, planned, name)]


def _at_brakes(planned: PlannedStep) -> bool:
    """Whether a step's title, or what a reading measures, says that it is about the brakes."""
    measured = (one.say or name for name, one in planned.step.reading.items())
    return bool(OF_BRAKES.search(planned.step.title)) or any(map(MEASURED_AT_BRAKES.search, measured))


def _step(page: Page, planned: PlannedStep, names: list[str]) -> Iterator[Row]:
    """A row with the step's name and who measured, then one a reading; none where there are none."""
    whose = {name: _by(page, planned, name) for name in names}
    several = len({by for by in whose.values() if by}) > 1
    if names:
        one = "" if several else next((f" · {by}" for by in whose.values() if by), "")
        yield ((Strong(step_name(planned)), one),)
    yield from (_row(page, planned, name, whose[name] if several else "") for name in names)


def recorded(page: Page, planned: PlannedStep, name: str) -> bool:
    """Whether a reading says anything: something was recorded for it, or it is worked out and known."""
    if planned.step.reading[name].from_ is not None:
        return page.job.now.reading_value(planned.id, name) is not None
    return bool(page.job.places.reading(planned.id, name).acts)


def _by(page: Page, planned: PlannedStep, name: str) -> str:
    if planned.step.reading[name].from_ is not None:
        return ""
    acts = page.job.places.reading(planned.id, name).acts
    return " / ".join(dict.fromkeys(page.who(done.entry) for done in acts))


def _row(page: Page, planned: PlannedStep, name: str, by: str) -> Row:
    reading, verdict = planned.step.reading[name], page.job.now.verdict(planned.id, name)
    return (
        _said(reading.say or name, by),
        wanted_in(page.job, planned, name, page.shown, None),
        measured_in(page.job, planned, name, page.shown, None),
        "" if verdict == NO_VERDICT else verdict,
        _with(page, planned, name),
        _whose(page, planned, name),
    )


def _free_row(page: Page, planned: PlannedStep, names: list[str]) -> Row:
    """All of a step that have no limit, one behind the other: what, the value, with what and how far it may be off."""
    by = {name: _by(page, planned, name) for name in names}
    several = len(set(filter(None, by.values()))) > 1
    whose = "" if several else next((f" · {one}" for one in by.values() if one), "")
    parts = [_free_words(page, planned, name, by[name] if several else "") for name in names]
    between = [(*one, " · ") for one in parts[:-1]] + parts[-1:]
    return ((Strong(step_name(planned)), f"{whose} · ", *(part for one in between for part in one)),)


def _free_words(page: Page, planned: PlannedStep, name: str, by: str) -> tuple[str | Strong, ...]:
    measured = measured_in(page.job, planned, name, page.shown, None)
    with_ = _with(page, planned, name)
    called = _said(planned.step.reading[name].say or name, by)
    return f"{called}: ", Strong(measured), f", {with_}" if with_ else ""


def _said(called: str, by: str) -> str:
    return f"{called} · {by}" if by else called


def _with(page: Page, planned: PlannedStep, name: str) -> str:
    """The instrument, as recorded or as the template asks for it, or the note of the working-out; and the doubt."""
    reading = planned.step.reading[name]
    act = None if reading.from_ else page.job.places.reading(planned.id, name).reading
    tool = (act.with_ if act else None) or reading.with_
    tool = "reckoned, not measured" if tool == RECKONER else tool
    doubt = page.job.now.doubt(Ref("reading", f"{planned.id}.{name}", planned.id, name))
    off = f"± {units.show(Fraction(f'{doubt:.2g}'), reading.unit)}" if doubt else ""
    source = _worked_out(page, planned, reading.from_) if reading.from_ else ""
    how = " ".join(
        filter(
            None,
            (
                tool or ("worked out" if reading.from_ else ""),
                f"(note {page.note(source)})" if source else "",
            ),
        )
    )
    return ", ".join(filter(None, (how, off)))


def _whose(page: Page, planned: PlannedStep, name: str) -> str:
    """Whose the limit is in a word, and the number of the note that says it in full."""
    if not _limited(page, planned, name):
        return ""
    full = limit_source(page.job, planned, name, page.when)
    return f"{_in_a_word(full, planned.step.reading[name].source)} ({page.note(full)})"


def _in_a_word(full: str, source: str | None) -> str:
    if source:
        return "quoted"
    words = {OWN_LIMIT: "template", NOT_KNOWN: "not known"}
    return words.get(full) or next(
        (word for begins, word in WHOSE.items() if full.startswith(begins)), "several"
    )


def _worked_out(page: Page, planned: PlannedStep, name: str) -> str:
    """By which working-out a reading is worked out, and that one's published source."""
    ref = page.job.plan.resolve(name, planned)
    if ref is None or ref.kind != "result":
        return ""
    use = page.job.steps[ref.step or ""].step.work_out[ref.item].use
    outcome = page.job.now.outcome(ref.step or "", ref.item)
    return f"worked out by {use} ({outcome.source})" if outcome else f"worked out by {use}"


def whose(page: Page) -> Section:
    """The notes of the readings, by their numbers."""
    rows = tuple((str(number), text) for number, text in enumerate(page.notes, 1))
    blocks: list[Block] = (
        [Table(("Note", "Whose the limit is, and where figures come from"), rows, "small")] if rows else []
    )
    return section("Whose limits, and published sources", blocks, none="No limit is known.")
