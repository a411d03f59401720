"""Words that are offered by number beside a field; any other words stand as they are typed."""

from __future__ import annotations

from collections.abc import Sequence

from jobtrack.job.state.job import Job, person

MOST = 9
"""So many are offered: each by one digit."""


def numbered_choice(text: str, offered: Sequence[str]) -> str:
    """What was typed; a number alone is what stands behind it. Spaces are tidied."""
    typed = " ".join(text.split())
    if typed.isascii() and typed.isdecimal() and 1 <= int(typed) <= len(offered):
        return offered[int(typed) - 1]
    return typed


def numbered_words(offered: Sequence[str]) -> str:
    """ "1 Wim; 2 Ada"."""
    return "; ".join(f"{number} {one}" for number, one in enumerate(offered, 1))


def who_recorded(job: Job) -> list[str]:
    """Who has recorded in this job, whoever did so last first, each as first typed."""
    first: dict[str, str] = {}
    last: dict[str, str] = {}
    for entry in job.view.entries:
        key = person(entry.by)
        last.pop(key, None)
        last[key] = first.setdefault(key, entry.by)
    return list(reversed(last.values()))[:MOST]
