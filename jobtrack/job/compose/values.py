"""Readings, checks and givens: acts from what was typed, each naming what it takes the place of; and refusals."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack import units
from jobtrack.job.acts.base import replace
from jobtrack.job.acts.values import GivenAct, TickAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused, known
from jobtrack.job.compose.typed import amount, given_value, reading_act, yes_or_no
from jobtrack.job.state.history import Place
from jobtrack.template.model import Reading
from jobtrack.template.plan import VEHICLE_SET, Ref


def reading(
    draft: Draft,
    name: str,
    texts: Sequence[str],
    mistyped: bool | str = False,
    with_: str | None = None,
    doubt: str | None = None,
) -> None:
    """A measured value as typed, or several where the template asks for repeats.

    `mistyped`: it corrects a slip in typing, the measuring is the same. `doubt` is in the reading's unit.
    """
    slip = yes_or_no("mistyped", mistyped) if isinstance(mistyped, str) else mistyped
    template = _measured(draft, name)
    read = [units.read(text, template.unit) for text in texts]
    replaces = earlier(draft, ("reading", draft.planned.id, name))
    if slip and not replaces:
        raise Refused(f"{name} has no value yet that could be mistyped; record it as a reading")
    act = reading_act(name, template.unit, read, replaces)
    unsure = None if doubt is None else amount("doubt", doubt, template.unit)
    draft.add(replace(act, mistyped=slip, with_=with_, doubt=unsure))


def _measured(draft: Draft, name: str) -> Reading:
    """A reading of the call's step that is typed, not worked out."""
    readings = draft.planned.step.reading
    if name not in readings:
        raise Refused(f"no reading {name!r} in {draft.step}{known(readings)}")
    if readings[name].from_ is not None:
        raise Refused(f"{name} is worked out, not typed; record what it comes from")
    return readings[name]


def slips(draft: Draft, name: str, texts: Sequence[str]) -> list[str]:
    """Likely slips in what is typed for a reading, as questions; none where there is no such reading."""
    template = draft.planned.step.reading.get(name) if draft.step else None
    if template is None:
        return []
    target = draft.job.now.limits(draft.planned.id, name).target
    doubt = draft.job.now.doubt(Ref("reading", f"{draft.step}.{name}", draft.step, name))
    asked = (units.question(units.read(text, template.unit), target, doubt) for text in texts)
    return [f"{name}: {question}" for question in asked if question is not None]


def tick(draft: Draft, name: str, yes: bool | str) -> None:
    """A check looked at: yes or no."""
    answer = yes_or_no(name, yes) if isinstance(yes, str) else yes
    if name not in draft.planned.step.tick:
        raise Refused(f"no check {name!r} in {draft.step}{known(draft.planned.step.tick)}")
    draft.add(TickAct(name, answer, earlier(draft, ("tick", draft.planned.id, name))))


def given(draft: Draft, name: str, text: str) -> None:
    """Something known, or `?` for don't know yet."""
    full = given_name(draft, name)
    replaces = earlier(draft, ("given", "", full))
    if text.strip() == "?":
        draft.add(GivenAct(full, unknown=True, replaces=replaces))
        return
    template = draft.job.plan.givens[full]
    value = given_value(full, template, text)
    draft.add(GivenAct(full, value, template.unit, text.strip(), replaces=replaces))


def given_name(draft: Draft, name: str) -> str:
    """The whole name of a given; in a step over the vehicles, its own one's comes first."""
    givens = draft.job.plan.givens
    planned = draft.job.steps.get(draft.step or "")
    own = f"{planned.member}.{name}" if planned and planned.set == VEHICLE_SET else name
    for candidate in (own, name):
        if candidate in givens:
            return candidate
    raise Refused(f"no given {name!r} in this job{known(givens)}")


def earlier(draft: Draft, place: Place) -> tuple[str, ...]:
    """Every earlier act of a place that can be seen, replaced ones too."""
    return tuple(done.name for done in draft.job.places.acts(place))
