"""What a job is about: its title, and the plan of the template that it was begun from."""

from __future__ import annotations

from msgspec import Struct

from jobtrack.template.plan import Plan


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
