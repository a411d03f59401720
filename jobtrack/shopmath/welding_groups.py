"""Welding: groups of fillets taken as lines, and the weld of a spring perch. Lengths in mm, force in N."""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import (
    Number,
    WorkingOutError,
    at_least,
    at_most,
    gives,
    may_take,
    takes,
    working_out,
)
from jobtrack.shopmath.checks import above_zero, not_below_zero, plain
from jobtrack.shopmath.electrodes import rule_stress
from jobtrack.shopmath.tables_welding import CYCLIC
from jobtrack.shopmath.welding import STATIC_ONLY, THROAT, at_least_four_legs

Shape = Literal["two lines", "rectangle", "circle"]


class WeldGroup(NamedTuple):
    """A weld taken as a line: its length, section modulus and polar value, each for a throat of 1 mm."""

    length: Number
    """mm."""
    bending: Number
    """mm^2, about the axis across the depth through the middle."""
    twisting: Number
    """mm^3, polar, about the middle."""


@working_out(
    "weld-group",
    topic="welding",
    inputs=[
        takes("shape", "two lines|rectangle|circle"),
        takes("width", "mm"),
        may_take("depth", "mm"),
    ],
    results=gives(length="mm", bending="mm^2", twisting="mm^3"),
    formula="two lines of depth d, width b apart: 2 d, d²/3, d (3 b² + d²)/6; "
    "rectangle: 2 (b + d), b d + d²/3, (b + d)³/6; circle of radius r: 2 pi r, pi r², 2 pi r³",
    source="welds taken as lines: Shigley tables 9-1 and 9-2, a bridge-design book and a data handbook, as "
    "quoted in copies; all three agree",
    sentence="{shape}, width {width}, depth {depth}: length {length}, bending {bending}, twisting "
    "{twisting}, for a throat of 1 mm.",
    example={"shape": "two lines", "width": "70", "depth": "120"},
    remarks=("Stress from bending is the moment divided by (bending times throat).",),
)
def weld_group(shape: Shape, width: Number, depth: Number | None = None) -> WeldGroup:
    """Length (mm), section modulus (mm^2) and polar value (mm^3) of a weld of unit throat.

    Two lines of depth d, width b apart; a rectangle b x d all round; a circle whose width is its diameter.
    Bending about the middle axis across the depth. Source: Shigley tables 9-1 and 9-2 and two books as
    quoted; summing short pieces of the line is the independent route. Two lines and rectangle are exact for
    Fractions. Refuses lengths not above 0, a missing depth and a depth given for a circle.
    """
    above_zero(width=width)
    if shape == "circle":
        if depth is not None:
            raise WorkingOutError("depth: a circle has none; give its diameter as width and leave depth out")
        radius = width / 2
        return WeldGroup(2 * math.pi * radius, math.pi * radius**2, 2 * math.pi * radius**3)
    if depth is None:
        raise WorkingOutError(f"depth: missing; {shape} needs it in mm")
    above_zero(depth=depth)
    if shape == "rectangle":
        return WeldGroup(2 * (width + depth), width * depth + depth**2 / 3, (width + depth) ** 3 / 6)
    return WeldGroup(2 * depth, depth**2 / 3, depth * (3 * width**2 + depth**2) / 6)


class PerchWeld(NamedTuple):
    """Line load and stress of a perch's weld beside the rule's stress, and what they don't cover."""

    line_load: Number
    """N/mm, at the far corner."""
    stress: Number
    """MPa, on the throat."""
    rule_stress: Number
    """MPa."""
    remarks: tuple[str, ...] = ()


@working_out(
    "perch-weld",
    topic="welding",
    inputs=[
        takes("line", "mm"),
        takes("spacing", "mm"),
        takes("leg", "mm", nominal=True),
        takes("electrode", "text"),
        takes("force", "N"),
        takes("height", "mm"),
        may_take("twist", "N*m", 0),
        may_take("all_round", "yes/no", False),
    ],
    results=gives(
        line_load=at_least("N/mm"),
        stress=at_least("MPa", against=("rule_stress",)),
        rule_stress=at_most("MPa"),
    ),
    formula="two lines along the tube, spacing apart fore and aft: force over the length, force times "
    "height over the bending value, twist times the distance over the polar value, added as vectors at the "
    "far corner; stress = line load divided by 0.7071 times leg",
    source="welds taken as lines (Shigley, as quoted in copies; statics for the sum); "
    "0.30 of the electrode's strength: Shigley table 9-6, AISC ASD, as quoted in copies",
    sentence="Line load {line_load}, {stress} on the throat; AISC's rule of 0.30 of the electrode's strength "
    "gives {rule_stress} under a load that doesn't change.",
    example={
        "line": "120", "spacing": "70", "leg": "6", "electrode": "E7018", "force": "8 kN", "height": "90",
    },
    hazards=(
        "WARNING: Cracked perch weld. It cracks from the toe by fatigue, at far less than a static figure, "
        "and the axle moves under the vehicle. Weld to a procedure, have the weld looked at, and look "
        "again after the first 800 km.",
    ),
    remarks=(
        *STATIC_ONLY,
        "Brake torque goes in as force and height, beside what the spring and the road put on the perch.",
    ),
)  # fmt: skip
def perch_weld(
    line: Number,
    spacing: Number,
    leg: Number,
    electrode: str,
    force: Number,
    height: Number,
    twist: Number = 0,
    all_round: bool = False,
) -> PerchWeld:
    """Line load at the far corner (N/mm) and throat stress (MPa) of a perch's weld, beside the rule's stress.

    Lines of length l along the tube, b apart; force F fore and aft at height z above the weld's plane,
    twist T in that plane. Across the tube F/L + T (l/2)/J, along it T (b/2)/J, out of the plane F z/S: L,
    S, J of weld-group with the axis along the tube (two lines: 2 l, l b, l (3 b^2 + l^2)/6). Source:
    Shigley as quoted; two textbook cases (one from memory), and summing short pieces of the weld as the
    independent route. The corner where all add counts. Refuses lengths not above 0, force, height or twist
    below 0, lines below four legs, unknown electrodes.
    """
    above_zero(line=line, spacing=spacing, leg=leg)
    not_below_zero(force=force, height=height, twist=twist)
    at_least_four_legs("line", line, leg)
    length, bending, polar = _perch_group(line, spacing, all_round)
    turn = twist * 1000 / polar
    across = force / length + turn * line / 2
    line_load = math.hypot(across, turn * spacing / 2, force * height / bending)
    return PerchWeld(line_load, line_load / (THROAT * leg), rule_stress(electrode), _thin(leg))


def _perch_group(line: Number, spacing: Number, all_round: bool) -> tuple[Number, Number, Number]:
    """Length, bending value about the axis along the tube, and polar value."""
    if all_round:
        return weld_group("rectangle", line, spacing)
    lines = weld_group("two lines", spacing, line)
    return lines.length, line * spacing, lines.twisting


def _thin(leg: Number) -> tuple[str, ...]:
    if leg >= CYCLIC.floor:
        return ()
    return (f"Leg {plain(leg)} mm; the least by fillet-minimum, set cyclic, is {CYCLIC.floor} mm or more.",)
