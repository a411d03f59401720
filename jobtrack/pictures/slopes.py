"""Slopes from the side: levels, wedges, the pinion and the spring pad. Angles are drawn true."""

from __future__ import annotations

import math

from jobtrack.figures.drawing import Arc, Circle, Dimension, Drawing, Label, Line, Point, Shape
from jobtrack.pictures.parts import Values, between, deg, mm, number, polygon, towards

FROM_THE_SIDE = "Seen from the left side, front of the vehicle to the left."
LENGTHS = "Slopes drawn true, lengths not to scale."


def forwards(start: Point, slope: float, length: float) -> Point:
    """The point ahead of another along a slope; the front is to the left, and higher on a positive slope."""
    return towards(start, 180 - slope, length)


def swing(centre: Point, radius: float, one: float, other: float) -> Arc:
    """The arc from one slope to another, ahead of the centre."""
    return Arc(centre, radius, 180 - one, one - other)


def relative_level(inputs: Values, values: Values) -> Drawing:
    """Both faces laid over each other at their rear edges, with the level dashed."""
    slopes = {"reference": number(inputs, "reference"), "face": number(inputs, "face")}
    shapes: list[Shape] = [Line((0, 0), (-100, 0), dashed=True)]
    upper = max(slopes, key=lambda name: slopes[name])
    for name, slope in slopes.items():
        end = forwards((0, 0), slope, 100)
        text = Label(
            between((0, 0), end, 0.75), f"{name} {deg(slope)}", "above" if name == upper else "below"
        )
        shapes += [Line((0, 0), end), text]
    shapes.append(swing((0, 0), 99, slopes["reference"], slopes["face"]))
    shapes.append(Label((-20, 0), f"difference {deg(number(values, 'difference'))}", "below"))
    return Drawing(
        tuple(shapes), f"Both faces from the side, rear edges laid together. {LENGTHS} Dashed: level."
    )


def level(inputs: Values, values: Values) -> Drawing:
    """A level standing on a face with a gap under one end."""
    length, gap, angle = number(inputs, "length"), number(inputs, "gap"), number(values, "angle")
    thick = 0.08 * length
    foot = towards((0, 0), -angle, length * math.cos(math.radians(angle)))
    shapes: tuple[Shape, ...] = (
        *polygon((0, 0), (length, 0), (length, thick), (0, thick)),
        Line((0, 0), towards((0, 0), -angle, 1.1 * length)),
        Line((length, 0), foot),
        Label(foot, f"gap {mm(gap)}", "below"),
        Label((length / 2, thick), f"level {mm(length)}", "above"),
        Label(between((0, 0), foot), f"face {deg(angle)}", "below"),
    )
    return Drawing(
        shapes, "From the side. Length, gap and slope to scale; thickness of the level not to scale."
    )


def wedge(inputs: Values, values: Values) -> Drawing:
    """A wedge whose thin end has no thickness."""
    return _wedge(number(inputs, "length"), 0, number(values, "rise"), number(inputs, "angle"))


def wedge_angle(inputs: Values, values: Values) -> Drawing:
    """A wedge with both its ends."""
    return _wedge(
        number(inputs, "length"), number(inputs, "thin"), number(inputs, "thick"), number(values, "angle")
    )


def _wedge(length: float, thin: float, thick: float, angle: float) -> Drawing:
    """The flat face below, the thick end to the left; to the right where the angle is negative."""
    high, low = (abs(thick), thin) if angle >= 0 else (thin, abs(thick))
    ends = [("left", (0.0, high / 2), high), ("right", (length, low / 2), low)]
    shapes: tuple[Shape, ...] = (
        *polygon((0, 0), (length, 0), (length, low), (0, high)),
        Dimension((0, -0.06 * length), (length, -0.06 * length), mm(length)),
        Label((length / 2, (high + low) / 2), deg(angle), "above"),
        *(Label(at, mm(end), "left" if side == "left" else "right") for side, at, end in ends if end),
    )
    return Drawing(shapes, "The wedge from the side, to scale.")


def pinion_to_pad(inputs: Values, values: Values) -> Drawing:
    """The gearbox ahead, the pinion parallel to it but for the allowance, and the spring pad on the axle."""
    gearbox, pad = number(inputs, "gearbox_slope"), number(inputs, "pad_slope")
    pinion, angle = number(values, "pinion_slope"), number(values, "pinion_to_pad")
    nose = forwards((0, 0), pinion, 70)
    box = forwards((-110, 18), gearbox, 60)
    seat = forwards((0, 14), pad, 25), forwards((0, 14), pad, -25)
    shapes: tuple[Shape, ...] = (
        Circle((0, 0), 10),
        Line((0, 0), nose),
        Line((0, 0), (-70, 0), dashed=True),
        Line((-110, 18), box),
        Line((-110, 18), (-170, 18), dashed=True),
        Line(*seat),
        Line(seat[0], towards((0, 0), 165, 10)),
        Line(seat[1], towards((0, 0), 15, 10)),
        Line((0, 14), (-25, 14), dashed=True),
        Label(between(box, (-110, 18)), f"gearbox {deg(gearbox)}", "above"),
        Label(nose, f"pinion {deg(pinion)}", "above"),
        Label(seat[0], f"pad {deg(pad)}", "above"),
        Label((0, -10), f"pinion to pad {deg(angle)}", "below"),
    )
    return Drawing(shapes, f"{FROM_THE_SIDE} {LENGTHS} Dashed: level.")
