"""What stands against a step or a job, a sentence each: by ids for scripts, by names on the sheets and the screens."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from fractions import Fraction

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
    Besides,
    Check,
    Disagreement,
    Hold,
    LookAgain,
    NoReading,
    NotCounted,
    NotNeeded,
    NotTightened,
    NotWelded,
    NotWithin,
    OfStep,
    OfValue,
    TooFew,
)
from jobtrack.job.remarks.taken_over import TakenOverUnseen
from jobtrack.job.remarks.waits import BEFORE, CLOCK_BACK, NO_ENTRY, TooSoon
from jobtrack.job.state.job import Job
from jobtrack.job.state.look_again import NoLimits, NoLongerWithin, NoValue, NowDiffers, Reason
from jobtrack.job.state.order import AfterEnd, TooEarly
from jobtrack.job.state.standing import Standing
from jobtrack.job.values.limits import TOO_CLOSE, WHEN_TOO_CLOSE, Limits
from jobtrack.sheets.words.doing.bolts import besides_words, bolts_words, runs_words, uncounted_words
from jobtrack.sheets.words.named import Ids, Names, Naming
from jobtrack.sheets.words.sentences import headed
from jobtrack.sheets.words.values.readings import own_figure
from jobtrack.units.beside import as_written, between_limits
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import beside, number_figure

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
    return [_in_words(job, one, Ids(), METRIC_FIRST) for one in problems]


def with_names(job: Job, problems: Iterable[OfStep | OfJob], shown: Chosen = METRIC_FIRST) -> list[str]:
    """Problems as people read them."""
    return [_in_words(job, one, Names(job), shown) for one in problems]


def _in_words(job: Job, problem: OfStep | OfJob, called: Naming, shown: Chosen) -> str:
    match problem:
        case LookAgain():
            return f"look again: {reason_words(problem.why, problem.step, called, shown)}"
        case Disagreement() | NoReading() | TooFew() | NotWithin() | Check():
            return _of_value(job, problem, shown)
        case TooSoon():
            return headed(
                job.steps[problem.step].step.tick[problem.tick].ask, too_soon_words(problem, called)
            )
        case NotTightened():
            return f"{problem.torque}: last stage not recorded, {bolts_words(problem.bolts)}"
        case NotCounted():
            return f"{problem.torque}: {uncounted_words(job, problem.given, called)}"
        case Besides():
            return f"{problem.torque}: {besides_words(job, problem, called)}"
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


def too_soon_words(problem: TooSoon, called: Naming) -> str:
    """A yes that came sooner than the template asks: "answered yes 2 min after the last entry of …"."""
    of, asks = called.steps(problem.since), f"the template asks for {minutes_words(problem.asked)}"
    if problem.why == NO_ENTRY:
        return f"answered yes while nothing is recorded of {of}; {asks} after it"
    if problem.why == CLOCK_BACK:
        return (
            f"answered yes, but a clock went back since entries of {of}: how long after can't be told; {asks}"
        )
    when = "before" if problem.why == BEFORE else "after"
    return f"answered yes {minutes_words(abs(problem.waited))} {when} the last entry of {of}; {asks}"


def minutes_words(time: timedelta) -> str:
    """A time in whole minutes, rounded down: never as long as what it falls short of."""
    return f"{time // timedelta(minutes=1)} min"


def reason_words(why: Reason, step: str, called: Naming, shown: Chosen = METRIC_FIRST) -> str:
    """Why a step is to be looked at again."""
    match why:
        case NoValue():
            return f"{called.reading(step, why.reading)} has no value that counts any more"
        case NoLimits():
            return f"the limits of {called.reading(step, why.reading)} can't be worked out any more"
        case NoLongerWithin():
            return f"{called.reading(step, why.reading)} {_no_longer_within(why, shown)}"
        case NowDiffers():
            was, is_ = _value(why.before, why.unit, shown), _value(why.after, why.unit, shown)
            return f"{called.value(why.ref, step)} was {was} and is now {is_}"


def _no_longer_within(why: NoLongerWithin, shown: Chosen) -> str:
    value = shown.figure(beside(why.value, (why.limits.low, why.limits.high), why.unit)).words()
    if why.moved is None:
        return f"{value} is {why.verdict}"
    was, is_ = (shown.figure(number_figure(target, why.unit)).words() for target in why.moved)
    if was == is_:  # by less than is said
        return f"{value} is {why.verdict}"
    return f"{value} is {why.verdict}: its target was {was} and is now {is_}"


def _value(value: Plain | None, unit: str | None, shown: Chosen) -> str:
    if value is None:
        return "not recorded"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return shown.figure(beside(value, (), unit)).words() if isinstance(value, int | float) else value


def _of_value(job: Job, problem: OfValue, shown: Chosen) -> str:
    step = job.steps[problem.step].step
    if isinstance(problem, Check):
        no = "a disagreement; it counts as no" if problem.answer == APART else problem.answer
        return headed(step.tick[problem.tick].ask, no)
    reading = step.reading[problem.reading]
    return f"{reading.say or problem.reading}: {_of_reading(job, problem, reading.unit, shown)}"


def _of_reading(
    job: Job, problem: Disagreement | NoReading | TooFew | NotWithin, unit: str | None, shown: Chosen
) -> str:
    match problem:
        case Disagreement():
            both = both_sides(problem.sides)
            return f"a disagreement, {both}; it has no value until somebody settles it"
        case NoReading():
            return "no reading"
        case TooFew():
            return f"{problem.taken} of {problem.asked} readings taken"
        case NotWithin():
            return _not_within(job, problem, unit, shown)


def _not_within(job: Job, problem: NotWithin, unit: str | None, shown: Chosen) -> str:
    limits = problem.limits
    own = None if problem.value is None else own_figure(job, job.steps[problem.step], problem.reading)
    said, between = own, _between(limits, unit)
    turned = shown.unit(unit, _largest(limits)) if shown.turns(unit) else unit
    if turned != unit or not as_written(limits.low, limits.high, unit):
        there = between_limits(own, limits.low, limits.high, unit, turned)
        said, between = there.value, there.wanted()
    advice = f"; {WHEN_TOO_CLOSE}" if problem.verdict == TOO_CLOSE else ""
    return f"{problem.written if said is None else said.words()} is {problem.verdict} ({between}{advice})"


def _largest(limits: Limits) -> Fraction:
    """What decides the unit that limits are said in."""
    return max((abs(one) for one in (limits.low, limits.high) if one is not None), default=Fraction(0))


def _between(limits: Limits, unit: str | None) -> str:
    """ "22.5 to 24.5 mm", "at least 54 mm", "at most 254 mm"."""
    low, high = (units.show(one, unit) if one is not None else "" for one in (limits.low, limits.high))
    if low and high:
        return f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"


def both_sides(standing: Standing) -> str:
    """What stands at one place, each value as typed and whose it is."""
    return " and ".join(f"{done.act.as_dict().get('typed', '?')} ({done.entry.by})" for done in standing.acts)


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


def _of_job(problem: GivenApart | BesideClosing | LeftInClosed | TakenOverUnseen, called: Naming) -> str:
    match problem:
        case GivenApart():
            return f"{called.given(problem.given)}: a disagreement; it counts as not known"
        case BesideClosing():
            where = called.step(problem.step) if problem.step else "job"
            return f"recorded beside the closing: {where}, by {problem.by}"
        case LeftInClosed():
            return f"closed, but {called.step(problem.step)} is {problem.state}"
        case TakenOverUnseen():
            unseen = ", ".join(dict.fromkeys(map(called.condition, problem.conditions)))
            return f"taken over by {problem.by} without having seen: {unseen}"
