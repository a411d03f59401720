"""What stands against a step or a job, a sentence each: by ids for scripts, by names on the sheets and the screens."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from jobtrack import units
from jobtrack.job.acts.base import Plain
from jobtrack.job.remarks.of_job import (
    BesideClosing,
    GivenApart,
    LeftInClosed,
    MorePassedOver,
    NewerFormat,
    NotUnderstood,
    OfJob,
    PassedOver,
)
from jobtrack.job.remarks.of_step import (
    APART,
    BY_THE_SAME,
    MARKED_UNSEEN,
    NOT_WANTED,
    Check,
    Disagreement,
    Hold,
    LookAgain,
    NoReading,
    NotNeeded,
    NotTightened,
    NotWelded,
    NotWithin,
    OfStep,
    OfValue,
    TooFew,
)
from jobtrack.job.state.job import Job
from jobtrack.job.state.look_again import NoLimits, NoLongerWithin, NoValue, NowDiffers, Reason
from jobtrack.job.state.order import AfterEnd, TooEarly
from jobtrack.job.state.standing import Standing
from jobtrack.job.state.tightening import FINGER, NOTHING, SNUG
from jobtrack.job.values.limits import TOO_CLOSE, WHEN_TOO_CLOSE, Limits
from jobtrack.sheets.words.named import Ids, Names, Naming
from jobtrack.sheets.words.sentences import headed, joined
from jobtrack.units.rounding import said_beside, said_number

INCOMPLETE = "this list may be incomplete"
TOO_EARLY = {
    "step": "done before this was finished",
    "hold": "done before the hold was released after",
    "member": "done before the side begun first was brought to its end",
    "condition": "done while this was open",
}
"""By the kind of what should have come first."""
NOT_NEEDED = {
    NOT_WANTED: "done though what it depends on says that it isn't needed",
    MARKED_UNSEEN: "marked not needed by somebody who hadn't seen what was done in it",
}


def with_ids(job: Job, problems: Iterable[OfStep | OfJob]) -> list[str]:
    """Problems as scripts read them."""
    return [_in_words(job, one, Ids()) for one in problems]


def with_names(job: Job, problems: Iterable[OfStep | OfJob]) -> list[str]:
    """Problems as people read them."""
    return [_in_words(job, one, Names(job)) for one in problems]


def _in_words(job: Job, problem: OfStep | OfJob, called: Naming) -> str:
    match problem:
        case LookAgain():
            return f"look again: {reason_words(problem.why, problem.step, called)}"
        case Disagreement() | NoReading() | TooFew() | NotWithin() | Check():
            return _of_value(job, problem)
        case NotTightened():
            return f"{problem.torque}: last stage not recorded, {bolts_words(problem.bolts)}"
        case NotWelded():
            return f"{problem.weld}: {runs_words(problem.runs)} not recorded"
        case Hold():
            return _hold(problem)
        case NotNeeded():
            return NOT_NEEDED[problem.why]
        case TooEarly() | AfterEnd():
            return _out_of_order(problem, called)
        case NewerFormat() | PassedOver() | MorePassedOver() | NotUnderstood():
            return f"{_not_understood(problem)}; {INCOMPLETE}"
        case _:
            return _of_job(problem, called)


def reason_words(why: Reason, step: str, called: Naming) -> str:
    """Why a step is to be looked at again."""
    match why:
        case NoValue():
            return f"{called.reading(step, why.reading)} has no value that counts any more"
        case NoLimits():
            return f"the limits of {called.reading(step, why.reading)} can't be worked out any more"
        case NoLongerWithin():
            return f"{called.reading(step, why.reading)} {_no_longer_within(why)}"
        case NowDiffers():
            was, is_ = _shown(why.before, why.unit), _shown(why.after, why.unit)
            return f"{called.value(why.ref, step)} was {was} and is now {is_}"


def _no_longer_within(why: NoLongerWithin) -> str:
    value = said_beside(why.value, (why.limits.low, why.limits.high), why.unit)
    if why.moved is None:
        return f"{value} is {why.verdict}"
    was, is_ = (said_number(target, why.unit) for target in why.moved)
    return f"{value} is {why.verdict}: its target was {was} and is now {is_}"


def _shown(value: Plain | None, unit: str | None) -> str:
    if value is None:
        return "not recorded"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return said_beside(value, (), unit) if isinstance(value, int | float) else value


def _of_value(job: Job, problem: OfValue) -> str:
    step = job.steps[problem.step].step
    if isinstance(problem, Check):
        no = "a disagreement; it counts as no" if problem.answer == APART else problem.answer
        return headed(step.tick[problem.tick].ask, no)
    reading = step.reading[problem.reading]
    return f"{reading.say or problem.reading}: {_of_reading(problem, reading.unit)}"


def _of_reading(problem: Disagreement | NoReading | TooFew | NotWithin, unit: str | None) -> str:
    match problem:
        case Disagreement():
            both = both_sides(problem.sides)
            return f"a disagreement, {both}; it has no value until somebody settles it"
        case NoReading():
            return "no reading"
        case TooFew():
            return f"{problem.taken} of {problem.asked} readings taken"
        case NotWithin():
            return _not_within(problem, unit)


def _not_within(problem: NotWithin, unit: str | None) -> str:
    limits, value = problem.limits, problem.value
    shown = problem.written if value is None else said_beside(value, (limits.low, limits.high), unit)
    advice = f"; {WHEN_TOO_CLOSE}" if problem.verdict == TOO_CLOSE else ""
    return f"{shown} is {problem.verdict} ({_between(limits, unit)}{advice})"


def _between(limits: Limits, unit: str | None) -> str:
    """ "22.5 to 24.5 mm", "at least 54 mm", "at most 254 mm"."""
    low, high = (units.show(one, unit) if one is not None else "" for one in (limits.low, limits.high))
    if low and high:
        return f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"


def both_sides(standing: Standing) -> str:
    """What stands at one place, each value as typed and whose it is."""
    return " and ".join(f"{done.act.as_dict().get('typed', '?')} ({done.entry.by})" for done in standing.acts)


def bolts_words(bolts: Iterable[tuple[str, int]]) -> str:
    """How far bolts are tightened, those as far as each other together: "bolts 1 and 3 at stage 2"."""
    groups: dict[int, list[str]] = {}
    for name, reached in bolts:
        groups.setdefault(reached, []).append(name)
    return "; ".join(f"{counted('bolt', names)} {far_words(reached)}" for reached, names in groups.items())


def far_words(reached: int) -> str:
    """How far a bolt is tightened."""
    early = {NOTHING: "without an entry", FINGER: "finger tight", SNUG: "snug"}
    return early.get(reached) or f"at stage {reached}"


def runs_words(runs: Sequence[str]) -> str:
    """Runs of a weld: "run 2", "runs 2 and 3"."""
    return counted("run", runs)


def counted(what: str, names: Sequence[str]) -> str:
    """Names in a row, numbers in their order: "bolt 3", "bolts 1 and 3", "bolts 1 to 10"."""
    numbers = sorted(int(name) for name in names if name.isdecimal())
    rest = [name for name in names if not name.isdecimal()]
    in_a_row = numbers[2:] and numbers[-1] - numbers[0] == len(numbers) - 1
    said = [f"{numbers[0]} to {numbers[-1]}"] if in_a_row else [str(number) for number in numbers]
    return f"{what}{'s' if names[1:] else ''} {joined([*said, *rest])}"


def _hold(problem: Hold) -> str:
    if problem.release == BY_THE_SAME:
        return "hold released by the one who finished the step: not seen by a second person"
    return f"hold {problem.release}: {problem.ask}"


def _out_of_order(problem: TooEarly | AfterEnd, called: Naming) -> str:
    if isinstance(problem, AfterEnd):
        return f"done after the job was {problem.ended}"
    what = ", ".join(problem.what) if problem.kind == "condition" else called.steps(problem.what)
    return f"{TOO_EARLY[problem.kind]}: {what}"


def _not_understood(problem: NewerFormat | PassedOver | MorePassedOver | NotUnderstood) -> str:
    match problem:
        case NewerFormat():
            return f"the file has format {problem.format}, newer than this program"
        case PassedOver():
            return f"the header says something under {problem.key} that this program doesn't know"
        case MorePassedOver():
            return f"and under {problem.count} more keys"
        case NotUnderstood():
            return f"{problem.by} recorded something in an entry that this program doesn't know"


def _of_job(problem: GivenApart | BesideClosing | LeftInClosed, called: Naming) -> str:
    match problem:
        case GivenApart():
            return f"{called.given(problem.given)}: a disagreement; it counts as not known"
        case BesideClosing():
            where = called.step(problem.step) if problem.step else "job"
            return f"recorded beside the closing: {where}, by {problem.by}"
        case LeftInClosed():
            return f"closed, but {called.step(problem.step)} is {problem.state}"
