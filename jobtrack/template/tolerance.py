"""How much of a tolerance is left when the doubt of what is measured is taken off at both ends."""

from __future__ import annotations

from fractions import Fraction

LEFT_AT_LEAST = Fraction(1, 2)
"""The share that should be left; common practice, no source."""


def share_left(width: Fraction, doubt: Fraction) -> Fraction:
    """The share of a tolerance of this whole width that an expanded doubt (a half-width) leaves; may be below 0."""
    return 1 - 2 * doubt / width
