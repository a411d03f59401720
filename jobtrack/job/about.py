"""What a job is about: its title, and the plan of the template that it was begun from."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from jobtrack.template.plan import Plan

SHOWN = 10
"""So many of the keys that this program doesn't know are named one by one."""
INCOMPLETE = "this list may be incomplete"


class About(Struct, frozen=True):
    """What a job file's header says: the job and the template that it was begun from."""

    id: str
    title: str
    plan: Plan
    hash: str
    """The header's, which the first entry follows."""
    newer: int | None = None
    """The file's format, where it is newer than this program."""
    passed_over: tuple[str, ...] = ()
    """The keys of a newer header that this program doesn't know, with dots."""

    @property
    def remarks(self) -> Iterator[str]:
        """What a newer header holds that can't be understood here, in words."""
        if self.newer is None:
            return
        yield f"the file has format {self.newer}, newer than this program; {INCOMPLETE}"
        for name in self.passed_over[:SHOWN]:
            yield f"the header says something under {name} that this program doesn't know; {INCOMPLETE}"
        if len(self.passed_over) > SHOWN:
            yield f"and under {len(self.passed_over) - SHOWN} more keys; {INCOMPLETE}"
