"""The record at a glance: what was done, why, by whom, when, and how it ended."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from jobtrack.job.acts.doing import PartAct
from jobtrack.job.doing.parts import FITTED, parts_of
from jobtrack.job.state.job import RELEASED, person
from jobtrack.job.values.limits import NO_VERDICT
from jobtrack.sheets.paper.blocks import Named, Section, Text
from jobtrack.sheets.vehicle_record.belongs import vehicle_name
from jobtrack.sheets.vehicle_record.page import Page
from jobtrack.sheets.vehicle_record.sections.deviations import outside
from jobtrack.sheets.vehicle_record.sections.ending import NOT_DONE, due_rows, how_it_ended
from jobtrack.sheets.vehicle_record.sections.looked import SECOND, seen
from jobtrack.sheets.vehicle_record.sections.readings import recorded
from jobtrack.sheets.words.doing.parts import part_name
from jobtrack.sheets.words.sentences import NO_CONDITION, counted, joined, lowered, step_name, worst_first

KINDS = (
    (("welds",), "Welding, in the steps"),
    (("cuts",), "Cutting or drilling, in the steps"),
    (("bleeds", "brake-dust"), "Brakes opened or looked at, in the steps"),
    (("opens-fuel",), "Fuel system opened, in the steps"),
    (("frees-spring",), "Springs freed, in the steps"),
    (("airbag",), "Work at the airbags, in the steps"),
)
"""Kinds of work that whoever looks at a vehicle asks for first, as a step's `does` names them."""


def short(page: Page) -> Section:
    """The section."""
    return Section("In short", (Named(tuple(_rows(page))),))


def _rows(page: Page) -> Iterator[tuple[str, Text]]:
    template = page.job.plan.template
    yield "How it ended", how_it_ended(page)
    yield "Recorded as open", _open(page)
    yield from _due(page)
    yield "Otherwise than written", outside(page)
    yield "Kind of job", f"{template.title}{f': {template.for_}' if template.for_ else ''}"
    yield from _others(page)
    yield from _decided(page)
    yield "By, and when", _people(page)
    yield from _fitted(page)
    yield from _kinds(page)
    yield "Readings", _readings(page)
    yield "Holds", _holds(page)


def _open(page: Page) -> str:
    """What is open, by its words alone; how long and by whom stands in its section."""
    found = [one.words for one in worst_first(page.job) if page.on.condition(one)]
    return "; ".join(found) or NO_CONDITION


def _due(page: Page) -> Iterator[tuple[str, Text]]:
    """How much is due afterwards, and of how much it is recorded that it was done."""
    rows = list(due_rows(page))
    if rows:
        done = sum(by != NOT_DONE for _, _, by in rows)
        yield "Due afterwards", f"{counted(len(rows), 'thing')}, {done} recorded as done"


def _others(page: Page) -> Iterator[tuple[str, Text]]:
    """The other vehicles of the job: whence a part comes, or whither it went."""
    for vehicle, what in page.job.plan.template.vehicle.items():
        if vehicle != page.vehicle:
            yield "Also in the job", f"{vehicle_name(page.job, vehicle)}: {lowered(what)}"


def _decided(page: Page) -> Iterator[tuple[str, Text]]:
    """Why it was done: who released each point of go or stop."""
    said = [
        f"{hold.ask} {page.who(hold.release.entry)}"
        for one in page.on.steps
        if one.step.go_or_stop is not None
        and (hold := page.job.hold(one.id)) is not None
        and hold.state == RELEASED
        and hold.release is not None
    ]
    if said:
        yield "Decided, go or stop", "; ".join(said)


def _people(page: Page) -> str:
    entries = [one for one in page.job.view.counting_entries() if page.on.entry(one)]
    if not entries:
        return "nothing is recorded"
    names: dict[str, str] = {}
    for one in entries:
        names.setdefault(person(one.by), one.by)
    days = sorted(entries, key=lambda one: one.at)
    first, last = (page.when(one.at) for one in (days[0], days[-1]))
    return f"{joined(list(names.values()))}, {first} to {last}"


def _fitted(page: Page) -> Iterator[tuple[str, Text]]:
    fitted = [
        part_name(one)
        for one in parts_of(page.job)
        if any(
            isinstance(done.act, PartAct) and done.act.fate == FITTED and page.on.entry(done.entry)
            for done in one.became
        )
    ]
    if fitted:
        yield "Fitted", "; ".join(fitted)


def _kinds(page: Page) -> Iterator[tuple[str, Text]]:
    for names, words in KINDS:
        steps = [one for one in page.on.steps if one.id in page.worked_on and set(names) & set(one.step.does)]
        if steps:
            yield words, joined([f"“{step_name(one)}”" for one in steps])


def _readings(page: Page) -> str:
    """How many there are, and how many lie where."""
    found = Counter(
        page.job.now.verdict(one.id, name)
        for one in page.on.steps for name in one.step.reading if recorded(page, one, name)
    )  # fmt: skip
    total = sum(found.values())
    lying = [f"{number} {verdict}" for verdict, number in found.items() if verdict != NO_VERDICT]
    free = [f"{found[NO_VERDICT]} without a verdict"] if found[NO_VERDICT] else []
    return f"{counted(total, 'reading')}: {joined([*lying, *free])}" if total else "none"


def _holds(page: Page) -> str:
    held = [(one, hold) for one in page.on.steps if (hold := page.job.hold(one.id)) is not None]
    come_to = [(one, hold) for one, hold in held if hold.release or one.id in page.worked_on]
    released = sum(hold.state == RELEASED for _, hold in come_to)
    second = sum(seen(page, one, hold) == SECOND for one, hold in come_to)
    return f"{released} of {len(come_to)} released, {second} {SECOND}" if come_to else "none was come to"
