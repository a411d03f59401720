"""What the vehicle's own part was rated and what the one is rated that it gets: said first, as it was typed."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from jobtrack import units
from jobtrack.job.acts.base import Act, what_was_typed
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct
from jobtrack.job.state.job import Job
from jobtrack.job.state.standing import Standing
from jobtrack.sheets.paper.blocks import Block, Message, Paragraph, Section, Shout, Strong, Table
from jobtrack.sheets.vehicle_record.page import Page
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import joined, raised
from jobtrack.template.model import Exchanged
from jobtrack.template.plan import Ref
from jobtrack.units.rounding import as_typed

HEAD = ("Which", "Rated", "As typed", "Whose figure", "Typed by")
NOT_KNOWN = "not known"
PLATE = "No rating on the vehicle's plate was raised by it."


def ratings(page: Page) -> Iterator[Section]:
    """A section for each part that the vehicle gets in the place of its own."""
    for part in page.job.plan.template.exchanged.values():
        if part.vehicle == page.vehicle and (wanted := _wanted(page.job, part)) is not False:
            yield Section(f"The rating of its {part.say}", tuple(_blocks(page, part, wanted)))


def _wanted(job: Job, part: Exchanged) -> bool | None:
    """Whether the vehicle gets the part, by what was answered; None: that isn't known."""
    answers = [(job.places.given(name).value, wanted) for name, wanted in part.only_when.items()]
    if any(value is not None and value not in wanted for value, wanted in answers):
        return False
    return None if any(value is None for value, _ in answers) else True


def _blocks(page: Page, part: Exchanged, wanted: bool | None) -> Iterator[Block]:
    yield from _verdict(page, part)
    yield Table(HEAD, (_row(page, "its own", part.own), _row(page, "the one it gets", part.gets)))
    if wanted is None:
        asked = joined([f"“{given_name(page.job, name)}”" for name in part.only_when])
        yield Paragraph(f"Whether it gets one isn't known: {asked} isn't answered.")


def _verdict(page: Page, part: Exchanged) -> Iterator[Block]:
    own, gets = rating(page.job, part.own), rating(page.job, part.gets)
    if own is None or gets is None:
        yield Shout(f"{part.say.upper()}: RATING NOT KNOWN", lesser=True)
        yield Paragraph(f"It isn't known which {part.say} is rated lower. {_missing(page, part)}", "large")
        return
    unit = page.job.plan.givens[part.own].unit
    there = units.convert(gets, page.job.plan.givens[part.gets].unit, unit)
    if there < own:
        yield from _lower(page, part, own - there, unit)
    elif there > own:
        yield Paragraph(f"The {part.say} that it gets is rated higher than its own. {PLATE}", "large")
    else:
        yield Paragraph(f"The {part.say} that it gets is rated as its own. {PLATE}", "large")


def _lower(page: Page, part: Exchanged, by: Fraction, unit: str | None) -> Iterator[Block]:
    gets, own = (_figure(page, name) for name in (part.gets, part.own))
    less = page.shown.words(as_typed(by, unit))
    figures = f"The {part.say} that it gets: {gets}. Its own: {own}."
    yield Shout(f"{part.say.upper()} RATED LOWER", lesser=True)
    yield Paragraph(
        (Strong(figures), f" That is {less} less, as typed. The vehicle's plate doesn't say so."), "large"
    )
    yield Message(
        "DANGER", f"{raised(part.say)} weaker than the plate says", "breaks under load and kills",
        "never load it beyond the lower figure, whatever the plate says",
    )  # fmt: skip


def _missing(page: Page, part: Exchanged) -> str:
    names = [name for name in (part.own, part.gets) if rating(page.job, name) is None]
    said = [f"“{given_name(page.job, name)}” {_why(page.job.places.given(name))}" for name in names]
    return f"{raised(joined(said))}."


def _why(standing: Standing) -> str:
    return "isn't known" if standing.agreed else "is in disagreement and counts as not known"


def rating(job: Job, name: str) -> Fraction | None:
    """A rating as it counts now, in its given's unit; None where it isn't known, or in disagreement."""
    value = job.now.value(Ref("given", name, item=name))
    return (
        units.exact(value)
        if isinstance(value, int | float | Fraction) and not isinstance(value, bool)
        else None
    )


def _figure(page: Page, name: str) -> str:
    value = rating(page.job, name)
    if value is None:
        return NOT_KNOWN
    return page.shown.figure(as_typed(value, page.job.plan.givens[name].unit)).words()


def _row(page: Page, which: str, name: str) -> tuple[str | tuple[str | Strong, ...], ...]:
    standing = page.job.places.given(name)
    asked = f"from “{given_name(page.job, name)}”"
    typed = " / ".join(_typed(done.act) for done in standing.acts)
    by = " / ".join(page.who(done.entry) for done in standing.acts)
    value = rating(page.job, name)
    unit = page.job.plan.givens[name].unit
    said = page.shown.words(as_typed(value, unit)) if value is not None else NOT_KNOWN
    return which, (Strong(said),), typed, asked, by


def _typed(act: Act) -> str:
    if isinstance(act, GivenAct) and act.unknown:
        return "not known yet"
    typed = what_was_typed(act.typed) if isinstance(act, GivenAct | SettledAct) else None
    return typed if typed is not None else "put in by the template"
