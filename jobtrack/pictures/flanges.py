"""Flanges with their holes, seen on the face."""

from __future__ import annotations

import math
from itertools import product

from jobtrack.figures.drawing import Arc, Circle, Dimension, Drawing, Label, Line, Point, Shape
from jobtrack.pictures.parts import Values, apart, between, deg, is_given, mm, number, towards

UP = 90.0
"""Where angles begin on a face: an old hole, or the length axis of a rectangle, stands at the top."""


def holes_round(count: int, circle: float, turn: float = 0) -> list[Point]:
    """The centres of evenly spaced holes, the first turned clockwise from the top."""
    return [towards((0, 0), UP - turn - 360 * hole / count, circle / 2) for hole in range(count)]


def bolt_circle(inputs: Values, values: Values) -> Drawing:
    """The holes on their circle, and what was measured between two of them."""
    count, circle = int(number(inputs, "holes")), number(values, "diameter")
    hole = number(inputs, "hole") if is_given(inputs, "hole") else None
    centres = holes_round(count, circle)
    other = centres[int(number(inputs, "apart"))]
    one, to = _measured(str(inputs["measured"]), centres[0], other, hole or 0)
    shapes = (
        Circle((0, 0), circle / 2, dashed=True),
        *(shape for centre in centres for shape in _hole(centre, hole, circle)),
        Dimension(one, to, f"{mm(number(inputs, 'spacing'))} {inputs['measured']}"),
        Label(towards((0, 0), UP - 180 / count, circle / 2), f"circle {mm(circle)}", "right"),
    )
    return Drawing(shapes, _to_scale(f"{count} holes", hole))


def _hole(centre: Point, hole: float | None, circle: float) -> tuple[Shape, ...]:
    """A hole, or a cross where its size isn't known."""
    return _cross(centre, 0.03 * circle) if hole is None else (Circle(centre, hole / 2),)


def _cross(centre: Point, arm: float) -> tuple[Line, Line]:
    x, y = centre
    return Line((x - arm, y), (x + arm, y)), Line((x, y - arm), (x, y + arm))


def _to_scale(what: str, hole: float | None) -> str:
    if hole is None:
        return f"{what}, seen on the face, places to scale; crosses mark the centres."
    return f"{what} of {mm(hole)}, seen on the face, to scale."


def _measured(how: str, one: Point, other: Point, hole: float) -> tuple[Point, Point]:
    """From where to where the spacing was measured."""
    share = hole / 2 / apart(one, other)
    ends = {
        "inner edges": (share, 1 - share),
        "outer edges": (-share, 1 + share),
        "same edges": (share, 1 + share),
    }
    near, far = ends.get(how, (0.0, 1.0))
    return between(one, other, near), between(one, other, far)


def rectangular_pattern(inputs: Values, values: Values) -> Drawing:
    """Four holes in a rectangle, the circle through them, and their angle from the length axis."""
    length, width = number(inputs, "length"), number(inputs, "width")
    circle, half = number(values, "diameter"), number(values, "half_angle")
    corners = [(x * length / 2, y * width / 2) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    shapes = (
        Circle((0, 0), circle / 2, dashed=True),
        *(shape for corner in corners for shape in _hole(corner, None, circle)),
        Dimension(corners[0], corners[1], f"length {mm(length)}"),
        Dimension(corners[3], corners[0], f"width {mm(width)}"),
        Line((0, 0), (circle / 2, 0), dashed=True),
        Line((0, 0), corners[2]),
        Arc((0, 0), circle / 5, 0, half),
        Label(towards((0, 0), half / 2, circle / 5), deg(half), "right"),
        Label((0, circle / 2), f"circle {mm(circle)}", "above"),
    )
    return Drawing(shapes, _to_scale("4 holes", None))


def second_pattern(inputs: Values, values: Values) -> Drawing:
    """Old holes, new ones with a cross and their seats dashed, and the least metal between one of each."""
    first, second = number(inputs, "first_hole"), number(inputs, "second_hole")
    old, turn = old_holes(inputs), number(values, "rotation")
    new = holes_round(int(number(inputs, "second_holes")), number(inputs, "second_circle"), turn)
    one, other = min(product(old, new), key=lambda pair: round(apart(*pair), 6))
    whole, seat = apart(one, other), number(inputs, "seat") if is_given(inputs, "seat") else None
    metal = between(one, other, first / 2 / whole), between(other, one, second / 2 / whole)
    name = f"new {mm(second)}, seat {mm(seat)}" if seat else f"new {mm(second)}"
    shapes: tuple[Shape, ...] = (
        *(Circle(centre, first / 2) for centre in old),
        *(shape for centre in new for shape in _drilled(centre, second)),
        *((Circle(centre, seat / 2, dashed=True) for centre in new) if seat else ()),
        *_turned(turn, apart((0, 0), new[0])),
        Line(*metal),
        Label(between(*metal), f"metal {mm(number(values, 'ligament'))}", "right"),
        Label((one[0], one[1] + first / 2), f"old {mm(first)}", "above"),
        Label((other[0] + (seat or second) / 2, other[1]), name, "right"),
    )
    said = " Dashed: each nut's seat." if seat else ""
    return Drawing(shapes, f"Seen on the face, to scale. New holes with a cross, old holes without.{said}")


def _drilled(centre: Point, hole: float) -> tuple[Shape, ...]:
    """A hole with its centre marked."""
    return Circle(centre, hole / 2), *_cross(centre, 0.25 * hole)


def _turned(turn: float, radius: float) -> tuple[Shape, ...]:
    """The turn from the top to the first new hole."""
    ray = towards((0, 0), UP - turn, radius / 2)
    return (
        Line((0, 0), (0, radius / 2), dashed=True),
        Line((0, 0), ray),
        Arc((0, 0), radius / 3, UP, -turn),
        Label((0, 0), f"turn {deg(turn)}", "below"),
    )


def old_holes(inputs: Values) -> list[Point]:
    """The centres of the old holes: the first at the top, or a rectangle with its length upright."""
    if not is_given(inputs, "first_length"):
        return holes_round(int(number(inputs, "first_holes")), number(inputs, "first_circle"))
    length, width = number(inputs, "first_length"), number(inputs, "first_width")
    return [(x * width / 2, y * length / 2) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]


def edge_distance(inputs: Values, values: Values) -> Drawing:
    """The part of a flange round one hole, with the metal outside it."""
    flange, circle, hole = (number(inputs, key) for key in ("flange", "circle", "hole"))
    centre, edge = (circle / 2, 0.0), (flange / 2, 0.0)
    angle = min(90.0, max(25.0, math.degrees(1.5 * hole / circle)))
    below = -0.75 * hole
    shapes = (
        Arc((0, 0), flange / 2, -angle, 2 * angle),
        Arc((0, 0), circle / 2, -angle, 2 * angle, dashed=True),
        Circle(centre, hole / 2),
        Line(centre, (centre[0], below), dashed=True),
        Line(edge, (edge[0], below), dashed=True),
        Dimension((centre[0], below), (edge[0], below), f"to centre {mm(number(values, 'to_centre'))}"),
        Dimension((centre[0] + hole / 2, 0), edge, f"to hole {mm(number(values, 'to_hole'))}"),
        Label((centre[0], hole / 2), f"hole {mm(hole)}", "above"),
        Label(towards((0, 0), angle, flange / 2), f"flange {mm(flange)}", "right"),
        Label(towards((0, 0), angle, circle / 2), f"circle {mm(circle)}", "left"),
    )
    return Drawing(shapes, "Part of the flange with one hole, seen on the face, to scale.")
