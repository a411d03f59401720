"""Vehicles from the side with what weighs on their axles, and the stack inside a U-bolt."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from jobtrack.figures.drawing import Arrow, Circle, Dimension, Drawing, Label, Line, Shape, Side
from jobtrack.pictures.parts import Values, figure, mm, number, numbers, rectangle
from jobtrack.shopmath.catalogue import Number

SIDE = "Seen from the left side, front of the vehicle to the left. Distances to scale, wheels not to scale."

WHEEL = 0.1
"""Radius of a wheel as drawn, of the wheelbase."""


def kg(value: float) -> str:
    """A mass."""
    return figure(value, "kg")


def axle_loads(inputs: Values, values: Values) -> Drawing:
    """Each mass where it sits, and what the axles carry then."""
    wheelbase = number(inputs, "wheelbase")
    items = cast("Sequence[tuple[Number, Number]]", inputs["items"])
    shapes = (
        *_on_wheels(wheelbase, number(values, "front"), number(values, "rear")),
        _bed(wheelbase, *(float(at) for _, at in items)),
        *(shape for mass, at in items for shape in _load(float(mass), float(at), wheelbase)),
    )
    return Drawing(shapes, f"{SIDE} Up: taken off.")


def _on_wheels(wheelbase: float, front: float, rear: float) -> tuple[Shape, ...]:
    """Ground, both wheels with their loads, and the wheelbase."""
    radius = WHEEL * wheelbase
    return (
        Line((-2 * radius, 0), (wheelbase + 2 * radius, 0)),
        Circle((0, radius), radius),
        Circle((wheelbase, radius), radius),
        Label((0, 0), f"front {kg(front)}", "below"),
        Label((wheelbase, 0), f"rear {kg(rear)}", "below"),
        Dimension((0, radius), (wheelbase, radius), f"wheelbase {mm(wheelbase)}"),
    )


def _bed(wheelbase: float, *places: float) -> Line:
    """What the loads stand on, as far as they reach."""
    high, over = 2 * WHEEL * wheelbase, WHEEL * wheelbase
    return Line((min((0.0, *places)) - over, high), (max((wheelbase, *places)) + over, high))


def _load(mass: float, at: float, wheelbase: float) -> tuple[Shape, ...]:
    """A mass that presses down, or one taken off, drawn upwards."""
    low, high = 2 * WHEEL * wheelbase, 3.5 * WHEEL * wheelbase
    arrow = Arrow((at, high), (at, low)) if mass >= 0 else Arrow((at, low), (at, high))
    return arrow, Label((at, high), f"{kg(mass)} @ {mm(at)}", "above")


def weigh_ticket(inputs: Values, values: Values) -> Drawing:
    """Both axle loads, and where the centre of gravity lies between them."""
    wheelbase, centre = number(inputs, "wheelbase"), number(values, "centre_behind_front")
    front, rear = number(inputs, "front"), number(inputs, "rear")
    low, high = 2 * WHEEL * wheelbase, 3.5 * WHEEL * wheelbase
    shapes = (
        *_on_wheels(wheelbase, front, rear),
        _bed(wheelbase),
        Line((0, low), (0, high), dashed=True),
        Arrow((centre, high), (centre, low)),
        Dimension((0, high), (centre, high), mm(centre)),
        Label((centre, high), f"centre of gravity, {kg(front + rear)}", "above"),
    )
    return Drawing(shapes, SIDE)


def u_bolt_leg(inputs: Values, values: Values) -> Drawing:
    """Everything on the leg, lying on its side with the crown to the left."""
    parts = [(mm(thick), thick) for thick in numbers(inputs, "stack")]
    parts += [
        (f"{name} {mm(number(inputs, name))}", number(inputs, name))
        for name in ("washer", "nut", "projection")
    ]
    leg = number(values, "leg")
    high = 0.14 * leg
    shapes: list[Shape] = [
        Line((0, high), (0, -high)),
        Line((0, high), (leg, high)),
        Line((0, -high), (leg, -high)),
    ]
    at = 0.0
    for name, thick in parts:
        shapes += _part(name, at, thick, high)
        at += thick
    shapes.append(Dimension((0, -2 * high), (leg, -2 * high), f"leg {mm(leg)}"))
    return Drawing(
        tuple(shapes),
        "U-bolt lying on its side, crown to the left. Lengths along the leg to scale, width not to scale.",
    )


def _part(name: str, at: float, thick: float, high: float) -> list[Shape]:
    """One thickness between the legs, the thin washer named below; the thread beyond the nut is left open."""
    box: tuple[Shape, ...] = (
        () if name.startswith("projection") else rectangle(at, -0.7 * high, at + thick, 0.7 * high)
    )
    side: Side = "below" if name.startswith(("projection", "washer")) else "above"
    return [*box, Label((at + thick / 2, high if side == "above" else -high), name, side)]
