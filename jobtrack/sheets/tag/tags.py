"""The tags that are due: each wording once, with the conditions that it is for, the worst first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from msgspec import Struct

from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.sentences import PERHAPS, joined, worst_first
from jobtrack.sheets.words.zones import Times

BY_ITS_REMAINS = "by what is left of a damaged entry"


class OneFor(Struct, frozen=True):
    """What one tag is for: a condition that is open, or one that a damaged entry may have opened."""

    tag: str
    text: str
    member: str | None
    by: str | None = None
    since: datetime | None = None


class Tag(Struct, frozen=True):
    """One wording, on the wheel of one vehicle, and all that it is for."""

    words: str
    vehicle: str | None
    """Whose wheel it hangs on, where it is known whose; None: it isn't."""
    of: tuple[OneFor, ...]

    def sides(self) -> str:
        """ "left and right"; empty where it is about no side."""
        return joined(
            list(dict.fromkeys(one.member for one in self.of if one.member and one.member != self.vehicle))
        )

    def left_by(self, times: Times) -> str:
        """Who left it so and since when; of what can't be read nobody knows that."""
        names = list(dict.fromkeys(one.by for one in self.of if one.by))
        since = min((one.since for one in self.of if one.since), default=None)
        return f"{joined(names)}, since {times.said(since)}" if since else "Who left it so isn't known"


def due_tags(job: Job) -> list[Tag]:
    """Every tag that is due. None where nothing that is open has one."""
    groups: dict[tuple[str, str | None], list[OneFor]] = {}
    for condition in worst_first(job):
        for one in _of(condition):
            groups.setdefault((one.tag, _vehicle(job, condition, one.member)), []).append(one)
    return [Tag(words, vehicle, tuple(those)) for (words, vehicle), those in groups.items()]


def _vehicle(job: Job, one: OpenCondition, member: str | None) -> str | None:
    """Whose wheel a tag hangs on: its own vehicle's, else that of the step that opened it, else the template's."""
    template, planned = job.plan.template, job.steps.get(one.step or "")
    about = planned.step.about if planned else None
    return next((each for each in (member, about, template.about) if each in template.vehicle), None)


def _of(one: OpenCondition) -> Iterator[OneFor]:
    if one.tag:
        yield OneFor(one.tag, one.text, one.member, one.by, one.since)
    for each in one.perhaps:
        if each.tag:
            yield OneFor(f"{PERHAPS}{each.tag}", f"{BY_ITS_REMAINS}: {each.text}", each.member)


def texts(those: Sequence[OneFor]) -> str:
    """What it is for, each text once."""
    return "; ".join(dict.fromkeys(one.text for one in those))
