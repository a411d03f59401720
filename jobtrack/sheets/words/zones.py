"""Times on a sheet with their zone: said once in its head, and beside each time that was recorded in another."""

from __future__ import annotations

from collections import Counter
from datetime import datetime, timedelta

from jobtrack.job.state.job import Job


class Times:
    """The times of a job, as they were on the wall where each was recorded."""

    def __init__(self, job: Job) -> None:
        offsets = [entry.at.utcoffset() for entry in job.view.entries]
        times = Counter(reversed(offsets))
        self._usual = max(times, key=times.__getitem__) if times else None
        self._others = len(set(offsets)) > 1

    @property
    def head(self) -> str:
        """In which zone the times on the sheet are: that of most entries; of two with as many, the later one's."""
        if self._usual is None:
            return "Times are local."
        other = " where nothing else is said" if self._others else ""
        return f"Times are local, {zone_words(self._usual)}{other}."

    def said(self, at: datetime, *, year: bool = False) -> str:
        """ "15 May 15:40", with its year if that is wanted, and its zone where that isn't the sheet's."""
        day = f"{at.day} {at:%b %Y %H:%M}" if year else f"{at.day} {at:%b %H:%M}"
        offset = at.utcoffset()
        return day if offset is None or offset == self._usual else f"{day} {zone_words(offset)}"


def zone_words(offset: timedelta) -> str:
    """ "UTC+02:00", "UTC-03:30", "UTC"."""
    minutes = round(offset.total_seconds() / 60)
    return (
        f"UTC{'+' if minutes > 0 else '-'}{abs(minutes) // 60:02}:{abs(minutes) % 60:02}"
        if minutes
        else "UTC"
    )
