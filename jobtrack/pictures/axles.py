"""Axles from behind: where the spring perches are and where they go."""

from __future__ import annotations

import math

from jobtrack.figures.drawing import Arrow, Circle, Dimension, Drawing, Label, Line, Shape
from jobtrack.pictures.parts import Values, is_given, mm, number, rectangle
from jobtrack.pictures.tolerance import Reading
from jobtrack.pictures.vials import small_vial

FROM_ABOVE = "Seen from above, front of the vehicle up."
FROM_BEHIND = "Seen from behind. Dashed: a perch as it is; above it on the tube: where it goes."
TUBE = "Places to scale; thickness of the tube, perches and casting not."

HALF_TUBE = 0.05
"""Of the length shown."""
CASTING = 1.9
"""The casting's radius in halves of the tube."""
SEAT, FACE, FOOT = 1.7, 2.7, 3.3
"""In halves of the tube: how high a seat lies, how far up and down a wheel face reaches, and how far down a
perch's place as it is, below what is measured there."""
LEVEL, GLASS = 4.4, 2.6
"""In the same: how high a level is drawn, and half of its length."""
LEVELS = "Levels above, not to scale: lines at the limits, bubble to the right: more."


def perch_shift(inputs: Values, values: Values) -> Drawing:
    """Both perches as they are and as wanted, each the same way from the middle."""
    now, wanted = number(inputs, "spacing_now"), number(inputs, "spacing_wanted")
    length = _length(now, wanted)
    half = length * HALF_TUBE
    shapes = (
        *_housing(length / 2, half),
        *_shift(-now / 2, number(values, "left_inboard"), 1, half),
        *_shift(now / 2, number(values, "right_inboard"), -1, half),
        Dimension((-wanted / 2, 2.5 * half), (wanted / 2, 2.5 * half), f"wanted {mm(wanted)}"),
        Dimension((-now / 2, -2.5 * half), (now / 2, -2.5 * half), f"now {mm(now)}"),
        Label((-length / 2, 0), "LEFT", "right"),
        Label((length / 2, 0), "RIGHT", "left"),
    )
    return Drawing(shapes, f"{FROM_BEHIND} {TUBE}")


def _housing(end: float, half: float) -> tuple[Shape, ...]:
    """The tubes, and the casting between them."""
    radius = CASTING * half
    inner = math.sqrt(radius**2 - half**2)
    tubes = ((side * inner, side * end, y) for side in (-1, 1) for y in (-half, half))
    return (Circle((0, 0), radius), *(Line((start, y), (out, y)) for start, out, y in tubes))


def _shift(now: float, inboard: float, inwards: int, half: float) -> tuple[Shape, ...]:
    """One perch's centre line now (dashed, below) and wanted (above, with its seat), and the way between them."""
    wanted = now + inwards * inboard
    name = Label((now, -FOOT * half), _moved(inboard, inwards), "below")
    lines = (
        Line((now, 0), (now, -FOOT * half), dashed=True),
        Line((wanted, 0), (wanted, 2.5 * half)),
        *rectangle(wanted - 0.8 * half, half, wanted + 0.8 * half, SEAT * half),
    )
    return (*lines, *((Arrow((now, 0), (wanted, 0)),) if inboard else ()), name)


def _moved(inboard: float, inwards: int) -> str:
    if not inboard:
        return "stays"
    way = f"{mm(abs(inboard))} {'inboard' if inboard > 0 else 'outboard'}"
    return f"→ {way}" if inwards * inboard > 0 else f"← {way}"


def perch_shift_from_faces(inputs: Values, values: Values) -> Drawing:
    """Wheel faces, both perches as they are and as wanted, and what is measured from each face."""
    width, spacing = number(inputs, "face_distance"), number(inputs, "spacing_wanted")
    face = number(values, "face_to_perch")
    left, right = number(inputs, "left_face_to_perch"), number(inputs, "right_face_to_perch")
    end, half = width / 2, width * HALF_TUBE
    above, below = 2.5 * half, -2.5 * half
    shapes = (
        *_housing(end, half),
        Line((-end, FACE * half), (-end, -FACE * half)),
        Line((end, FACE * half), (end, -FACE * half)),
        *_shift(-end + left, number(values, "left_inboard"), 1, half),
        *_shift(end - right, number(values, "right_inboard"), -1, half),
        Dimension((-end, above), (-end + face, above), mm(face)),
        Dimension((-end + face, above), (end - face, above), f"wanted {mm(spacing)}"),
        Dimension((end - face, above), (end, above), mm(face)),
        Dimension((-end, below), (-end + left, below), mm(left)),
        Dimension((-end + left, below), (end - right, below), f"now {mm(number(values, 'spacing_now'))}"),
        Dimension((end - right, below), (end, below), mm(right)),
        Label((-end, 0), "LEFT", "right"),
        Label((end, 0), "RIGHT", "left"),
    )
    return Drawing(shapes, f"{FROM_BEHIND} Ends: the wheel faces. {TUBE}")


def with_levels(drawing: Drawing, inputs: Values, left: Reading | None, right: Reading | None) -> Drawing:
    """Either of these two drawings with the level of each seat above it, where it is measured."""
    given = is_given(inputs, "face_distance")
    wanted = number(inputs, "spacing_wanted")
    length = number(inputs, "face_distance") if given else _length(number(inputs, "spacing_now"), wanted)
    half = length * HALF_TUBE
    levels = [
        shape
        for side, reading in ((-1, left), (1, right))
        if reading is not None
        for shape in small_vial(reading, (side * wanted / 2, LEVEL * half), GLASS * half)
    ]
    return Drawing((*drawing.shapes, *levels), f"{drawing.caption} {LEVELS}") if levels else drawing


def _length(now: float, wanted: float) -> float:
    """How much of an axle is shown whose ends aren't known."""
    return 1.4 * max(now, wanted)


def centre_spacing(inputs: Values, values: Values) -> Drawing:
    """Two round pins, the gap between them, and the distance of their centres."""
    gap, spacing = number(inputs, "inner_gap"), number(values, "spacing")
    left, right = number(inputs, "left_pin"), number(inputs, "right_pin")
    at, high = (-spacing / 2, spacing / 2), max(0.12 * spacing, left, right)
    inner = (at[0] + left / 2, at[0] + left / 2 + gap)
    shapes: tuple[Shape, ...] = (
        Circle((at[0], 0), left / 2),
        Circle((at[1], 0), right / 2),
        *(Line((x, 0), (x, high), dashed=True) for x in at),
        *(Line((x, 0), (x, -high), dashed=True) for x in inner),
        Dimension((at[0], high), (at[1], high), f"centres {mm(spacing)}"),
        Dimension((inner[0], -high), (inner[1], -high), f"gap {mm(gap)}"),
        Label((at[0], 0), f"LEFT pin {mm(left)}", "right"),
        Label((at[1], 0), f"RIGHT pin {mm(right)}", "left"),
    )
    return Drawing(shapes, f"{FROM_ABOVE} To scale.")
