"""What is open, what comes next, whose clock runs: the same sentence on sheets, screens and the command line."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import datetime

from jobtrack.job.state.conditions import ASK_FIRST, OpenCondition, of_member
from jobtrack.job.state.job import FINISHED, NOT_NEEDED, RELEASED, HoldState, Job
from jobtrack.literal import visible
from jobtrack.template.plan import PlannedStep

NO_CONDITION = "No open condition is recorded. That does not say that the vehicle is safe: look."
NEXT = "Nothing in the order of steps or in what is recorded as open stops these. Look at the vehicle before you begin."
CLOSED = (
    "Every step is finished or marked not needed, and no open condition is recorded. "
    "It doesn't mean that the vehicle may be driven, loaded or sold."
)
FIRST_WORD = (
    "This program records and calculates. It doesn't know whether the work, the parts or the vehicle are safe "
    "or allowed. The makers' instructions, local rules and people licensed for the work decide; where they "
    "differ from a template, they win."
)
PERHAPS = "PERHAPS "
"""Before the tag of a condition that a damaged entry may have opened."""
NOT_CHECKED = "Not checked who typed it or what they are qualified for."
"""Said of every release."""
OWN_LIMIT = "limit set in this template, no published source"


def step_name(planned: PlannedStep) -> str:
    """A step's title with its side or vehicle."""
    return of_member(planned.step.title, planned.member)


def headed(title: str, text: str) -> str:
    """A title and what stands there; a question ends in its own mark."""
    return f"{title}{'' if title.endswith('?') else ':'} {text}"


def joined(parts: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join([", ".join(parts[:-1]), *parts[-1:]] if parts[1:] else parts)


def day_and_clock(at: datetime) -> str:
    """ "2 Apr 09:41"."""
    return f"{at.day} {at:%b %H:%M}"


def next_sentence(name: str) -> str:
    """What *next* means for the step of this name, and what it doesn't."""
    return NEXT.replace("stops these", f"stops “{name}”")


def worst_first(job: Job, here: PlannedStep | None = None) -> list[OpenCondition]:
    """What can't be read, what forbids the step at hand, what somebody saw, what has a tag, the rest; the asking last.

    Within each what was opened last: it is what whoever comes to the vehicle knows least, and a row that has room
    for three tags has to have the fire watch of today, not the battery that has been off since yesterday.
    """
    latest_first = sorted(job.open_conditions, key=lambda one: one.last or (), reverse=True)
    return sorted(latest_first, key=lambda one: _rank(one, here))


def _rank(one: OpenCondition, here: PlannedStep | None) -> int:
    if one.since is None:
        return 0
    if one.id == ASK_FIRST:
        return 5
    if here is not None and {one.id, one.name} & {*here.step.not_while, *here.step.opens, *here.step.closes}:
        return 1
    if one.id in one.openings:
        return 2
    return 3 if one.tag else 4


def condition_line(one: OpenCondition) -> str:
    """An open condition with its side, since when, its tag, and why it is still open where that needs saying."""
    parts = [visible(one.words)]
    if one.since is not None:
        parts.append(f"since {one.since:%d %b %H:%M}")
    if one.tag:
        parts.append(f"tag {one.tag}")
    if one.remark:
        parts.append(one.remark)
    return " · ".join(parts)


def tag_or_words(one: OpenCondition) -> str:
    """A condition by its tag, or in words where it has none, with the side or vehicle."""
    return of_member(one.tag or one.text, one.member)


def tag_questions(before: Iterable[OpenCondition], after: Iterable[OpenCondition]) -> list[str]:
    """Of what was open and is so no more: whether its tag is off the wheel; or that the tag is another's too."""
    left = list(after)
    open_still = {one.name for one in left}
    tags = dict.fromkeys(one.tag for one in before if one.tag and one.name not in open_still)
    return [_tag_question(tag, [one for one in left if one.tag == tag]) for tag in tags]


def _tag_question(tag: str, others: Sequence[OpenCondition]) -> str:
    if others:
        return f"Tag {visible(tag)} stays on the steering wheel: {visible(others[0].words)} is recorded as open still."
    return f"Tag {visible(tag)}: is it off the steering wheel?"


def tags(job: Job) -> list[str]:
    """The tags for the steering wheel, each once, with those that a damaged entry may have put there."""
    found = [
        of_member(f"{before}{tag}", member)
        for one in worst_first(job)
        for before, tag, member in (
            ("", one.tag, one.member),
            *((PERHAPS, each.tag, each.member) for each in one.perhaps),
        )
        if tag
    ]
    return list(dict.fromkeys(found))


def released_line(hold: HoldState) -> str:
    """Who released a hold, in the words that promise nothing."""
    if hold.release is None:
        return "Not released."
    entry = hold.release.entry
    said = f"Released by {visible(entry.by)} (as typed), {entry.at:%d %b %H:%M}. {NOT_CHECKED}"
    return said if hold.state == RELEASED else f"Released before a change. {said}"


def clock_line(name: str, on_break: bool) -> str:
    """That somebody's clock is on, and how far it counts; or that they are on a break."""
    if on_break:
        return f"{visible(name)} is on a break; the clock goes on with their next entry."
    return f"The clock of {visible(name)} runs; it counts to their last entry."


def clock_lines(running: Iterable[str], on_break: Collection[str]) -> Iterator[str]:
    """A line for each person whose clock is on."""
    return (clock_line(name, name in on_break) for name in running)


def counted(number: int, one: str, more: str | None = None) -> str:
    """ "1 step", "3 steps"."""
    return f"{number} {one if number == 1 else more or one + 's'}"


def ended(text: str) -> str:
    """A text that ends a sentence: with a full stop, where it has no mark of its own."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def raised(text: str) -> str:
    """A text that begins a sentence: its first letter large."""
    return text[:1].upper() + text[1:]


def lowered(title: str) -> str:
    """A title inside a sentence: its first letter small, unless the word is written in capitals."""
    return title if title[:2].isupper() else title[:1].lower() + title[1:]


def stage_sentence(job: Job, planned: PlannedStep) -> str:
    """ "Stage 4 of 9, prepare the donor axle: 5 of 12 steps finished." """
    stages = list(job.plan.template.stage)
    stage = planned.step.stage
    steps = job.plan.in_stage(stage)
    finished = sum(job.state(one.id) == FINISHED for one in steps)
    spared = sum(job.state(one.id) == NOT_NEEDED for one in steps)
    place = f"Stage {stages.index(stage) + 1} of {len(stages)}" if stage in stages else "Stage"
    not_needed = f", {spared} not needed" if spared else ""
    done = f"{finished} of {counted(len(steps), 'step')} finished{not_needed}"
    return f"{place}, {lowered(planned.stage.title)}: {done}."
