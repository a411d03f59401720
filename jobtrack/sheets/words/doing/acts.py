"""What an entry did, in a few words for the line that answers it: recorded, undone, or taken in from others."""

from __future__ import annotations

from collections.abc import Iterable

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.doing.parts import planned_part
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.sentences import step_name


def entry_words(entry: Entry) -> str:
    """ "pin-spacing.donor: spacing 1012; finished (09:41)"."""
    return f"{entry.step or 'job'}: {acts_words(entry.did)} ({entry.at:%H:%M})"


def acts_words(did: Iterable[Act]) -> str:
    """Several acts, each said once."""
    return "; ".join(dict.fromkeys(act.words() for act in did))


def named_entry_words(job: Job, entry: Entry) -> str:
    """The same for people: "Pin spacing (donor): Pin to pin 1012; finished (09:41)"."""
    planned = job.steps.get(entry.step or "")
    where = step_name(planned) if planned is not None else entry.step or "job"
    return f"{where}: {named_acts_words(job, entry.step, entry.did)} ({entry.at:%H:%M})"


def named_acts_words(job: Job, step: str | None, did: Iterable[Act]) -> str:
    """Several acts, each said once, what they are about by its name."""
    return "; ".join(dict.fromkeys(named_act(job, step, act, act.words()) for act in did))


def named_act(job: Job, step: str | None, act: Act, words: str) -> str:
    """The words of an act, what it is about called by its name instead of by its id."""
    id, name = _called(job, step, act)
    return words.replace(id, name, 1) if id and name else words


def _called(job: Job, step: str | None, act: Act) -> tuple[str, str | None]:
    """The id by which an act names what it is about, and what people call that; none where it has no name."""
    match act:
        case ReadingAct() if step in job.steps and act.reading in job.steps[step].step.reading:
            return act.reading, job.steps[step].step.reading[act.reading].say
        case TickAct() if step in job.steps and act.tick in job.steps[step].step.tick:
            return act.tick, job.steps[step].step.tick[act.tick].ask
        case GivenAct() if act.given in job.plan.givens:
            return act.given, given_name(job, act.given)
        case PartAct() | BuyingAct() | PlaceAct() if act.part:
            part = planned_part(job, act.part)
            return act.part, part.say if part else None
        case _:
            return "", None
