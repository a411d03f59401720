"""Refusals that several workings-out share, each one line that names the key and what is accepted."""

from __future__ import annotations

from jobtrack.shopmath.quantity import Number, WorkingOutError


def plain(value: Number) -> str:
    """A number as people write it, for messages."""
    return f"{float(value):.10g}"


def magnitude(value: Number) -> Number:
    """The number without its sign."""
    return max(value, -value)


def above_zero(**values: Number) -> None:
    """Refuse the first value that isn't above 0."""
    for key, value in values.items():
        if value <= 0:
            raise WorkingOutError(f"{key}: {plain(value)} is not above 0; give a number above 0")


def not_below_zero(**values: Number) -> None:
    """Refuse the first value below 0."""
    for key, value in values.items():
        if value < 0:
            raise WorkingOutError(f"{key}: {plain(value)} is below 0; give 0 or more")


def slopes(**values: Number) -> None:
    """Refuse a slope in degrees that reaches upright."""
    for key, value in values.items():
        if not -90 < value < 90:
            raise WorkingOutError(
                f"{key}: a slope of {plain(value)} deg is upright or beyond; "
                "give one between -90 and 90 deg, folded back if the scale is read from upright"
            )


def between(key: str, value: Number, low: Number, high: Number) -> None:
    """Refuse a value outside low to high, both included."""
    if not low <= value <= high:
        raise WorkingOutError(f"{key}: {plain(value)} lies outside {plain(low)} to {plain(high)}")
