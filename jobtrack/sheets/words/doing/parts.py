"""A part in words: how many of what are wanted, how far the buying is, what became of it, where it lies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.job.acts.base import commas
from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct
from jobtrack.job.doing.parts import PartOf
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import day_and_clock, joined, step_name

UNPLANNED = "not in the template"
NOTHING = "nothing recorded"
APART = "disagreement: "
"""In front of what two people recorded without knowing of each other."""


def part_name(one: PartOf) -> str:
    """What the template calls it, else its name."""
    return (one.planned.say if one.planned else None) or one.name


def part_title(one: PartOf) -> str:
    """ "4 × U-bolts, new"; of a step's part how many the whole job wants, if more."""
    many = one.of_step or one.wanted
    from_ = UNPLANNED if one.planned is None else one.planned.from_
    more = f" ({one.wanted} in the whole job)" if one.of_step and one.of_step != one.wanted else ""
    return f"{f'{many} × ' if many else ''}{commas(part_name(one), from_)}{more}"


def before_words(job: Job, one: PartOf) -> str:
    """Which stage shouldn't begin before it is on the bench; empty where none is named."""
    stage = job.plan.template.stage.get((one.planned.before if one.planned else None) or "")
    return f"wanted on the bench before “{stage.title}”" if stage else ""


def recorded_words(job: Job, one: PartOf, here: str | None) -> list[str]:
    """All that is recorded of a part: buying, what became of it, where it lies; each with who and when.

    What became of it in another step than `here` is said with that step.
    """
    return [*_apart(one.buying), *(_became(job, done, here) for done in one.became), *_apart(one.places)]


def _became(job: Job, done: Done, here: str | None) -> str:
    """ "fitted 2 in “Hang the spring (left)” (Hob, 14 May 09:41)"."""
    planned = job.steps.get(done.entry.step or "")
    elsewhere = planned is not None and planned.id != here
    return _row(done, f" in “{step_name(planned)}”" if planned is not None and elsewhere else "")


def brief_words(one: PartOf, here: str) -> str:
    """ "2 × Spring pins, new: ordered, from Ilse; lies in the tray": of what became of it, what did so here."""
    became = (done for done in one.became if done.entry.step == here)
    said = [_act_words(done) for done in (*one.buying, *became, *one.places)]
    return f"{part_title(one)}{': ' if said else ''}{'; '.join(said)}"


def place_words(places: Iterable[Done]) -> list[str]:
    """Where something lies, with who said so and when."""
    return _apart(tuple(places))


def _apart(acts: tuple[Done, ...]) -> list[str]:
    """What stands of one place: one act, or several that disagree."""
    rows = [_row(done) for done in acts]
    return [APART + joined(rows)] if len(rows) > 1 else rows


def _row(done: Done, where: str = "") -> str:
    return f"{_act_words(done)}{where} ({done.entry.by}, {day_and_clock(done.entry.at)})"


def _act_words(done: Done) -> str:
    match done.act:
        case BuyingAct():
            return done.act.how_far()
        case PartAct(fate=fate, quantity=quantity):
            return " ".join(filter(None, (fate or "used", quantity)))
        case PlaceAct(place=place):
            return f"lies in {place}"
    return done.act.words()


def to_buy_rows(parts: Iterable[PartOf]) -> Iterator[str]:
    """A row each: "4 × U-bolts: ordered, from Ilse, due Friday, price 48"."""
    for one in parts:
        many = f"{one.wanted} × " if one.wanted else ""
        said = joined([done.act.how_far() for done in one.buying if isinstance(done.act, BuyingAct)])
        disagreed = APART if len(one.buying) > 1 else ""
        yield f"{many}{part_name(one)}: {disagreed}{said or NOTHING}"
