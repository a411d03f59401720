"""Fasteners: torque and clamp force. Torque in N*m, force in N; inch grades of SAE J429, metric ISO 898-1."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, may_take, takes, working_out
from jobtrack.shopmath.checks import above_zero, between, plain
from jobtrack.shopmath.grades import beyond_any_bolt, proof_stress, short_bolts_only
from jobtrack.shopmath.tables_sets import NUT_FACTORS, named
from jobtrack.shopmath.threads import read_thread

NUT_FACTOR = Fraction(1, 5)
"""Plain, dry: four suppliers' charts agree on 0.20; other surfaces lie between 0.12 and 0.30."""

TAKEN = (Fraction(1, 20), Fraction(1, 2))
"""Lowest and highest nut factor that are taken: published ones lie between 0.10 and 0.35."""

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
        may_take("share", "ratio", SHARE, nominal=True),
    ],
    results=gives(torque="N*m", clamp_force="N"),
    formula="torque = nut factor times nominal diameter times clamp force; "
    "clamp force = share times proof stress times tensile stress area",
    source="T = K D F (Shigley eq. 8-27, as quoted in a copy; the same in four suppliers' charts); proof "
    "stress from SAE J429 or ISO 898-1 as quoted in copies; stress area by the formulas of ASME B1.1 and "
    "ISO 898-1",
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
    through printed stress areas. The sets that list the nut factor are named (`tables_sets`).
    Valid for the listed threads M3 to M24 and 1/4 to 1 in.
    Refuses anything but an ordinary bolt, unlisted threads and grades, a grade of the other system, a nut
    factor outside 0.05 to 0.5 and a share not above 0 or over 0.90; a share over 0.80 gets a remark.
    """
    if for_ in REFUSED:
        raise WorkingOutError(f"for: the torque of a {for_} is not worked out: {REFUSED[for_]}")
    between("nut_factor", nut_factor, *TAKEN)
    between("share", share, Fraction(1, 100), Fraction(9, 10))
    bolt = read_thread(thread)
    clamp_force = share * proof_stress(bolt, grade) * bolt.stress_area
    torque = nut_factor * bolt.diameter / 1000 * clamp_force
    return TighteningTorque(torque, clamp_force, (whose(nut_factor), *_remarks(grade, share)))


def whose(nut_factor: Number) -> str:
    """The sets that list a nut factor, and for which surface."""
    return named("Nut factor", nut_factor, NUT_FACTORS)


def _remarks(grade: str, share: Number) -> tuple[str, ...]:
    remarks = []
    if share > Fraction(4, 5):
        remarks.append(
            f"Share {plain(share)}: 0.75 is usual for joints taken apart again, 0.90 for permanent ones "
            "(from memory: Shigley eq. 8-31)."
        )
    return (*remarks, *short_bolts_only(grade))


class BoltClamp(NamedTuple):
    """The clamp force that a torque stands for, N, and whose nut factor gave it."""

    clamp_force: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "bolt-clamp",
    topic="fasteners",
    inputs=[takes("torque", "N*m"), takes("nut_factor", "ratio"), takes("diameter", "mm", nominal=True)],
    results=gives(clamp_force="N"),
    formula="clamp force = torque divided by (nut factor times nominal diameter)",
    source="T = K D F (Shigley eq. 8-27, as quoted in a copy; the same in four suppliers' charts)",
    sentence="{torque} with nut factor {nut_factor} on {diameter}: clamp force {clamp_force}; "
    "whose nut factor it is has to be recorded beside it.",
    example={"torque": "50", "nut_factor": "0.20", "diameter": "10"},
    hazards=(
        "WARNING: Stretched bolt. A dry torque on oiled or plated threads clamps far more "
        "and can break the bolt. Take the nut factor of the surface as it is, and record it.",
    ),
    remarks=(
        "A nut factor is no coefficient of friction: a coefficient of 0.20 is a nut factor of about 0.26.",
        "Ten lubricated bolts turned to 90 N·m clamped between 30.3 and 40.5 kN, 34.2 on average "
        "(Shigley, as quoted in a copy).",
        "Charts give nut factors of 0.17 to 0.35 for zinc plating alone: the source belongs beside it.",
    ),
)
def bolt_clamp(torque: Number, nut_factor: Number, diameter: Number) -> BoltClamp:
    """F = T / (K D): clamp force in the bolt, N, from torque T (N*m), nut factor K and diameter D (mm).

    D is the nominal diameter. Source: Shigley eq. 8-27 and suppliers' charts, whose printed forces follow
    from their printed torques; the long form with thread and bearing friction is the independent route.
    The sets that list the nut factor are named. A force above the proof of class 12.9 gets a remark. Exact for
    Fractions. Refuses a torque or diameter not above 0 and a nut factor outside 0.05 to 0.5.
    """
    above_zero(torque=torque, diameter=diameter)
    between("nut_factor", nut_factor, *TAKEN)
    clamp_force = torque * 1000 / (nut_factor * diameter)
    return BoltClamp(clamp_force, (whose(nut_factor), *beyond_any_bolt(clamp_force, diameter)))
