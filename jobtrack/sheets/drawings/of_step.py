"""The pictures of a step, as its readings and workings-out stand now; which of them fit the chosen line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from msgspec import Struct

from jobtrack.figures.drawing import Drawing
from jobtrack.job.state.job import Job
from jobtrack.pictures import PICTURES, picture_of
from jobtrack.sheets.drawings.bolts import bolts
from jobtrack.sheets.drawings.levels import PERCHES, beside_perches
from jobtrack.sheets.drawings.where_it_lies import lies
from jobtrack.sheets.words.sentences import step_name
from jobtrack.sheets.words.values.in_units import measured_in
from jobtrack.sheets.words.values.inputs import called, missing_words
from jobtrack.template.plan import PlannedStep, Ref
from jobtrack.units.chosen import Chosen

PLACE, WORK = "place", "work"
READING, GIVEN, TORQUE = "reading", "given", "torque"


class Asked(Protocol):
    """A line of a step that wants an answer, as far as pictures go by it."""

    @property
    def kind(self) -> str:
        """What of a step it is: a reading, a given, a torque line."""

    @property
    def name(self) -> str:
        """Its id in the step; a given's full name."""


class Subject(Struct, frozen=True):
    """What a picture is of: where a reading lies, a working-out, or the bolts of a torque line."""

    kind: str
    step: str
    name: str


class StepPicture(Struct, frozen=True):
    """One picture: what it shows, the drawing where it can be drawn, and what isn't known."""

    of: Subject
    title: str
    drawing: Drawing | None
    note: str = ""


def step_pictures(job: Job, planned: PlannedStep, chosen: Asked | None, shown: Chosen) -> list[StepPicture]:
    """All pictures of a step: those of the chosen line first, and of these the ones that can be drawn."""
    mine = _of_chosen(job, planned, chosen, shown)
    known = {one.of for one in mine}
    others = [one for one in dict.fromkeys(subjects(job, planned)) if one not in known]
    return [*mine, *(drawn(job, one, shown) for one in others)]


def first_picture(job: Job, planned: PlannedStep, chosen: Asked | None, shown: Chosen) -> StepPicture | None:
    """The first of them, without drawing the others."""
    mine = _of_chosen(job, planned, chosen, shown)
    other = next(subjects(job, planned), None) if not mine else None
    return mine[0] if mine else drawn(job, other, shown) if other is not None else None


def _of_chosen(job: Job, planned: PlannedStep, chosen: Asked | None, shown: Chosen) -> list[StepPicture]:
    found = [drawn(job, one, shown) for one in dict.fromkeys(_of_line(job, planned, chosen))]
    return sorted(found, key=lambda one: one.drawing is None)


def drawn(job: Job, subject: Subject, shown: Chosen) -> StepPicture:
    """The picture of a subject, with what isn't known of it."""
    if subject.kind == PLACE:
        return _place(job, subject, shown)
    return _bolts(job, subject, shown) if subject.kind == TORQUE else _work(job, subject, shown)


def _place(job: Job, subject: Subject, shown: Chosen) -> StepPicture:
    planned = job.steps[subject.step]
    title = f"Where it lies: {planned.step.reading[subject.name].say or subject.name}"
    if not job.now.limits(planned.id, subject.name).known:
        return StepPicture(subject, title, None, _still(_unknown_limits(job, planned, subject.name)))
    drawing = lies(job, planned, subject.name, shown)
    return StepPicture(subject, title, drawing, _not_measured(job, planned, subject.name, shown))


def _unknown_limits(job: Job, planned: PlannedStep, name: str) -> str:
    behind = [called(job, planned, ref) for ref in _limits(job, planned, name) if job.now.value(ref) is None]
    return "; ".join(behind) or "a limit to hold it against"


def _not_measured(job: Job, planned: PlannedStep, name: str, shown: Chosen) -> str:
    """Why there is no mark: nothing is recorded, or no one number."""
    if job.now.reading_value(planned.id, name) is not None:
        return ""
    said = measured_in(job, planned, name, shown)
    return f"Measured: {said}." if said else "Not measured yet."


def _work(job: Job, subject: Subject, shown: Chosen) -> StepPicture:
    planned = job.steps[subject.step]
    work = planned.step.work_out[subject.name]
    title = f"Worked out, {subject.name.replace('-', ' ')}: {step_name(planned)}"
    outcome = job.now.outcome(planned.id, subject.name)
    if outcome is None:
        return StepPicture(subject, title, None, _still(missing_words(job, planned, work)))
    drawing = picture_of(work.use, outcome.inputs, outcome.values, shown)
    if drawing is None or work.use not in PERCHES:
        return StepPicture(subject, title, drawing)
    inputs = outcome.inputs
    beside = beside_perches(job, drawing, inputs, lambda step: _is_set_by(job, step, subject), shown)
    return StepPicture(subject, title, *beside)


def _is_set_by(job: Job, planned: PlannedStep, work: Subject) -> bool:
    """Whether a limit of one of a step's readings comes from a working-out."""
    return any(work in _behind(job, planned, name) for name in planned.step.reading)


def _bolts(job: Job, subject: Subject, shown: Chosen) -> StepPicture:
    drawing, note = bolts(job, job.steps[subject.step], subject.name, shown)
    return StepPicture(subject, f"Bolts, {subject.name.replace('-', ' ')}", drawing, note)


def _still(missing: str) -> str:
    return f"Not drawn yet; still missing: {missing}."


# What a line, and a step, have pictures of


def subjects(job: Job, planned: PlannedStep) -> Iterator[Subject]:
    """What a step has pictures of: its bolts and workings-out, then each reading with what its limits come from."""
    yield from (Subject(TORQUE, planned.id, name) for name in planned.step.torque)
    yield from (one for name in planned.step.work_out for one in _if_drawn(job, planned.id, name))
    for name in planned.step.reading:
        if job.now.limits(planned.id, name).wanted:
            yield Subject(PLACE, planned.id, name)
            yield from _behind(job, planned, name)


def _of_line(job: Job, planned: PlannedStep, chosen: Asked | None) -> list[Subject]:
    """Where a measured reading lies comes first; before it is measured, what it is measured for."""
    if chosen is not None and chosen.kind == TORQUE:
        return [Subject(TORQUE, planned.id, chosen.name)]
    if chosen is None or chosen.kind not in (READING, GIVEN):
        return []
    ref = (
        Ref(GIVEN, chosen.name, item=chosen.name) if chosen.kind == GIVEN else _reading(planned, chosen.name)
    )
    fed = [work for work in planned.step.work_out if ref in _inputs(job, planned, work)]
    works = [one for work in fed for one in _if_drawn(job, planned.id, work)]
    places = [
        Subject(PLACE, planned.id, name)
        for name in planned.step.reading
        if _is_about(job, planned, name, ref)
    ]
    if chosen.kind == READING:
        works += _behind(job, planned, chosen.name)
        worked_out = [
            Subject(PLACE, planned.id, name)
            for name in planned.step.reading
            if _from(job, planned, name) in fed
        ]
        places += [one for one in worked_out if job.now.limits(planned.id, one.name).wanted]
    return [*places, *works] if job.now.value(ref) is not None else [*works, *places]


def _is_about(job: Job, planned: PlannedStep, name: str, ref: Ref) -> bool:
    """Whether a reading is held against limits, and is the one that is meant or has its limit from it."""
    limited = job.now.limits(planned.id, name).wanted
    return limited and (ref == _reading(planned, name) or ref in _limits(job, planned, name))


def _behind(job: Job, planned: PlannedStep, name: str) -> Iterator[Subject]:
    """The workings-out that give a reading's limits, also by way of a reading that is worked out itself."""
    for ref in _limits(job, planned, name):
        there = job.steps.get(ref.step or "")
        if there is not None:
            work = (
                ref.item
                if ref.kind == "result"
                else _from(job, there, ref.item)
                if ref.kind == READING
                else None
            )
            yield from _if_drawn(job, there.id, work) if work else ()


def _if_drawn(job: Job, step: str, work: str) -> Iterator[Subject]:
    if job.steps[step].step.work_out[work].use in PICTURES:
        yield Subject(WORK, step, work)


def _reading(planned: PlannedStep, name: str) -> Ref:
    return Ref(READING, f"{planned.id}.{name}", planned.id, name)


def _limits(job: Job, planned: PlannedStep, name: str) -> list[Ref]:
    """What the limits of a reading are named after."""
    reading = planned.step.reading[name]
    limits = [planned.limit(one) for one in (reading.target, reading.at_least, reading.at_most)]
    refs = [job.plan.resolve(one, planned) for one in limits if isinstance(one, str)]
    return [ref for ref in refs if ref is not None]


def _inputs(job: Job, planned: PlannedStep, work: str) -> list[Ref | None]:
    values = planned.step.work_out[work].inputs.values()
    return [job.plan.resolve(value, planned) for value in values if isinstance(value, str)]


def _from(job: Job, planned: PlannedStep, name: str) -> str | None:
    """The working-out of the same step that a reading is taken from."""
    source = planned.step.reading[name].from_
    ref = job.plan.resolve(source, planned) if source else None
    return ref.item if ref is not None and ref.step == planned.id else None
