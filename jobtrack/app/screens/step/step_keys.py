"""The keys of a step, in the order in which the row of keys and the page of all keys name them; and what has none."""

from __future__ import annotations

from collections.abc import Iterable

from textual.binding import Binding

from jobtrack.app.keys import JOB, RECKONER, REST, UNITS, UNSET, Row, also, cap, help_of, key
from jobtrack.pages.look_up.find import Offer
from jobtrack.pages.step.hazards import SHOW_ALL

STEP_KEYS = (
    key("f", "finish", "finish", "Finish the step. Where something is left or gets closed, it says what "
        "and asks for Enter.", records=True),
    key("a", "unsafe", "unsafe", "Unsafe right now: your words become an open condition."),
    key("e", "index", "find", "The index of all that can be done here, gone to or looked up: type a few letters."),
    key("?", "keys", "all_keys", "What every key does."),
    key("u", "undo", "undo", "Undo your own last entry; again goes one further back.", records=True),
    key("s", "surprise", "surprise", "A surprise: sheared, seized, cracked, missing, worn, other; and what follows."),
    key("p", "parts", "parts", "Parts: need one, buying, fitted, where it lies; and tools."),
    key("g", "go on", "go_on", "Go on to the step that comes next."),
    key("i", "photo", "photo", "A photo: the newest of the watched folder, or one by its file's name."),
    key("t", "note", "note", "Write a note on this step."),
    key("m", "mark", "mark_place", "Mark where you are: bolt 3, second stage."),
    key("r", "release", "release", "Release the hold point: asks for a name, then {} again."),
    key("d", "drawing", "drawings", "The pictures of this step; that of the chosen line first."),
    key("o", "outline", "outline", "The outline of stages and steps."),
    JOB,
    key("k", "clock", "clock", "Your clock on; where it runs, it asks whether off or a break.", records=True),
    RECKONER,
    key("v", "far view", "far", "The same step to be read from two metres; {} again goes back."),
    UNITS,
    key(SHOW_ALL, "hazards", "hazards", "The hazard messages of this step and of the job, whole."),
    key("enter", "next line", "next_line", "On to the next reading or check without an answer; where all have "
        "one and the step is finished, to the next step."),
    key("w", "words", "words", "Words for the chosen reading instead of a number: can't reach, seized."),
    key("=", "same as the other side", "same_as_other", "What the other side has, typed in for you; Enter records it."),
    key("l", "left and right swapped", "swap", "Left and right were confused: shows which readings change places, "
        "then Enter."),
    key("c", "close", "close", "Close a condition by name: choose it, type your name, {} again."),
    key("b", "by whom", "by_whom", "Who is here: in whose name is recorded from now on."),
    key("h", "hand over", "hand_over", "Hand the job over to somebody."),
    key("q", "quit", "quit", "End the program; all that is recorded is on the disk."),
    key("y", "", "answer('yes')", "Yes to the chosen check, which stays until Enter or an arrow; the click of "
        "a bolt; a run. With every line answered: finish.", shown=False, records=True),
    key("n", "", "answer('no')", "No to the chosen check.", shown=False, records=True),
    also("*", "answer('yes')", "Yes, on the number pad.", records=True),
    also("/", "answer('no')", "No, on the number pad.", records=True),
    also("!", "unsafe", "Unsafe right now."),
    key("up", "", "mark(-1)", "Choose the reading or check above.", shown=False),
    key("down", "", "mark(1)", "Choose the one below.", shown=False),
    key("left", "", "turn(-1)", "The step before this one.", shown=False),
    key("right", "", "turn(1)", "The step after this one.", shown=False),
    also("escape", "outline", "Cancels what is typed or asked; else the outline."),
    REST,
)  # fmt: skip

ELSE = (
    Row("take_over", "Take the job over", "what is open, then your name"),
    Row("settle", "Settle a disagreement", "say which value counts"),
    Row("stands", "Looked at again, and it stands", "this step, with the reason"),
    Row("look_again", "All that is to be looked at again", "several steps that stand, with one reason"),
    Row("not_needed", "This step isn't needed", "a reason can be typed"),
    Row("known", "What is known of the vehicles and the job", "all of it on one page, and typed there"),
    Row("seldom('before')", "Step to add before this one", "its title"),
    Row("seldom('after')", "Step to add after this one", "its title"),
    Row("private_note", "Private note", "it stays off the sheets that others get"),
    Row("seldom('agreed')", "Agreed", "who, to what, how, for how much"),
    Row("seldom('hours')", "Hours worked, typed afterwards", "your own or a helper's"),
    Row("seldom('paper')", "Typed in from paper", "when it was done, for all that you record until Escape"),
    Row("seldom('due')", "Due afterwards, done", "what was to be done after the job"),
    Row("photos", "Photos of this step", "shown by the system's viewer"),
    Row("to_buy", "Park the job for parts", "what is missing or on its way, as a list to buy with"),
    Row("seldom('tool')", "Tool left in …", "the blue tray"),
    Row("next_look", "Looks", "the next of paper, dark and high contrast"),
    Row("what_now", "What can be done now", "by one, by two, side by side; what waits, and for what"),
    Row("labour_hours", "Labour hours of this job", "by stage, step and person"),
    Row("paper('card')", "Job card on paper", "filled in so far, as a file beside the job"),
    Row("paper('empty-card')", "Job card with empty frames", "for the bench, as a file beside the job"),
    Row("paper('record')", "Vehicle's record on paper", "what will stand on it, before it is written"),
    Row(
        "paper('wheel')",
        "Paper for the steering wheel",
        "what is open, in large letters, as a file beside the job",
    ),
    Row("next_version", "Next version of the template", "what this job, once ended, would change in it"),
    Row("jobs", "Jobs of the folder", "back to them"),
)
"""What is rare enough to have no key of its own: an action of the step, its name, and more about it."""

IN_INDEX = {
    "finish": "Finish the step", "all_keys": "Keys: what each does", "undo": "Undo your own last entry",
    "surprise": "Surprise: sheared, cracked, missing", "unsafe": "Unsafe right now", "parts": "Parts and tools",
    "go_on": "Go on to the next step", "photo": "Photo to record", "note": "Note on this step",
    "mark_place": "Mark where you are", "release": "Release the hold point", "drawings": "Drawings of this step",
    "outline": "Outline of stages and steps", "job_page": "Job: what holds for all of it",
    "clock": "Clock on, off, a break", "reckoner": "Reckoner", "far": "Far view, from two metres",
    "units": "Units, metric or US first", "hazards": "Hazard messages, whole",
    "words": "Words instead of a number", "same_as_other": "Same as the other side",
    "swap": "Left and right swapped", "close": "Close a condition", "by_whom": "By whom is recorded",
    "hand_over": "Hand the job over", "quit": "Quit the program", "answer('yes')": "Yes to the chosen check",
    "answer('no')": "No to the chosen check", "turn(-1)": "Step before this one", "turn(1)": "Step after this one",
}  # fmt: skip
"""What a key does, by the short name under which the index has it."""

NOT_FOUND = ("find", "next_line", "mark(-1)", "mark(1)", "rest")
"""Actions that mean nothing where they are chosen from a list."""


def offers(bindings: Iterable[Binding]) -> list[Offer]:
    """What a step does, by its keys as they are set and by the rows, of which some may have been given a key."""
    known = {one.action: one for one in bindings if one.id and one.action not in NOT_FOUND}
    rows = {one.action for one in ELSE}
    keyed = [Offer(one.action, IN_INDEX[one.action], help_of(one).rstrip("."), cap(one), one.description)
             for one in known.values() if one.action not in rows]  # fmt: skip
    return [*keyed, *(_row(one, known.get(one.action)) for one in ELSE)]


def _row(row: Row, binding: Binding | None) -> Offer:
    """A row of what has no key, with one where somebody has set it."""
    key = cap(binding) if binding is not None and binding.key != UNSET else ""
    return Offer(row.action, row.name, f"{row.name}: {row.more}", key)
