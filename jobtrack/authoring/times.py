"""The times that a job took, put into its template."""

from __future__ import annotations

from jobtrack.authoring.change import TIME, Making
from jobtrack.hours.labour import labour
from jobtrack.job.state.job import FINISHED, Job
from jobtrack.job.time.typed_hours import NO_STEP

TO = 5
"""Minutes to which a time is rounded. Common practice, no source: nobody estimates finer."""
NEAR = 0.1
"""The share of the likely time within which a job's own says nothing new. Common practice, no source."""
FAR = 2
"""So many times as long as the long time, or shorter than the short one, is asked about. Common practice, no source."""
RULE = (
    f"Times: where a finished step took more than {NEAR:.0%} longer or shorter than its likely time, that is moved to "
    f"what it took: labour of all who worked on it, rounded to {TO} minutes, the mean where it was done more than "
    f"once. Short and long stay, or give way by {TO} minutes where they would no longer lie on either side. It is one "
    "job: look whether the next would go as it did."
)


def take_times(job: Job, making: Making) -> None:
    """Of each finished step on which hours are recorded, the likely time; short, likely and long stay in order."""
    worked = {one.key: one.hours for one in labour([job], "step").groups}
    took: dict[str, list[float]] = {}
    for id in job.steps:
        if job.state(id) == FINISHED and worked.get(id, 0) > 0 and id in making.steps:
            took.setdefault(making.steps[id], []).append(60 * worked[id])
    for base, minutes in took.items():
        _take(base, sum(minutes) / len(minutes), making)
    if worked.get(NO_STEP, 0) > 0:
        making.left_out.append(f"{worked[NO_STEP]:.2f} h that belong to no step")


def _take(base: str, minutes: float, making: Making) -> None:
    step = making.data["step"][base]
    before = list(step.get("minutes", ()))
    if len(before) == 3 and abs(minutes - before[1]) <= NEAR * before[1]:
        return
    step["minutes"] = in_order(before, max(TO, TO * round(minutes / TO)))
    was = f"before {_triple(before)}" if before else "no time before"
    now = _triple(step["minutes"])
    making.did(TIME, f"“{step['title']}” took {minutes:.0f} min: now {now}, {was}.{_far(before, minutes)}")


def _far(before: list[float], minutes: float) -> str:
    if len(before) == 3 and not before[0] / FAR <= minutes <= before[2] * FAR:
        return " That is far off: did the clock run over something else?"
    return ""


def in_order(before: list[float], likely: int) -> list[float]:
    """Short, likely, long: what lay on its side of the likely one stays, else it gives way. All in minutes."""
    short, long = (before[0], before[2]) if len(before) == 3 else (likely, likely)
    return [short if short < likely else max(1, likely - TO), likely, long if long > likely else likely + TO]


def _triple(minutes: list[float]) -> str:
    return ", ".join(f"{one:g}" for one in minutes)
