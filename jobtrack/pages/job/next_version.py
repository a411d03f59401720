"""The page of a template's next version: what changes in words, then line by line."""

from __future__ import annotations

from jobtrack.authoring.next_version import NextVersion
from jobtrack.pages.typeset import Line, line, wrap


def next_version_page(made: NextVersion | None, why_not: str, width: int) -> list[Line]:
    """What a job makes of its template; `why_not` where it makes nothing of it."""
    if made is None:
        return wrap(why_not, width)
    counted, *words = made.words()
    head = f"{made.data['title']}, version {made.data['version']}. {counted}"
    lines = [
        *wrap(head, width, "strong"),
        *(row for text in words for row in wrap(text, width, "", 2)),
        line(),
    ]
    return [*lines, *(row for text in made.difference() for row in wrap(text, width, "", 2))]
