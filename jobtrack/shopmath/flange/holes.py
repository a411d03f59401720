"""Holes for bolts: clearance and tap drills, drill names and drilling speed. Lengths in mm."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    Number,
    WorkingOutError,
    gives,
    may_take,
    shown,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, between, plain
from jobtrack.shopmath.common.threads import INCH, LISTED, read_thread
from jobtrack.shopmath.flange.drill_tables import (
    DRILLS,
    TAP_DRILLS,
    TAP_DRILLS_FROM_MEMORY,
    TAP_DRILLS_INCH,
)
from jobtrack.shopmath.flange.hole_tables import (
    ASME_B18_2_8,
    INCH_FITS,
    ISO_273,
    ISO_273_PITCHES,
    METRIC_FITS,
)
from jobtrack.shopmath.quantity import said

Fit = Literal["fine", "medium", "coarse", "close", "normal", "loose"]

FASTEST_CUT = 60
"""m/min, for high-speed steel in steel."""

LARGEST_THREAD = 64
"""mm, of a metric thread that is in no table."""

_METRIC_SIZE = re.compile(r"M(\d{1,3}(?:\.\d{1,3})?)(?:[X*×](\d{1,2}(?:\.\d{1,3})?))?", re.I)
_INCH_SIZE = re.compile(r"(\d{1,2}/\d{1,2})(?:\"|IN)?", re.I)


class ClearanceHole(NamedTuple):
    """The hole for a bolt to go through, mm, and the series it belongs to."""

    hole: Number
    remarks: tuple[str, ...] = ()
    limit: str = ""


@working_out(
    "clearance-hole",
    topic="flange",
    inputs=[takes("thread", "text"), may_take("fit", "fine|medium|coarse|close|normal|loose")],
    results=gives(hole=shown("mm", step=A_HUNDREDTH)),
    formula="look-up by nominal diameter: ISO 273 for metric, ASME B18.2.8 for inch threads",
    source="ISO 273 as quoted by two pages (engineeringhardware.com, cs.frwiki.wiki); ASME B18.2.8 as quoted "
    "in Machinery's Handbook, 31st ed., p. 1741, and a CAD program's hole library",
    sentence="{thread}: hole of {hole}, {limit}.",
    example={"thread": "M10x1.5", "fit": "fine"},
    remarks=(
        "The pilot centres a flange, the bolts only clamp: a medium hole lets it sit off centre "
        "by half of the play.",
    ),
)
def clearance_hole(thread: str, fit: Fit | None = None) -> ClearanceHole:
    """Clearance hole by thread and fit, mm; without a fit medium for metric and normal for inch threads.

    Inch holes are the exact fractions. ISO 273 for M3 to M24, ASME B18.2.8 for 1/4 to 3/4 in, as quoted; the
    rows with their misprints stand in `tables_holes`, the published figures in the tests. Refuses sizes
    outside the tables (9/16 is not in the standard's list), unlisted threads and a fit of the other system.
    """
    metric, size = _size(thread)
    table, fits = (ISO_273, METRIC_FITS) if metric else (ASME_B18_2_8, INCH_FITS)
    if size not in table:
        raise WorkingOutError(
            f"thread: {said(thread)} is not in the {'ISO 273' if metric else 'ASME B18.2.8'} rows kept here; "
            f"accepted: {', '.join(f'M{each}' if metric else each for each in table)}"
        )
    taken = fit or fits[1]
    if taken not in fits:
        raise WorkingOutError(
            f"fit: {taken} isn't one of the {'metric' if metric else 'inch'} fits; "
            f"accepted: {', '.join(fits)}"
        )
    hole = table[size][fits.index(taken)]
    remark = f"No fit was given: {taken} was taken."
    series = f"ISO 273 {taken}" if metric else f"ASME B18.2.8 {taken}, {hole} in"
    return ClearanceHole(Fraction(hole) * (1 if metric else INCH), () if fit else (remark,), series)


def _size(thread: str) -> tuple[bool, str]:
    """Whether the thread is metric, and its nominal diameter as the tables write it."""
    written = re.sub(r"\s+", "", thread)
    if metric := _METRIC_SIZE.fullmatch(written):
        size = f"{float(metric[1]):g}"
        if metric[2] and f"{float(metric[2]):g}" != ISO_273_PITCHES.get(size):
            read_thread(thread)
        return True, size
    if inch := _INCH_SIZE.fullmatch(written):
        return False, inch[1]
    return False, read_thread(thread).name.rpartition("-")[0]


class DrillName(NamedTuple):
    """The nearest drill and the first that isn't smaller, by name and in mm."""

    nearest: str
    nearest_size: Number
    next_up: str
    next_up_size: Number


@working_out(
    "drill-name",
    topic="flange",
    inputs=[takes("diameter", "mm", nominal=True)],
    results=gives(
        nearest="text",
        nearest_size=shown("mm", step=A_HUNDREDTH, against=("diameter",)),
        next_up="text",
        next_up_size=shown("mm", step=A_HUNDREDTH, against=("diameter",)),
    ),
    formula="the drill of least difference, and the first not smaller, of fractions in 64ths of an inch, "
    "numbers and letters from 1/16 to 1 in",
    source="drill lists of a CAD program's hole library and of the package bd_warehouse 0.4.0; "
    "fractions are exact",
    sentence="{diameter}: nearest {nearest} of {nearest_size}, next up {next_up} of {next_up_size}.",
    example={"diameter": "9"},
    remarks=(
        "Of two equally near the larger; of two of one size the fraction. "
        "A drill cuts a little over its size: try it on scrap.",
    ),
)
def drill_name(diameter: Number) -> DrillName:
    """Inch, number and letter drills beside a diameter in mm: the nearest and the first not smaller.

    Sizes with their misprints stand in `tables_drills`; every printed decimal is in the tests, and the
    independent route is a search through that copy. Refuses diameters outside 1/16 to 1 in (1.5875 to
    25.4 mm).
    """
    wanted = Fraction(str(diameter))
    between("diameter", wanted, INCH / 16, INCH)
    nearest = min(DRILLS, key=lambda name: (abs(DRILLS[name] - wanted), -DRILLS[name]))
    next_up = min((name for name in DRILLS if DRILLS[name] >= wanted), key=lambda name: DRILLS[name])
    return DrillName(nearest, DRILLS[nearest], next_up, DRILLS[next_up])


class TapDrill(NamedTuple):
    """The hole before tapping, mm."""

    drill: Number
    remarks: tuple[str, ...] = ()
    limit: str = ""


@working_out(
    "tap-drill",
    topic="flange",
    inputs=[takes("thread", "text")],
    results=gives(drill=shown("mm", step=A_HUNDREDTH)),
    formula="look-up by thread; metric threads that aren't listed: diameter minus pitch",
    source="tap lists of the package bd_warehouse 0.4.0 and of a second program; diameter minus pitch and "
    "M12x1.75 from memory: ISO 2306",
    sentence="{thread}: tap drill {drill}, {limit}.",
    example={"thread": "M10x1.5"},
    remarks=("About three quarters of a full thread. The tap maker's figure wins.",),
)
def tap_drill(thread: str) -> TapDrill:
    """Tap drill by thread, mm; metric threads outside the table D - P.

    Lists with their misprints stand in `tables_drills`; published figures are in the tests, and so is the
    inch formula for 75 % thread, D - 0.01299 x 75 / threads an inch, whose nearest drill is the listed one.
    Refuses inch threads outside the table, metric sizes above 64 mm and pitches above a quarter of the size.
    """
    metric = _METRIC_SIZE.fullmatch(re.sub(r"\s+", "", thread))
    name = _metric_name(metric[1], metric[2], thread) if metric else read_thread(thread).name
    if name in TAP_DRILLS:
        doubted = name in TAP_DRILLS_FROM_MEMORY
        remark = f"{name}: one list prints 0.1 mm more; this figure is from memory (ISO 2306 practice)."
        return TapDrill(Fraction(TAP_DRILLS[name]), (remark,) if doubted else (), "as listed")
    if metric:
        size, _, pitch = name[1:].partition("x")
        return TapDrill(Fraction(size) - Fraction(pitch), _unlisted(name), "diameter minus pitch")
    if name not in TAP_DRILLS_INCH:
        raise WorkingOutError(
            f"thread: {name} has no tap drill in the table; accepted: {', '.join(TAP_DRILLS_INCH)}"
        )
    drill = TAP_DRILLS_INCH[name]
    return TapDrill(DRILLS[drill], (), f"{drill} as listed")


def _metric_name(size: str, pitch: str | None, thread: str) -> str:
    """The thread's name; a size alone is the coarse thread, a pitch has to belong to some thread."""
    if pitch is None:
        return read_thread(thread).name
    if not 0 < 4 * Fraction(pitch) <= Fraction(size) <= LARGEST_THREAD:
        raise WorkingOutError(
            f"thread: {said(thread)} is no metric thread up to M{LARGEST_THREAD} with a pitch up to a "
            "quarter of its size; write it as M10x1.5"
        )
    return f"M{float(size):g}x{float(pitch):g}"


def _unlisted(name: str) -> tuple[str, ...]:
    return () if name in LISTED else (f"{name} is in none of the tables of threads.",)


class DrillSpeed(NamedTuple):
    """The drill's speed, rpm."""

    speed: Number


@working_out(
    "drill-speed",
    topic="flange",
    inputs=[takes("diameter", "mm", nominal=True), takes("cutting_speed", "m/min")],
    results=gives(speed="rpm"),
    formula="cutting speed divided by (pi times diameter)",
    source="rpm = 1000 v / (pi d), machinistpost.com (speeds and feeds) and a course note (EML2322L), as "
    "quoted; mild steel 24 to 30 m/min with high-speed steel from the former",
    sentence="{diameter} at {cutting_speed}: {speed}; a machinists' page lists 24 to 30 m/min for "
    "high-speed steel in mild steel.",
    example={"diameter": "10", "cutting_speed": "25"},
    hazards=(
        "WARNING: Work that spins. A drill grabs as it breaks through and throws the work round. "
        "Clamp the work, ease the feed at the end, and wear no gloves.",
    ),
    remarks=("Medium-carbon steel 18 to 24 m/min, alloy steel 12 to 18 m/min (the same page).",),
)
def drill_speed(diameter: Number, cutting_speed: Number) -> DrillSpeed:
    """Spindle speed of a drill: 1000 v / (pi d), rpm; v in m/min, d in mm.

    Source: a machinists' page and a course note; published examples are in the tests, one of which doesn't
    reproduce by its own formula. Valid for high-speed steel in steel. Refuses inputs not above 0 and a
    cutting speed above 60 m/min.
    """
    above_zero(diameter=diameter, cutting_speed=cutting_speed)
    if cutting_speed > FASTEST_CUT:
        raise WorkingOutError(
            f"cutting_speed: {plain(cutting_speed)} m/min is above {FASTEST_CUT} for high-speed steel in "
            f"steel; give {FASTEST_CUT} m/min or less"
        )
    return DrillSpeed(1000 * cutting_speed / (math.pi * diameter))
