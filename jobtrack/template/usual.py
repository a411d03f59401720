"""What usually stands beside each kind of work: the start of its hazard messages, and what doesn't go beside it.

A start, no more: the words are general, and what can happen in one step of one vehicle only its author knows.
`checks/unwritten.py` remarks on each row that nobody has changed. Sources as they were read, second-hand.
"""

from __future__ import annotations

from msgspec import Struct

from jobtrack.template.model import Hazard

COMMON = "common practice, no source"
HOT = ("solvent", "opens-fuel", "near-fuel")
MOVES = ("under",)


class Usual(Struct, frozen=True):
    """The usual hazard messages of a kind of work."""

    rows: tuple[Hazard, ...]
    not_beside: tuple[str, ...] = ()
    """Kinds that nobody does meanwhile."""
    source: str = COMMON
    """Where the cautions come from."""


def _row(signal: str, hazard: str, does: str, avoid: str) -> Hazard:
    return Hazard(signal, hazard, does, avoid)


_DISC = _row(
    "WARNING", "Disc bursts or jams; sparks; dust", "cuts deep, burns, sets fire, is breathed",
    "guard on, face shield, mask, what burns taken away or covered, fire watch",
)  # fmt: skip
_FIRE = "OSHA 1910.252 as quoted: 35 ft clear, fire watch of 30 min and more; the disc: common practice, no source"

USUAL = {
    "lifts": Usual(
        (_row("DANGER", "Vehicle or load on a jack or hoist", "falls and crushes",
              "flat hard floor, wheels chocked, the jack only lifts: on stands, shaken before anybody goes under"),),
        MOVES, "OSHA citation 312345952 (shake test), a state rule on jacks as quoted (level ground, chocks, stands)",
    ),
    "lowers": Usual(
        (_row("DANGER", "Vehicle or load that comes down", "crushes",
              "everybody out and in sight, one gives the word, down by the jack, hands out of the arches"),),
        MOVES,
    ),
    "under": Usual(
        (_row("DANGER", "Vehicle over you", "falls or rolls, and crushes",
              "stands seen and shaken again, chocks seen, others told, nobody lifts, starts or rocks it"),),
        ("lifts", "lowers", "drives", "welds", "cuts", "grinds", "heats", "opens-fuel"),
        "OSHA citation 312345952 (shake test, restraints); the rest common practice, no source",
    ),
    "drives": Usual(
        (_row("WARNING", "Vehicle that moves, brakes not tried yet", "rolls over people",
              "private ground first, nobody in its way, brakes tried within the first metres"),),
        MOVES,
    ),
    "cuts": Usual((_DISC,), HOT, _FIRE),
    "grinds": Usual((_DISC,), HOT, _FIRE),
    "welds": Usual(
        (_row("WARNING", "Arc light, sparks and hot metal", "blinds, burns, sets fire",
              "helmet, others screened off, what burns taken away or covered, extinguisher, fire watch"),
         _row("WARNING", "Electric shock; fume of paint, zinc and cleaner", "stops the heart, poisons",
              "dry gloves, clamp on the same part, battery cables off, coatings and cleaner off, air moving")),
        HOT,
        "OSHA 1910.252 as quoted (35 ft clear), 8 CCR 1537 (coatings); OSHA as quoted (chlorinated cleaner gives "
        "phosgene at the arc); a training body as quoted (battery cables, clamp beside the weld)",
    ),
    "heats": Usual(
        (_row("WARNING", "Flame and hot metal", "burns, sets fire to grease, rubber and fuel",
              "fuel, gas struts and rubber away, extinguisher, hot metal marked, fire watch"),),
        HOT, "OSHA 1910.252 (fire watch), a maker's page (refrigerant away), both as quoted; gas struts: from memory",
    ),
    "bleeds": Usual(
        (_row("WARNING", "Brake fluid, and air left in it", "harms eyes and skin; the pedal sinks and nothing stops",
              "glasses, new fluid from a sealed bottle, pedal held hard and every joint looked at"),),
        MOVES, "service manuals as quoted: poison, only new fluid from a sealed container",
    ),
    "opens-fuel": Usual(
        (_row("DANGER", "Fuel and its vapour", "burns and explodes at a spark",
              "cold, battery off, no flame, lamp or heater near, doors open, closed can, extinguisher"),),
        ("welds", "cuts", "grinds", "heats", "battery"),
    ),
    "near-fuel": Usual(
        (_row("WARNING", "Fuel or gas close by", "fire and explosion at a leak",
              "lines and tank looked at and covered, bottle shut or out, no spark"),),
        ("welds", "cuts", "grinds", "heats"),
        "a vehicle maker's page as quoted (tank drained and out before welding near it); gas bottle: from memory",
    ),
    "frees-spring": Usual(
        (_row("WARNING", "Spring still under load", "flies and breaks bones",
              "frame on stands, axle on its own jack, spring seen slack, nobody in line with its ends"),),
        MOVES, "a trade text as quoted: no eye or shackle bolt comes out until the spring is free of load",
    ),
    "brake-dust": Usual(
        (_row("WARNING", "Dust of old linings, may hold asbestos", "kills slowly",
              "wetted or drawn off, never blown or brushed dry, cloths into a bag"),),
        (), "OSHA 1910.1001 appendix F as quoted: wet or enclosed methods, no compressed air, no dry brush",
    ),
    "battery": Usual(
        (_row("WARNING", "Battery: gas and acid", "explodes at a spark, burns eyes",
              "glasses, earth cable off first and on last, no spark, doors open"),),
        (), "a training body as quoted (negative first); the rest common practice, no source",
    ),
    "airbag": Usual(
        (_row("DANGER", "Airbag that hasn't gone off", "goes off and kills",
              "battery off and the maker's wait kept, nobody before it, carried cushion up, by licensed people"),),
        (), "a training body as quoted (wait for the back-up to drain); the rest common practice, no source",
    ),
    "solvent": Usual(
        (_row("CAUTION", "Cleaner, solvent or dye", "irritates skin and eyes, burns",
              "gloves, doors open, no spark near; dry before an arc: chlorinated cleaner gives poison gas there"),),
        ("welds", "cuts", "grinds", "heats"), "OSHA as quoted: chlorinated solvents and arc light form phosgene",
    ),
}  # fmt: skip
"""By kind of work, as in a step's `does`."""
