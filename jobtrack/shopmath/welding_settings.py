"""Welding: where to begin with wire and rod, and the filter for the eyes. Current in A, lengths in mm."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, takes, working_out
from jobtrack.shopmath.checks import above_zero, plain
from jobtrack.shopmath.electrodes import rod_name
from jobtrack.shopmath.quantity import said
from jobtrack.shopmath.tables_welding import (
    ROD_CURRENT,
    ROD_RANGES,
    ROD_SIZES,
    SHADE_ENDS,
    SHADES,
    WIRES,
    WIRES_SOURCE,
    RodRange,
    Wire,
)
from jobtrack.shopmath.threads import INCH

NEAR = 1e-6
"""mm: how far a float may lie off a listed size."""

MOST_SHORT_ARC = 5
"""mm."""


def _is_one_of(value: Number, sizes: Iterable[Fraction]) -> bool:
    return any(abs(float(value) - float(size)) < NEAR for size in sizes)


class WireSettings(NamedTuple):
    """Where to begin: current and wire speed, and what they don't cover."""

    current: Number
    """A."""
    wire_speed: Number
    """m/min."""
    remarks: tuple[str, ...] = ()


@working_out(
    "wire-settings",
    topic="welding",
    inputs=[takes("thickness", "mm"), takes("wire", "mm", nominal=True)],
    results=gives(current="A", wire_speed="m/min"),
    formula="current = one ampere for each 0.001 in of thickness; wire speed = 3.5, 2.0, 1.6, 1.0 in/min "
    "for each ampere with wire of 0.6, 0.8, 0.9, 1.2 mm",
    source=WIRES_SOURCE,
    sentence="{thickness} with wire {wire}: begin at {current} and {wire_speed}, by three welding-set "
    "manuals.",
    example={"thickness": "3", "wire": "0.9"},
    remarks=(
        "For solid wire in short-circuit transfer on mild steel: a place to begin on scrap, not a setting.",
        "Other makers' charts begin higher: 100 to 110 A at 1.6 mm, 120 to 140 A at 3.2 mm (two set makers).",
    ),
)
def wire_settings(thickness: Number, wire: Number) -> WireSettings:
    """Current, A: thickness in thousandths of an inch; wire speed, m/min: the wire's in/min for each ampere.

    Source: three welding-set manuals; their printed examples reproduce, and a units library is the
    independent route. Exact for Fractions. Wires 0.6, 0.8, 0.9, 1.2 mm stand for 0.024, 0.030, 0.035, 0.045
    in. Outside the wire's range of current or over 5 mm: a remark. Refuses other wires and a thickness not
    above 0.
    """
    above_zero(thickness=thickness)
    listed = _wire(wire)
    current = thickness * 1000 / INCH
    speed = listed.per_amp * current * INCH / 1000
    return WireSettings(current, speed, _wire_remarks(thickness, current, listed))


def _wire(wire: Number) -> Wire:
    for listed in WIRES:
        if _is_one_of(wire, listed.sizes):
            return listed
    raise WorkingOutError(
        f"wire: {plain(wire)} mm is not listed; accepted: {', '.join(each.name for each in WIRES)} mm, or "
        "0.024, 0.030, 0.035, 0.045 in"
    )


def _wire_remarks(thickness: Number, current: Number, wire: Wire) -> tuple[str, ...]:
    remarks = []
    if not wire.low <= current <= wire.high:
        remarks.append(
            f"{plain(round(float(current), 1))} A lies outside this wire's {wire.low} to {wire.high} A "
            "(the same manuals)."
        )
    if thickness > MOST_SHORT_ARC:
        remarks.append(
            "Over 5 mm (3/16 in) short-circuit transfer is known for lack of fusion, and AWS D1.1 doesn't "
            "prequalify it (thefabricator.com): tack with it, weld with rod."
        )
    return tuple(remarks)


class ElectrodeCurrent(NamedTuple):
    """The current of a rod, A, whose figure that is, and what others list."""

    low: Number
    high: Number
    limit: str
    remarks: tuple[str, ...] = ()


@working_out(
    "electrode-current",
    topic="welding",
    inputs=[takes("electrode", "text"), takes("diameter", "mm", nominal=True)],
    results=gives(low="A", high="A"),
    formula="the first row of the table with a range for this rod and size",
    source="sample welding procedures, manuals of welding sets and trade pages, read in copies; E6011 and "
    "some rows of E7018 from memory; the sentence names the row's own",
    sentence="{electrode}, {diameter}: {low} to {high}, by {limit}.",
    example={"electrode": "E7018", "diameter": "3.2"},
    remarks=(
        "Sources disagree: the figure on the rods' own packet wins.",
        "About 15 % less overhead (topwellwelders.com).",
    ),
)
def electrode_current(electrode: str, diameter: Number) -> ElectrodeCurrent:
    """Current range of a stick electrode by rod and core diameter (mm), A: the first listed row.

    E6010, E6011, E6013, E7018, or generic; 1.6, 2.0, 2.4 (2.5), 3.2, 4.0 mm or the inch sizes they stand
    for, as far as a range is listed. Source: the row's own, named in the sentence; rows of other sources
    stand in the remarks. A table look-up: its independent route is the same rows written a second time.
    Refuses a rod that isn't listed and a size without a range for that rod.
    """
    name, rows = _rows(electrode)
    size = next((key for key, sizes in ROD_SIZES.items() if _is_one_of(diameter, sizes)), "")
    fitting = [row for row in rows if row.size == size]
    if not fitting:
        sizes = ", ".join(dict.fromkeys(row.size for row in rows))
        raise WorkingOutError(f"diameter: {plain(diameter)} mm has no range for {name}; accepted: {sizes} mm")
    first, *others = fitting
    remarks = (f"This range: {first.source}.", *_others(others), ROD_CURRENT[name])
    return ElectrodeCurrent(first.low, first.high, first.source, remarks)


def _rows(electrode: str) -> tuple[str, list[RodRange]]:
    name = rod_name(electrode)
    rows = [row for row in ROD_RANGES if row.rod == name]
    if not rows:
        names = ", ".join(dict.fromkeys(row.rod for row in ROD_RANGES))
        raise WorkingOutError(f"electrode: {said(electrode.strip())} has no rows; accepted: {names}")
    return name, rows


def _others(rows: list[RodRange]) -> tuple[str, ...]:
    return tuple(f"Also listed: {row.low} to {row.high} A, {row.source}." for row in rows)


class EyeShade(NamedTuple):
    """Filter shades, and what they don't cover."""

    minimum: int
    suggested: int | None
    remarks: tuple[str, ...] = ()


@working_out(
    "eye-shade",
    topic="welding",
    inputs=[takes("process", "stick|mig|plasma cutting"), takes("current", "A")],
    results=gives(minimum="count", suggested="count"),
    formula="the row of the process and current; where two rows share a current, the darker",
    source="29 CFR 1910.133 (minimum, casetext.com); ANSI Z49.1-2005 as quoted (suggested, bakersgas.com)",
    sentence="{process} at {current}: shade {minimum} is the least by 29 CFR 1910.133, {suggested} "
    "suggested by ANSI Z49.1-2005.",
    example={"process": "stick", "current": "120"},
    hazards=(
        "WARNING: Arc rays. They burn eyes and skin within seconds, also of those who stand near. "
        "Wear the helmet and cover skin, and screen the arc from others.",
    ),
    remarks=(
        "Begin too dark, then go lighter until the weld is seen, not below the minimum (the regulation's "
        "note).",
        "Older tables go by rod size: 10 up to 5/32 in, 12 for gas-shielded work on steel.",
    ),
)
def eye_shade(process: Literal["stick", "mig", "plasma cutting"], current: Number) -> EyeShade:
    """Filter shade by process and current (A): the regulation's minimum, and the suggested shade or None.

    Source: 29 CFR 1910.133 and ANSI Z49.1-2005 as quoted on a supplier's page. Where two printed rows share
    60, 160 or 250 A the darker one counts. A table look-up: its independent route is the same rows written
    a second time. Refuses a current not above 0, over 550 A stick or 500 A mig, and from 300 A plasma
    cutting on.
    """
    above_zero(current=current)
    rows = SHADES[process]
    last = rows[-1]
    row = next((row for row in rows if current < row.up_to), None)
    if row is None and current == last.up_to and SHADE_ENDS[process]:
        row = last
    if row is None:
        end = "up to" if SHADE_ENDS[process] else "below"
        raise WorkingOutError(
            f"current: {plain(current)} A has no row for {process}; accepted: {end} {last.up_to} A"
        )
    return EyeShade(row.minimum, row.suggested, _below_table(process, current))


def _below_table(process: str, current: Number) -> tuple[str, ...]:
    if process != "plasma cutting" or current >= 80:
        return ()
    return (
        "A maker's chart for small plasma cutters lists 4, 5, 6 and 8 below 20, 40, 60 and 80 A; the "
        "regulation's table has one row below 300 A.",
    )
