"""What will stand on a vehicle's record, before it is written: what private is on it or not, and counts by heading."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import raised
from jobtrack.sheets.vehicle_record.list import IN_WORDS, ToStand
from jobtrack.sheets.vehicle_record.private import MAY_BE_INCLUDED


def record_lines(
    name: str, found: ToStand, including: Collection[str], keys: Sequence[str], width: int
) -> list[Line]:
    """What is private first, so that it is in sight before anything is written; then the list.

    `keys`: what turns each of the private things on or off, in their order.
    """
    counts = [row for title, number in found.headings for row in wrap(f"  {title}: {number}", width, "", 4)]
    return [
        *wrap(f"What will stand on the record of {name}", width, "strong"),
        line(),
        *wrap("Private, off unless you mark it", width, "strong"),
        *(row for one, key in zip(MAY_BE_INCLUDED, keys, strict=True)
          for row in _private(f"  {key}: {one.replace('-', ' ')}", one, found, one in including, width)),
        line(),
        *wrap("What stands on it", width, "strong"),
        *counts,
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
