"""The step as on a job card: one column from the stage down to the hold point."""

from __future__ import annotations

from jobtrack.job.doing.parts import parts_of
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.state import order
from jobtrack.job.state.job import NEXT, RELEASED, TO_COME, Job
from jobtrack.pages.doing.lines import doing_lines
from jobtrack.pages.step.checks import check_lines, given_lines
from jobtrack.pages.step.hazards import hazard_lines, whole_job_lines
from jobtrack.pages.step.items import CLOSING, Item
from jobtrack.pages.step.recorded import step_lines
from jobtrack.pages.step.table import reading_lines, whose_lines
from jobtrack.pages.step.workings_here import compare_lines, working_lines
from jobtrack.pages.typeset import Line, item, line, wrap
from jobtrack.pages.wording import day_and_time, headed, of_member, stage_sentence, step_name
from jobtrack.sheets.words.doing.parts import brief_words
from jobtrack.sheets.words.problems import with_names
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def step_page(
    job: Job,
    planned: PlannedStep,
    width: int,
    chosen: Item | None,
    whole: bool,
    job_whole: bool = False,
    shown: Chosen = METRIC_FIRST,
) -> list[Line]:
    """All of a step's page; `whole`: its hazard messages on top at full length; `job_whole`: the job's too."""
    parts = (
        wrap(stage_sentence(job, planned), width),
        wrap(headed(step_name(planned), job.state(planned.id)), width, "strong"),
        _hazards(job, planned, width, job_whole) if whole else [],
        _do(planned, width),
        _before(job, planned, width),
        *_answered(job, planned, width, chosen, shown),
        item(hold_lines(job, planned, width), CLOSING),
        whose_lines(job, planned, width),
        working_lines(job, planned, width, shown),
        _bought(job, planned, width),
        _leaves(job, planned, width),
        problem_lines(job, planned, width, shown),
        step_lines(job, planned, width),
        [] if whole else whole_job_lines(job, width, whole=False),
    )
    return _joined(parts)


def _answered(
    job: Job, planned: PlannedStep, width: int, chosen: Item | None, shown: Chosen
) -> tuple[list[Line], ...]:
    """What takes an answer, each kind by itself, below what two vehicles have side by side."""
    return (
        compare_lines(job, planned, width, chosen, shown),
        reading_lines(job, planned, width, chosen, shown),
        check_lines(job, planned, width, chosen),
        given_lines(job, planned, width, chosen, shown),
        doing_lines(job, planned, width, chosen, shown),
    )


def _joined(parts: tuple[list[Line], ...]) -> list[Line]:
    """The parts with an empty row between them, but none after the title."""
    lines: list[Line] = []
    for number, part in enumerate(parts):
        lines += [line()] if part and number > 3 else []
        lines += part
    return lines


def _hazards(job: Job, planned: PlannedStep, width: int, job_whole: bool) -> list[Line]:
    return [*hazard_lines(planned.step.hazard, width), *whole_job_lines(job, width, job_whole)]


def _do(planned: PlannedStep, width: int) -> list[Line]:
    step = planned.step
    lines = [row for part in step.do.split("\n") if part for row in wrap(part, width)]
    people = [f"{step.people} people"] if step.people > 1 else []
    things = people + (["hoist or trolley"] if step.hoist else []) + list(step.tools) + list(step.consumables)
    return lines + (
        wrap(f"Have at hand: {'; '.join(dict.fromkeys(things))}.", width, "small", 2) if things else []
    )


def _before(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    """What should come first, where the step isn't next; recording goes on all the same."""
    if job.state(planned.id) not in (TO_COME, NEXT):
        return []
    if order.wanted(job, planned) is None:
        return wrap("Whether this step is needed isn't known yet: what it depends on has no answer.", width)
    reasons = [_blocked(job, one) for one in dict.fromkeys(order.blockers(job, planned))]
    if not reasons:
        return []
    shown = "; ".join(reasons[:3]) + (f"; and {len(reasons) - 3} more" if len(reasons) > 3 else "")
    return wrap(f"Not next: {shown}. What you record here is taken all the same.", width, "", 2)


def _blocked(job: Job, one: order.Blocker) -> str:
    """One thing that should come first, in words."""
    if one.kind == "condition":
        return f"open: {one.what}"
    name = step_name(job.steps[one.what])
    said = {"step": "not finished: {}", "hold": "hold not released after: {}",
            "member": "the side begun first comes to its end first: {}"}  # fmt: skip
    return said[one.kind].format(name)


def _bought(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    here = [one for one in parts_of(job, planned.id) if one.of_step is not None]
    texts = [f"Part: {brief_words(one, planned.id)}" for one in here]
    return [row for text in texts for row in wrap(text, width, "", 2)]


def _leaves(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    known = job.plan.template.condition
    opens = [of_member(known[one].text, planned.member) for one in planned.step.opens if one in known]
    closes = [words for one in planned.step.closes if one in known for words in _closes(job, planned, one)]
    lines = wrap(f"Beginning it opens: {'; '.join(opens)}.", width, "", 2) if opens else []
    return lines + (wrap(f"Finishing it closes: {'; '.join(closes)}.", width, "", 2) if closes else [])


def _closes(job: Job, planned: PlannedStep, name: str) -> list[str]:
    """What is open of a condition that the step closes, with its sides; its text alone where nothing is."""
    found = [one.words for one in job.open_conditions
             if one.id == name and planned.member in (None, one.member)]  # fmt: skip
    return found or [job.plan.template.condition[name].text]


def hold_lines(job: Job, planned: PlannedStep, width: int) -> list[Line]:
    """The hold point, and whether somebody has released it."""
    hold = job.hold(planned.id)
    if hold is None:
        return []
    kind = "Go or stop" if planned.step.go_or_stop and not planned.step.hold else "Hold point"
    lines = wrap(f"{kind}, work should stop here: {hold.ask}", width, "strong", 2)
    if hold.release is None:
        return [*lines, *wrap("Not released.", width)]
    entry = hold.release.entry
    before = "" if hold.state == RELEASED else " That was before a change: look again, then release it anew."
    said = (
        f"Released by {entry.by} (as typed), {day_and_time(entry.at)}. "
        f"Not checked who typed it or what they are qualified for.{before}"
    )
    return [*lines, *wrap(said, width)]


def problem_lines(job: Job, planned: PlannedStep, width: int, shown: Chosen = METRIC_FIRST) -> list[Line]:
    """What stands against the step, a line each."""
    found = with_names(job, step_problems(job, planned.id), shown)
    head = wrap("Wrong or missing in this step:", width, "strong") if found else []
    return head + [row for text in found for row in wrap(f"- {text}", width, "", 2)]
