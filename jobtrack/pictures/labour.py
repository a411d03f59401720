"""Labour hours as a ruled scale with three marks: the template's estimate, the shop's figure, and this job."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.figures.drawing import Arrow, Drawing, Label, Line, Shape
from jobtrack.figures.ruled import step
from jobtrack.pictures.tolerance import Said

LONG = 100.0
"""The scale, in the drawing's own unit."""
PARTS = 8
"""Stretches between ticks at most."""
TICK, LOWEST, HIGHER = 1.5, 7.0, 6.0
"""Length of a tick; how high the first mark begins, and by how much each next one is higher."""
RULED = "Labour hours, ruled from 0."
NO_JOB, NO_SHOP, NO_TEMPLATE = (
    "No time is recorded in this job.",
    "The shop has no figure of its own yet.",
    "The template estimates no times.",
)


def labour_scale(template: Said | None, shop: Said | None, job: Said | None) -> Drawing:
    """The scale with a mark for each figure that there is, in hours; what there is none of is said in the caption."""
    lacking = [said for said, one in ((NO_TEMPLATE, template), (NO_SHOP, shop), (NO_JOB, job)) if one is None]
    marks = [(name, one) for name, one in (("this job", job), ("template", template), ("shop", shop)) if one]
    longest = max((one.worth for _, one in marks), default=0.0)
    shapes = (*_ruled(longest), *_marks(marks, longest)) if longest > 0 else ()
    return Drawing(tuple(shapes), " ".join((RULED, *lacking)))


def _ruled(longest: float) -> Iterator[Shape]:
    """The line, and a tick with its figure at round numbers of hours."""
    yield Line((0, 0), (LONG, 0))
    apart = step(longest, PARTS)
    for number in range(int(longest / apart + 1e-9) + 1):
        x = number * apart / longest * LONG
        yield Line((x, 0), (x, -TICK))
        yield Label((x, -TICK), f"{number * apart:g}", "below")


def _marks(marks: list[tuple[str, Said]], longest: float) -> Iterator[Shape]:
    """An arrow down to the scale for each, the next one higher, so that two at one place are both seen."""
    for number, (name, one) in enumerate(marks):
        x, high = one.worth / longest * LONG, LOWEST + number * HIGHER
        yield Arrow((x, high), (x, 0))
        yield Label((x, high), f"{name} {one.words}", "above")
