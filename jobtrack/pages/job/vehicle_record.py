"""What will stand on a vehicle's record, before it is written: counted by heading, and what private is on it or not."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import raised
from jobtrack.sheets.vehicle_record.list import IN_WORDS, ToStand

MAY_STAND = (("private-notes", "private notes"), ("prices", "prices"), ("hours", "hours"))
"""What stays off unless it is marked, by the name under which the record has it, and in words."""


def record_lines(
    name: str, found: ToStand, including: Collection[str], keys: Sequence[str], width: int
) -> list[Line]:
    """The list; `keys`: what turns each of the private things on or off, in their order."""
    counts = [row for title, number in found.headings for row in wrap(f"  {title}: {number}", width, "", 4)]
    return [
        *wrap(f"What will stand on the record of {name}", width, "strong"),
        line(),
        *counts,
        line(),
        *wrap("Private, off unless you mark it", width, "strong"),
        *(row for (one, words), key in zip(MAY_STAND, keys, strict=True)
          for row in _private(f"  {key}: {words}", one, found, one in including, width)),
        line(),
        *wrap(IN_WORDS, width),
        *(row for one in found.typed for row in wrap(f"  {one}", width, "", 4)),
    ]  # fmt: skip


def _private(words: str, name: str, found: ToStand, included: bool, width: int) -> list[Line]:
    """One of them: whether it will stand there, and what is recorded of it."""
    rows = wrap(
        f"{words} - {'will stand on it' if included else 'left off'}", width, "strong" if included else "", 5
    )
    recorded = [one.what for one in found.private if one.name == name] or ["nothing of it is recorded"]
    return rows + [row for what in recorded for row in wrap(f"     {raised(what)}", width, "", 5)]
