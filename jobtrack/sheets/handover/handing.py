"""One handing over: of which job, by whom, to whom, what the giver says, in which units, when."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime

from msgspec import Struct

from jobtrack.job.acts.people import SAID, HandoverAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import RELEASED, HoldState, Job, person
from jobtrack.sheets.paper.blocks import Block, Lines, Look, Paragraph, Point, Points, Text
from jobtrack.sheets.words.doing import recorded
from jobtrack.sheets.words.values.in_units import measured_in
from jobtrack.sheets.words.zones import Times
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import Chosen

GIVER_SAYS = (
    ("holds_up", "What holds the vehicle up, and when was it shaken?"),
    ("decides", "Who decides what, and until when can they be reached?"),
    ("promised", "What was promised, and to whom?"),
    ("tried", "What was tried and didn't work?"),
    ("says", "What else do you want to say?"),
)
"""What the giver is asked, on paper and in the app, by the key under which the handover has it."""

ROWS = {"says": 2}
"""Lines to write on by hand, where one isn't enough."""


class Handing(Struct, frozen=True):
    """What every section of the sheet is made from."""

    job: Job
    by: str
    to: str
    said: Mapping[str, str]
    """In the giver's own words, by the keys of SAID; what wasn't said is left out."""
    shown: Chosen
    at: datetime
    times: Times

    @property
    def to_oneself(self) -> bool:
        """Whether the giver carries on, in the morning."""
        return person(self.by) == person(self.to)

    @property
    def last(self) -> Done | None:
        """The last handover before this one."""
        others = [done for done in self.job.view.of_kind(HandoverAct) if not self.is_this(done)]
        return others[-1] if others else None

    def is_this(self, done: Done) -> bool:
        """Whether an act is this very handing over."""
        act, entry = done.act, done.entry
        if not isinstance(act, HandoverAct) or entry.at != self.at:
            return False
        return person(entry.by) == person(self.by) and person(act.to) == person(self.to)

    def who(self, done: Done) -> str:
        """Who recorded something and when: "Wim, 2 Apr 09:41"."""
        return f"{done.entry.by}, {self.times.said(done.entry.at)}"

    def release(self, hold: HoldState | None) -> list[str]:
        """Who released a hold and when, and whether that was before a change."""
        if hold is None or hold.release is None:
            return []
        before = "" if hold.state == RELEASED else "Released before a change. "
        entry = hold.release.entry
        return [f"{before}Released by {entry.by} (as typed), {self.times.said(entry.at)}"]

    def measured(self, planned: PlannedStep, name: str) -> str:
        """What was measured, in the system shown; as it was typed beside it where that was in another unit."""
        room = None if self.shown.turns(planned.step.reading[name].unit) else 0
        return measured_in(self.job, planned, name, self.shown, room)

    def row(self, done: Done) -> str:
        """An act in words, with who recorded it and when."""
        return f"{recorded.words(self.job, done)} ({self.who(done)})"


def handing(
    job: Job, by: str, to: str, said: Mapping[str, str] | None, shown: Chosen, at: datetime
) -> Handing:
    """A handing over, without what the giver left empty."""
    texts = {name: text for name in SAID if (text := (said or {}).get(name, "").strip())}
    return Handing(job, by, to, texts, shown, at, Times(job))


def said_or_lines(giving: Handing, key: str) -> Block:
    """What is asked and the giver's words; where there are none, lines to write on."""
    ask = dict(GIVER_SAYS)[key]
    if text := giving.said.get(key):
        return Paragraph(f"{ask} {giving.by} says: {text}")
    return Lines(ask, ROWS.get(key, 1))


def reading_name(planned: PlannedStep, name: str) -> str:
    """What a reading is called; where the template doesn't say it, its id as words."""
    return planned.step.reading[name].say or name.replace("-", " ")


def points(texts: Iterable[Text], look: Look = "") -> list[Block]:
    """A list of these; without any, nothing."""
    found = tuple(Point(text) for text in texts)
    return [Points(found, look)] if found else []
