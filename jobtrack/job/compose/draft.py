"""The acts of one call, in the making: each sees those before it.

An act names what it acts on, so that its outcome follows from the set of entries. The functions beside this file,
a family of acts a file, put acts into a draft or refuse them; `record` and the app call the same.
"""

from __future__ import annotations

import secrets
from datetime import datetime

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.compose.refusal import Refused, SaidAlready, nearest
from jobtrack.job.state.job import FINISHED, Job, person
from jobtrack.template.plan import PlannedStep

ALPHABET = "abcdefghijklmnopqrstuvwxyz234567"
TEXT_LIMIT = 10 * 1024
"""Bytes of the longest text of an act: a longer one would be shown cut when the file is read."""
NAME_LIMIT = 200
"""Characters of the longest name of a person."""


def new_id() -> str:
    """A random name for an entry, made before the first try and kept through retries."""
    return "".join(secrets.choice(ALPHABET) for _ in range(16))


class Draft:
    """The acts of one call of one person, in one step or in none."""

    def __init__(
        self, job: Job, by: str, at: datetime, step: str | None = None, id: str | None = None
    ) -> None:
        self.before = job
        self.job = job
        self.by = " ".join(by.split())
        if not self.by or len(self.by) > NAME_LIMIT:
            raise Refused(f"a name is wanted, at most {NAME_LIMIT} characters; say who records this")
        if step is not None and step not in job.steps:
            raise Refused(f"no step {step!r} in this job{nearest(step, job.steps)}")
        self.step = step
        self.at = at
        self.id = id or new_id()
        self.did: list[Act] = []

    @property
    def planned(self) -> PlannedStep:
        """The step of the call. Raises Refused where it names none."""
        if self.step is None:
            raise Refused("this belongs to a step; name it behind the job file, as STEP or STEP.MEMBER")
        return self.job.steps[self.step]

    def add(self, act: Act) -> None:
        """Put an act behind the others; what comes after sees it. A step's first act brings its openings."""
        if act.work:
            self.did += self._opened_at_first(act)
        self.did.append(act)
        # Anew from the state before, with the whole call as one entry: a draft may be dropped, and leaves nothing.
        self.job = self.before.as_if(self._entry())

    def _opened_at_first(self, first: Act) -> list[Act]:
        """What the step opens, where nothing in what this call follows has begun it yet."""
        if self.step is None or any(done.act.work for done in self.before.view.in_step(self.step)):
            return []
        opened = {act.opens for act in (*self.did, first) if isinstance(act, OpensAct)}
        return [OpensAct(one, self.planned.member) for one in self.planned.step.opens if one not in opened]

    def _entry(self) -> Entry:
        # In the place of a hash, which it has only once it is written; no two drafts are one entry.
        seen, draft = self.before.view, f"draft {new_id()}"
        return Entry(
            self.id, seen.next_n, self.at, self.by, tuple(self.did), seen.loose_ends, draft, self.step
        )

    def earlier(self, kind: type[Act], **keys: str) -> tuple[str, ...]:
        """Every act of a kind that can be seen and has these values."""
        return tuple(
            done.name
            for done in self.job.view.of_kind(kind)
            if all(getattr(done.act, key) == value for key, value in keys.items())
        )

    def done(self) -> tuple[Act, ...]:
        """The acts of the call.

        Raises Refused where there is none, or a text is too long; SaidAlready where they only finish a step
        that the same person has finished on the same values, with nothing recorded in it since.
        """
        if not self.did:
            raise Refused("nothing to record; give a reading, a tick, a note or another act")
        for act in self.did:
            if any(
                isinstance(text, str) and len(text.encode()) > TEXT_LIMIT for text in act.as_dict().values()
            ):
                what, rest = ("note", "another") if isinstance(act, NoteAct) else ("text", "a note")
                raise Refused(f"a {what} is at most {TEXT_LIMIT} bytes; write the rest into {rest}")
        if (earlier := self._finished_already()) is not None:
            raise SaidAlready(
                f"{self.step} is finished already, by {earlier.by} at {earlier.at:%Y-%m-%d %H:%M}; nothing was written"
            )
        return tuple(self.did)

    def _finished_already(self) -> Entry | None:
        """One's own last entry in the step, where it holds all that this call would add by finishing."""
        if self.step is None or not self._only_finishes() or self.before.state(self.step) != FINISHED:
            return None
        last = self.before.view.in_step(self.step)[-1].entry
        mine = person(last.by) == person(self.by)
        return last if mine and all(act in last.did for act in self.did) else None

    def _only_finishes(self) -> bool:
        first, *more = self.did
        return isinstance(first, FinishedAct) and all(isinstance(act, ClosesAct) for act in more)
