"""Vehicles and frames from above: how square they stand."""

from __future__ import annotations

import math

from jobtrack.figures.drawing import Arrow, Dimension, Drawing, Label, Line, Shape
from jobtrack.pictures.parts import Values, apart, between, deg, mm, number, polygon, towards


def thrust_angle(inputs: Values, values: Values) -> Drawing:
    """Front axle, rear axle, the line of the vehicle, and the way the rear axle points."""
    left, right, track = (number(inputs, key) for key in ("wheelbase_left", "wheelbase_right", "track"))
    half, angle = track / 2, number(values, "angle")
    rear_left, rear_right = (-half, -left), (half, -right)
    middle = between(rear_left, rear_right)
    shapes = (
        Line((-half, 0), (half, 0)),
        Line(rear_left, rear_right),
        Line((0, 0), middle, dashed=True),
        Arrow(middle, towards(middle, 90 + angle, 0.7 * max(left, right))),
        Dimension((-half, 0), rear_left, f"left {mm(left)}"),
        Dimension((half, 0), rear_right, f"right {mm(right)}"),
        Label((0, -max(left, right)), f"track {mm(track)}", "below"),
        Label((0, 0), f"thrust {deg(angle)}", "above"),
    )
    return Drawing(
        shapes, "Seen from above, front of the vehicle up, to scale. Dashed: the line of the vehicle."
    )


def square_by_diagonals(inputs: Values, values: Values) -> Drawing:
    """The frame as it is skewed, lying on its length, with both diagonals."""
    length, width, skew = number(inputs, "length"), number(inputs, "width"), number(values, "skew")
    lean = math.sin(math.radians(skew)) * width, math.cos(math.radians(skew)) * width
    a, b, c, d = (0.0, 0.0), (length, 0.0), (length + lean[0], lean[1]), lean
    shapes: tuple[Shape, ...] = (
        *polygon(a, b, c, d),
        Line(a, c),
        Line(b, d),
        Label(between(a, b), f"length {mm(length)}", "below"),
        Label(between(b, c), f"width {mm(width)}", "right"),
        Label(between(a, c, 0.75), f"first {mm(apart(a, c))}", "below"),
        Label(between(b, d, 0.75), f"second {mm(apart(b, d))}", "below"),
    )
    return Drawing(shapes, f"Seen from above, lying on its length, to scale. Skew {deg(skew)}.")
