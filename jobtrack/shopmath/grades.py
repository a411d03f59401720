"""Proof stress of bolts by grade and size: SAE J429 for inch threads, ISO 898-1 for metric ones."""

from __future__ import annotations

import re
from fractions import Fraction

from jobtrack.shopmath.quantity import Number, WorkingOutError, said
from jobtrack.shopmath.tables import ISO_898_1, SAE_J429
from jobtrack.shopmath.threads import INCH, Thread

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


def grade_name(grade: str) -> str:
    """The grade without the words people put before it."""
    return re.sub(r"^(sae|iso|grade|class|gr\.?|\s)+", "", grade.strip().lower())


def short_bolts_only(grade: str) -> tuple[str, ...]:
    """The remark that grade 2's upper row asks for; none for the other grades."""
    if grade_name(grade) != "2":
        return ()
    return ("Grade 2: this proof stress is for bolts of 6 in and shorter.",)
