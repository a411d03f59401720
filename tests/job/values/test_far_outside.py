"""Far outside is a word for the eye: more than ten times the tolerance (common practice, no source)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from jobtrack.job.values.limits import Limits, far_outside


def limits(low: str | None, high: str | None) -> Limits:
    return Limits(
        low=None if low is None else Fraction(low), high=None if high is None else Fraction(high), wanted=True
    )


@pytest.mark.parametrize(
    ("low", "high", "value", "far"),
    [
        ("22.5", "24.5", "34.5", False),
        ("22.5", "24.5", "34.6", True),
        ("22.5", "24.5", "12.5", False),
        ("22.5", "24.5", "12.4", True),
        ("22.5", "24.5", "23", False),
        (None, "0.5", "5", False),
        (None, "0.5", "5.1", True),
        (None, "0.5", "0.1", False),
        ("54", None, "5.4", False),
        ("54", None, "5.3", True),
        ("54", None, "5400", False),
        ("5", "5", "51", True),
        ("5", "5", "7", False),
        (None, "0", "1", False),
        (None, None, "9999", False),
    ],
)
def test_far_outside(low: str | None, high: str | None, value: str, far: bool) -> None:
    """Ten half-widths beyond a limit; beside one limit alone, tenfold past it; a limit of nought says nothing."""
    assert far_outside(Fraction(value), limits(low, high)) is far


def test_without_a_value_nothing_is_far() -> None:
    """Words and bounds have none."""
    assert not far_outside(None, limits("1", "2"))
