"""An entry of the index as it is shown: its name, a dotted leader, and where it is; and what Enter does."""

from __future__ import annotations

from collections.abc import Callable

from rich.cells import cell_len

from jobtrack.job.acts.doing import BuyingAct, PartAct
from jobtrack.job.doing.parts import standing as standing_of
from jobtrack.job.doing.tightening import tightening
from jobtrack.job.doing.welding import welding
from jobtrack.job.state.job import Job
from jobtrack.job.values.limits import NO_VERDICT, WITHIN
from jobtrack.pages.look_up.find import LISTS, Do, Only, Row, Turn
from jobtrack.pages.step.checks import answer_words, given_words
from jobtrack.pages.step.items import GIVEN, TICK, Item, given_names, items, standing
from jobtrack.pages.typeset import Line, Span, shortened, wrap
from jobtrack.pages.wording import of_member, step_name
from jobtrack.sheets.words.values.in_units import measured_in
from jobtrack.units.chosen import METRIC_FIRST, Chosen

CHOSEN, OTHER, HANG = "▸ ", "  ", "  "
MEASURE = 100
"""Cells beyond which an entry isn't drawn out: the eye would lose its row along the dots."""
LEAST = 6
"""Cells that the dots take at least, with the blanks around them."""
MOST = 6
"""Rows that a name may take; `enter_words` says a longer one whole."""
LONG = 150
"""Characters up to which a name surely fits into those rows."""


def entry_lines(
    job: Job, row: Row, width: int, chosen: bool, letter: str = "", shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """An entry in as many rows as its name takes, the last of them led by dots to where it is.

    `letter` stands in the margin, where it is the first of its letter.
    """
    room = min(width, MEASURE) - len(OTHER)
    where = shortened(where_words(job, row, shown), room - LEAST - len(HANG))
    texts = _name_rows(of_member(row.name, row.side or None), room)
    if cell_len(texts[-1]) + LEAST + cell_len(where) > room:
        texts.append(HANG)
    texts[-1] = _led(texts[-1], where, room)
    margins = [CHOSEN if chosen else letter.ljust(len(OTHER)), *([OTHER] * (len(texts) - 1))]
    return [
        Line((Span(f"{margin}{text}".rstrip(), "strong" if chosen else ""),))
        for margin, text in zip(margins, texts, strict=True)
    ]


def _name_rows(name: str, room: int) -> list[str]:
    found = [one.plain for one in wrap(name, room, "", len(HANG))]
    return found if len(found) <= MOST else [*found[: MOST - 1], f"{HANG}…"]


def _led(text: str, where: str, room: int) -> str:
    """A row's end: dots, which stand under each other from entry to entry, and where it is."""
    begin, end = cell_len(text) + 1, room - cell_len(where) - 1
    dots = "".join("." if cell % 2 else " " for cell in range(begin, end))
    return f"{text} {dots} {where}"


def enter_words(job: Job, row: Row) -> str:
    """What Enter does on a row, the row's name whole."""
    match row.to:
        case Do():
            key = f"; on the step the key is {row.key}" if row.key else ""
            return f"Enter: {row.more}{key}."
        case Only():
            return f"Enter shows this list alone: {LISTS[row.to.list]}."
        case Turn():
            return (
                f"{row.name}. {_turn_words(job, row, row.to)}"
                if row.name[LONG:]
                else _turn_words(job, row, row.to)
            )


def _turn_words(job: Job, row: Row, to: Turn) -> str:
    step, _ = destination(job, to)
    if row.what == "part":
        return f"Enter shows it among the parts{f' of {_of_step(job, step)}' if step else ''}."
    if step is None:
        page = "the page of what is known" if row.what == "known" else "the page of the job"
        return f"It belongs to no step: Enter shows {page}."
    return f"Enter goes to {_of_step(job, step)}."


def _of_step(job: Job, step: str) -> str:
    return f"“{step_name(job.steps[step])}”"


def destination(job: Job, to: Turn) -> tuple[str | None, int | None]:
    """The step that a row goes to, and the line of it that is chosen there; None where there is none."""
    step = to.step or (_that_asks(job, to.name) if to.kind == GIVEN else "")
    if step not in job.steps:
        return None, None
    found = [(one.kind, one.name) for one in items(job, job.steps[step])]
    return step, found.index((to.kind, to.name)) if (to.kind, to.name) in found else None


def _that_asks(job: Job, given: str) -> str:
    """The first step that stands on a given; empty where none does."""
    return next((one.id for one in job.steps.values() if given in given_names(job, one)), "")


# Where a thing stands


def where_words(job: Job, row: Row, shown: Chosen = METRIC_FIRST) -> str:
    """Where it is, as a book gives the page: the key, the number of the step, and what is recorded of it."""
    match row.to:
        case Do():
            return f"press {row.key}" if row.key else "Enter does it"
        case Only():
            return str(row.many) if row.many else "none recorded"
        case Turn():
            return ", ".join(filter(None, (_place(job, row), STATES[row.what](job, row.to, shown))))


def _place(job: Job, row: Row) -> str:
    """The page or the step on which an entry stands; steps are counted in the order of the work."""
    if row.what == "part":
        return "parts"
    step, _ = destination(job, row.to) if isinstance(row.to, Turn) else (None, None)
    if step is not None:
        return f"step {list(job.steps).index(step) + 1}"
    return "what is known" if row.what == "known" else "the job"


def _step(job: Job, to: Turn, _: Chosen) -> str:
    return job.state(to.step)


def _reading(job: Job, to: Turn, shown: Chosen) -> str:
    """What was measured, and where it lies, unless within."""
    verdict = job.now.verdict(to.step, to.name)
    measured = measured_in(job, job.steps[to.step], to.name, shown)
    return f"{measured}, {verdict}" if measured and verdict not in (NO_VERDICT, WITHIN) else measured


def _check(job: Job, to: Turn, _: Chosen) -> str:
    """Its answer; nothing where it has none."""
    planned = job.steps[to.step]
    one = Item(TICK, to.name, planned.step.tick[to.name].ask)
    found = standing(job, planned, one)
    return answer_words(one, found).lstrip("- ") if found.acts else ""


def _known(job: Job, to: Turn, shown: Chosen) -> str:
    found = job.places.given(to.name)
    return (
        given_words(Item(GIVEN, to.name, "", job.plan.givens[to.name].unit), found, shown)
        if found.agreed
        else "disagreement"
    )


def _part(job: Job, to: Turn, _: Chosen) -> str:
    """What became of it last, and how far its buying is; of two that disagree both."""
    buying = [done for done in job.view.of_kind(BuyingAct)
              if isinstance(done.act, BuyingAct) and done.act.part == to.name]  # fmt: skip
    bought = [done.act.buying for done in standing_of(buying) if isinstance(done.act, BuyingAct)]
    became = [done.act.fate or "used" for done in job.view.of_kind(PartAct)
              if isinstance(done.act, PartAct) and done.act.part == to.name]  # fmt: skip
    return ", ".join((*became[-1:], *bought))


def _torque(job: Job, to: Turn, _: Chosen) -> str:
    """How many of its bolts have their last stage."""
    found = tightening(job, job.steps[to.step], to.name)
    done, all_ = len(found.bolts) - len(found.left), len(found.bolts)
    if not found.counted:
        return "how many isn't known"
    return f"{done} of {all_} final" if found.last is not None else ""


def _weld(job: Job, to: Turn, _: Chosen) -> str:
    """How many of its runs are recorded."""
    found = welding(job.view, job.steps[to.step], to.name)
    return f"{len(found.runs) - len(found.left)} of {len(found.runs)} runs" if found.last is not None else ""


def _open(job: Job, to: Turn, _: Chosen) -> str:
    one = next((one for one in job.open_conditions if one.name == to.name), None)
    return (
        f"open since {one.since.day} {one.since:%b}" if one is not None and one.since is not None else "open"
    )


STATES: dict[str, Callable[[Job, Turn, Chosen], str]] = {
    "step": _step, "reading": _reading, "check": _check, "known": _known, "part": _part, "torque": _torque,
    "weld": _weld, "open": _open,
}  # fmt: skip
"""By what a row is."""
