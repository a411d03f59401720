"""How sure a number is: the doubts of the typed readings, carried to what is worked out from them.

Every doubt is an expanded uncertainty (k = 2), a half-width. Each typed reading below a number is moved by
its own doubt, both ways and once, whatever the ways on which it reaches the number, so that an input that
goes in twice counts once; the swings add as the root of their squares (JCGM 100, 5.1.2 and 5.1.3 with
sensitivities by finite difference). The largest swing counts, those half of the way among them: where a
result bends (an angle without sign near zero, the lowest of several) the middle of both sides would show too
little. Readings of different places count as not correlated; the repeats of one reading move together. What
shows only where two readings move at once (a product of two readings near zero) isn't seen.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import partial

from jobtrack import units
from jobtrack.job.values.depends_on import bases, limit_refs
from jobtrack.job.values.limits import Number
from jobtrack.job.values.movable import Movable
from jobtrack.job.values.typed_half_place import half_place
from jobtrack.shopmath.common.swings import largest_swing
from jobtrack.template.model import Reading
from jobtrack.template.plan import Ref

Measure = Callable[[Movable], Number | None]
"""A number that follows from the values of an evaluation."""


def doubt_of(now: Movable, ref: Ref) -> float | None:
    """The doubt of what a name stands for, in its own unit; None where it, or one below it, isn't known."""
    if ref.kind not in ("reading", "result"):
        return None
    planned = now.plan.steps[ref.step or ""]
    if ref.kind == "reading" and planned.step.reading[ref.item].from_ is None:
        return now.source.doubt(ref, planned)
    below = _readings(bases(now.plan, ref))
    if all(now.doubt(base) is None for base in below):
        return None
    return spread(now, below, lambda there: _number(there.value(ref)))


def told_of(now: Movable, ref: Ref) -> float:
    """How far a result swings at most when each typed value under it is moved by half of its last place."""

    def result(there: Movable) -> Number | None:
        return _number(there.value(ref))

    halves = {base: half_place(now, ref, base) for base in bases(now.plan, ref)}
    swings = [_moved_by(now, base, result, half) for base, half in halves.items() if half]
    return max((one for one in swings if one is not None), default=0.0)


def guard_of(now: Movable, step: str, name: str) -> Fraction | None:
    """The doubt of a reading and its limits together: of the room that is left to the limit, in its unit.

    The larger one of both limits. Before anything is measured the reading counts by its doubt alone.
    """
    planned = now.plan.steps[step]
    ref = Ref("reading", f"{step}.{name}", step, name)
    limits = limit_refs(now.plan, planned, planned.step.reading[name])
    below = _readings(base for one in limits for base in bases(now.plan, one))
    own = now.doubt(ref)
    if own is None or not below:
        return None if own is None else units.exact(own)
    if now.reading_value(step, name) is not None:
        return _exact(_of_room(now, ref, _readings([*below, *bases(now.plan, ref)])))
    of_limits = _of_room(now, ref, below)
    return None if of_limits is None else units.exact(math.hypot(own, of_limits))


def _of_room(now: Movable, ref: Ref, below: Iterable[Ref]) -> float | None:
    """The largest doubt of what lies between the reading (nought where there is none yet) and a limit."""
    step, name, below = ref.step or "", ref.item, list(below)
    limits = now.limits(step, name)
    sides = [side for side in ("low", "high") if getattr(limits, side) is not None]
    found = [spread(now, below, partial(_room, step=step, name=name, side=side)) for side in sides]
    known = [one for one in found if one is not None]
    return max(known) if known and len(known) == len(found) else None


def _room(there: Movable, step: str, name: str, side: str) -> Number | None:
    limit = getattr(there.limits(step, name), side)
    return None if limit is None else units.exact(there.reading_value(step, name) or 0) - limit


def spread(now: Movable, below: Iterable[Ref], measure: Measure) -> float | None:
    """The doubt of a number that follows from these typed readings; None where one of theirs isn't known."""
    swings = [_swing(now, base, measure) for base in below]
    known = [one for one in swings if one is not None]
    return math.hypot(*known) if len(known) == len(swings) else None


def _swing(now: Movable, base: Ref, measure: Measure) -> float | None:
    """How far the number moves with one reading at most; on one side alone where it can't go to the other."""
    doubt = now.doubt(base)
    if doubt is None:
        return 0.0 if _counted(now, base) else None
    return _moved_by(now, base, measure, units.exact(doubt))


def _moved_by(now: Movable, base: Ref, measure: Measure, by: Fraction) -> float | None:
    return largest_swing(lambda each: measure(now.moved(base, each)), by)


def _counted(now: Movable, base: Ref) -> bool:
    """Whether a reading is a plain number without a doubt: things counted, so exact."""
    reading: Reading = now.plan.steps[base.step or ""].step.reading[base.item]
    return reading.unit is None


def _readings(refs: Iterable[Ref]) -> list[Ref]:
    """The readings among them, each once."""
    return list({ref.name: ref for ref in refs if ref.kind == "reading"}.values())


def _number(value: object) -> Number | None:
    return value if isinstance(value, Fraction | float | int) and not isinstance(value, bool) else None


def _exact(value: float | None) -> Fraction | None:
    return None if value is None else units.exact(value)
