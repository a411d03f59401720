"""Loads: what tyres carry by their load index and pressure. Mass in kg, pressure in kPa."""

from __future__ import annotations

from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, at_most, gives, may_take, takes, working_out
from jobtrack.shopmath.common.checks import above_zero, between, plain
from jobtrack.shopmath.loads.tyre_tables import (
    HIGHEST_INDEX,
    LOAD_INDEX,
    LOAD_INDEX_SOURCE,
    LOWEST_INDEX,
    LOWEST_PRESSURE_SHARE,
    PASSENGER_ON_TRUCK,
    PRESSURE_RULES,
)
from jobtrack.shopmath.quantity import nearest, said

MOULDED = "The maximum load moulded on the tyre counts where it differs from the index."


def listed(key: str, index: int) -> int:
    """The load of one tyre of this index, kg."""
    between(key, index, LOWEST_INDEX, HIGHEST_INDEX)
    return LOAD_INDEX[index]


def tyres_and_factor(dual: bool, passenger_on_truck: bool) -> Number:
    """How many times the load of one tyre its axle carries."""
    return (4 if dual else 2) / (PASSENGER_ON_TRUCK if passenger_on_truck else 1)


class TyreAxleLoad(NamedTuple):
    """What the tyres of an axle carry by their index, kg."""

    axle: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "tyre-axle-load",
    topic="loads",
    inputs=[
        takes("index", "count"),
        may_take("dual_index", "count"),
        may_take("dual", "yes/no", False),
        may_take("passenger_on_truck", "yes/no", False),
    ],
    results=gives(axle=at_most("kg")),
    formula="single tyres: 2 times the load of the index; twin tyres: 4 times the load of the second index; "
    "passenger-car tyres on a truck: divided by 1.10",
    source=f"{LOAD_INDEX_SOURCE}; 49 CFR 571.120 S5.1.2 as in an agency letter of 17 November 1976",
    sentence="Tyres of index {index}, second index {dual_index}, twin {dual}: {axle} for the axle by the table; "
    "the axle's rating is on the vehicle's plate.",
    example={"index": "104", "dual_index": "101", "dual": "yes"},
    hazards=(
        "WARNING: Overloaded tyre. A tyre above its load can burst while driving. "
        "Compare with the weighed, loaded axle.",
    ),
    remarks=(
        MOULDED,
        "The second index is for twin tyres at one end of an axle, not for two axles one behind the other.",
        "It holds up to the speed of the tyre's speed letter (V: to 210 km/h), at the pressure of its rating.",
    ),
)
def tyre_axle_load(
    index: int, dual_index: int | None = None, dual: bool = False, passenger_on_truck: bool = False
) -> TyreAxleLoad:
    """What the tyres of one axle carry: 2 W(index), or 4 W(dual_index) for twins, over 1.10 for car tyres, kg.

    Source: load index table (`tables_tyres`); independent: the R80 series of preferred numbers, and printed
    pound columns. Valid for indices 70 to 125. Refuses indices outside, and twins without the second index.
    """
    load = listed("index", index)
    second = None if dual_index is None else listed("dual_index", dual_index)
    if dual and second is None:
        raise WorkingOutError(
            "dual_index: missing; twin tyres need the second index, as 101 of 104/101: read it off the tyre"
        )
    each = second if dual and second is not None else load
    remarks = ["The second index lies above the first: tyres are marked the other way round."] if (
        second is not None and second > load
    ) else []  # fmt: skip
    if second is not None and not dual:
        remarks.append(
            "dual_index isn't used: two single tyres carry by the first index; for four give dual=yes."
        )
    if passenger_on_truck:
        remarks.append(
            "Divided by 1.10: passenger-car tyres on a truck, bus or trailer (49 CFR 571.120 S5.1.2)."
        )
    return TyreAxleLoad(each * tyres_and_factor(dual, passenger_on_truck), tuple(remarks))


class TyreIndexNeeded(NamedTuple):
    """The lowest listed load index whose tyres carry the axle; for twins the second of the two."""

    index_: int
    remarks: tuple[str, ...] = ()


@working_out(
    "tyre-index-needed",
    topic="loads",
    inputs=[
        takes("axle", "kg"),
        may_take("dual", "yes/no", False),
        may_take("passenger_on_truck", "yes/no", False),
    ],
    results=gives(index="count"),
    formula="the lowest index whose load, times 2 (twin tyres: 4), divided by 1.10 for passenger-car tyres on a "
    "truck, is not below the axle's load",
    source=f"{LOAD_INDEX_SOURCE}; 49 CFR 571.120 S5.1.2 as in an agency letter of 17 November 1976",
    sentence="Axle {axle}, twin {dual}: index {index} is the lowest in the table that carries it.",
    example={"axle": "1720 kg"},
    hazards=(
        "WARNING: Overloaded tyre. A tyre above its load can burst while driving. "
        "Take the weighed, loaded axle or the rating on the plate, whichever is higher.",
    ),
    remarks=(MOULDED, "For twin tyres it is the second index, as 101 of 104/101."),
)
def tyre_index_needed(axle: Number, dual: bool = False, passenger_on_truck: bool = False) -> TyreIndexNeeded:
    """The lowest listed index with n W(index) / f >= axle load; n 2 or 4, f 1.10 for car tyres on a truck.

    Source: load index table; independent: the axle loads of all indices, searched. Refuses an axle load not above
    0 or above what the highest listed index carries.
    """
    above_zero(axle=axle)
    times = tyres_and_factor(dual, passenger_on_truck)
    index = next((index for index, load in LOAD_INDEX.items() if load * times >= axle), None)
    if index is None:
        most = LOAD_INDEX[HIGHEST_INDEX] * times
        raise WorkingOutError(
            f"axle: {plain(axle)} kg is above the {plain(most)} kg of index {HIGHEST_INDEX}, the highest in the "
            "table; give at most that, or ask the tyre's maker"
        )
    remark = f"{LOWEST_INDEX} is the lowest index in the table; lower ones exist."
    return TyreIndexNeeded(index, (remark,) if index == LOWEST_INDEX else ())


class TyrePartLoad(NamedTuple):
    """What one tyre carries at a lower pressure, kg, and the rule that gives it."""

    load: Number
    rule: str
    remarks: tuple[str, ...] = ()


@working_out(
    "tyre-part-load",
    topic="loads",
    inputs=[
        takes("index", "count"),
        takes("pressure", "kPa"),
        takes("full_pressure", "kPa"),
        may_take("set", "text", "power-0.8"),
    ],
    results=gives(load=at_most("kg"), rule="text"),
    formula="load of the index times (pressure divided by full pressure) to the power of the rule: "
    "0.8 (power-0.8) or 1 (straight)",
    source=f"{LOAD_INDEX_SOURCE}; rules as reported on owners' forums, they disagree",
    sentence="Index {index} at {pressure} of {full_pressure}: {load} a tyre by the rule {rule}; "
    "the pressure on the vehicle's plate is its maker's.",
    example={"index": "98", "pressure": "34 psi", "full_pressure": "50 psi"},
    hazards=(
        "WARNING: Soft tyre. A tyre below the pressure its load asks for overheats and can burst. "
        "Stay at or above the pressure on the vehicle's plate.",
    ),
    remarks=(
        "Published rules disagree; the yearbooks' tables and the tyre maker's own win over both.",
        "The wheel and its valve have pressure limits of their own.",
    ),
)
def tyre_part_load(
    index: int, pressure: Number, full_pressure: Number, set: str = "power-0.8"
) -> TyrePartLoad:
    """Load at part pressure: W(index) (p / p_full)^e, kg; e = 0.8 (power-0.8, the default) or 1 (straight).

    Both are gauge pressures. Sources and dates of the rules in `tables_tyres`; two owners' worked pressures for
    each rule are in the tests, and scipy solves the reported inverse for the independent route.
    Refuses indices outside 70 to 125, pressures not above 0, a pressure above the full one or below half of it
    (outside what the rules were fitted to), and unknown rules.
    """
    load = listed("index", index)
    above_zero(pressure=pressure, full_pressure=full_pressure)
    name = set.strip().lower()
    if name not in PRESSURE_RULES:
        known = list(PRESSURE_RULES)
        raise WorkingOutError(
            f"set: {said(set)} is no rule{nearest(name, known)}; accepted: {', '.join(known)}"
        )
    if not LOWEST_PRESSURE_SHARE * full_pressure <= pressure <= full_pressure:
        raise WorkingOutError(
            f"pressure: {plain(pressure)} kPa lies outside half to all of the full pressure; give "
            f"{plain(LOWEST_PRESSURE_SHARE * full_pressure)} to {plain(full_pressure)} kPa"
        )
    rule = PRESSURE_RULES[name]
    share = pressure / full_pressure
    part = share if rule.exponent == 1 else float(share) ** float(rule.exponent)
    return TyrePartLoad(load * part, name, (f"Rule {name}: {rule.whose}.",))
