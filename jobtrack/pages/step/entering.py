"""What is typed for an item: shown back while it is typed, and turned into acts."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import NO_VERDICT, WITHIN
from jobtrack.literal import visible
from jobtrack.pages.step.in_units import measured_in, wanted_in
from jobtrack.pages.step.items import GIVEN, READING, TICK, Item
from jobtrack.pages.wording import NOT_RECORDED_YET, of_member
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen

NUMBER_STARTS = "0123456789-~<>.+"


MOST = {"length": (20, "m"), "mass": (10, "t"), "torque": (5000, "N·m"), "angle": (360, "deg")}
"""What nothing measured on a light vehicle exceeds, by kind of unit; common practice, no source."""


def echo(job: Job, planned: PlannedStep | None, item: Item, text: str, shown: Chosen = METRIC_FIRST) -> str:
    """How the text would be read, in both unit systems, and a likely slip as a question; a given needs no step."""
    if not text.strip():
        return "Escape cancels."
    return f"{_read_back(job, planned, item, text, shown)}   {NOT_RECORDED_YET}"


def _read_back(job: Job, planned: PlannedStep | None, item: Item, text: str, shown: Chosen) -> str:
    if item.choose:
        return f"= {visible(chosen_text(item, text))}"
    if item.given_kind in ("text", "date", "yes/no"):
        return f"= {visible(text.strip())}"
    try:
        typed = [units.read(part, item.unit) for part in parts(job, planned, item, text)]
    except units.UnitError as error:
        return visible(str(error))
    said = "; ".join(_one(one, shown) for one in typed)
    question = slip(job, planned, item, text)
    return f"{said}. {question}" if question else said


def slip(job: Job, planned: PlannedStep | None, item: Item, text: str) -> str:
    """The question about a likely slip in what was typed; empty where nothing is odd or nothing can be read."""
    try:
        typed = [units.read(part, item.unit) for part in parts(job, planned, item, text)]
    except units.UnitError:
        return ""
    if item.yes_or_no or item.choose or item.given_kind is not None or not typed:
        return ""
    return units.question(typed[0], *expected(job, planned, item)) or _beyond(typed[0])


def _beyond(typed: units.Typed) -> str:
    """Asks about a number that nothing on a light vehicle comes to."""
    kind = units.kind(typed.unit)
    if typed.value is None or kind not in MOST:
        return ""
    most, unit = MOST[kind]
    if abs(units.convert(typed.value, typed.unit, unit)) <= most:
        return ""
    return (
        f"{units.show(typed.value, typed.unit)} is more than anything on a light vehicle. Is it typed right?"
    )


def parts(job: Job, planned: PlannedStep | None, item: Item, text: str) -> list[str]:
    """The repeats of a reading that is asked for several times, with `;` between; else the text as it is."""
    repeats = item.kind == READING and planned is not None and planned.step.reading[item.name].times
    return [part for part in text.split(";") if part.strip()] if repeats else [text]


def _one(typed: units.Typed, shown: Chosen) -> str:
    remark = f" ({typed.remark})" if typed.remark else ""
    if typed.word is not None:
        return f"= the words “{visible(typed.word)}”, no number"
    if typed.value is not None:
        about = "about " if typed.bound == "about" else ""
        return f"= {about}{shown.both(typed.value, typed.unit)}{remark}"
    ends = [shown.both(one, typed.unit) for one in (typed.low, typed.high) if one is not None]
    word = {"over": "over ", "under": "under "}.get(typed.bound, "")
    return f"= {word}{' to '.join(ends)}{remark}"


def expected(
    job: Job, planned: PlannedStep | None, item: Item
) -> tuple[units.conversion.Number | None, float | None]:
    """What a number is held against to find a slip: the target, an earlier reading, the other member's."""
    if item.kind != READING or planned is None:
        return None, None
    reading = planned.step.reading[item.name]
    limits = job.now.limits(planned.id, item.name)
    if limits.target is not None and limits.target != 0:
        return limits.target, float(limits.off_by or reading.doubt or 0)
    others = [one.id for one in job.plan.by_base.get(planned.base, ()) if one.id != planned.id]
    for step in (planned.id, *others):
        if (value := job.now.reading_value(step, item.name)) is not None:
            return value, reading.doubt
    return None, None


def other_side(job: Job, planned: PlannedStep, item: Item) -> str | None:
    """What another member of the step's set has for the same reading, as it was typed; None where none has."""
    if item.kind != READING:
        return None
    for one in job.plan.by_base.get(planned.base, ()):
        found = job.places.reading(one.id, item.name)
        if one.id != planned.id and found.agreed and found.reading is not None and found.reading.typed:
            typed = found.reading.typed
            return typed if isinstance(typed, str) else "; ".join(typed)
    return None


def recorded_words(
    job: Job, planned: PlannedStep | None, item: Item, text: str, shown: Chosen = METRIC_FIRST
) -> str:
    """What now stands recorded for an item: its name, its value as typed, and where that lies."""
    name = visible(item.label.rstrip("?:. "))
    if item.kind != READING or planned is None:
        answer = (
            text if item.yes_or_no else "don't know yet" if text.strip() == "?" else chosen_text(item, text)
        )
        return f"{name}: {visible(answer)}."
    return f"{of_member(name, planned.member)}: {lies_words(job, planned, item.name, shown)}."


def wants_a_look(job: Job, planned: PlannedStep, item: Item) -> bool:
    """Whether a reading lies where it shouldn't, or a check was answered no."""
    if item.kind == READING:
        return job.now.verdict(planned.id, item.name) not in (NO_VERDICT, WITHIN)
    return item.kind == TICK and job.places.tick(planned.id, item.name).value is False


def lies_words(job: Job, planned: PlannedStep, name: str, shown: Chosen = METRIC_FIRST) -> str:
    """A reading beside what is wanted: "outside: 22.8 mm, wanted 23.5 to 24.5 mm"."""
    measured, wanted = measured_in(job, planned, name, shown), wanted_in(job, planned, name, shown)
    verdict = job.now.verdict(planned.id, name)
    if verdict != NO_VERDICT:
        return f"{verdict}: {measured}, wanted {wanted}"
    limits = job.now.limits(planned.id, name)
    if not limits.wanted:
        return f"{measured}; recorded only, no limit"
    return f"{measured}; {f'wanted {wanted}' if limits.known else 'no limit known yet'}"


def chosen_text(item: Item, text: str) -> str:
    """The choice that a number in front of it names; any other text as it is."""
    number = text.strip()
    if item.choose and number.isdecimal() and 1 <= int(number) <= len(item.choose):
        return item.choose[int(number) - 1]
    return number


def choices(item: Item) -> str:
    """The choices with their numbers."""
    return "; ".join(f"{number} {text}" for number, text in enumerate(item.choose, 1))


def enter(made: Draft, item: Item, text: str, with_: str | None = None) -> None:
    """Put what was typed for an item into the call; a reading, with what. Raises UnitError, Refused."""
    if item.kind == READING:
        values.reading(made, item.name, parts(made.job, made.planned, item, text), with_=with_)
    elif item.kind == TICK:
        values.tick(made, item.name, text == "yes")
    elif item.kind == GIVEN:
        values.given(made, item.name, chosen_text(item, text))
