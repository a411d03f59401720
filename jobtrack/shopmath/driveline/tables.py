"""Limits of universal joints: each set of one publisher, named and dated, with where each row was read.

The sets disagree, and other publishers disagree with both. Ends of one shaft equal within 1.5 deg: an axle
maker's manual (MM-96147, 2021, p. 87, with a compound angle of at most 5 deg) and a handbook site (working
angle at most 6 deg). Within 3 deg: an army truck manual (TM 5-4210-230-14&P-1, p. 960). Within 0.5 deg: the
joint maker, for motor homes and shafts ahead of transfer cases. Smallest angle 1 deg: a pump manual
(DA435HA, p. 9). An older printing shows the same rows in minutes: 3 15', 3 40', 4 15', 5 0', 5 50', 7 0',
8 40', 11 30' (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from jobtrack.shopmath.quantity import WorkingOutError, nearest, said


@dataclass(frozen=True, slots=True)
class JointRow:
    """The largest angle up to one speed."""

    speed: int
    """rpm."""
    angle: Fraction
    """deg."""
    read: str
    """found or from memory."""


@dataclass(frozen=True, slots=True)
class JointLimits:
    """One publisher's limits of a joint angle."""

    name: str
    title: str
    """Whose it is, and when."""
    rows: tuple[JointRow, ...]
    """From the slowest to the fastest; one row without a speed of its own where `flat`."""
    flat: bool
    """The same angle at any speed."""
    smallest: Fraction
    """deg, so that the needles roll."""
    apart: Fraction
    """deg that the two ends of one shaft may differ."""


J3311_1 = JointLimits(
    name="J3311-1",
    title="joint maker's driveline installation manual J3311-1 (2005/2008), read in copies",
    rows=(
        JointRow(1500, Fraction("11.5"), "from memory"),
        JointRow(2000, Fraction("8.7"), "from memory"),
        JointRow(2500, Fraction("7.0"), "from memory"),
        JointRow(3000, Fraction("5.8"), "from memory"),
        JointRow(3500, Fraction("5.0"), "found"),
        JointRow(4000, Fraction("4.2"), "found"),
        JointRow(4500, Fraction("3.7"), "found"),
        JointRow(5000, Fraction("3.2"), "found"),
    ),
    flat=False,
    smallest=Fraction("0.5"),
    apart=Fraction(1),
)
"""Rows from 3500 rpm up as restated on the maker's own page."""

THREE_DEGREE = JointLimits(
    name="3-degree",
    title="the 3 degree upper limit of driveline trade pages and a pump manual (undated), read in copies",
    rows=(JointRow(0, Fraction(3), "found"),),
    flat=True,
    smallest=Fraction("0.5"),
    apart=Fraction(1),
)
"""drivetrain.com and DA435HA p. 9; the joint maker's page has the same 3 deg. Its smallest and equal angles
are those of drivetrain.com."""

JOINT_SETS: dict[str, JointLimits] = {each.name: each for each in (J3311_1, THREE_DEGREE)}


def joint_limits(name: str) -> JointLimits:
    """The set of this name, capitals and blanks apart."""
    by_spelling = {key.casefold(): limits for key, limits in JOINT_SETS.items()}
    written = name.strip().casefold()
    if written not in by_spelling:
        hint = nearest(name, list(JOINT_SETS))
        raise WorkingOutError(
            f"set: {said(name)} is no set of joint limits{hint}; accepted: {', '.join(JOINT_SETS)}"
        )
    return by_spelling[written]
