"""A job as plain text for the terminal: the form of `show` that a screen reader can take."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.remarks.of_job import job_problems
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.remarks.of_time import time_problems, typed_remarks
from jobtrack.job.state.job import NEXT as NEXT_STATE
from jobtrack.job.state.job import TO_COME, Job
from jobtrack.job.time.clock import times
from jobtrack.literal import visible
from jobtrack.sheets.as_json.job import due_json, hours_json
from jobtrack.sheets.words import sentences as lines
from jobtrack.sheets.words.answers import step_answers, template_answers
from jobtrack.sheets.words.doing.recorded import in_step, of_job, row
from jobtrack.sheets.words.hours import time_words
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.values.readings import given_words, measured_words, verdict_text
from jobtrack.template.plan import PlannedStep


def job_text(job: Job) -> str:
    """The whole state of a job in words."""
    rows = [*_head(job), "", *_open(job), "", *_stages(job), *_of_job(job), *_next(job), *_end(job)]
    return "".join(f"{visible(row)}\n" for row in rows)


def _head(job: Job) -> Iterator[str]:
    ended = f" ({job.ended})" if job.ended else ""
    yield f"{visible(job.about.title)}{ended}"
    yield f"Template: {visible(job.plan.template.title)}"
    yield from (f"  {visible(text)}" for text in template_answers(job.plan.template))
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
    against = step_problems(job, planned.id) if state not in (TO_COME, NEXT_STATE) else ()
    for text in with_names(job, against):
        yield f"      ! {visible(text)}"
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
    yield from (f"      {visible(text)}" for text in step_answers(planned.step))


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
    yield from lines.clock_lines(hours["running"], times(job).on_break)
    yield from _remarks(job)


def _remarks(job: Job) -> Iterator[str]:
    """What the hours don't say, and what stands against the job."""
    named = Names(job)
    for remark in typed_remarks(job):
        yield f"  {visible(time_words(remark, named))}."
    of_time = [time_words(one, named) for one in time_problems(job)]
    for text in (*with_names(job, job_problems(job)), *of_time):
        yield f"! {visible(text)}"
