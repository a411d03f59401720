"""Sentences that the sheets, the command line and the screens share."""

from __future__ import annotations

from jobtrack import units
from jobtrack.literal import visible
from jobtrack.record.conditions import OpenCondition
from jobtrack.record.job import RELEASED, HoldState, Job
from jobtrack.record.limits import NO_VERDICT, WITHIN, Limits
from jobtrack.record.standing import Standing
from jobtrack.template.plan import PlannedStep

NO_CONDITION = "No open condition is recorded. That does not say that the vehicle is safe: look."
NEXT = "Nothing in the order of steps or in what is recorded as open stops it. Look at the vehicle before you begin."
CLOSED = (
    "Every step is finished or marked not needed, and no open condition is recorded. "
    "It doesn't mean that the vehicle may be driven, loaded or sold."
)
FIRST_WORD = (
    "This program records and calculates. It doesn't know whether the work, the parts or the vehicle are safe "
    "or allowed. The makers' instructions, local rules and people licensed for the work decide; where they "
    "differ from a template, they win."
)
OWN_LIMIT = "limit set in this template, no published source"


def condition_line(one: OpenCondition) -> str:
    """An open condition with its side, since when, its tag, and why it is still open where that needs saying."""
    parts = [visible(one.text) + (f" ({one.member})" if one.member else "")]
    if one.since is not None:
        parts.append(f"since {one.since:%d %b %H:%M}")
    if one.tag:
        parts.append(f"tag {one.tag}")
    if one.remark:
        parts.append(one.remark)
    return " · ".join(parts)


def released_line(hold: HoldState) -> str:
    """Who released a hold, in the words that promise nothing."""
    if hold.release is None:
        return "Not released."
    entry = hold.release.entry
    said = (
        f"Released by {visible(entry.by)} (as typed), {entry.at:%d %b %H:%M}. "
        "Not checked who typed it or what they are qualified for."
    )
    return said if hold.state == RELEASED else f"Released before a change. {said}"


def limits_text(limits: Limits, unit: str | None) -> str:
    """What is wanted of a reading: `22.5 mm to 24.5 mm`."""
    if limits.low is not None and limits.high is not None:
        return f"{units.show(limits.low, unit)} to {units.show(limits.high, unit)}"
    if limits.low is not None:
        return f"at least {units.show(limits.low, unit)}"
    if limits.high is not None:
        return f"at most {units.show(limits.high, unit)}"
    return "can't be worked out yet" if limits.wanted else ""


def value_text(job: Job, planned: PlannedStep, name: str) -> str:
    """A reading as it counts: in its unit, and as typed where that was something else."""
    unit = planned.step.reading[name].unit
    standing = Standing() if planned.step.reading[name].from_ else job.places.reading(planned.id, name)
    if not standing.agreed:
        return "disagreement: " + " / ".join(
            _as_typed(done.act.as_dict().get("typed")) for done in standing.acts
        )
    value = job.now.reading_value(planned.id, name)
    if value is None:
        return visible(str(standing.written)) if standing.written is not None else ""
    shown = ("~" if standing.bound == "about" else "") + units.show(value, unit)
    typed = _as_typed(standing.last.act.as_dict().get("typed")) if standing.last else ""
    plain = typed.removeprefix("~").strip()
    return shown if not plain or plain in (shown, shown.split(" ")[0]) else f"{shown} ({typed})"


def _as_typed(typed: object) -> str:
    return visible("; ".join(typed) if isinstance(typed, tuple | list) else str(typed or ""))


def verdict_text(job: Job, planned: PlannedStep, name: str) -> str:
    """Where a reading lies and whose limit it is."""
    verdict = job.now.verdict(planned.id, name)
    reading = planned.step.reading[name]
    if verdict == NO_VERDICT:
        return ""
    limits = limits_text(job.now.limits(planned.id, name), reading.unit)
    whose = reading.source or OWN_LIMIT
    if verdict == WITHIN:
        return f"Within the limits given: {limits} ({whose})."
    return f"{verdict[0].upper()}{verdict[1:]}: {limits} ({whose})."


def stage_line(job: Job, stage: str) -> str:
    """A stage in one sentence."""
    stages = list(job.plan.template.stage)
    steps = job.plan.in_stage(stage)
    done = sum(job.settled(step.id) for step in steps)
    title = job.plan.template.stage[stage].title if stage in job.plan.template.stage else "added"
    title = title[:1].lower() + title[1:]
    number = f"Stage {stages.index(stage) + 1} of {len(stages)}" if stage in stages else "Beside the stages"
    return f"{number}, {visible(title)}: {done} of {len(steps)} steps finished."
