"""Welding: what the arc puts into the steel, and what the steel takes. Heat in kJ/mm, content in percent."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    Number,
    WorkingOutError,
    at_least,
    gives,
    may_take,
    takes,
    working_out,
)
from jobtrack.shopmath.checks import above_zero, between, not_below_zero, plain

ARC_FACTOR = Fraction(4, 5)
"""Stick, solid and cored wire: EN 1011-1 as quoted on three pages; 0.6 TIG and plasma, 1.0 submerged arc."""

LEAST_HEAT = Fraction(1, 10)
MOST_HEAT = 5
"""kJ/mm: outside, a unit was mixed up (mm/s in a box of mm/min is 60 times off)."""

LEAST_VOLTS, MOST_VOLTS = 8, 45

NONE = Fraction(0)
"""What an element left out counts for; a Fraction, so that the sum stays exact."""

MOST_CARBON = 1
MOST_ALLOY = 15
"""Percent."""


class HeatInput(NamedTuple):
    """Heat a length of weld, kJ/mm."""

    heat: Number


@working_out(
    "heat-input",
    topic="welding",
    inputs=[
        takes("volts", "V"),
        takes("amps", "A"),
        takes("travel", "mm/min"),
        may_take("k", "ratio", ARC_FACTOR, nominal=True),
    ],
    results=gives(heat="kJ/mm"),
    formula="k times 60 times volts times amps, divided by (1000 times travel in mm/min)",
    source="EN 1011-1, as quoted on pages of a steel maker and a welding institute (ssab.com, twi.co.uk)",
    sentence="{volts}, {amps}, {travel}, k {k}: heat input {heat}, by EN 1011-1.",
    example={"volts": "23", "amps": "120", "travel": "150"},
    remarks=(
        "k is 0.8 for stick and wire, 0.6 for TIG, 1.0 for submerged arc (EN 1011-1); American codes quote "
        "the arc's energy, k 1.",
        "Holds for volts read at the arc while it burns, not at the set.",
    ),
)
def heat_input(volts: Number, amps: Number, travel: Number, k: Number = ARC_FACTOR) -> HeatInput:
    """Q = k 60 U I / (1000 v), kJ/mm: arc voltage U, current I, travel v in mm/min, thermal efficiency k.

    Source: EN 1011-1 as quoted on three pages; two published examples reproduce, and a units library is the
    independent route. Exact for Fractions. Refuses volts outside 8 to 45, amps and travel not above 0, k not
    above 0 or over 1, and a result outside 0.1 to 5 kJ/mm.
    """
    between("volts", volts, LEAST_VOLTS, MOST_VOLTS)
    above_zero(amps=amps, travel=travel, k=k)
    between("k", k, 0, 1)
    heat = k * 60 * volts * amps / (1000 * travel)
    if not LEAST_HEAT <= heat <= MOST_HEAT:
        raise WorkingOutError(
            f"travel: {plain(travel)} mm/min makes {plain(round(float(heat), 4))} kJ/mm, outside "
            f"{plain(LEAST_HEAT)} to {MOST_HEAT}; give travel in mm/min (60 times mm/s), and look at volts "
            "and amps"
        )
    return HeatInput(heat)


class TravelSpeed(NamedTuple):
    """How fast the arc moved, mm/min."""

    travel: Number


@working_out(
    "travel-speed",
    topic="welding",
    inputs=[takes("length", "mm"), takes("time", "s")],
    results=gives(travel="mm/min"),
    formula="length of weld divided by the arc's time, in minutes",
    source="definition, as on an inspectors' forum (weldinginspections.net) and in a school module",
    sentence="{length} in {time}: travel {travel}.",
    example={"length": "120", "time": "48"},
    remarks=("Time counts while the arc burns, without changing rods.",),
)
def travel_speed(length: Number, time: Number) -> TravelSpeed:
    """Travel, mm/min: 60 times length (mm) over arc time (s).

    Source: definition; one published example reproduces, and a units library is the independent route.
    Exact for Fractions. Refuses a length or time not above 0.
    """
    above_zero(length=length, time=time)
    return TravelSpeed(60 * length / time)


class CarbonEquivalent(NamedTuple):
    """The carbon equivalent, percent, and what it doesn't cover."""

    CE: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "carbon-equivalent",
    topic="welding",
    inputs=[
        takes("C", "percent"),
        takes("Mn", "percent"),
        *(may_take(element, "percent", NONE) for element in ("Cr", "Mo", "V", "Ni", "Cu")),
    ],
    results=gives(CE=at_least("percent", step=A_HUNDREDTH, against=("0.35", "0.45"))),
    formula="C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15, percent by mass",
    source="formula of the International Institute of Welding, as quoted in a welding handbook (ESAB) and an "
    "engineers' forum (eng-tips.com)",
    sentence="Carbon equivalent {CE}; beside 0.35 %, above which the handbook (ESAB) expects trouble, and "
    "0.45 %, above which the forum lists serious difficulty and preheat of 100 to 400 °C.",
    example={"C": "0.20", "Mn": "0.80"},
    hazards=(
        "WARNING: Welded spring. Heat takes a leaf's strength or makes it brittle, and it can break on the "
        "road. Do not weld a spring or tack on it, and keep arc strikes and spatter off it.",
    ),
    remarks=(
        "Preheat hangs on thickness, hydrogen and heat input too: EN 1011-2 and AWS D1.1 have the tables.",
        "An element left out counts as 0: take the figures from the certificate of this steel.",
    ),
)
def carbon_equivalent(
    C: Number,  # noqa: N803
    Mn: Number,  # noqa: N803
    Cr: Number = NONE,  # noqa: N803
    Mo: Number = NONE,  # noqa: N803
    V: Number = NONE,  # noqa: N803
    Ni: Number = NONE,  # noqa: N803
    Cu: Number = NONE,  # noqa: N803
) -> CarbonEquivalent:
    """CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15, contents and result in percent by mass.

    Source: International Institute of Welding, as quoted; two published examples reproduce. Range of
    validity C 0.05 to 0.25 %, CE 0.30 to 0.70 % (from memory: EN 1011-2); outside it a remark. Exact for
    Fractions. Refuses contents below 0, carbon over 1 % and contents that add up to over 15 %.
    """
    contents = {"C": C, "Mn": Mn, "Cr": Cr, "Mo": Mo, "V": V, "Ni": Ni, "Cu": Cu}
    not_below_zero(**contents)
    between("C", C, 0, MOST_CARBON)
    total = sum(contents.values())
    if total > MOST_ALLOY:
        raise WorkingOutError(
            f"{max(contents, key=lambda element: contents[element])}: the contents add up to {plain(total)} %, "
            f"over {MOST_ALLOY} %; give those of a plain or low-alloy steel, in percent"
        )
    equivalent = C + Mn / 6 + (Cr + Mo + V) / 5 + (Ni + Cu) / 15
    return CarbonEquivalent(equivalent, _out_of_range(C, equivalent))


def _out_of_range(carbon: Number, equivalent: Number) -> tuple[str, ...]:
    inside = Fraction("0.05") <= carbon <= Fraction("0.25")
    inside = inside and Fraction("0.3") <= equivalent <= Fraction("0.7")
    if inside:
        return ()
    return (
        "Outside the range it was made for, C 0.05 to 0.25 % and CE 0.30 to 0.70 % (from memory: EN 1011-2).",
    )
