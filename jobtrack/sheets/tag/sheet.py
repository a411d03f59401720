"""The tag for the steering wheel: half a page that lists every tag that is due, none larger than another."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Blank, Cut, Paragraph, Section, Sheet, Shout, Strong, Text
from jobtrack.sheets.tag.tags import Tag, due_tags, texts
from jobtrack.sheets.words.sentences import ended, lowered, raised
from jobtrack.sheets.words.zones import Times

NO_TAG = "No tag is recorded as due. That does not say that the vehicle is safe: look."
COMES_OFF = "Comes off when its condition is closed, by the person who closes it."
COME_OFF = (
    "A line is crossed out when its condition is closed, and the paper comes off with the last, "
    "by the person who closes it."
)
NOT_ALL = "Only what was recorded stands here: look."
EVERY_LINE = "Every line counts."
ONE_BELOW_ANOTHER = 3
"""So many tags have a row each; more stand two in a row. None is larger: which is worst isn't recorded."""
MOST = 12
"""So many have room on half a page."""


def tag_sheet(job: Job, by: str | None, at: datetime) -> Sheet | None:
    """Half a page for each vehicle whose wheel has a tag due, more where there are more lines; None: no tag is due.

    `by`: who hangs it up and is to be asked; `at`: when.
    """
    papers = list(_papers(due_tags(job)))
    if not papers:
        return None
    title = f"Tag for the steering wheel: {job.about.title}"
    sections = (_half_page(job, tags, by, at, cut=not number % 2) for number, tags in enumerate(papers))
    return Sheet("tag", title, (), tuple(sections))


def _papers(tags: list[Tag]) -> Iterator[list[Tag]]:
    """The tags of each half page: a vehicle's own together, those of the job's own vehicle first."""
    vehicles = sorted(dict.fromkeys(one.vehicle for one in tags), key=lambda one: one is not None)
    for vehicle in vehicles:
        own = [one for one in tags if one.vehicle == vehicle]
        yield from (own[at : at + MOST] for at in range(0, len(own), MOST))


def _half_page(job: Job, tags: list[Tag], by: str | None, at: datetime, *, cut: bool) -> Section:
    times = Times(job)
    shouts = [_shout(one, times, lesser=len(tags) > ONE_BELOW_ANOTHER) for one in tags]
    below = (
        Paragraph(_left_by(by, f"{times.said(at, year=True)}.")),
        Paragraph(_small_words(job, times, len(tags)), "small"),
    )
    return Section(_headed(job, tags[0].vehicle), (*shouts, *below, *([Cut()] if cut else [])))


def _shout(one: Tag, times: Times, *, lesser: bool) -> Shout:
    about = [one.sides(), *([] if lesser else [texts(one.of)])]
    said = ": ".join(filter(None, about))
    return Shout(one.words, (f"{ended(said)} {one.left_by(times)}" if said else one.left_by(times),), lesser)


def _left_by(by: str | None, when: str) -> Text:
    """Who left it so, when, and whom to ask: the same person, by hand where nobody's name is known."""
    ask = (" Ask before you touch it, telephone ", Blank("", 16))
    return (
        ("Left by ", Strong(by), f" (as typed); written {when}", *ask)
        if by
        else ("Left by ", Blank("", 16), f" written {when}", *ask)
    )


def _small_words(job: Job, times: Times, tags: int) -> str:
    every = [EVERY_LINE] if tags > ONE_BELOW_ANOTHER else []
    return " ".join([*every, times.head, *_about(job), NOT_ALL, COMES_OFF if tags == 1 else COME_OFF])


def _about(job: Job) -> list[str]:
    """The job, and what each vehicle in it is called."""
    named = [f"{vehicle}: {name}" for vehicle in job.plan.template.vehicle if (name := _name(job, vehicle))]
    return [f"Job: {ended(job.about.title)}", *([ended(raised("; ".join(named)))] if named else [])]


def _name(job: Job, vehicle: str) -> str | None:
    name = job.places.given(f"{vehicle}.name").value
    return name if isinstance(name, str) else None


def _headed(job: Job, vehicle: str | None) -> str:
    """Which vehicle it is, by its name where one is known; where there are several and none is meant, the job."""
    meant = [vehicle] if vehicle else list(job.plan.template.vehicle)
    if len(meant) != 1:
        return job.about.title
    return _name(job, meant[0]) or f"{raised(meant[0])}, {lowered(job.about.title)}"
