"""The keys of a step, in the order in which the row of keys and the page of all keys name them."""

from __future__ import annotations

from jobtrack.app.keys import JOB, RECKONER, REST, key
from jobtrack.pages.step.hazards import SHOW_ALL

STEP_KEYS = (
    key("f", "finish", "finish", "Finish the step. Where something is left or gets closed, it says what "
        "and asks for Enter.", records=True),
    RECKONER,
    key("?", "all keys", "all_keys", "This page: what every key does."),
    key("g", "go on", "go_on", "Go on to the step that comes next."),
    key("k", "clock", "clock", "Your clock on or off.", records=True),
    key("!", "unsafe", "unsafe", "Unsafe right now: your words become an open condition."),
    key("u", "undo", "undo", "Undo your own last entry; again goes one further back.", records=True),
    key("o", "outline", "outline", "The outline of stages and steps."),
    JOB,
    key(SHOW_ALL, "hazards", "hazards", "The hazard messages of this step and of the job, whole."),
    key("enter", "next line", "next_line", "On to the next reading or check without an answer."),
    key("w", "words", "words", "Words for the chosen reading instead of a number: can't reach, seized."),
    key("t", "note", "note", "Write a note on this step."),
    key("m", "mark", "mark_place", "Mark where you are: bolt 3, second stage."),
    key("r", "release", "release", "Release the hold point: asks for a name, then a second r."),
    key("c", "close", "close", "Close a condition by name: choose it, type your name, c again."),
    key("p", "break", "break_off", "A break: your clock stops until your next entry.", records=True),
    key("h", "hand over", "hand_over", "Hand the job over to somebody."),
    key("s", "settle", "settle", "Settle a disagreement: say which value counts."),
    key("a", "stands", "stands", "Looked at again, and still right, because …"),
    key("d", "not needed", "not_needed", "The step is not needed; a reason can be typed."),
    key("b", "jobs", "jobs", "Back to the jobs."),
    key("q", "quit", "quit", "End the program; all that is recorded is on the disk."),
    key("y", "", "answer('yes')", "Yes to the chosen check, which stays until Enter or an arrow.", shown=False,
        records=True),
    key("n", "", "answer('no')", "No to the chosen check.", shown=False, records=True),
    key("up", "", "mark(-1)", "Choose the reading or check above.", shown=False),
    key("down", "", "mark(1)", "Choose the one below.", shown=False),
    key("left", "", "turn(-1)", "The step before this one.", shown=False),
    key("right", "", "turn(1)", "The step after this one.", shown=False),
    key("escape", "", "outline", "Cancels what is typed or asked; else the outline.", shown=False),
    REST,
)  # fmt: skip
