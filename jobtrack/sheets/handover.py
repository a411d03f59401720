"""The handover of a half-finished job, one page of Markdown."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.record.entries import MarkAct, NoteAct, TorqueAct
from jobtrack.record.history import Done
from jobtrack.record.job import IN_HAND, LOOK_AGAIN, Job
from jobtrack.record.problems import job_problems, step_problems
from jobtrack.sheets import lines
from jobtrack.sheets.markdown import md
from jobtrack.sheets.readings import measured_words


def handover_markdown(job: Job, by: str, to: str) -> str:
    """What the next person must know: what is open, where inside the steps, what was measured and how."""
    parts = [
        [f"# Handover: {md(job.about.title)}", f"From {md(by)} to {md(to)}."],
        ["## Recorded as open", *_open(job)],
        ["## Tags for the steering wheel", *_tags(job)],
        ["## In hand", *_in_hand(job)],
        ["## Next", *_next(job)],
        ["## Fasteners", *_fasteners(job)],
        ["## Notes", *_notes(job)],
        ["## Wrong or missing in the job", *_problems(job)],
        ["## Together, before the giver leaves", *WALK_ROUND],
        [f"*{md(lines.FIRST_WORD)}*"],
    ]
    return "\n\n".join("\n".join(part) for part in parts if len(part) > 1 or part[0].startswith("*")) + "\n"


WALK_ROUND = (
    "- Walk round the vehicle: what holds it up, and when was that shaken?",
    "- Take one reading again, with the same instrument.",
    "- Say back the two most dangerous things.",
    "- Don't press the pedal, lower it, turn the key, move a jack or grind off a mark before that.",
)


def _open(job: Job) -> Iterator[str]:
    if not job.open_conditions:
        yield lines.NO_CONDITION
    for one in job.open_conditions:
        yield f"- {md(lines.condition_line(one))}"


def _tags(job: Job) -> Iterator[str]:
    for tag in lines.tags(job):
        yield f"- **{md(tag)}**"


def _in_hand(job: Job) -> Iterator[str]:
    for planned in job.steps.values():
        state = job.state(planned.id)
        if state not in (IN_HAND, LOOK_AGAIN):
            continue
        yield f"- **{md(planned.step.title)}**{f' ({planned.member})' if planned.member else ''}: {state}"
        for name, reading in planned.step.reading.items():
            value = measured_words(job, planned, name)
            if value:
                with_ = f", {md(reading.with_)}" if reading.with_ else ""
                yield f"  - {md(reading.say or name)}: {md(value)}{with_}"
        for text in step_problems(job, planned.id):
            yield f"  - wrong or missing: {md(text)}"
        marks = [done for done in job.view.in_step(planned.id) if isinstance(done.act, MarkAct)]
        if marks:
            yield f"  - where: {md(_mark(marks[-1]))}"


def _mark(done: Done) -> str:
    return done.act.mark if isinstance(done.act, MarkAct) else ""


def _next(job: Job) -> Iterator[str]:
    for step in job.next_steps:
        yield f"- {md(job.steps[step].step.title)} ({md(step)})"
    if job.next_steps:
        yield md(lines.NEXT)


def _fasteners(job: Job) -> Iterator[str]:
    last: dict[tuple[str, str, str], TorqueAct] = {}
    for done in job.view.of_kind(TorqueAct):
        if isinstance(done.act, TorqueAct):
            last[(done.entry.step or "", done.act.torque, done.act.member or "")] = done.act
    for (step, torque, member), act in last.items():
        typed = f", {md(act.typed)}" if act.typed else ""
        yield f"- {md(step)} {md(torque)} {md(member)}: {md(act.stage)}{typed}".replace("  ", " ")


def _notes(job: Job) -> Iterator[str]:
    for done in job.view.of_kind(NoteAct):
        if isinstance(done.act, NoteAct) and not done.act.private:
            where = f" ({md(done.entry.step)})" if done.entry.step else ""
            yield f"- {md(done.entry.by)}{where}: {md(done.act.note)}"


def _problems(job: Job) -> Iterator[str]:
    for text in job_problems(job):
        yield f"- {md(text)}"
