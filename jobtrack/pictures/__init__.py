"""Pictures of workings-out: a drawing that follows from a working-out's inputs and results."""

from __future__ import annotations

from jobtrack.figures.cells import in_cells
from jobtrack.figures.drawing import Drawing
from jobtrack.pictures import axles, drivelines, flanges, frames, loads, slopes
from jobtrack.pictures.parts import Picture, Values, said_in
from jobtrack.shopmath.catalogue import Outcome
from jobtrack.units.chosen import METRIC_FIRST, Chosen

__all__ = ["PICTURES", "picture_of", "picture_rows"]

WIDEST, HIGHEST = 80, 20
"""Columns and rows of a picture in a terminal."""

PICTURES: dict[str, Picture] = {
    "perch-shift": axles.perch_shift,
    "perch-shift-from-faces": axles.perch_shift_from_faces,
    "centre-spacing": axles.centre_spacing,
    "level": slopes.level,
    "relative-level": slopes.relative_level,
    "wedge": slopes.wedge,
    "wedge-angle": slopes.wedge_angle,
    "pinion-to-pad": slopes.pinion_to_pad,
    "thrust-angle": frames.thrust_angle,
    "square-by-diagonals": frames.square_by_diagonals,
    "u-bolt-leg": loads.u_bolt_leg,
    "joint-angle": drivelines.joint_angle,
    "joint-pair": drivelines.joint_pair,
    "shaft-length": drivelines.shaft_length,
    "bolt-circle": flanges.bolt_circle,
    "edge-distance": flanges.edge_distance,
    "rectangular-pattern": flanges.rectangular_pattern,
    "second-pattern": flanges.second_pattern,
    "axle-loads": loads.axle_loads,
    "weigh-ticket": loads.weigh_ticket,
}
"""By the name of the working-out."""


def picture_of(name: str, inputs: Values, values: Values, shown: Chosen = METRIC_FIRST) -> Drawing | None:
    """The picture of a working-out's inputs and results, in the catalogue's units; None where it has none.

    Its figures are said in the unit system that is shown.
    """
    picture = PICTURES.get(name)
    if picture is None:
        return None
    with said_in(shown):
        return picture(inputs, values)


def picture_rows(
    name: str, outcome: Outcome, columns: int, *, plain: bool = False, shown: Chosen = METRIC_FIRST
) -> list[str]:
    """The picture of what was worked out, in terminal cells under an empty row; nothing where it has none."""
    drawing = picture_of(name, outcome.inputs, outcome.values, shown)
    return [] if drawing is None else ["", *in_cells(drawing, min(columns, WIDEST), HIGHEST, plain=plain)]
