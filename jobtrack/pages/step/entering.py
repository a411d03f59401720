"""What is typed for an item: shown back while it is typed, and turned into acts."""

from __future__ import annotations

from datetime import UTC, datetime

from jobtrack import units
from jobtrack.job.compose import values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.remarks.waits import too_soon
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import NO_VERDICT, WITHIN
from jobtrack.literal import visible
from jobtrack.pages.asking.slips import slip
from jobtrack.pages.doing import typed as doing
from jobtrack.pages.step.items import GIVEN, READING, TICK, Item, parts
from jobtrack.pages.wording import NOT_RECORDED_YET, of_member
from jobtrack.sheets.words.values.in_units import measured_in, wanted_in
from jobtrack.sheets.words.values.readings import verdict_words
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen

_NO_TIME = datetime.fromtimestamp(0, UTC)
"""Where a number lies doesn't hang on when it is typed."""
NUMBER_STARTS = "0123456789-~<>.+"


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
        said = _said(job, planned, item, text, shown)
    except (units.UnitError, Refused) as error:
        return visible(str(error))
    found = slip(job, planned, item, text)
    if found is not None:
        return f"{said}. {found.question}"
    lies = _would_lie(job, planned, item, text, shown) if planned is not None and item.kind == READING else ""
    return f"{said}; {lies}" if lies else said


def _would_lie(job: Job, planned: PlannedStep, item: Item, text: str, shown: Chosen) -> str:
    """Where a number would lie if it were recorded: said before Enter, while it can be typed anew."""
    made = Draft(job, "nobody", _NO_TIME, planned.id)
    try:
        enter(made, item, text)
    except (units.UnitError, Refused):
        return ""
    after = made.job
    if after.now.verdict(planned.id, item.name) == NO_VERDICT:
        return ""
    lies, wanted = verdict_words(after, planned, item.name), wanted_in(after, planned, item.name, shown)
    return f"{lies} ({wanted})" if lies == WITHIN else f"{lies}, wanted {wanted}"


def _said(job: Job, planned: PlannedStep | None, item: Item, text: str, shown: Chosen) -> str:
    """What is typed as it would be taken. Raises UnitError; of a bolt or a run Refused."""
    if item.one_by_one and planned is not None:
        return doing.echo_words(job, planned, item, text)
    typed = (units.read(part, item.unit) for part in parts(planned, item, text))
    return "; ".join(_one(one, shown) for one in typed)


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


def by_label(refused: str | None, item: Item) -> str | None:
    """Why something is refused, as it reads at its line: by the line's own words, not by its id."""
    if refused is None or not refused.startswith((f"{item.name} ", f"{item.name}:")):
        return refused
    return item.label.rstrip("?:. ") + refused.removeprefix(item.name)


def wants_a_look(job: Job, planned: PlannedStep, item: Item) -> bool:
    """Whether a reading lies where it shouldn't, or a check was answered no, or yes too soon."""
    if item.kind == READING:
        return job.now.verdict(planned.id, item.name) not in (NO_VERDICT, WITHIN)
    if item.kind != TICK:
        return False
    no = job.places.tick(planned.id, item.name).value is False
    return no or too_soon(job, planned, item.name) is not None


def lies_words(job: Job, planned: PlannedStep, name: str, shown: Chosen = METRIC_FIRST) -> str:
    """A reading beside what is wanted: "outside: 22.8 mm, wanted 23.5 to 24.5 mm"."""
    measured, wanted = measured_in(job, planned, name, shown), wanted_in(job, planned, name, shown)
    if job.now.verdict(planned.id, name) != NO_VERDICT:
        return f"{verdict_words(job, planned, name)}: {measured}, wanted {wanted}"
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


def enter(made: Draft, item: Item, text: str, with_: str | None = None, mistyped: bool = False) -> None:
    """Put what was typed for an item into the call; a reading, with what. Raises UnitError, Refused.

    `mistyped`: the number before was typed wrong, and the measuring is the same.
    """
    if item.kind == READING:
        values.reading(made, item.name, parts(made.planned, item, text), mistyped, with_)
    elif item.kind == TICK:
        values.tick(made, item.name, text == "yes")
    elif item.kind == GIVEN:
        values.given(made, item.name, chosen_text(item, text))
    else:
        doing.enter(made, item, text)
