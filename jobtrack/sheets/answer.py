"""What one call has recorded, said back: what it was, as typed, and where it lies."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.steps import FinishedAct, SettledAct
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.job.remarks.of_step import NotWithin, OfStep, left_open, step_problems
from jobtrack.job.remarks.waits import too_soon
from jobtrack.job.state.job import LOOK_AGAIN, Job
from jobtrack.job.state.order import OutOfOrder
from jobtrack.sheets.words.doing.acts import entry_words
from jobtrack.sheets.words.named import Ids
from jobtrack.sheets.words.problems import too_soon_words, with_ids
from jobtrack.sheets.words.sentences import raised
from jobtrack.sheets.words.values.readings import verdict_text


def answer_lines(job: Job, entry: Entry) -> list[str]:
    """What an entry recorded, what it took back, and what it leaves open, a line each."""
    return [*dict.fromkeys(_recorded(job, entry)), *_undone(job, entry), *_left(job, entry)]


def against_lines(before: Job, after: Job, step: str | None) -> list[str]:
    """What stands against a step since an entry in it, though no act of the entry says it: that it came too early,
    and readings that worked themselves out outside their limits.
    """
    stood, stands = (_unsaid(job, step) for job in (before, after))
    return [f"{step}: {text}" for text in stands if text not in stood]


def _unsaid(job: Job, step: str | None) -> list[str]:
    if step is None or step not in job.steps or job.state(step) == LOOK_AGAIN:
        return []
    return with_ids(job, [one for one in step_problems(job, step) if _says_itself(job, one)])


def _says_itself(job: Job, problem: OfStep) -> bool:
    if isinstance(problem, NotWithin):
        return job.steps[problem.step].step.reading[problem.reading].from_ is not None
    return isinstance(problem, OutOfOrder)


def _recorded(job: Job, entry: Entry) -> Iterator[str]:
    for act in entry.did:
        if not isinstance(act, UndoesAct):
            verdict = _verdict(job, entry.step, act) or _soon(job, entry.step, act)
            yield f"  {act.words()}{f'. {verdict}' if verdict else ''}"


def _verdict(job: Job, step: str | None, act: Act) -> str:
    """Where a reading lies as it counts now; empty where the act is none, or nothing is wanted of it."""
    name = act.reading if isinstance(act, ReadingAct) else act.settled if isinstance(act, SettledAct) else ""
    planned = job.steps.get(step or "")
    if planned is None or name not in planned.step.reading:
        return ""
    if not job.places.reading(planned.id, name).agreed:
        return "In disagreement with another value; none counts until somebody settles it."
    return verdict_text(job, planned, name)


def _soon(job: Job, step: str | None, act: Act) -> str:
    """That a check was answered yes sooner than the template asks; empty where it wasn't."""
    planned = job.steps.get(step or "")
    if planned is None or not isinstance(act, TickAct) or act.tick not in planned.step.tick:
        return ""
    found = too_soon(job, planned, act.tick)
    return f"{raised(too_soon_words(found, Ids()))}." if found is not None else ""


def _undone(job: Job, entry: Entry) -> Iterator[str]:
    """What the entry took back, and how that is brought back."""
    taken = [act.undoes for act in entry.did if isinstance(act, UndoesAct)]
    for id in taken:
        for one in (one for one in job.view.entries if one.id == id):
            yield f"Undone: {entry_words(one)}. {stays_open(one)}".rstrip()
    if taken:
        yield f"--undo={entry.id} brings it back."


def stays_open(undone: Entry) -> str:
    """What an undo doesn't take back: in doubt the open side wins, so what the entry opened stays open."""
    opened = any(isinstance(act, OpensAct) for act in undone.did)
    return "What it opened stays open until somebody closes it by name." if opened else ""


def _left(job: Job, entry: Entry) -> Iterator[str]:
    """What a step that was just finished leaves open; finishing it isn't refused for that."""
    if entry.step is None or not any(isinstance(act, FinishedAct) for act in entry.did):
        return
    left = with_ids(job, left_open(job, entry.step))
    if left:
        yield f"{entry.step} is finished with this open:"
    for text in left:
        yield f"  - {text}"
