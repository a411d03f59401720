"""What an entry did, in a few words for the line that answers it: recorded, undone, or taken in from others."""

from __future__ import annotations

from collections.abc import Iterable

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.entry import Entry


def entry_words(entry: Entry) -> str:
    """ "pin-spacing.donor: spacing 1012; finished (09:41)"."""
    return f"{entry.step or 'job'}: {acts_words(entry.did)} ({entry.at:%H:%M})"


def acts_words(did: Iterable[Act]) -> str:
    """Several acts, each said once."""
    return "; ".join(dict.fromkeys(act.words() for act in did))
