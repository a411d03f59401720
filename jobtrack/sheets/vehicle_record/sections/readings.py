"""Every reading of the vehicle: what was wanted and measured, where it lies, with what, and whose the limit is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from jobtrack import units
from jobtrack.job.acts.base import what_was_typed
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.state.history import Done, Place
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import NO_VERDICT
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Strong, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.words.in_units import measured_in, wanted_in
from jobtrack.sheets.words.named import ref_name
from jobtrack.sheets.words.readings import RECKONER
from jobtrack.sheets.words.sentences import step_name
from jobtrack.sheets.words.whose import limit_source
from jobtrack.template.plan import PlannedStep, Ref

HEAD = ("What was measured", "Wanted", "Measured", "Lies", "With, and its doubt", "Whose limit")
BEFORE = ("What", "Was", "By, when", "Instead of it")
BRAKES = "At the brakes"
OF_BRAKES = re.compile(r"(?i)\b(brak|drum|shoe|pedal)")
MEASURED_AT_BRAKES = re.compile(r"(?i)\b(brake force|brake held|parking brake|drum|shoe|pedal)")
NONE = "No reading is recorded."
Row = tuple[Text, ...]


def readings(page: Page) -> Section:
    """The readings by stage and step, those at the brakes first."""
    stages: dict[str, list[Row]] = {}
    for planned in sorted(page.on.steps, key=lambda one: not _at_brakes(one)):
        if rows := list(_step(page, planned)):
            title = BRAKES if _at_brakes(planned) else planned.stage.title
            stages.setdefault(title, []).extend(rows)
    found = [Section(title, (Table(HEAD, tuple(rows), "small"),)) for title, rows in stages.items()]
    return section("Readings", (), none=NONE, sections=found)


def _at_brakes(planned: PlannedStep) -> bool:
    """Whether a step's title, or what a reading measures, says that it is about the brakes."""
    measured = (one.say or name for name, one in planned.step.reading.items())
    return bool(OF_BRAKES.search(planned.step.title)) or any(map(MEASURED_AT_BRAKES.search, measured))


def _step(page: Page, planned: PlannedStep) -> Iterator[Row]:
    """A row with the step's name and who measured, then one a reading; none where nothing was measured."""
    names = [name for name in planned.step.reading if recorded(page, planned, name)]
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
    called = reading.say or name
    return (
        f"{called} · {by}" if by else called,
        wanted_in(page.job, planned, name, page.shown, None),
        measured_in(page.job, planned, name, page.shown, None),
        "" if verdict == NO_VERDICT else verdict,
        _with(page, planned, name),
        ", ".join(_notes(page, planned, name)),
    )


def _with(page: Page, planned: PlannedStep, name: str) -> str:
    """The instrument, as recorded or as the template asks for it, and how far the value may be off."""
    reading = planned.step.reading[name]
    act = None if reading.from_ else page.job.places.reading(planned.id, name).reading
    tool = (act.with_ if act else None) or reading.with_
    tool = "reckoned, not measured" if tool == RECKONER else tool
    doubt = page.job.now.doubt(Ref("reading", f"{planned.id}.{name}", planned.id, name))
    off = f"± {units.show(Fraction(f'{doubt:.2g}'), reading.unit)}" if doubt else ""
    return ", ".join(filter(None, (tool or ("worked out" if reading.from_ else ""), off)))


def _notes(page: Page, planned: PlannedStep, name: str) -> Iterator[str]:
    reading = planned.step.reading[name]
    if reading.from_ is not None and (source := _worked_out(page, planned, reading.from_)):
        yield page.note(source)
    if page.job.now.limits(planned.id, name).wanted:
        yield page.note(limit_source(page.job, planned, name, page.when))


def _worked_out(page: Page, planned: PlannedStep, name: str) -> str:
    """By which working-out a reading is worked out, and that one's published source."""
    ref = page.job.plan.resolve(name, planned)
    if ref is None or ref.kind != "result":
        return ""
    use = page.job.steps[ref.step or ""].step.work_out[ref.item].use
    outcome = page.job.now.outcome(ref.step or "", ref.item)
    return f"worked out by {use} ({outcome.source})" if outcome else f"worked out by {use}"


def whose(page: Page) -> Section:
    """The numbered notes of the readings."""
    rows = tuple((str(number), text) for number, text in enumerate(page.notes, 1))
    blocks: list[Block] = (
        [Table(("No.", "Whose the limit is, and where figures come from"), rows, "small")] if rows else []
    )
    return section("Whose limits, and published sources", blocks, none="No limit is known.")


# What doesn't count any more, and what several measured apart


def before(page: Page) -> Section:
    """What was taken and replaced, by a slip mended, a measuring again or a settlement; what still disagrees."""
    rows = [row for place in _places(page) for row in _earlier(page, place)]
    apart = [row for place in _places(page) for row in _apart(page, place)]
    blocks: list[Block] = [Table(BEFORE, tuple(rows), "small")] if rows else []
    if apart:
        blocks += [
            Paragraph("In disagreement: no value counts until somebody settles it.", "strong"),
            Table(("What", "Value", "By, when"), tuple(apart), "small"),
        ]
    none = "No value was replaced, and none is in disagreement."
    return section("Taken before and replaced, and disagreements", blocks, none=none)


def _places(page: Page) -> Iterator[Place]:
    for planned in page.on.steps:
        yield from (
            ("reading", planned.id, name) for name, one in planned.step.reading.items() if not one.from_
        )
        yield from (("tick", planned.id, name) for name in planned.step.tick)
    yield from (("given", "", name) for name in page.job.plan.givens if page.on.given(name))


def _standing(page: Page, place: Place) -> Standing:
    kind, step, name = place
    places = page.job.places
    if kind == "given":
        return places.given(name)
    return places.reading(step, name) if kind == "reading" else places.tick(step, name)


def _called(page: Page, place: Place) -> str:
    kind, step, name = place
    return ref_name(page.job, Ref(kind, f"{step}.{name}" if step else name, step or None, name))


def _earlier(page: Page, place: Place) -> Iterator[Row]:
    standing = _standing(page, place)
    counting = {done.name for done in standing.acts}
    for done in page.job.places.acts(place):
        if done.name not in counting and not _unknown(done):
            yield _called(page, place), value_words(done), page.who(done.entry), _instead(page, place, done)


def _unknown(done: Done) -> bool:
    """Whether it said only that something isn't known yet."""
    return isinstance(done.act, GivenAct) and done.act.unknown


def _instead(page: Page, place: Place, replaced: Done) -> str:
    """What took its place, and how: the last that names it."""
    later = [one for one in page.job.places.acts(place) if replaced.name in one.act.replaced()]
    if not later:
        return "taken back"
    done = later[0]
    return f"{value_words(done)}, {_how(done)} ({page.who(done.entry)})"


def _how(done: Done) -> str:
    match done.act:
        case SettledAct(whose=whose):
            return f"settled, {whose}'s value" if whose else "settled"
        case ReadingAct(mistyped=True):
            return "typed wrong before"
        case TickAct():
            return "answered again"
        case GivenAct():
            return "said anew"
        case _:
            return "measured again"


def _apart(page: Page, place: Place) -> Iterator[Row]:
    standing = _standing(page, place)
    for done in standing.acts if not standing.agreed else ():
        yield _called(page, place), value_words(done), page.who(done.entry)


def value_words(done: Done) -> str:
    """What was typed for a reading, a check or something known, with the unit that a bare number was taken in."""
    act = done.act
    if isinstance(act, TickAct):
        return "yes" if act.yes else "no"
    if not isinstance(act, ReadingAct | GivenAct | SettledAct):
        return ""
    typed = what_was_typed(act.typed)
    if typed is None:
        return {True: "yes", False: "no"}[act.value] if isinstance(act.value, bool) else str(act.value)
    number = not isinstance(act.value, str | bool | None)
    bare = number and units.typed_unit(typed) is None
    return f"{typed} {units.shown(act.unit)}".rstrip() if bare and act.unit else typed
