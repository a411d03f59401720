"""The givens that a step stands on, each said once: what its tables and its other rows name already is left out."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.state.look_again import stands_on
from jobtrack.job.values.depends_on import bases, limit_refs
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.known import known_words
from jobtrack.sheets.job_card.together import Them
from jobtrack.sheets.words.named import given_name
from jobtrack.template.plan import PlannedStep, Ref


def goes_by(card: Card, them: Them) -> tuple[list[str], list[str]]:
    """Those that are known, each with its value, and the names of those that aren't yet."""
    values = {name: known_words(card, name) for name in dict.fromkeys(_names(card, them))}
    known = [f"{given_name(card.job, name)}: {value}" for name, value in values.items() if value]
    return known, [f"“{given_name(card.job, name)}”" for name, value in values.items() if not value]


def _names(card: Card, them: Them) -> Iterator[str]:
    said = set[str]().union(*(_said_elsewhere(card, one) for one in them))
    for planned in them:
        for name, ref in stands_on(card.job.plan, planned).items():
            if ref.kind == "given" and name in card.job.plan.givens and name not in said:
                yield name


def _said_elsewhere(card: Card, planned: PlannedStep) -> set[str]:
    """The table has a limit that is itself a given, a torque line its figure and bolts; what is unknown is named."""
    limits = [ref for one in planned.step.reading.values() for ref in limit_refs(card.job.plan, planned, one)]
    lines = planned.step.torque.values()
    said = {ref.name for ref in limits if _known(card, ref)}
    said |= {
        name for line in lines if (name := _given(card, planned, line.given)) and known_words(card, name)
    }
    said |= {name for line in lines if (name := _given(card, planned, line.bolts))}
    said |= {ref.name for ref in waited_for(card, planned)}
    branch = (_given(card, planned, name) for name in planned.only_when)
    return said | {name for name in branch if name and not known_words(card, name)}


def _known(card: Card, ref: Ref) -> bool:
    return ref.kind == "given" and card.job.now.value(ref) is not None


def _given(card: Card, planned: PlannedStep, name: object) -> str | None:
    """The full name of a given; None for what is none."""
    ref = card.job.plan.resolve(name, planned) if isinstance(name, str) else None
    return ref.name if ref is not None and ref.kind == "given" else None


def waited_for(card: Card, planned: PlannedStep) -> Iterator[Ref]:
    """What the limits of a step's readings still wait for."""
    for name in planned.step.reading:
        yield from limit_waits_for(card, planned, name)


def limit_waits_for(card: Card, planned: PlannedStep, name: str) -> tuple[Ref, ...]:
    """What the limits of one reading still wait for, each once; nothing where they are known or none is wanted."""
    limits = card.job.now.limits(planned.id, name)
    if not limits.wanted or limits.known:
        return ()
    refs = limit_refs(card.job.plan, planned, planned.step.reading[name])
    found = dict.fromkeys(base for ref in refs for base in bases(card.job.plan, ref))
    return tuple(one for one in found if card.job.now.value(one) is None)
