"""Fasteners: tightening torque. Torque in N*m, force in N; inch grades of SAE J429, metric ISO 898-1."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, may_take, takes, working_out
from jobtrack.shopmath.checks import between, plain
from jobtrack.shopmath.quantity import said
from jobtrack.shopmath.tables import ISO_898_1, SAE_J429
from jobtrack.shopmath.threads import INCH, Thread, read_thread

POUND_FORCE = Fraction("4.4482216152605")
"""N in a pound-force, exact."""

PSI = POUND_FORCE / INCH**2
"""MPa in a pound-force per square inch, exact."""

NUT_FACTOR = Fraction(1, 5)
"""Plain, dry: four suppliers' charts agree on 0.20; other surfaces lie between 0.12 and 0.30."""

SHARE = Fraction(3, 4)
"""Of the proof stress, for joints that are taken apart again."""

REFUSED = {
    "u-bolt": "this formula gives 85 lbf ft for 1/2-20 grade 5 where a spring shop's table ends at 70 plain "
    "and 52 plated; ask the supplier of that U-bolt, naming its finish",
    "wheel nut": "it belongs to the wheel and its seat; ask the vehicle's or the wheel's maker",
    "locked bolt": "locking compound acts as a lubricant; ask the maker",
    "torque-angle bolt": "it is turned by an angle beyond its proof stress; ask the maker",
}
"""What is never worked out, and why."""


class TighteningTorque(NamedTuple):
    """The general torque and the clamp force that it stands for, with what the figure doesn't cover."""

    torque: Number
    """N*m."""
    clamp_force: Number
    """N, in the bolt."""
    remarks: tuple[str, ...] = ()


@working_out(
    "tightening-torque",
    topic="fasteners",
    inputs=[
        takes("thread", "text"),
        takes("grade", "text"),
        may_take("for", "bolt|u-bolt|wheel nut|locked bolt|torque-angle bolt", "bolt"),
        may_take("nut_factor", "ratio", NUT_FACTOR),
        may_take("share", "ratio", SHARE),
    ],
    results=gives(torque="N*m", clamp_force="N"),
    formula="torque = nut factor times nominal diameter times clamp force; "
    "clamp force = share times proof stress times tensile stress area",
    source="T = K D F (Shigley eq. 8-27, as quoted in a copy; the same in four suppliers' charts); "
    "proof stress from SAE J429 or ISO 898-1 as quoted in copies; "
    "stress area by the formulas of ASME B1.1 and ISO 898-1",
    sentence="{thread} grade {grade}, nut factor {nut_factor}, {share} of proof: {torque}, "
    "clamp force {clamp_force}; the maker's figure for this bolt wins over this general one.",
    example={"thread": "M10x1.5", "grade": "8.8"},
    hazards=(
        "WARNING: Stretched bolt. Oil, plating or locking compound raises the clamp force at the same torque "
        "and can break the bolt. Use the maker's figure, and record the state of the threads.",
    ),
    remarks=(
        "Nut factor 0.20 is for plain, dry threads; charts give 0.15 to 0.18 oiled and 0.17 to 0.30 plated.",
        "By torque alone the clamp force scatters by about a quarter either way (from memory: Bickford).",
        "Holds where the nut or tapped hole is at least as strong as the bolt; "
        "a nut that turns stiffly adds its own running torque.",
    ),
)
def tightening_torque(
    thread: str, grade: str, for_: str = "bolt", nut_factor: Number = NUT_FACTOR, share: Number = SHARE
) -> TighteningTorque:
    """T = K D F with F = share x proof stress x stress area, for an ordinary steel bolt or screw.

    K is the nut factor (not a coefficient of friction), D the nominal diameter. Source: Shigley eq. 8-27 and
    suppliers' charts; 152 cells of one inch chart reproduce, and the clamp force has an independent route
    through printed stress areas. Valid for the listed threads M3 to M24 and 1/4 to 1 in.
    Refuses anything but an ordinary bolt, unlisted threads and grades, a grade of the other system, a nut
    factor outside 0.05 to 0.5 and a share not above 0 or over 0.90; a share over 0.80 gets a remark.
    """
    if for_ in REFUSED:
        raise WorkingOutError(f"for: the torque of a {for_} is not worked out: {REFUSED[for_]}")
    between("nut_factor", nut_factor, Fraction(1, 20), Fraction(1, 2))
    between("share", share, Fraction(1, 100), Fraction(9, 10))
    bolt = read_thread(thread)
    clamp_force = share * proof_stress(bolt, grade) * bolt.stress_area
    torque = nut_factor * bolt.diameter / 1000 * clamp_force
    return TighteningTorque(torque, clamp_force, _remarks(grade, share))


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


def _remarks(grade: str, share: Number) -> tuple[str, ...]:
    remarks = []
    if share > Fraction(4, 5):
        remarks.append(
            f"Share {plain(share)}: 0.75 is usual for joints taken apart again, 0.90 for permanent ones "
            "(from memory: Shigley eq. 8-31)."
        )
    if grade_name(grade) == "2":
        remarks.append("Grade 2: this proof stress is for bolts of 6 in and shorter.")
    return tuple(remarks)
