"""Welding: what the set stands and what a weld uses. Current in A, mass in g, lengths in mm."""

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
from jobtrack.shopmath.checks import above_zero, between, not_below_zero, plain

NO_EXTRA = Fraction(0)

STEEL = 7850
"""kg/m^3; one handbook works with 0.283 lb/in^3, 7833."""


class DutyCycle(NamedTuple):
    """A current and the share of ten minutes it may flow by the thermal rule, and what they don't cover."""

    current: Number
    """A."""
    duty: Number
    """Percent of ten minutes, at most 100."""
    remarks: tuple[str, ...] = ()


@working_out(
    "duty-cycle",
    topic="welding",
    inputs=[
        takes("rated_current", "A"),
        takes("rated_duty", "percent"),
        may_take("current", "A"),
        may_take("duty", "percent"),
    ],
    results=gives(current=at_most("A"), duty=at_most("percent")),
    formula="current squared times duty stays the same; duty at most 100 %",
    source="thermal rule, IEC 60974-1, from memory; ten-minute period as in a welding society's glossary "
    "(aws.org)",
    sentence="{current} at {duty} of ten minutes, by the thermal rule from the plate's {rated_current} at "
    "{rated_duty}; the plate's own points win over it.",
    example={"rated_current": "200", "rated_duty": "25", "current": "120"},
    remarks=(
        "A rule of thumb: against eight published points of plates it lay between 28 % low and 8 % high.",
        "Holds for 40 °C; never above the largest current on the plate.",
    ),
)
def duty_cycle(
    rated_current: Number, rated_duty: Number, current: Number | None = None, duty: Number | None = None
) -> DutyCycle:
    """I1^2 D1 = I2^2 D2: the duty (percent of ten minutes) at a current (A), or the current at a duty.

    Source: IEC 60974-1, from memory; one published plate reproduces exactly, the others are listed with
    what the rule gives; averaging the heat over ten minutes is the independent route. Duty is capped at 100
    %. Refuses both or neither of current and duty, currents not above 0 and duties outside 1 to 100; a
    current above the rated one gets a remark.
    """
    above_zero(rated_current=rated_current)
    between("rated_duty", rated_duty, 1, 100)
    if current is not None and duty is not None:
        raise WorkingOutError("duty: given beside current; give one of the two, the other is worked out")
    if duty is not None:
        between("duty", duty, 1, 100)
        found = rated_current * math.sqrt(rated_duty / duty)
        return DutyCycle(found, duty, _above(found, rated_current))
    if current is None:
        raise WorkingOutError("current: missing; give either current in A or duty in percent")
    above_zero(current=current)
    heat = rated_duty * rated_current**2 / current**2
    return DutyCycle(current, min(heat, 100), _above(current, rated_current))


def _above(current: Number, rated: Number) -> tuple[str, ...]:
    if current <= rated:
        return ()
    return (f"Above the rated current of {plain(rated)} A: the plate says whether the set gives it at all.",)


class RodsNeeded(NamedTuple):
    """Weld metal, g, and whole rods."""

    deposited: Number
    """With the extra."""
    rods: int


@working_out(
    "rods-needed",
    topic="welding",
    inputs=[
        takes("leg", "mm", nominal=True),
        takes("length", "mm"),
        takes("rod", "mm", nominal=True),
        takes("rod_length", "mm", nominal=True),
        takes("stub", "mm"),
        may_take("extra", "percent", NO_EXTRA),
    ],
    results=gives(deposited=at_least("g"), rods="count"),
    formula="deposited = half of leg squared times length times 7850 kg/m³, and the extra on top; rods = "
    "deposited over the core wire of a rod down to its stub, rounded up",
    source="fillet area and weights a foot as in a filler-metal handbook (ESAB, in copies) and a trade page "
    "(weldingpro.com); stub as on a supplier's page (weldstar.com)",
    sentence="Leg {leg}, {length}, {extra} extra: {deposited} deposited, {rods} rods of {rod} by "
    "{rod_length} used to a stub of {stub}.",
    example={
        "leg": "6", "length": "480", "rod": "3.2", "rod_length": "350", "stub": "50", "extra": "15",
    },
    remarks=(
        "All of the core wire is counted as weld; one trade table reckons with 55 % of a rod's weight, "
        "coating and stub lost (weldingpro.com). Have more at hand.",
        "A rounded face adds 10 to 20 % (from memory): that goes in as extra.",
    ),
)  # fmt: skip
def rods_needed(
    leg: Number, length: Number, rod: Number, rod_length: Number, stub: Number, extra: Number = NO_EXTRA
) -> RodsNeeded:
    """Weld metal of a fillet, g: h^2/2 L 7850 kg/m^3 (1 + extra/100), and the whole rods that hold it.

    h leg, L length of weld, a rod of core diameter d gives pi d^2/4 (length - stub), mm. Source: a
    filler-metal handbook in copies and a trade page; five published weights agree to their digits, a
    published table of stub loss checks the stub, and burning rods one by one is the independent route.
    Refuses lengths not above 0, a stub below 0 or not below the rod's length, an extra below 0 or over 100
    %.
    """
    above_zero(leg=leg, length=length, rod=rod, rod_length=rod_length)
    not_below_zero(stub=stub)
    between("extra", extra, 0, 100)
    if stub >= rod_length:
        raise WorkingOutError(
            f"stub: {plain(stub)} mm leaves nothing of a rod of {plain(rod_length)} mm; give less"
        )
    volume = leg**2 / 2 * length * (1 + extra / 100)
    each = math.pi / 4 * rod**2 * (rod_length - stub)
    return RodsNeeded(volume * STEEL / 10**6, math.ceil(volume / each))
