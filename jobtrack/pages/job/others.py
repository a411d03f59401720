"""What others have recorded meanwhile, and the question about a silence."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.job.time.absence import Gap
from jobtrack.pages.wording import clock_time
from jobtrack.sheets.words.doing.acts import named_entry_words


def others_words(before: Job, after: Job) -> str:
    """What has come in from elsewhere, the last of it in words."""
    known = {entry.hash for entry in before.view.entries}
    new = [entry for entry in after.view.entries if entry.hash not in known]
    if not new:
        return "The file was read anew."
    more = f", and {len(new) - 1} more" if len(new) > 1 else ""
    return f"Taken in from {new[-1].by}: {named_entry_words(after, new[-1])}{more}."


def not_away(yes: str, no: str) -> str:
    """What the keys do that answer it."""
    return f"{yes}: yes, it counts. {no}: no, a break from then on. Any other key asks no more."


def away_question(found: Gap) -> list[str]:
    """The question to somebody who comes back to a running clock."""
    return [
        f"Nothing was entered from {clock_time(found.since)} to {clock_time(found.until)}. "
        "Were you working on this?"
    ]
