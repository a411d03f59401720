"""What entries have changed elsewhere, a sentence each, as the command line and the app say it after recording."""

from __future__ import annotations

from jobtrack.job.remarks.effects import (
    Agreed,
    Closed,
    Effect,
    HoldBefore,
    Opened,
    StandsAgain,
    TargetMoved,
    Unsettled,
    effects,
)
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.named import Ids, Names, Naming
from jobtrack.sheets.words.problems import both_sides, reason_words
from jobtrack.sheets.words.sentences import raised
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.units.rounding import as_typed


def effect_lines(before: Job, after: Job) -> list[str]:
    """What follows from the entries that `after` has and `before` hasn't, each step by its id."""
    return [_in_words(one, Ids(), METRIC_FIRST) for one in effects(before, after)]


def effect_sentences(before: Job, after: Job, shown: Chosen = METRIC_FIRST) -> list[str]:
    """The same as sentences without their full stop, each step by its title and side."""
    named = Names(after)
    return [
        raised(_in_words(one, named, shown))
        if isinstance(one, Opened | Closed)
        else _in_words(one, named, shown)
        for one in effects(before, after)
    ]


def _in_words(effect: Effect, called: Naming, shown: Chosen) -> str:
    match effect:
        case Opened():
            return f"recorded as open: {effect.condition.words}"
        case Closed():
            return f"recorded as closed: {effect.condition.words}"
        case _:
            return f"{called.step(effect.step)}: {_of_step(effect, called, shown)}"


def _of_step(
    effect: Unsettled | StandsAgain | HoldBefore | TargetMoved | Agreed, called: Naming, shown: Chosen
) -> str:
    match effect:
        case Unsettled():
            reasons = (reason_words(why, effect.step, called, shown) for why in effect.why)
            return f"look again: {'; '.join(reasons)}"
        case StandsAgain():
            return "stands again"
        case HoldBefore():
            return f"its hold was released before a change: {effect.ask}"
        case TargetMoved():
            target, value = (
                shown.figure(as_typed(one, effect.unit)).words() for one in (effect.target, effect.value)
            )
            return (
                f"the target of {called.reading(effect.step, effect.reading)} is now {target}; "
                f"{value} is within it, so this unsettles nothing"
            )
        case Agreed():
            about = called.reading(effect.step, effect.reading)
            return f"the disagreement about {about} is over, {both_sides(effect.was)} no longer count"
