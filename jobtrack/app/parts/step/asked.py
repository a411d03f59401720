"""What the entry line of a step asks for, in words."""

from __future__ import annotations

from jobtrack.app.parts.step.at_hand import AtHand
from jobtrack.job.remarks.of_step import left_open
from jobtrack.job.state.job import LOOK_AGAIN, RELEASED
from jobtrack.pages.doing import asked as doing
from jobtrack.pages.job.last_line import onward_step
from jobtrack.pages.own_keys import named
from jobtrack.pages.step import entering
from jobtrack.pages.step.items import GIVEN, READING, Item, items
from jobtrack.pages.step.table import reading_wanted, reading_wanted_apart
from jobtrack.pages.step.waits import not_before, waited_words
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap
from jobtrack.pages.wording import step_name
from jobtrack.sheets.words.problems import with_names


def label(at: AtHand, room: int) -> list[Line]:
    """What is entered next: a reading's name in spaced capitals, with side and unit; or how the step ends.

    Nothing in the far view, where it stands on the page.
    """
    if at.far and not at.hazards_whole:
        return []
    item = at.item
    if item is None:
        return wrap(_closing(at), room, "strong")
    if item.one_by_one:
        return doing.asked_lines(at.meant, at.here, item, room, at.shown)
    if item.kind != READING:
        return wrap(_numbered(at, item) + item.label, room, "strong")
    unit = f" ({item.unit})" if item.unit else ""
    side = f"{at.here.member}: " if at.here.member else ""
    capitals = spaced_rows(side + item.label, room - len(unit))
    return [line(row + (unit if row is capitals[-1] else ""), "strong") for row in capitals]


def far(at: AtHand) -> tuple[str, str, list[str]]:
    """What is asked, for the far view: its name with its side, what is wanted, and more about it or its keys."""
    item = at.item
    if item is None:
        head, _, more = _closing(at).partition(": ")
        return head, more, [_closing_keys(at)]
    if item.kind == READING:
        side = f"{at.here.member}: " if at.here.member else ""
        wanted, more = reading_wanted_apart(at.job, at.here, item, at.shown)
        return side + item.label, wanted, [more]
    if item.one_by_one:
        return doing.far(at.meant, at.here, item, at.now, at.shown)
    if item.yes_or_no and not at.stands_answered:
        return _numbered(at, item) + item.label, "", [not_before(at.meant, at.here, item, at.now)]
    about = _hint(at, tall=False)
    return _numbered(at, item) + item.label, "", [about]


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
    if not at.items:
        return "Nothing is measured in this step."
    against = with_names(at.job, left_open(at.job, at.step))
    but = f", but: {'; '.join(against)}" if against else ""
    return f"Every line of this step has an answer{but}."


def about(at: AtHand, tall: bool) -> list[str]:
    """What is wanted of it, or how it is answered; where there is little room it stands in the place of the hint."""
    return _about(at, None) if tall else []


def _about(at: AtHand, room: int | None = 0) -> list[str]:
    item = at.item
    if item is None:
        return []
    if item.yes_or_no:
        return list(filter(None, [waited_words(at.meant, at.here, item, at.now)]))
    if item.one_by_one:
        return doing.about(at.meant, at.here, item, at.shown)
    if item.kind == READING:
        return [reading_wanted(at.job, at.here, item, at.shown, room)]
    if item.choose:
        return [f"Choose by number: {entering.choices(item)}"]
    return ["A number or words; ? is don't know yet"]


def hint(at: AtHand, tall: bool) -> str:
    """Which keys answer it; where there is little room, what is wanted of it. In the far view its page says so."""
    return "" if at.far and not at.hazards_whole else _hint(at, tall)


def _hint(at: AtHand, tall: bool) -> str:
    if at.item is None:
        return _closing_keys(at)
    yes, no = named("y", "answer-yes"), named("n", "answer-no")
    if at.stands_answered:
        return f"{yes} or {no} answers it anew; {_finishes(at)}Enter goes on."
    if at.item.one_by_one:
        return doing.hint(at.meant, at.here, at.item, at.now)
    if at.item.yes_or_no:
        keys = f"{yes} yes   {no} no   Enter leaves it for later"
        return keys if tall else f"{keys}   {not_before(at.meant, at.here, at.item, at.now)}".rstrip()
    if not tall:
        return " ".join(_about(at))
    first = f"Type the number, or {named('w', 'words')} and words"
    number = "A number typed here is a new measurement" if at.is_finished else first
    return f"{number}; Up and Down choose another."


def _finishes(at: AtHand) -> str:
    """The key that finishes the step at once, where nothing else of it is left to be asked."""
    hold = at.job.hold(at.step)
    left = at.following is not None or at.is_finished or (hold is not None and hold.state != RELEASED)
    return "" if left else f"{named('f', 'finish')} finishes the step, "


def _closing_keys(at: AtHand) -> str:
    """The keys that end the step."""
    hold, finish = at.job.hold(at.step), named("f", "finish")
    if hold is not None and hold.state != RELEASED:
        return f"{named('r', 'release')} releases it, by name. Up and Down choose a line."
    if at.is_finished:
        return onward(at)
    if at.job.state(at.step) == LOOK_AGAIN:
        stands = f"{named('e', 'find')}, then: it stands, because"
        return f"{finish} finishes it anew; {stands}. Up and Down choose a line."
    return f"{finish} (or *) finishes it. Up and Down choose a line."


def onward(at: AtHand) -> str:
    """The step that Enter goes on to, or where to look where no other is next."""
    found = onward_step(at.job, at.here)
    if found is None:
        outline, job = named("o", "outline"), named("j", "job-page")
        return f"No other step is next; {outline} shows the outline, {job} what is open."
    return f"Enter goes on to: {step_name(at.job.steps[found])}"
