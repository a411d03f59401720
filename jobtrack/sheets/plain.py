"""A job as plain text for the terminal: the form of `show` that a screen reader can take."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.literal import visible
from jobtrack.record.job import NEXT as NEXT_STATE
from jobtrack.record.job import TO_COME, Job
from jobtrack.record.problems import job_problems, step_problems
from jobtrack.record.time_remarks import time_problems, typed_remarks
from jobtrack.sheets import lines
from jobtrack.sheets.as_json import due_json, hours_json
from jobtrack.sheets.named import steps_named
from jobtrack.sheets.readings import given_words, measured_words, verdict_text
from jobtrack.sheets.recorded import in_step, of_job, row
from jobtrack.template.plan import PlannedStep


def job_text(job: Job) -> str:
    """The whole state of a job in words."""
    rows = [*_head(job), "", *_open(job), "", *_stages(job), *_of_job(job), *_next(job), *_end(job)]
    return "".join(f"{visible(row)}\n" for row in rows)


def _head(job: Job) -> Iterator[str]:
    ended = f" ({job.ended})" if job.ended else ""
    yield f"{visible(job.about.title)}{ended}"
    yield f"Template: {visible(job.plan.template.title)}"
    for name in job.plan.givens:
        if job.places.given(name).acts:
            yield f"  {name}: {visible(given_words(job, name))}"


def _open(job: Job) -> Iterator[str]:
    if job.ended == "closed" and not job.open_conditions:
        yield lines.CLOSED
    elif not job.open_conditions:
        yield lines.NO_CONDITION
    else:
        yield "Recorded as open:"
    for one in lines.worst_first(job):
        yield f"  {lines.condition_line(one)}"
    if tags := lines.tags(job):
        yield f"Tags for the steering wheel: {', '.join(tags)}."


def _stages(job: Job) -> Iterator[str]:
    stage = None
    for planned in job.steps.values():
        if planned.step.stage != stage:
            stage = planned.step.stage
            yield visible(lines.stage_sentence(job, planned))
        yield from _step(job, planned)


def _step(job: Job, planned: PlannedStep) -> Iterator[str]:
    state = job.state(planned.id)
    yield f"  {planned.id}: {state}. {visible(lines.step_name(planned))}"
    for text in step_problems(job, planned.id) if state not in (TO_COME, NEXT_STATE) else ():
        yield f"      ! {visible(steps_named(job, text, planned))}"
    for name, reading in planned.step.reading.items():
        value = measured_words(job, planned, name)
        if value:
            yield f"      {visible(reading.say or name)}: {visible(value)}. {verdict_text(job, planned, name)}".rstrip()
    for name, tick in planned.step.tick.items():
        standing = job.places.tick(planned.id, name)
        if standing.acts:
            yield f"      {visible(tick.ask)} {'yes' if standing.value is True else 'no'}"
    hold = job.hold(planned.id)
    if hold is not None and hold.release is not None:
        yield f"      {lines.released_line(hold)}"
    for done in in_step(job, planned.id):
        yield f"      {visible(row(job, done))}"


def _of_job(job: Job) -> Iterator[str]:
    found = of_job(job)
    yield from ["", "For the job as a whole:"] if found else ()
    for done in found:
        yield f"  {visible(row(job, done))}"


def _next(job: Job) -> Iterator[str]:
    yield ""
    if not job.next_steps:
        yield "No step is next."
        return
    names = [lines.step_name(job.steps[step]) for step in job.next_steps]
    yield "Next:"
    for step, name in zip(job.next_steps, names, strict=True):
        yield f"  {step}: {visible(name)}"
    yield lines.NEXT if len(names) > 1 else visible(lines.next_sentence(names[0]))


def _end(job: Job) -> Iterator[str]:
    for due in due_json(job) if job.ended else ():
        yield f"Due afterwards: {visible(due['text'])} ({'done' if due['done'] else 'not recorded as done'})"
    hours = hours_json(job)
    people = ", ".join(f"{visible(name)} {h:.2f} h" for name, h in hours["by_person"].items())
    yield f"Labour: {hours['total_hours']:.2f} h" + (f" ({people})" if people else "")
    for name in hours["running"]:
        yield lines.clock_line(name)
    for text in typed_remarks(job):
        yield f"  {visible(steps_named(job, text))}."
    for text in (*job_problems(job), *time_problems(job)):
        yield f"! {visible(steps_named(job, text))}"
