"""What a job changes in its template: each change in words, and what is left out with the reason."""

from __future__ import annotations

from typing import Any

from msgspec import Struct, field

STEP, TIME, PART, CHECK = "step", "time", "part", "check"
KINDS = {
    STEP: ("step", "added"), TIME: ("time", "changed"), PART: ("part", "added"),
    CHECK: ("check", "added for what was met"),
}  # fmt: skip
"""What is counted, and what is said of so many of it."""


class Change(Struct, frozen=True):
    """One change, in a sentence."""

    kind: str
    words: str


class Making(Struct):
    """A new version while it is made: the template's data as far as it is, and what was done to it."""

    data: dict[str, Any]
    changes: list[Change] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    steps: dict[str, str] = field(default_factory=dict)
    """By the step of the job, its step in the data; one that was added may be called otherwise there."""

    def did(self, kind: str, words: str) -> None:
        """Note a change."""
        self.changes.append(Change(kind, words))

    def step(self, id: str | None) -> dict[str, Any] | None:
        """The table of a step of the job; None where it belongs to none."""
        found = self.data.get("step", {}).get(self.steps.get(id or "", ""))
        return found if isinstance(found, dict) else None


def summary(changes: list[Change]) -> str:
    """How many changes of each kind: "3 steps added, 5 times changed"."""
    found = []
    for kind, (noun, done) in KINDS.items():
        count = sum(one.kind == kind for one in changes)
        if count:
            found.append(f"{count} {noun}{'s' if count > 1 else ''} {done}")
    return ", ".join(found)
