"""The handover of a half-finished job, one page of Markdown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from jobtrack.job.acts.conditions import ClosesAct
from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.remarks.of_job import job_problems
from jobtrack.job.remarks.of_step import OfStep, left_open, step_problems
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, TO_COME, Job
from jobtrack.job.state.job import NEXT as NEXT_STATE
from jobtrack.job.time.clock import times
from jobtrack.sheets.handover.donts import WALK_ROUND, donts
from jobtrack.sheets.handover.fasteners import fastener_rows
from jobtrack.sheets.markdown import md
from jobtrack.sheets.words import sentences as lines
from jobtrack.sheets.words.hazards import hazard_sentences
from jobtrack.sheets.words.named import given_name
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.readings import given_words, measured_words, verdict_text
from jobtrack.sheets.words.recorded import in_step, of_job, row
from jobtrack.template.plan import PlannedStep

ELSEWHERE = (TorqueAct, NoteAct, MarkAct, FinishedAct, ClosesAct)
"""What has a section or a row of its own; what finishing closed is gone from the first section."""


def handover_markdown(job: Job, by: str, to: str) -> str:
    """What the next person must know: what not to do, what is open, where inside the steps, what was done and how."""
    parts = [
        [f"# Handover: {md(job.about.title)}", f"From {md(by)} to {md(to)}."],
        ["## Don't", *_list(donts(job))],
        ["## Recorded as open", *_open(job)],
        ["## Tags for the steering wheel", *(f"- **{md(tag)}**" for tag in lines.tags(job))],
        ["## In hand", *_in_hand(job)],
        ["## Next", *_next(job)],
        ["## Fasteners", *_fasteners(job)],
        ["## Other steps worked on", *_other_steps(job)],
        ["## For the job as a whole", *_list(_of_job(job))],
        ["## Notes", *_notes(job)],
        ["## Known, and not known yet", *_givens(job)],
        ["## Wrong or missing in the job", *_list(with_names(job, job_problems(job)))],
        ["## Together, before the giver leaves", *_list(WALK_ROUND)],
        [f"*{md(lines.FIRST_WORD)}*"],
    ]
    return "\n\n".join("\n".join(part) for part in parts if len(part) > 1 or part[0].startswith("*")) + "\n"


def _list(texts: Sequence[str], indent: str = "") -> list[str]:
    return [f"{indent}- {md(text)}" for text in texts]


def _open(job: Job) -> list[str]:
    if not job.open_conditions:
        return [lines.NO_CONDITION]
    return _list([lines.condition_line(one) for one in lines.worst_first(job)])


def _in_hand(job: Job) -> Iterator[str]:
    """The hazards of the whole job, then each step in hand or to be looked at again, from its hazards on."""
    yield from _list(hazard_sentences(job.plan.template.hazard))
    for planned in job.steps.values():
        if (state := job.state(planned.id)) in (IN_HAND, LOOK_AGAIN):
            yield _titled(planned, state)
            yield from _list(_inside(job, planned), "  ")


def _titled(planned: PlannedStep, state: str) -> str:
    side = f" ({md(planned.member)})" if planned.member else ""
    return f"- **{md(planned.step.title)}**{side}: {md(state)}"


def _inside(job: Job, planned: PlannedStep) -> list[str]:
    """Where inside a step somebody stopped: its hazards, values, checks, what is wrong or missing, how far."""
    against = step_problems(job, planned.id)
    not_yet = [one for one in left_open(job, planned.id) if one not in against]
    return [
        *hazard_sentences(planned.step.hazard),
        *_values(job, planned),
        *_against(job, against),
        *(f"not yet: {text}" for text in with_names(job, not_yet)),
        *_hold(job, planned),
        *(row(job, done) for done in in_step(job, planned.id) if not isinstance(done.act, ELSEWHERE)),
        *_where(job, planned),
    ]


def _against(job: Job, problems: Iterable[OfStep]) -> Iterator[str]:
    yield from (f"wrong or missing: {text}" for text in with_names(job, problems))


def _values(job: Job, planned: PlannedStep) -> Iterator[str]:
    for name, reading in planned.step.reading.items():
        if value := measured_words(job, planned, name):
            with_ = _instrument(job, planned, name)
            verdict = verdict_text(job, planned, name)
            yield f"{reading.say or name}: {value}{with_ and f', {with_}'}{verdict and f'. {verdict}'}"
    for name, tick in planned.step.tick.items():
        standing = job.places.tick(planned.id, name)
        if standing.acts and standing.value is True:
            yield f"{tick.ask} yes"


def _instrument(job: Job, planned: PlannedStep, name: str) -> str:
    """What a reading was taken with: as recorded, else as the template asks."""
    reading = planned.step.reading[name]
    act = None if reading.from_ else job.places.reading(planned.id, name).reading
    return (act.with_ if act else None) or reading.with_ or ""


def _hold(job: Job, planned: PlannedStep) -> list[str]:
    hold = job.hold(planned.id)
    return [lines.released_line(hold)] if hold is not None and hold.release is not None else []


def _where(job: Job, planned: PlannedStep) -> list[str]:
    marks = [done for done in in_step(job, planned.id) if isinstance(done.act, MarkAct)]
    return [f"where: {_marked(marks[-1])}"] if marks else []


def _marked(done: Done) -> str:
    said = done.act.mark if isinstance(done.act, MarkAct) else ""
    return f"{said} ({done.entry.by}, {lines.day_and_clock(done.entry.at)})"


def _next(job: Job) -> Iterator[str]:
    names = [lines.step_name(job.steps[step]) for step in job.next_steps]
    yield from _list([f"{name} ({step})" for name, step in zip(names, job.next_steps, strict=True)])
    if names:
        yield md(lines.NEXT if len(names) > 1 else lines.next_sentence(names[0]))


def _fasteners(job: Job) -> Iterator[str]:
    for line, bolts in fastener_rows(job):
        yield f"- {md(line)}"
        yield from _list(bolts, "  ")


def _other_steps(job: Job) -> Iterator[str]:
    """The steps finished, not needed, or with something recorded ahead of its time."""
    for planned in job.steps.values():
        acts, state = in_step(job, planned.id), job.state(planned.id)
        against = (
            list(_against(job, step_problems(job, planned.id))) if state not in (TO_COME, NEXT_STATE) else []
        )
        if state in (IN_HAND, LOOK_AGAIN) or not (acts or against):
            continue
        yield _titled(planned, _finished_by(acts, state))
        yield from _list(against, "  ")
        yield from _list([row(job, one) for one in acts if not isinstance(one.act, ELSEWHERE)], "  ")


def _finished_by(acts: Sequence[Done], state: str) -> str:
    finished = [done for done in acts if isinstance(done.act, FinishedAct)]
    last = finished[-1].entry if finished else None
    return f"{state} ({last.by}, {lines.day_and_clock(last.at)})" if last else state


def _of_job(job: Job) -> list[str]:
    rows = [row(job, done) for done in of_job(job) if not isinstance(done.act, NoteAct)]
    found = times(job)
    return [*rows, *lines.clock_lines(found.running, found.on_break)]


def _notes(job: Job) -> Iterator[str]:
    for done in job.view.of_kind(NoteAct):
        if isinstance(done.act, NoteAct) and not done.act.private:
            step = done.entry.step or ""
            name = lines.step_name(job.steps[step]) if step in job.steps else step
            who = ", ".join(md(one) for one in (done.entry.by, name) if one)
            yield f"- {lines.headed(who, md(done.act.note))}"


def _givens(job: Job) -> list[str]:
    known = [name for name in job.plan.givens if job.places.given(name).acts]
    return _list([f"{given_name(job, name)}: {given_words(job, name)}" for name in known])
