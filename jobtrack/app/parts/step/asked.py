"""What the entry line of a step asks for, in words."""

from __future__ import annotations

from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.job.state.job import FINISHED
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import READING, first_open
from jobtrack.pages.step.table import reading_wanted
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap

ALL_ANSWERED = "Every reading and check of this step has an answer; f finishes it."
SAME_CHECK = "y or n answers it anew."
MEASURE_AGAIN = "This step is finished. A number typed here is a new measurement."


def label(at: AtHand, room: int) -> list[Line]:
    """What is entered next: a reading's name in spaced capitals, with side or vehicle and unit."""
    item = at.item
    if item is None:
        return [line("Nothing is measured in this step; t writes a note.", "strong")]
    if item.kind != READING:
        return wrap(item.label, room, "strong")
    unit = f" ({item.unit})" if item.unit else ""
    side = f"{at.here.member}: " if at.here.member else ""
    capitals = spaced_rows(side + item.label, room - len(unit))
    return [line(row + (unit if row is capitals[-1] else ""), "strong") for row in capitals]


def about(at: AtHand, short: bool) -> list[str]:
    """What is wanted of it, or how it is answered; nothing on a short terminal."""
    item = at.item
    if item is None or short:
        return []
    if item.kind == READING:
        return [reading_wanted(at.job, at.here, item)]
    if item.yes_or_no:
        return []
    if item.choose:
        return [f"Choose by number: {entering.choices(item)}"]
    return ["A number or words; ? is don't know yet"]


def hint(at: AtHand) -> str:
    """Which keys answer it."""
    if at.item is None:
        return ""
    if at.job.state(at.step) == FINISHED:
        return MEASURE_AGAIN
    if first_open(at.job, at.here) is None:
        return f"{SAME_CHECK} {ALL_ANSWERED}" if at.stands_answered else ALL_ANSWERED
    if at.stands_answered:
        return f"{SAME_CHECK} Enter goes on to the next line."
    if at.item.yes_or_no:
        return "y or n answers it; Enter leaves it for later; Up and Down choose another."
    return "Type the number, or w and words; Up and Down choose another."
