"""Drivelines from the side, and from above where they go sideways. Angles are drawn true."""

from __future__ import annotations

from jobtrack.figures.drawing import Arc, Circle, Dimension, Drawing, Label, Line, Point, Shape, corners
from jobtrack.pictures.parts import Values, between, deg, mm, number
from jobtrack.pictures.slopes import FROM_THE_SIDE, LENGTHS, forwards, swing


def joint_angle(inputs: Values, values: Values) -> Drawing:
    """Both parts at their joint from the side; below it from above, where one of them goes sideways."""
    side = number(inputs, "side_ahead"), number(inputs, "side_behind")
    plan = number(inputs, "plan_ahead"), number(inputs, "plan_behind")
    shapes = _bend((0, 0), *side, "from the side: ")
    if any(plan):
        lowest = min(point[1] for shape in shapes for point in corners(shape))
        highest = max(point[1] for shape in _bend((0, 0), *plan, "") for point in corners(shape))
        shapes = (*shapes, *_bend((0, lowest - highest - 10), *plan, "from above: "))
    angle = Label((0, 0), f"joint {deg(number(values, 'angle'))}", "below")
    return Drawing((angle, *shapes), f"Front of the vehicle to the left. {LENGTHS} Dashed: straight on.")


def _bend(joint: Point, ahead: float, behind: float, view: str) -> tuple[Shape, ...]:
    """Two lines that meet; the one behind goes on dashed, so that the angle shows."""
    front, rear, on = forwards(joint, ahead, 60), forwards(joint, behind, -60), forwards(joint, behind, 60)
    return (
        Line(joint, front),
        Line(joint, rear),
        Line(joint, on, dashed=True),
        Circle(joint, 1.5),
        swing(joint, 59, behind, ahead),
        Label(_upper(joint, front, on), f"{view}ahead {deg(ahead)}", "above"),
        Label(between(joint, rear), f"behind {deg(behind)}", "above"),
    )


def _upper(joint: Point, one: Point, other: Point) -> Point:
    """Half way to the higher of two ends."""
    return between(joint, max(one, other, key=lambda end: end[1]))


def joint_pair(inputs: Values, values: Values) -> Drawing:
    """The part ahead, the shaft and the part behind, and the angle at each joint."""
    ahead, shaft, behind = (number(inputs, key) for key in ("ahead_slope", "shaft_slope", "behind_slope"))
    rear: Point = (0, 0)
    front = forwards(rear, shaft, 100)
    ends = forwards(front, ahead, 40), forwards(rear, behind, -40)
    on = forwards(front, shaft, 40), forwards(rear, shaft, -40)
    shapes: tuple[Shape, ...] = (
        Line(ends[0], front),
        Line(front, rear),
        Line(rear, ends[1]),
        *(Line(joint, end, dashed=True) for joint, end in zip((front, rear), on, strict=True)),
        swing(front, 38, shaft, ahead),
        Arc(rear, 38, -shaft, shaft - behind),
        Circle(front, 2),
        Circle(rear, 2),
        Label(_upper(front, ends[0], on[0]), f"ahead {deg(ahead)}", "above"),
        Label(between(front, rear), f"shaft {deg(shaft)}", "above"),
        Label(_upper(rear, ends[1], on[1]), f"behind {deg(behind)}", "above"),
        Label(front, f"first joint {deg(number(values, 'first'))}", "below"),
        Label(rear, f"second joint {deg(number(values, 'second'))}", "below"),
    )
    return Drawing(shapes, f"{FROM_THE_SIDE} {LENGTHS} Dashed: the shaft straight on.")


def shaft_length(inputs: Values, values: Values) -> Drawing:
    """Both joint centres from the side; below it from above, where the shaft goes sideways."""
    along, vertical, across = (number(inputs, key) for key in ("along", "vertical", "across"))
    front: Point = (0, vertical)
    rear: Point = (along, 0)
    corner, low = (0.0, 0.0), min(0.0, vertical) - 0.08 * along
    shapes: tuple[Shape, ...] = (
        Line(front, rear),
        Line(front, (0, low), dashed=True),
        Line(rear, (along, low), dashed=True),
        Line(corner, rear, dashed=True),
        Dimension((0, low), (along, low), f"along {mm(along)}"),
        Circle(front, 0.012 * along),
        Circle(rear, 0.012 * along),
        Label(between(corner, front), f"vertical {mm(vertical)}", "left"),
        Label(between(front, rear), f"between centres {mm(number(values, 'length'))}", "above"),
        Label(rear, f"slope {deg(number(values, 'slope'))}", "above"),
    )
    if across:
        shapes = (*shapes, *_sideways(along, across, low - 0.12 * along))
    return Drawing(shapes, f"{FROM_THE_SIDE} To scale.")


def _sideways(along: float, across: float, top: float) -> tuple[Shape, ...]:
    """The shaft from above."""
    front, rear = (0.0, top), (along, top - abs(across))
    return (
        Line(front, rear),
        Line((0, rear[1]), rear, dashed=True),
        Line(front, (0, rear[1]), dashed=True),
        Circle(front, 0.012 * along),
        Circle(rear, 0.012 * along),
        Label((0, (top + rear[1]) / 2), f"across {mm(across)}", "left"),
        Label(between(front, rear), "from above", "above"),
    )
