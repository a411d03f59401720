"""A weld on its step's page: which run is asked, the pause before it, what was recorded, and what is typed."""

from __future__ import annotations

import re
from datetime import datetime

from msgspec import Struct

from jobtrack import units
from jobtrack.job.acts.base import commas
from jobtrack.job.acts.doing import WeldAct
from jobtrack.job.compose import doing
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.compose.typed import amount
from jobtrack.job.doing.welding import Welding, welding
from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.pages.doing.bolts import called_words
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap
from jobtrack.pages.wording import raised
from jobtrack.sheets.words.doing.welds import run_figures
from jobtrack.template.plan import PlannedStep

_FORM = re.compile(r"(?:run\s+(\w+)[\s,;:]*)?(.*?)(?:[\s,;]*\brod\b[\s:]*(.*))?", re.IGNORECASE | re.DOTALL)
_JUST = 60
"""Seconds that count as just now."""


def now(job: Job, planned: PlannedStep, name: str) -> Welding:
    """What is recorded of a weld."""
    return welding(job.view, planned, name)


# What is asked


def asked_words(job: Job, planned: PlannedStep, name: str) -> str:
    """What is asked of a weld: "run 2 of 3"; or that all runs are recorded."""
    found = now(job, planned, name)
    if found.next is None:
        return f"{name}: every run is recorded"
    called = called_words(planned, name, len(planned.step.weld))
    said = run_words(found, found.next)
    return f"{called}: {said}" if called else said


def asked_lines(job: Job, planned: PlannedStep, name: str, room: int) -> list[Line]:
    """The same in spaced capitals, with the unit of what a number would enter."""
    if now(job, planned, name).next is None:
        return wrap(f"{asked_words(job, planned, name)}.", room, "strong")
    after = ", amps? (A)"
    *above, last = spaced_rows(asked_words(job, planned, name), room - len(after))
    return [line(row, "strong") for row in (*above, last + after)]


def run_words(found: Welding, run: str) -> str:
    """ "run 2 of 3"; one that goes by a name of its own by that."""
    return f"run {run} of {len(found.runs)}" if run.isdecimal() else run


def _run(run: str) -> str:
    return f"run {run}" if run.isdecimal() else run


def pause_words(job: Job, planned: PlannedStep, name: str, at: datetime) -> str:
    """What the template asks before the next run, and when the last was recorded; empty before the first."""
    found = now(job, planned, name)
    if found.last is None or found.next is None or not isinstance(found.last.act, WeldAct):
        return ""
    asks = found.line.before_next
    rule = f"Before the next run the template asks: {asks}. " if asks else ""
    return f"{rule}{raised(_run(found.last.act.run))} recorded {_ago(found.last.entry.at, at)}."


def _ago(then: datetime, at: datetime) -> str:
    """How long ago, in whole minutes; with the time of day where that is more than a day, or yet to come."""
    seconds = int((at - then).total_seconds())
    if not 0 <= seconds < 24 * 3600:
        return f"on {then.day} {then:%B at %H:%M}"
    if seconds < _JUST:
        return "just now"
    hours, minutes = divmod(seconds // 60, 60)
    return f"{f'{hours} h ' if hours else ''}{minutes} min ago"


# What was recorded


def welded_words(job: Job, planned: PlannedStep, act: WeldAct) -> str:
    """What was recorded of a run: "run 2 of 3: 95 A, rod 3.2 mm"."""
    found = now(job, planned, act.weld)
    said = run_figures(act)
    ends = " Every run is recorded." if found.next is None else ""
    return f"{run_words(found, act.run)}{f': {said}' if said else ''}.{ends}"


def run_lines(job: Job, planned: PlannedStep, name: str, width: int) -> list[Line]:
    """The runs with what was recorded of each."""
    found = now(job, planned, name)
    said = [f"{_run(run)}: {_recorded(done and done.act)}" for run, done in found.runs.items()]
    return wrap("; ".join(said) + ".", width, "", 2)


def _recorded(act: object) -> str:
    return (run_figures(act) or "yes") if isinstance(act, WeldAct) else "-"


# What is typed


def rod_offered(job: Job, planned: PlannedStep, name: str) -> str | None:
    """The rod to offer where none of this weld is recorded: that of another side's, else the template's.

    None: one is recorded, and goes with the next run by itself.
    """
    if now(job, planned, name).rod is not None:
        return None
    others = [one for one in job.plan.by_base.get(planned.base, ()) if one.id != planned.id]
    rods = [rod for one in others if (rod := now(job, one, name).rod)]
    return rods[-1] if rods else planned.step.weld[name].rod or ""


class Run(Struct, frozen=True):
    """What was typed of a run: which, where that is said, its current and its rod."""

    run: str
    amps: str
    rod: str


def typed_run(text: str) -> Run:
    """What a text says: "95", "95 A, rod 2.5 mm", "rod 2.5 mm", "run 4 95"."""
    said = _FORM.fullmatch(text.strip())
    return Run(*((part or "").strip() for part in said.groups())) if said else Run("", text.strip(), "")


def welded(made: Draft, name: str, text: str = "") -> None:
    """Put a run into a call, with its current and its rod where they are typed or known. Raises Refused, UnitError."""
    found, one = now(made.job, made.planned, name), typed_run(text)
    run = one.run or found.next
    if run is None:
        raise Refused(f"every run is recorded; name one more: run {len(found.runs) + 1}")
    doing.weld(made, name, run, one.amps, rod=one.rod or found.rod)


def echo_words(job: Job, planned: PlannedStep, name: str, text: str) -> str:
    """How a text would be read: "= run 2 of 3: 95 A, rod 2.5 mm". Raises UnitError, Refused."""
    found, one = now(job, planned, name), typed_run(text)
    current = units.show(amount("amps", one.amps, "A"), "A") if one.amps else ""
    rod, run = one.rod or found.rod, one.run or found.next
    said = commas(current, rod and f"rod {visible(rod)}")
    return f"= {run_words(found, run) if run else 'no run is left'}{f': {said}' if said else ''}"
