"""What was taken before and doesn't count any more, and what several measured apart."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack import units
from jobtrack.job.acts.base import what_was_typed
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.state.history import Done, Place
from jobtrack.job.state.standing import Standing
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.words.named import ref_name
from jobtrack.template.plan import Ref

BEFORE = ("What", "Was", "By, when", "Instead of it")
Row = tuple[Text, ...]


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
