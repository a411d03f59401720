"""What stands against the work: readings outside, disagreements, looking again, checks answered no; what was used."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from jobtrack.job.acts.doing import TorqueAct, WeldAct
from jobtrack.job.remarks.of_job import job_problems
from jobtrack.job.remarks.of_step import (
    APART,
    BY_THE_SAME,
    NO,
    Check,
    Disagreement,
    Hold,
    NotWithin,
    OfStep,
    step_problems,
)
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, Job
from jobtrack.job.values.limits import TOO_CLOSE, WHEN_TOO_CLOSE
from jobtrack.sheets.handover.handing import Handing, points, reading_name
from jobtrack.sheets.handover.inside import begun_steps, instrument, notes
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Table
from jobtrack.sheets.words.problems import with_names
from jobtrack.sheets.words.sentences import headed, raised, step_name
from jobtrack.sheets.words.values.in_units import wanted_in
from jobtrack.sheets.words.values.whose import limit_source
from jobtrack.template.plan import PlannedStep

TITLE = "Readings outside, disagreements, what to look at again"
NOTHING = (
    "No reading is recorded as outside or too close to call, nothing as in disagreement, to be looked at again or "
    "answered no. What wasn't measured isn't among them."
)
HEAD = ("Reading", "Measured", "Wanted", "Where it lies", "By, when")
USED = "How and with what it was measured"


def against_section(giving: Handing) -> Section:
    """All of the job; what belongs to a step in hand stands there too."""
    found = [
        (planned, one)
        for planned in giving.job.steps.values()
        for one in step_problems(giving.job, planned.id)
    ]
    blocks = [*_outside(giving, found), *points((*_noted(giving, found), *_rows(giving, found)))]
    return Section(TITLE, tuple(blocks) or (Paragraph(NOTHING),))


Found = list[tuple[PlannedStep, OfStep]]


def _outside(giving: Handing, found: Found) -> Iterator[Block]:
    """A row each reading that is outside or too close to call."""
    rows = [_outside_row(giving, planned, one) for planned, one in found if isinstance(one, NotWithin)]
    if rows:
        yield Table(HEAD, tuple(rows))
    if any(isinstance(one, NotWithin) and one.verdict == TOO_CLOSE for _, one in found):
        yield Paragraph(f"{raised(TOO_CLOSE)}: {WHEN_TOO_CLOSE}.")


def _noted(giving: Handing, found: Found) -> Iterator[str]:
    """What was written in a step that isn't in hand beside what is against it: why it was left so, as a rule."""
    for step in dict.fromkeys(planned.id for planned, one in found if told_here(one)):
        if noted_here(giving.job, step):
            planned = giving.job.steps[step]
            yield from (headed(step_name(planned), text) for text in notes(giving, step))


def noted_here(job: Job, step: str) -> bool:
    """Whether the notes of a step stand in this section; those of a step in hand stand with it."""
    return job.state(step) not in (IN_HAND, LOOK_AGAIN) and any(map(told_here, step_problems(job, step)))


def _outside_row(giving: Handing, planned: PlannedStep, one: NotWithin) -> tuple[str, ...]:
    job, name = giving.job, one.reading
    last = None if planned.step.reading[name].from_ else job.places.reading(planned.id, name).last
    return (
        f"{reading_name(planned, name)}, “{step_name(planned)}”",
        giving.measured(planned, name),
        wanted_in(job, planned, name, giving.shown),
        one.verdict,
        giving.who(last) if last is not None else "worked out",
    )


def _rows(giving: Handing, found: Found) -> Iterator[str]:
    """Disagreements and checks answered no with their step; what is to be looked at again; what is wrong in the job."""
    job = giving.job
    for planned, one in found:
        if told_here(one) and not isinstance(one, NotWithin):
            [said] = with_names(job, [one], giving.shown)
            yield headed(step_name(planned), said)
    again = [
        f"“{step_name(planned)}”" for planned in job.steps.values() if job.state(planned.id) == LOOK_AGAIN
    ]
    if again:
        yield f"To be looked at again, for the reasons above: {', '.join(again)}"
    yield from with_names(job, job_problems(job), giving.shown)


def told_here(one: OfStep) -> bool:
    """Whether a problem of a step stands in this section; a hold that no second person saw released is one."""
    if isinstance(one, Check):
        return one.answer in (NO, APART)
    return isinstance(one, NotWithin | Disagreement) or (isinstance(one, Hold) and one.release == BY_THE_SAME)


# With what


def measured_section(giving: Handing) -> Section:
    """The instruments so far, how wrench and welder were used last, whose limits the work is held against."""
    rows = [*_instruments(giving.job), *_settings(giving), *_limits(giving)]
    return Section(USED, tuple(points(rows)) or (Paragraph("No reading is recorded."),))


def _instruments(job: Job) -> Iterator[str]:
    """Each instrument with how many readings were taken with it, as recorded or as the template asks."""
    used = Counter(
        instrument(job, planned, name) or "not said"
        for planned in job.steps.values()
        for name, reading in planned.step.reading.items()
        if reading.from_ is None and job.places.reading(planned.id, name).acts
    )
    if used:
        said = ", ".join(f"{name} ({count})" for name, count in used.most_common())
        yield f"Readings by instrument, as recorded or as the template asks: {said}"


def _settings(giving: Handing) -> Iterator[str]:
    """The last torque and the last weld run, as recorded: how wrench and welder were set."""
    for kind, head in ((TorqueAct, "Last torque"), (WeldAct, "Last weld run")):
        if done := giving.job.view.of_kind(kind):
            step = giving.job.steps.get(done[-1].entry.step or "")
            where = f" in “{step_name(step)}”" if step else ""
            yield f"{head}{where}: {giving.row(done[-1])}"


def _limits(giving: Handing) -> Iterator[str]:
    """Whose limit each reading of the steps in hand, or to be looked at again, is held against."""
    for planned in begun_steps(giving.job):
        for name in planned.step.reading:
            limits = giving.job.now.limits(planned.id, name)
            if limits.wanted and giving.measured(planned, name):
                yield f"Limit of {reading_name(planned, name)}: {limit_source(giving.job, planned, name)}"
