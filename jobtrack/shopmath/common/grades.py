"""Proof stress of bolts by grade and size: SAE J429 for inch threads, ISO 898-1 for metric ones."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from jobtrack.shopmath.common.tables import ISO_898_1, METRIC_COARSE, SAE_J429
from jobtrack.shopmath.common.threads import INCH, LISTED, Thread, read_thread
from jobtrack.shopmath.quantity import Number, WorkingOutError, said

POUND_FORCE = Fraction("4.4482216152605")
"""N in a pound-force, exact."""

PSI = POUND_FORCE / INCH**2
"""MPa in a pound-force per square inch, exact."""


def proof_stress(thread: Thread, grade: str) -> Number:
    """The proof stress of a grade in this size, MPa; tables and sources in `tables`."""
    name = grade_name(grade)
    table = ISO_898_1 if thread.metric else SAE_J429
    if name not in table:
        raise WorkingOutError(
            f"grade: {said(grade.strip())} is no grade for {thread.name}; "
            f"accepted for {'metric' if thread.metric else 'inch'} threads: {', '.join(table)}"
        )
    size = thread.diameter if thread.metric else thread.diameter / INCH
    row = next(row for row in table[name] if row.above < size <= row.up_to)
    return row.proof if thread.metric else row.proof * PSI


STRONGEST = "12.9"
"""The highest property class of ISO 898-1."""


def beyond_any_bolt(clamp_force: Number, diameter: Number) -> tuple[str, ...]:
    """The remark on a clamp force, N, above what the strongest bolt of this diameter, mm, bears; else none.

    A listed metric size bears by its finest thread, any other by its full circle, which is more than it has.
    """
    areas = [one.stress_area for one in LISTED.values() if one.metric and one.diameter == diameter]
    bears = ISO_898_1[STRONGEST][0].proof * max(areas, default=math.pi / 4 * float(diameter) ** 2)
    if clamp_force <= bears:
        return ()
    return (
        f"{_kn(clamp_force)} is above the {_kn(bears)} that a bolt of this diameter bears in property class "
        f"{STRONGEST} (proof stress 970 MPa, ISO 898-1): look for a slip in torque, nut factor or diameter.",
    )


def too_small_bolts(clamp_force: Number) -> tuple[str, ...]:
    """The remark on a clamp force, N, that says which coarse metric bolts don't bear it in the strongest class."""
    coarse = [read_thread(f"M{size}") for size in METRIC_COARSE]
    proof = ISO_898_1[STRONGEST][0].proof
    small = [one for one in coarse if proof * one.stress_area < clamp_force]
    if not small:
        return ()
    return (
        f"{_kn(clamp_force)} is above what one coarse bolt up to {small[-1].name} bears, even in property class "
        f"{STRONGEST} (proof stress {proof} MPa, ISO 898-1).",
    )


def _kn(force: Number) -> str:
    return f"{float(force) / 1000:.3g} kN"


def grade_name(grade: str) -> str:
    """The grade without the words people put before it."""
    return re.sub(r"^(sae|iso|grade|class|gr\.?|\s)+", "", grade.strip().lower())


def short_bolts_only(grade: str) -> tuple[str, ...]:
    """The remark that grade 2's upper row asks for; none for the other grades."""
    if grade_name(grade) != "2":
        return ()
    return ("Grade 2: this proof stress is for bolts of 6 in and shorter.",)
