"""From where to where the scale of a reading goes."""

from __future__ import annotations


def ends_of(low: float | None, high: float | None, value: float | None) -> tuple[float, float] | None:
    """What the two ends of the rule stand for: the limits with half as much again on either side."""
    if low is not None and high is not None:
        span = (high - low) or abs(high) / 10 or 1.0
        return low - span / 2, high + span / 2
    limit = low if low is not None else high
    if limit is None:
        return None
    span = abs(limit) or 1.0
    if value is not None:
        span = max(span / 4, min(span, 2 * abs(value - limit)), abs(value - limit) * 1.25)
    return limit - span, limit + span
