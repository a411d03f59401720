"""The first walk through a copy of a sample job: what to press, one thing after another, and why."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.pages.job.conditions import JOB_KEY
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, line, wrap

TITLE = "A first walk through a half-done job"
ABOUT = (
    "Six things to press, in a copy of the half-done sample job. The keys do what they always do, but nothing of "
    "your own jobs is touched, and the copy is thrown away. A row above the keys says what comes next."
)
DONE = "The walk is done. Escape goes back to your jobs; the copy is thrown away."
ENDS = " Escape ends the walk."
BACK = "Escape goes back to the step."


class Stage(Struct, frozen=True):
    """One thing to do in the walk."""

    do: str
    """What to press, short."""
    why: str
    """What that is for."""
    records: type[Act] | None = None
    """It is done when one of these is recorded."""
    opens: str = ""
    """It is done when somebody has run this action and is back at the step."""


STAGES = (
    Stage(
        "Type 23.6, then press Enter.",
        "A reading is typed as it is measured, 23.6 or 15/16 in, and shown back in both unit systems; Enter "
        "records it. What lies outside is recorded all the same, and said.",
        records=ReadingAct,
    ),
    Stage(
        "{yes} answers the check that is asked now.",
        "What is asked now stands below the page. A check takes one key, {yes} or {no}; it stays there until "
        "Enter or an arrow goes on.",
        records=TickAct,
    ),
    Stage(
        "{undo} takes your last entry back.",
        "Nothing that was recorded is ever lost: taking back is one more entry, and by the same key you go "
        "further back.",
        records=UndoesAct,
    ),
    Stage(
        "{job} shows the job.",
        "The row of tags on top says what is open. The page of the job has it whole, with the hazards of every "
        "step and what is known of the vehicles.",
        opens="job_page",
    ),
    Stage(
        "{outline} shows the outline.",
        "All stages and steps, each with where it stands. The arrows mark a step, and Enter goes there.",
        opens="outline",
    ),
    Stage(
        "{keys} shows every key.",
        "On each page it says what the page is for and what its keys do.",
        opens="all_keys",
    ),
)
"""The walk; a word in braces is the key that is meant."""


def stages() -> tuple[Stage, ...]:
    """The walk, with the keys as they are set."""
    keys = {
        "yes": named("y", "answer-yes"), "no": named("n", "answer-no"), "undo": named("u", "undo"),
        "job": named(JOB_KEY, "job-page"), "outline": named("o", "outline"), "keys": named("?", "all-keys"),
    }  # fmt: skip
    return tuple(replace(one, do=one.do.format_map(keys), why=one.why.format_map(keys)) for one in STAGES)


def walk_page(width: int) -> list[Line]:
    """What the walk is, and its six things, a paragraph each."""
    lines = [*wrap(ABOUT, width), line()]
    for number, stage in enumerate(stages(), 1):
        lines += wrap(f"{number}. {stage.do} {stage.why}", width, "", 3)
    return lines


def strip_words(at: int, there: bool, busy: bool) -> str:
    """The row above the keys: the thing at hand, how to come back where another page is open, how to end it.

    `busy`: something is asked, which Escape would cancel first.
    """
    every = stages()
    if at >= len(every):
        return DONE
    head = f"Walk {at + 1} of {len(every)}: "
    return f"{head}here it is. {BACK}" if there else f"{head}{every[at].do}{'' if busy else ENDS}"
