"""What the entry line of a step asks for, in words."""

from __future__ import annotations

from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.job.state.job import LOOK_AGAIN, RELEASED
from jobtrack.pages.job.last_line import next_step
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import GIVEN, READING, Item, items
from jobtrack.pages.step.table import reading_wanted
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap
from jobtrack.pages.wording import step_name

SAME_CHECK = "y or n answers it anew; Enter goes on."
CHECK = "y yes   n no   Enter leaves it for later"


def label(at: AtHand, room: int) -> list[Line]:
    """What is entered next: a reading's name in spaced capitals, with side and unit; or how the step ends."""
    item = at.item
    if item is None:
        return wrap(_closing(at), room, "strong")
    if item.kind != READING:
        return wrap(_numbered(at, item) + item.label, room, "strong")
    unit = f" ({item.unit})" if item.unit else ""
    side = f"{at.here.member}: " if at.here.member else ""
    capitals = spaced_rows(side + item.label, room - len(unit))
    return [line(row + (unit if row is capitals[-1] else ""), "strong") for row in capitals]


def _numbered(at: AtHand, item: Item) -> str:
    """Which of several things known this is, where a step wants several."""
    known = [one for one in items(at.job, at.here) if one.kind == GIVEN]
    if item.kind != GIVEN or not known[1:]:
        return ""
    return f"Known, or not yet, {1 + known.index(item)} of {len(known)}: "


def _closing(at: AtHand) -> str:
    """What is left when every line has an answer: the hold point, finishing, the next step."""
    hold = at.job.hold(at.step)
    if hold is not None and hold.state != RELEASED:
        return f"Hold point, work should stop here: {hold.ask}"
    if at.is_finished:
        return "This step is finished."
    if at.job.state(at.step) == LOOK_AGAIN:
        return "This step is to be looked at again."
    return "Every line of this step has an answer." if at.items else "Nothing is measured in this step."


def about(at: AtHand, tall: bool) -> list[str]:
    """What is wanted of it, or how it is answered; where there is little room it stands in the place of the hint."""
    return _about(at) if tall else []


def _about(at: AtHand) -> list[str]:
    item = at.item
    if item is None or item.yes_or_no:
        return []
    if item.kind == READING:
        return [reading_wanted(at.job, at.here, item)]
    if item.choose:
        return [f"Choose by number: {entering.choices(item)}"]
    return ["A number or words; ? is don't know yet"]


def hint(at: AtHand, tall: bool) -> str:
    """Which keys answer it; where there is little room, what is wanted of it."""
    if at.item is None:
        return _closing_keys(at)
    if at.stands_answered:
        return SAME_CHECK
    if at.item.yes_or_no:
        return CHECK
    if not tall:
        return " ".join(_about(at))
    number = (
        "A number typed here is a new measurement" if at.is_finished else "Type the number, or w and words"
    )
    return f"{number}; Up and Down choose another."


def _closing_keys(at: AtHand) -> str:
    """The keys that end the step."""
    hold = at.job.hold(at.step)
    if hold is not None and hold.state != RELEASED:
        without = "" if at.is_finished else "; f finishes the step without it"
        return f"r releases it{without}. Up and Down choose a line."
    if at.is_finished:
        return _onward(at)
    if at.job.state(at.step) == LOOK_AGAIN:
        return "f finishes it anew; e, then: it stands, because. Up and Down choose a line."
    return "f (or *) finishes it. Up and Down choose a line."


def _onward(at: AtHand) -> str:
    """The step that Enter goes on to."""
    found = next_step(at.job, at.here)
    if found is None or found == at.step:
        return "No other step is next; o shows the outline, j what is open."
    return f"Enter goes on to: {step_name(at.job.steps[found])}"
