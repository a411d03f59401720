"""What a step takes and changes: people and things, what it opens and closes, what must not be open or beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from jobtrack.job.doing.parts import parts_of
from jobtrack.job.state.conditions import of_member
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.goes_by import goes_by
from jobtrack.sheets.job_card.together import Them, members, of_any
from jobtrack.sheets.paper.blocks import Inline, Paragraph, Strong
from jobtrack.sheets.words.doing.parts import brief_words
from jobtrack.sheets.words.sentences import joined
from jobtrack.template.model import Step
from jobtrack.template.plan import PlannedStep

KINDS = {
    "lifts": "lifting", "lowers": "lowering", "under": "anybody under the vehicle", "drives": "driving",
    "cuts": "cutting", "grinds": "grinding", "welds": "welding", "heats": "heating", "bleeds": "bleeding brakes",
    "opens-fuel": "fuel opened", "near-fuel": "work near fuel", "frees-spring": "springs being freed",
    "brake-dust": "brake dust", "battery": "work on the battery", "airbag": "work on an airbag", "solvent": "solvent",
}  # fmt: skip
"""The kinds of work, as what goes on beside a step."""

_TIMES = 3
"""The short, the likely and the long time of a step."""


def takes(card: Card, them: Them) -> Iterator[Paragraph]:
    """By which name a step is typed and what it takes and goes by; what it opens, closes and rules out."""
    step = them[0].step
    known, unknown = goes_by(card, them)
    taken = {
        "Takes": _needed(step),
        "Parts": of_any(them, lambda one: _parts(card, one)),
        "Again": [step.again] if step.again else [],
        "Goes by": known,
        "Not known yet": [joined(unknown)] if unknown else [],
    }
    yield Paragraph((*_named(card, them), *_row(taken)))
    opens, closes = list(_conditions(card, them, step.opens)), list(_conditions(card, them, step.closes))
    rules = {
        **({"Opens, and closes": opens} if opens == closes else {"Opens": opens, "Closes": closes}),
        "Not while open": of_any(them, lambda one: _open_now(card, one)),
        "Not beside": [KINDS.get(one, one) for one in dict.fromkeys(step.not_beside)],
    }
    if said := _row(rules):
        yield Paragraph(tuple(said))


def _row(things: Mapping[str, Sequence[str]]) -> list[Inline]:
    """Each name with what stands behind it, in one row."""
    pieces: list[Inline] = []
    for name, said in things.items():
        if said:
            pieces += [Strong(f"{name}: "), f"{'; '.join(said)}. "]
    return pieces


def _named(card: Card, them: Them) -> Iterator[Inline]:
    """The names by which a step is typed, and where it stands if something is recorded of it."""
    for planned in them:
        state = card.job.state(planned.id)
        said = f", {state}" if state in (IN_HAND, FINISHED, LOOK_AGAIN) else ""
        yield from (Strong(planned.id), f"{said}. " if planned is them[-1] else f"{said}; ")


def _needed(step: Step) -> list[str]:
    """People, things and time, as far as the template names them."""
    found = [f"{step.people} people" if step.people > 1 else "one person"]
    found += ["a helper may do it alone"] if step.helper_alone else []
    found += ["hoist or trolley"] if step.hoist else []
    found += dict.fromkeys((*step.tools, *step.consumables))
    if len(step.minutes) == _TIMES:
        short, likely, long = step.minutes
        found.append(f"likely {likely:g} min, {short:g} to {long:g}")
    return found


def _parts(card: Card, planned: PlannedStep) -> Iterator[str]:
    yield from (
        brief_words(one, planned.id) for one in parts_of(card.job, planned.id) if one.of_step is not None
    )


def _conditions(card: Card, them: Them, names: Iterable[str]) -> Iterator[str]:
    """Conditions with their tags; those of the step's own side with that."""
    for name in names:
        known = card.job.plan.template.condition.get(name)
        text = of_member(known.text, members(them)) if known else name
        yield f"{text} (tag {known.tag})" if known and known.tag else text


def _open_now(card: Card, planned: PlannedStep) -> Iterator[str]:
    """What must not be open, and whether it is recorded as open."""
    for name in planned.step.not_while:
        base, _, member = name.partition(".")
        known = card.job.plan.template.condition.get(base)
        tag = f" (tag {known.tag})" if known and known.tag else ""
        said = f"{of_member(known.text, member or None) if known else _own(card, name)}{tag}"
        now = any(name in (one.id, one.name) for one in card.job.open_conditions)
        yield f"{said}, recorded as open" if now else said


def _own(card: Card, name: str) -> str:
    """The question that is asked first, by its words; what the template doesn't know, by its name."""
    return (card.job.plan.template.ask_first or name) if name == "ask-first" else name
