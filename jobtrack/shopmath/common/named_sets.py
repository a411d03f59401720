"""Figures that sources disagree on: each belongs to a named, dated set, and the one used is named beside a result.

Joint angles have their own table (`driveline/tables.py`), tyre pressures too (`loads/tyre_tables.py`), least
fillets too (`welding/tables.py`). Here the figure itself is typed, or chosen by the template, and so chooses the set.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from jobtrack.shopmath.common.checks import plain
from jobtrack.shopmath.quantity import Number

NEAR = 1e-9
"""How far a typed figure may be off a listed one, as a share of it: the last digit of a float."""


@dataclass(frozen=True, slots=True)
class Listed:
    """A figure, or the two ends of a range, as one set lists it."""

    of: str
    """What it is for: the surface, the fastener, the shaft."""
    low: Fraction
    high: Fraction
    """The same as `low` where it is one figure."""
    name: str
    """The set's."""
    whose: str
    """The publisher, the date or that there is none, and whether it was read or remembered."""

    def holds(self, value: Number) -> bool:
        """Whether this is the figure, or the range around it."""
        return float(self.low) * (1 - NEAR) <= float(value) <= float(self.high) * (1 + NEAR)

    @property
    def single(self) -> bool:
        """One figure, no range."""
        return self.low == self.high


def _set(name: str, whose: str, figures: dict[str, str]) -> tuple[Listed, ...]:
    """The figures of one set by what they are for; a range is written low-high."""
    ends = {of: text.partition("-") for of, text in figures.items()}
    return tuple(
        Listed(of, Fraction(low), Fraction(high or low), name, whose) for of, (low, _, high) in ends.items()
    )


NUT_FACTORS: tuple[Listed, ...] = (
    *_set(
        "charts", "torque-tension charts of four suppliers, undated, read in copies",
        {"plain and dry": "0.20", "lubricated": "0.15", "zinc plated and dry": "0.17"},
    ),
    *_set(
        "Shigley-8-15", "Shigley table 8-15, edition not named, and a CAD program's help of 2018, read in copies",
        {
            "zinc plated": "0.20", "lubricated": "0.18", "black without plating": "0.30", "cadmium": "0.16",
            "anti-seize": "0.12", "surface not known": "0.20",
        },
    ),
    *_set(
        "Bickford-Nassar", "Bickford and Nassar as quoted on a forum (eng-tips.com, undated)",
        {"zinc plated and dry": "0.295"},
    ),
    *_set(
        "ranges", "a supplier's ranges (zipfastener.com, undated)",
        {
            "dry steel": "0.18-0.27", "machine oil": "0.10-0.26", "zinc on steel": "0.17-0.35",
            "cadmium": "0.15-0.19",
        },
    ),
    *_set(
        "bulletins", "suppliers' bulletins, from memory",
        {"zinc plated": "0.22", "lubricated": "0.16", "anti-seize": "0.13"},
    ),
)  # fmt: skip
"""Nut factors by surface. The zinc of `charts` is in two of the four, the oil in three. `surface not known` is
the program's alone, and its anti-seize one brand tested."""

CRITICAL_SHARES: tuple[Listed, ...] = (
    *_set(
        "ims",
        "a shaft maker's page (ims-ltd.co.uk, undated)",
        {"vehicles": "0.70", "industrial drives": "0.65"},
    ),
    *_set(
        "cardan", "a shaft maker's page (cardanindia.com, undated), printed as 'x 7.5'", {"shafts": "0.75"}
    ),
    *_set("DSAG-0200", "a driveline guide, from memory", {"at most": "0.75"}),
)
"""Share of the critical speed that a shaft stays below."""

AGAIN_AFTER: tuple[Listed, ...] = (
    *_set("lhrods", "a U-bolt maker's page (lhrods.com, undated)", {"U-bolts": "100"}),
    *_set("truckspring", "a spring shop's page (truckspring.com, 23 May 2016)", {"U-bolts": "500"}),
    *_set("truck-manual", "a truck maker's operator's manual, undated, read in a copy", {"U-bolts": "500"}),
    *_set("trade", "trade practice, from memory", {"U-bolts": "1000"}),
    *_set("TM-5-3820", "US Army manual TM 5-3820-256-24-3, undated, read in a copy", {"wheel nuts": "50"}),
    *_set(
        "wheel-pages", "a truck maker's manual and a parts maker's page (gtsparkplugs.com), undated",
        {"wheel nuts": "50-100"},
    ),
)  # fmt: skip
"""Miles after which fasteners are tightened again. One car maker's workshop text asks for none where all was
done as written. Others tighten U-bolts after the first day as well (a spring maker, ccjdigital.com)."""

MILE = Fraction("1.609344")
"""km."""


def named(what: str, value: Number, listed: Sequence[Listed]) -> str:
    """Whose figure a value is: the sets that list it, else the ranges that hold it, else that none does."""
    holding = [one for one in listed if one.holds(value)]
    found = [one for one in holding if one.single] or holding
    said = _by_set({one: _figure(one) for one in found})
    return f"{what} {plain(value)}: {said or 'in none of the sets; write down whose it is'}."


def again_after(fastener: str) -> str:
    """The distances after which a kind of fastener is tightened again, set by set."""
    found = [one for one in AGAIN_AFTER if one.of == fastener]
    said = _by_set({one: _distance(one) for one in found})
    return f"{fastener[0].upper()}{fastener[1:]} again after a distance on which sources disagree: {said}."


def _by_set(figures: dict[Listed, str]) -> str:
    """Each set once, with its figures and whose it is."""
    sets = dict.fromkeys((one.name, one.whose) for one in figures)
    return "; ".join(
        f"set {name}, {whose}: {', '.join(said for one, said in figures.items() if one.name == name)}"
        for name, whose in sets
    )


def _figure(one: Listed) -> str:
    return one.of if one.single else f"{one.of} {plain(one.low)} to {plain(one.high)}"


def _distance(one: Listed) -> str:
    miles = list(dict.fromkeys((one.low, one.high)))
    kilometres = " to ".join(f"{float(mile * MILE):.0f}" for mile in miles)
    return f"{' to '.join(plain(mile) for mile in miles)} miles ({kilometres} km)"
