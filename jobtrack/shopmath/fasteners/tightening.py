"""Fasteners: how a torque is reached. Stages, the order of the bolts, and a wrench with an adapter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, may_take, takes, working_out
from jobtrack.shopmath.common.checks import above_zero, between, not_below_zero, plain
from jobtrack.shopmath.common.named_sets import again_after

STAGES = (30, 60, 100)
"""Percent of the last torque."""

MOST_STAGES = 10
MOST_BOLTS = 40


class TorqueStages(NamedTuple):
    """The torque of each stage, N*m."""

    stages: tuple[Number, ...]


@working_out(
    "torque-stages",
    topic="fasteners",
    inputs=[takes("torque", "N*m"), may_take("shares", "list percent", STAGES, nominal=True)],
    results=gives(stages="list N*m"),
    formula="each stage: its share in percent of the last torque",
    source="three rounds at not more than 30, 60 and 100 %, a flange supplier's page (hswhite.com, flange "
    "bolt torque sequence)",
    sentence="Last torque {torque}, shares {shares}: stages {stages}; the last is the maker's or "
    "supplier's figure.",
    example={"torque": "110"},
    remarks=(
        "After the last stage go round again at the full torque until no nut turns (the same page).",
        "ASME PCC-1 has 20 to 30, 50 to 70 and 100 %, then rounds in turn (from memory).",
        again_after("U-bolts"),
        again_after("wheel nuts"),
        "The distance is the job's: a template's `again` and what is due afterwards say which was taken.",
    ),
)
def torque_stages(torque: Number, shares: Sequence[Number] = STAGES) -> TorqueStages:
    """The torque T of each stage, N*m: T times share / 100, shares in percent, 30, 60 and 100 when left out.

    Source: a flange supplier's page on bolt sequences; its figures are shares only, so the torques are
    arithmetic only. No second way: a share of a figure is taken in one way only; the tests take it back.
    Refuses a torque not above 0, shares that don't rise, don't end at 100, aren't above 0, or are more
    than 10.
    """
    above_zero(torque=torque)
    _rising_to_100(shares)
    return TorqueStages(tuple(torque * share / 100 for share in shares))


def _rising_to_100(shares: Sequence[Number]) -> None:
    mend = "give rising percentages that end at 100, as 30, 60, 100"
    if len(shares) > MOST_STAGES:
        raise WorkingOutError(f"shares: {len(shares)} stages are more than {MOST_STAGES}; {mend}")
    for before, share in pairwise((0, *shares)):
        if share <= before:
            raise WorkingOutError(f"shares: {plain(share)} doesn't rise above {plain(before)}; {mend}")
    if not shares or shares[-1] != 100:
        last = plain(shares[-1]) if shares else "nothing"
        raise WorkingOutError(f"shares: the last is {last}, not 100; {mend}")


class TighteningOrder(NamedTuple):
    """The bolts by their place on the circle, in the order they are turned."""

    order: tuple[int, ...]
    remarks: tuple[str, ...] = ()


@working_out(
    "tightening-order",
    topic="fasteners",
    inputs=[takes("bolts", "count")],
    results=gives(order="list count"),
    formula="multiples of 4: crosses of four, opposite bolts first; other even counts: opposite pairs; "
    "odd counts: half of (bolts less one) further each time",
    source="cross patterns as in ASME PCC-1 (from memory); 5 bolts every second one (blog.artscyclery.com); "
    "12 bolts on a page (wjlr.roverradio.com)",
    sentence="{bolts} bolts, numbered by place round the circle: {order}.",
    example={"bolts": "8"},
    remarks=(
        "Numbers are places round the circle, not the order; begin anywhere and go either way round.",
        "Each stage of the torque goes once through the whole order.",
    ),
)
def tightening_order(bolts: int) -> TighteningOrder:
    """The order of n bolts numbered 1 to n by place round the circle.

    n = 4 m: for k of the quarter 1 to m: k, k + n/2, k + n/4, k + 3 n/4. Odd n: every (n - 1)/2-th bolt.
    Other even n: opposite pairs, the next pair two places on (one for 6). Source: ASME PCC-1 from memory,
    two pages; above 24 bolts and for 10, 14 and so on common practice, no source. The independent route
    checks each order: all bolts once, opposites in turn, no neighbours in turn from 5 bolts on, the sum
    of the unit vectors to the turned bolts never longer than 1. Refuses fewer than 2 and more than 40
    bolts.
    """
    between("bolts", bolts, 2, MOST_BOLTS)
    remark = ("With so few bolts some neighbours come in turn.",) if bolts < 5 else ()
    return TighteningOrder(_order(bolts), remark)


def turning_order(bolts: int) -> Sequence[int]:
    """The places of any number of bolts, 1 to n clockwise, in the order in which a stage turns them.

    As `tightening_order` for 2 to 40; round in turn above that, since no order is known to us for so many; one
    bolt is its own order. Source: as there.
    """
    return _order(bolts) if 2 <= bolts <= MOST_BOLTS else range(1, bolts + 1)


def _order(bolts: int) -> tuple[int, ...]:
    if bolts % 2:
        return tuple(1 + place * (bolts // 2) % bolts for place in range(bolts))
    if bolts % 4 == 0:
        quarter = bolts // 4
        return tuple(k + turn * quarter for k in _within_quarter(quarter) for turn in (0, 2, 1, 3))
    step = 1 if bolts == 6 else 2
    firsts = [1 + place * step for place in range(bolts // 2)]
    return tuple((bolt - 1) % bolts + 1 for first in firsts for bolt in (first, first + bolts // 2))


def _within_quarter(quarter: int) -> tuple[int, ...]:
    """The order in which the bolts of one quarter begin a cross of four.

    It gives the orders of ASME PCC-1 for 4, 8, 12, 16, 20 and 24 bolts (from memory; 12 also on a page); only
    that for 12 goes straight on. Above 24: common practice, no source.
    """
    if quarter == 3:
        return (1, 2, 3)
    if quarter % 2:
        return (*range(1, quarter + 1, 2), *range(2, quarter + 1, 2))
    half = quarter // 2
    return tuple(k + half * second for k in range(1, half + 1) for second in (0, 1))


class AdapterSetting(NamedTuple):
    """What the wrench is set to, N*m."""

    setting: Number


@working_out(
    "adapter-setting",
    topic="fasteners",
    inputs=[
        takes("torque", "N*m"),
        takes("wrench", "mm"),
        takes("adapter", "mm"),
        may_take("angle", "deg", 0),
    ],
    results=gives(setting="N*m"),
    formula="torque times wrench divided by (wrench plus adapter times the cosine of the angle); "
    "wrench: middle of the grip to the drive, adapter: drive to the fastener, 0 deg straight out",
    source="torque wrench with adapter, US Army manuals TM 1-1500-204-23-9 (straight) and TM 9-254 "
    "(angled; its scan prints a times sign where its own next example needs a plus), read in copies",
    sentence="For {torque} at the fastener set {setting}: wrench {wrench}, adapter {adapter} at {angle}.",
    example={"torque": "110", "wrench": "400", "adapter": "80"},
    remarks=(
        "The setting has to lie within the wrench's own range; hold it in the middle of the grip.",
        "An extension bar or socket in line with the drive changes nothing (from memory).",
    ),
)
def adapter_setting(torque: Number, wrench: Number, adapter: Number, angle: Number = 0) -> AdapterSetting:
    """Setting of a wrench with an adapter, N*m: T L / (L + E cos a).

    T torque at the fastener, L middle of the grip to the drive, E drive to the fastener (mm), a the angle
    between adapter and wrench, deg: 0 straight out, 90 no change, 180 folded back. Source: US Army
    manuals as quoted, a helicopter maker's manual and a metric supplier's page; moments by vectors are
    the independent route. Refuses T and L not above 0, E below 0, a outside 0 to 180 and an adapter that
    reaches back to the grip.
    """
    above_zero(torque=torque, wrench=wrench)
    not_below_zero(adapter=adapter)
    between("angle", angle, 0, 180)
    reach = wrench + adapter * _cosine(angle)
    if reach <= 0:
        raise WorkingOutError(
            f"adapter: {plain(adapter)} mm folded back leaves a reach of {plain(reach)} mm from grip to "
            "fastener; give a shorter adapter or a smaller angle"
        )
    return AdapterSetting(torque * wrench / reach)


def _cosine(angle: Number) -> Number:
    """Of an angle in degrees, exact where it is rational."""
    exact = {0: Fraction(1), 60: Fraction(1, 2), 90: Fraction(0), 120: Fraction(-1, 2), 180: Fraction(-1)}
    return exact[int(angle)] if angle in exact else math.cos(math.radians(angle))
