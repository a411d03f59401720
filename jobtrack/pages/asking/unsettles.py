"""What an entry would change elsewhere, said before it is recorded."""

from __future__ import annotations

from jobtrack.job.remarks.effects import HoldBefore, Unsettled, effects
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.doing.effects import effect_sentences
from jobtrack.sheets.words.sentences import ended
from jobtrack.units.chosen import METRIC_FIRST, Chosen

NOTHING = "Recording it unsettles nothing."


def unsettles(before: Job, after: Job, shown: Chosen = METRIC_FIRST) -> str:
    """What an entry would change elsewhere, as "Recording it: Tack the perch (left): look again: …"; or nothing."""
    said = " ".join(map(ended, effect_sentences(before, after, shown)))
    upset = any(isinstance(one, Unsettled | HoldBefore) for one in effects(before, after))
    if upset:
        return f"Recording it: {said}"
    return f"{NOTHING} {said}".rstrip()
