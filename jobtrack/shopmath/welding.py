"""Welding: fillets. Least size and strength of a fillet; lengths in mm, force in N."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

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
from jobtrack.shopmath.checks import above_zero, plain
from jobtrack.shopmath.electrodes import rule_stress
from jobtrack.shopmath.quantity import nearest, said
from jobtrack.shopmath.tables_welding import FILLET_SETS, INCH_ROWS, FilletSizes

THROAT = math.sqrt(0.5)
"""Throat of a fillet of equal legs, as a share of the leg."""

EDGE = 6
"""mm: from this thickness on a fillet along an edge stays 2 mm below it (AISC J2.2b, as in a copy)."""

LEAST_LENGTH = 4
"""Legs: a shorter fillet counts with a leg of a quarter of its length (AISC J2.2b, as in a copy)."""

STATIC_ONLY = (
    "A static figure: a perch or bracket on an axle breaks by fatigue from the toe of the weld, at far less.",
    "The tube or plate beside the weld has its own figure: 0.40 of its yield strength in shear (Shigley, as "
    "quoted); a stronger electrode doesn't raise it.",
)


class FilletMinimum(NamedTuple):
    """The least leg of a fillet, mm, whose table that is, and what it doesn't cover."""

    leg: Number
    limit: str
    remarks: tuple[str, ...] = ()


@working_out(
    "fillet-minimum",
    topic="welding",
    inputs=[takes("thickness", "mm"), may_take("set", "text", "AISC")],
    results=gives(leg=at_least("mm")),
    formula="the table's row for the thickness; set cyclic: not under 5 mm",
    source="AISC table J2.4 as in a copy (set AISC); AWS D1.1 from memory and as quoted on a forum (sets "
    "AWS, cyclic)",
    sentence="Thickness {thickness}: leg {leg}, the least by {limit}.",
    example={"thickness": "6", "set": "cyclic"},
    remarks=("The leg is laid in one run; more runs than one need a first run of this size.",),
)
def fillet_minimum(thickness: Number, set: str = "AISC") -> FilletMinimum:
    """Least leg of a fillet by thickness, mm: to 6, 13, 19 mm and above (AISC), to 6, 12, 20 (AWS).

    Legs 3, 5, 6 and 8 mm; set cyclic: the AWS rows, not under 5 mm. Source: AISC table J2.4 (thinner part)
    as in a copy; AWS D1.1 table 5.8, 7.7 since 2020 (thicker part unless low-hydrogen or preheated), from
    memory and a forum's quotation. A table look-up: its independent route is the same rows written a second
    time, and the inch rows. Refuses a thickness not above 0 and an unknown set.
    """
    above_zero(thickness=thickness)
    sizes = fillet_sizes(set)
    listed = next(leg for up_to, leg in sizes.rows if up_to is None or thickness <= up_to)
    leg = max(sizes.floor, listed)
    remarks = (f"Set {sizes.name}: {sizes.read}.", *_minimum_remarks(thickness, listed, leg))
    return FilletMinimum(leg, sizes.title, remarks)


def fillet_sizes(name: str) -> FilletSizes:
    """The set of least fillets of this name, capitals and blanks apart."""
    by_spelling = {key.casefold(): sizes for key, sizes in FILLET_SETS.items()}
    written = name.strip().casefold()
    if written not in by_spelling:
        hint = nearest(name, list(FILLET_SETS))
        raise WorkingOutError(
            f"set: {said(name)} is no set of fillet sizes{hint}; accepted: {', '.join(FILLET_SETS)}"
        )
    return by_spelling[written]


def _minimum_remarks(thickness: Number, listed: int, leg: int) -> tuple[str, ...]:
    edge = thickness if thickness < EDGE else thickness - 2
    remarks = [f"Along an edge of this plate the most is {plain(edge)} mm (AISC J2.2b, as in a copy)."]
    in_inches, same = next(row[1:] for row in INCH_ROWS if row[0] is None or thickness <= row[0])
    if same != listed:
        remarks.append(f"By the inch rows of these tables the leg for this thickness is {in_inches}.")
    if leg > thickness:
        remarks.append("The leg is above the thickness; AWS D1.1 asks for no more than the thinner part.")
    return tuple(remarks)


class FilletStrength(NamedTuple):
    """What the rule gives for a fillet, N and N/mm, and for which plate its leg is under the least."""

    load: Number
    per_length: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "fillet-strength",
    topic="welding",
    inputs=[takes("leg", "mm", nominal=True), takes("length", "mm"), takes("electrode", "text")],
    results=gives(load=at_most("N"), per_length=at_most("N/mm")),
    formula="0.7071 times leg, times length, times 0.30 of the electrode's tensile strength",
    source="shear on the throat of 0.30 of the electrode's strength: Shigley table 9-6, AISC ASD (0.60 / "
    "2.00), as quoted in copies; E60 counts as 60 ksi, E70 as 70 ksi",
    sentence="Leg {leg}, length {length}, {electrode}: {load} by AISC's rule of 0.30 of the electrode's "
    "strength, {per_length} of weld.",
    example={"leg": "6", "length": "240", "electrode": "E7018"},
    remarks=STATIC_ONLY,
)
def fillet_strength(leg: Number, length: Number, electrode: str) -> FilletStrength:
    """Static shear strength of a fillet by the rule, N: h / sqrt(2) times L times 0.30 F, and N/mm of length.

    h leg and L length, mm; F tensile strength of the electrode, 60 or 70 ksi. Equal legs. Source: Shigley
    table 9-6 and AISC ASD, as quoted; the twelve strengths an inch of that table and worked examples are in
    the tests. Refuses a leg or length not above 0, a length below four legs and an electrode in none of the
    tables.
    """
    above_zero(leg=leg, length=length)
    at_least_four_legs("length", length, leg)
    per_length = THROAT * leg * rule_stress(electrode)
    return FilletStrength(per_length * length, per_length, _under_the_least(leg))


def _under_the_least(leg: Number) -> tuple[str, ...]:
    """For which plate a leg is under the least of AISC's table; none where it isn't for any."""
    sizes = FILLET_SETS["AISC"]
    reached = [up_to for up_to, least in sizes.rows if leg >= least]
    if None in reached:
        return ()
    plate = f"plate over {reached[-1]} mm" if reached else "plate of any thickness"
    return (
        f"A leg of {plain(leg)} mm is under the least of {sizes.title} for {plate}: fillet-minimum gives it.",
    )


def at_least_four_legs(key: str, length: Number, leg: Number) -> None:
    """Refuse a fillet shorter than four of its legs."""
    if length < LEAST_LENGTH * leg:
        raise WorkingOutError(
            f"{key}: {plain(length)} mm is below four legs; give {plain(LEAST_LENGTH * leg)} mm or more, or "
            f"a leg of {plain(Fraction(length) / LEAST_LENGTH)} mm, a quarter of the length (AISC J2.2b)"
        )
