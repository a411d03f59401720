"""What lies outside what is usual: inputs put as a question, results said as they are; never a refusal."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

from jobtrack.shopmath.common.checks import plain
from jobtrack.shopmath.plausible_tables import Plausible
from jobtrack.shopmath.quantity import Number, Quantity, Value

_INCH, _POUND, _GRAVITY = Fraction("25.4"), Fraction("0.45359237"), Fraction("9.80665")
_FOOT_POUND = _POUND * _GRAVITY * 12 * _INCH / 1000
_PSI = _POUND * _GRAVITY / _INCH**2 * 1000
_MISTAKEN: dict[str, tuple[tuple[str, Fraction | int], ...]] = {
    "mm": (("in", _INCH), ("m", 1000)),
    "cm": (("in", _INCH / 10), ("m", 100), ("mm", Fraction(1, 10))),
    "kg": (("lb", _POUND), ("t", 1000)),
    "N": (("kN", 1000), ("lbf", _POUND * _GRAVITY), ("kgf", _GRAVITY)),
    "N*m": (("lbf ft", _FOOT_POUND), ("lbf in", _FOOT_POUND / 12), ("kgf m", _GRAVITY)),
    "kPa": (("psi", _PSI), ("bar", 100), ("MPa", 1000)),
    "km/h": (("mph", Fraction("1.609344")),),
    "m/min": (("ft/min", Fraction("0.3048")), ("m/s", 60)),
    "mm/min": (("in/min", _INCH), ("mm/s", 60)),
    "h": (("min", Fraction(1, 60)),),
    "s": (("min", 60),),
}
"""By unit of the catalogue: the units typed or forgotten beside it, and what one of them is in it."""
_PLACES = (Fraction(10), Fraction(1, 10), Fraction(100), Fraction(1, 100), Fraction(1000), Fraction(1, 1000))
"""A point one, two or three places off."""
_HUNDREDTHS = (Fraction(100), Fraction(1, 100))
"""A share typed as a fraction where per cent is wanted, or the other way round."""
_SHARES = ("percent", "ratio")
_SIGNS = {"percent": "%", "ratio": "", "count": "", "N*m": "N·m", "rad/s^2": "rad/s²"}
_ROUNDING = 1e-9
"""A result this near an end is on it: floats may end a last bit beside what was meant."""
_FIGURES = (4, 6, 8, 10, 12)
"""As few as tell a result from the end that it lies beyond."""


def remarks_on(inputs: tuple[Quantity, ...], given: Mapping[str, Value]) -> tuple[str, ...]:
    """A question for each given input that lies outside what is usual; one for a whole list."""
    asked = (question(each, given[each.key]) for each in inputs if each.key in given)
    return tuple(one for one in asked if one)


def question(quantity: Quantity, value: Value) -> str | None:
    """Ask about a value outside what is usual, with what may have been meant; None where nothing is odd."""
    usual = quantity.plausible
    unit = quantity.items.unit if quantity.items else quantity.unit
    for one in value if isinstance(value, tuple) else (value,):
        if usual is not None and _is_number(one) and not usual.low <= one <= usual.high:
            return (
                f"{quantity.key} {_shown(one, unit)}: {_meant(one, unit, usual)} "
                f"Usual is {_shown(usual.low, '')} to {_shown(usual.high, unit)} ({usual.source})."
            )
    return None


def remarks_on_results(results: tuple[Quantity, ...], values: Mapping[str, Value]) -> tuple[str, ...]:
    """One line for each figure outside what is usual; results that are one figure share theirs."""
    keys: dict[str, list[str]] = {}
    for each in results:
        if text := beyond_usual(each, values.get(each.key)):
            keys.setdefault(text, []).append(each.key.replace("_", " "))
    return tuple(f"{' and '.join(same)}: {text}" for text, same in keys.items())


def beyond_usual(result: Quantity, value: Value) -> str | None:
    """The first figure of a result that lies outside what is usual, the range and whose it is; None if none does."""
    usual = result.plausible
    unit = result.items.unit if result.items else result.unit
    for one in value if isinstance(value, tuple) else (value,):
        if usual is None or not isinstance(one, int | float | Fraction) or _within(one, usual):
            continue
        end, side = (usual.low, "below") if one < usual.low else (usual.high, "above")
        return (
            f"{_told_from(one, end, unit)} lies {side} what is usual, {_shown(usual.low, '')} to "
            f"{_shown(usual.high, unit)} ({usual.source}): look at what went in."
        )
    return None


def _within(value: Number, usual: Plausible) -> bool:
    on_an_end = any(
        math.isclose(value, end, rel_tol=_ROUNDING, abs_tol=_ROUNDING) for end in (usual.low, usual.high)
    )
    return on_an_end or usual.low <= value <= usual.high


def _told_from(value: Number, end: Number, unit: str) -> str:
    told = (_shown(value, unit, figures) for figures in _FIGURES)
    return next((text for text in told if text != _shown(end, unit)), _shown(value, unit))


def _is_number(value: Value) -> bool:
    return isinstance(value, int | float | Fraction) and not isinstance(value, bool)


def _meant(value: Number, unit: str, usual: Plausible) -> str:
    others = [(value * one, f"{_shown(value, other)}") for other, one in _MISTAKEN.get(unit, ())]
    # A unit typed beside a number of the catalogue's own: then the number was a round one.
    back = [
        (value / one, _shown(value / one, unit)) for _, one in _MISTAKEN.get(unit, ()) if _round(value / one)
    ]
    places = (*_HUNDREDTHS, *_PLACES) if unit in _SHARES else _PLACES
    points = [(value * point, _shown(value * point, unit)) for point in places]
    turned = [(-value, _shown(-value, unit))] if usual.low >= 0 else []
    for meant, shown in (*others, *back, *points, *turned):
        if usual.low <= meant <= usual.high:
            return f"was {shown} meant?"
    return "is that meant?"


def _round(value: Number) -> bool:
    return Fraction(f"{float(value):.4g}") == value


def _shown(value: Number, unit: str, figures: int = 4) -> str:
    sign = _SIGNS.get(unit, unit)
    return f"{plain(float(f'{float(value):.{figures}g}'))}{f' {sign}' if sign else ''}"
