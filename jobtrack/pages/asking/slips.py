"""Likely slips in what was typed for an item: the question about it, and what may have been meant."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.state.job import Job
from jobtrack.pages.doing.typed_bolts import set_to
from jobtrack.pages.step.items import READING, TORQUE, Item, parts
from jobtrack.template.plan import PlannedStep
from jobtrack.units.conversion import Number

MOST = {
    "length": (20, "m"), "mass": (10, "t"), "torque": (5000, "N·m"), "angle": (360, "deg"), "current": (400, "A"),
}  # fmt: skip
"""What nothing measured on a light vehicle exceeds, by kind of unit; common practice, no source."""


def slip(job: Job, planned: PlannedStep | None, item: Item, text: str) -> units.Slip | None:
    """A likely slip in what was typed, its meaning as the whole text; None where nothing is odd or can be read."""
    if item.yes_or_no or item.choose or item.given_kind is not None:
        return None
    typed = parts(planned, item, text)
    try:
        found = [_slip(units.read(part, item.unit), *expected(job, planned, item)) for part in typed]
    except units.UnitError:
        return None
    asked = next((one for one in found if one is not None), None)
    if asked is None or any(one is not None and one.meant is None for one in found):
        return asked
    meant = (part if one is None else one.meant for part, one in zip(typed, found, strict=True))
    return units.Slip(asked.question, "; ".join(part.strip() for part in meant if part is not None))


def _slip(typed: units.Typed, wanted: Number | None, doubt: float | None) -> units.Slip | None:
    return units.likely(typed, wanted, doubt) or _beyond(typed)


def _beyond(typed: units.Typed) -> units.Slip | None:
    """Asks about a number that nothing on a light vehicle comes to."""
    kind = units.kind(typed.unit)
    if typed.value is None or kind not in MOST:
        return None
    most, unit = MOST[kind]
    if abs(units.convert(typed.value, typed.unit, unit)) <= most:
        return None
    shown = units.show(typed.value, typed.unit)
    return units.Slip(f"{shown} is more than anything on a light vehicle. Is it typed right?")


def expected(job: Job, planned: PlannedStep | None, item: Item) -> tuple[Number | None, float | None]:
    """What a number is held against to find a slip: the target, an earlier reading, the other member's."""
    if item.kind == TORQUE and planned is not None:
        return set_to(job, planned, item.name), None
    if item.kind != READING or planned is None:
        return None, None
    reading = planned.step.reading[item.name]
    limits = job.now.limits(planned.id, item.name)
    if limits.target is not None and limits.target != 0:
        return limits.target, float(limits.off_by or reading.doubt or 0)
    others = [one.id for one in job.plan.by_base.get(planned.base, ()) if one.id != planned.id]
    for step in (planned.id, *others):
        if (value := job.now.reading_value(step, item.name)) is not None:
            return value, reading.doubt
    return None, None
