"""What the giver says, what was agreed, and what is new since the last handover."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.handing import GIVER_SAYS, Handing, points, said_or_lines
from jobtrack.sheets.paper.blocks import Paragraph, Section
from jobtrack.sheets.words.doing.acts import named_acts_words
from jobtrack.sheets.words.sentences import counted, joined, step_name

SAID_TITLE = "Who decides, what was promised, what didn't work"
NEW_TITLE = "New since the last handover"
FIRST = "This is the first handover of this job."
NOTHING_NEW = "Nothing is recorded since."
EACH = 12
"""So many entries are told one by one; of more a row a step."""


def said_section(giving: Handing) -> Section:
    """The giver's words, or lines for them; beside them what is recorded as agreed."""
    asked = [said_or_lines(giving, key) for key, _ in GIVER_SAYS if key != "holds_up"]
    agreed = [giving.row(done) for done in giving.job.view.of_kind(AgreedAct)]
    return Section(SAID_TITLE, (*asked, *points([*agreed, *_released_by(giving.job)])))


def _released_by(job: Job) -> Iterator[str]:
    """Who has released holds so far: one to ask, as far as the record knows any."""
    names = Counter(hold.release.entry.by for hold in map(job.hold, job.steps) if hold and hold.release)
    if names:
        yield f"Holds so far released by {joined([f'{name} ({many})' for name, many in names.most_common()])}, as typed"


def new_section(giving: Handing) -> Section:
    """What was recorded since, by nobody who had handed over; or that this is the first."""
    last = giving.last
    if last is None:
        return Section(NEW_TITLE, (Paragraph(FIRST),))
    found = _since(giving, last)
    rows = [_entry(giving, one) for one in found] if len(found) <= EACH else list(_by_step(giving, found))
    when = Paragraph(f"Last {giving.row(last)}.")
    return Section(NEW_TITLE, (when, *(points(rows) or [Paragraph(NOTHING_NEW)])))


def _since(giving: Handing, last: Done) -> list[Entry]:
    """The entries that the last handover hadn't seen and that count, with something to tell."""
    view = giving.job.view
    seen = view.ancestors[last.entry.hash] | 1 << view.bit(last.entry)
    return [one for one in view.counting_entries() if not seen >> view.bit(one) & 1 and _told(giving, one)]


def _told(giving: Handing, entry: Entry) -> list[Act]:
    """The acts of an entry that may be told: no private note, and not this handing over."""
    return [
        act
        for index, act in enumerate(entry.did)
        if not (isinstance(act, NoteAct) and act.private) and not giving.is_this(Done(act, entry, index))
    ]


def _entry(giving: Handing, entry: Entry) -> str:
    said = named_acts_words(giving.job, entry.step, _told(giving, entry))
    return f"{_where(giving.job, entry)}: {said} ({entry.by}, {giving.times.said(entry.at)})"


def _where(job: Job, entry: Entry) -> str:
    return step_name(job.steps[entry.step]) if entry.step in job.steps else entry.step or "Of the job"


def _by_step(giving: Handing, entries: Sequence[Entry]) -> Iterator[str]:
    """ "Mark the new place (left), finished: 4 entries by Wim and Ada, the last 2 Apr 09:41"."""
    groups: dict[str, list[Entry]] = {}
    for entry in entries:
        groups.setdefault(entry.step or "", []).append(entry)
    for step, mine in groups.items():
        state = f", {giving.job.state(step)}" if step in giving.job.steps else ""
        people = joined(list(dict.fromkeys(entry.by for entry in mine)))
        many = counted(len(mine), "entry", "entries")
        last = giving.times.said(mine[-1].at)
        yield f"{_where(giving.job, mine[-1])}{state}: {many} by {people}, the last {last}"
