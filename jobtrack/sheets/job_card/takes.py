"""What a step takes and changes: people and things, what it opens and closes, what must not be open or beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.job.doing.parts import parts_of
from jobtrack.job.state.conditions import of_member
from jobtrack.job.state.look_again import stands_on
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.known import known_words
from jobtrack.sheets.paper.blocks import Text
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.parts import brief_words
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


def takes(card: Card, planned: PlannedStep) -> Iterator[tuple[str, Text]]:
    """Names and what stands beside each; nothing for what a step doesn't take."""
    step = planned.step
    rows = {
        "takes": "; ".join(_needed(step)),
        "parts": "; ".join(_parts(card, planned)),
        "again": step.again or "",
        "goes by": "; ".join(_goes_by(card, planned)),
        "opens": "; ".join(_conditions(card, planned, step.opens)),
        "closes": "; ".join(_conditions(card, planned, step.closes)),
        "not while open": "; ".join(_open_now(card, planned)),
        "not beside": _listed(KINDS.get(one, one) for one in step.not_beside),
    }
    yield from ((name, text) for name, text in rows.items() if text)


def _listed(things: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(things))


def _needed(step: Step) -> Iterator[str]:
    """People, things and time, as far as the template names them."""
    yield f"{step.people} people" if step.people > 1 else "one person"
    yield from ("a helper may do it alone",) if step.helper_alone else ()
    yield from ("hoist or trolley",) if step.hoist else ()
    yield from dict.fromkeys((*step.tools, *step.consumables))
    if len(step.minutes) == _TIMES:
        short, likely, long = step.minutes
        yield f"likely {likely:g} min, {short:g} to {long:g}"


def _parts(card: Card, planned: PlannedStep) -> Iterator[str]:
    yield from (
        brief_words(one, planned.id) for one in parts_of(card.job, planned.id) if one.of_step is not None
    )


def _goes_by(card: Card, planned: PlannedStep) -> Iterator[str]:
    """The givens that a step stands on, each as far as it is known."""
    for name, ref in stands_on(card.job.plan, planned).items():
        if ref.kind == "given" and name in card.job.plan.givens:
            yield f"{given_name(card.job, name)}: {known_words(card, name) or 'not known yet'}"


def _conditions(card: Card, planned: PlannedStep, names: Iterable[str]) -> Iterator[str]:
    """Conditions with their tags; those of the step's own side with that."""
    for name in names:
        known = card.job.plan.template.condition.get(name)
        text = of_member(known.text, planned.member) if known else name
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
