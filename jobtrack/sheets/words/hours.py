"""What hours don't say by themselves, a sentence each, without its full stop."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from jobtrack.hours.labour import BetweenJobs, OfJob
from jobtrack.job.remarks.of_time import (
    AcrossCopies,
    AmountTakenBack,
    ClockTakenBack,
    Overlap,
    TimeProblem,
    TypedAmount,
    TypedClock,
    TypedRemark,
)
from jobtrack.job.state.job import person
from jobtrack.job.time.typed_hours import NO_STEP, Amount
from jobtrack.sheets.words.named import Ids, Naming


def labour_words(found: Iterable[OfJob | BetweenJobs]) -> list[str]:
    """What is to be said of hours over jobs, each job by its title and its steps by their ids."""
    return [_of_labour(one) for one in found]


def _of_labour(one: OfJob | BetweenJobs) -> str:
    if isinstance(one, BetweenJobs):
        time = from_to(one.start, one.end)
        return (
            f"{one.person}'s clock was on in {one.earlier} and in {one.later} from {time}; "
            f"that time is counted once, in {one.later}"
        )
    said = time_words(one.remark, Ids())
    return said if one.title is None else f"{one.title}: {said}"


def time_words(remark: TimeProblem | TypedRemark, called: Naming) -> str:
    """A remark about one job's hours."""
    match remark:
        case Overlap():
            time = from_to(remark.start, remark.end)
            return (
                f"{remark.person}'s clock was on in two copies of this job from {time}; "
                "that time is counted once, on the clock that went on later"
            )
        case AcrossCopies():
            time = from_to(remark.start, remark.end)
            return f"{remark.person}'s time from {time} is counted from entries in two copies of this job"
        case _:
            return _of_typed(remark, called)


def _of_typed(remark: TypedRemark, called: Naming) -> str:
    match remark:
        case TypedAmount():
            beside = "; a clock was on that day as well, and both are counted" if remark.clock_on else ""
            return f"{_typed(remark.amount)} {_spread(remark.amount, called)}{beside}"
        case TypedClock():
            return f"Typed afterwards: {_clock(remark)}, typed {minute(remark.typed_at)}"
        case AmountTakenBack():
            return f"Taken back: {_typed(remark.amount)}"
        case ClockTakenBack():
            return f"Taken back: {_clock(remark)}"


def _clock(one: TypedClock | ClockTakenBack) -> str:
    return f"clock {one.clock} by {one.by}, {minute(one.at)}"


def _typed(amount: Amount) -> str:
    whose = "" if person(amount.person) == person(amount.by) else f" for {amount.person}"
    return f"{hours_words(amount.hours)} typed afterwards by {amount.by}{whose} for {amount.day}"


def _spread(amount: Amount, called: Naming) -> str:
    """ "are spread equally over 3 steps: a, b, c"."""
    if amount.step is not None:
        return f"are counted in {called.step(amount.step)}, where they were typed"
    if not amount.touched:
        return f"are counted under {NO_STEP}: nothing of that person's is recorded in a step on that day"
    steps = called.steps(amount.touched)
    if len(amount.touched) == 1:
        return f"are counted in the one step touched that day: {steps}"
    return f"are spread equally over {len(amount.touched)} steps: {steps}"


def hours_words(hours: float) -> str:
    """ "2.5 h"."""
    return f"{hours:.2f}".rstrip("0").rstrip(".") + " h"


def minute(at: datetime) -> str:
    """A date and time as it was where it was recorded."""
    return f"{at.date().isoformat()} {at:%H:%M}"


def from_to(start: datetime, end: datetime) -> str:
    """ "2031-04-01 09:00 to 10:00", the second date where it is another one."""
    same = start.date() == end.date()
    return f"{minute(start)} to {f'{end:%H:%M}' if same else minute(end)}"
