"""What another axle does to ride height and track. Lengths in mm."""

from __future__ import annotations

from typing import Literal, NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, gives, may_take, takes, working_out
from jobtrack.shopmath.common.checks import above_zero, plain
from jobtrack.shopmath.fit.perches import GEOMETRY

Springs = Literal["over the axle", "under the axle"]


class RideHeightChange(NamedTuple):
    """How much higher the body stands at this axle, mm."""

    body_rise: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "ride-height-change",
    topic="fit",
    inputs=[
        takes("old_pad_above_centre", "mm"),
        takes("new_pad_above_centre", "mm"),
        may_take("old_pack", "mm"),
        may_take("new_pack", "mm"),
        takes("springs", "over the axle|under the axle"),
    ],
    results=gives(body_rise="mm"),
    formula="over the axle: new pad minus old pad, plus new pack minus old pack; "
    "under the axle: old pad minus new pad, both below the tube's centre, and the packs don't count",
    source=GEOMETRY,
    sentence="Pad {old_pad_above_centre} to {new_pad_above_centre}, springs {springs}: "
    "body {body_rise} higher at this axle.",
    example={"old_pad_above_centre": "40", "new_pad_above_centre": "46", "springs": "over the axle"},
    hazards=(
        "CAUTION: Changed ride height. Brake hose, brake valve link, shaft and damper no longer stand as "
        "they did. Measure each again at the new height.",
    ),
    remarks=(
        "With the same tyres and the same load on the springs. Negative is lower.",
        "Springs under the axle: pads are measured downwards from the tube's centre.",
    ),
    together=(("old_pack", "new_pack"),),
)
def ride_height_change(
    old_pad_above_centre: Number,
    new_pad_above_centre: Number,
    springs: Springs,
    old_pack: Number | None = None,
    new_pack: Number | None = None,
) -> RideHeightChange:
    """Rise of the body at the axle, mm, by the pad's distance from the tube's centre and the pack's height.

    Over the axle: (new pad - old pad) + (new pack - old pack). Under the axle: -(new pad - old pad), and the
    packs don't count, since the main leaf lies against the pad. Exact for Fractions. Plane geometry; no
    source publishes figures. No second way: a sum has one way only; the tests stack tube, pad, pack and leaf.
    Refuses distances and packs not above 0, and one pack without the other.
    """
    above_zero(old_pad_above_centre=old_pad_above_centre, new_pad_above_centre=new_pad_above_centre)
    pads = new_pad_above_centre - old_pad_above_centre
    if old_pack is None or new_pack is None:
        return RideHeightChange(pads if springs == "over the axle" else -pads)
    above_zero(old_pack=old_pack, new_pack=new_pack)
    if springs == "over the axle":
        return RideHeightChange(pads + new_pack - old_pack)
    return RideHeightChange(-pads, ("Springs under the axle: the heights of the packs were not used.",))


class TrackChange(NamedTuple):
    """How much wider the track is, mm, and half of it."""

    track_change: Number
    each_side: Number


@working_out(
    "track-change",
    topic="fit",
    inputs=[
        takes("old_face_distance", "mm"),
        takes("new_face_distance", "mm"),
        may_take("old_offset", "mm", 0),
        may_take("new_offset", "mm", 0),
    ],
    results=gives(track_change="mm", each_side="mm"),
    formula="track = distance between the wheel faces minus 2 times the offset; change = new minus old",
    source=GEOMETRY,
    sentence="Faces {old_face_distance} to {new_face_distance}, offset {old_offset} to {new_offset}: "
    "track {track_change} wider, {each_side} a side.",
    example={
        "old_face_distance": "1500",
        "new_face_distance": "1524",
        "old_offset": "20",
        "new_offset": "26",
    },
    remarks=(
        "Offset is plus when the wheel's mounting face lies outboard of its centre. Negative is narrower.",
        "Measure the gaps from tyre to spring and tyre to body at full bump: this figure knows neither.",
    ),
    together=(("old_offset", "new_offset"),),
)
def track_change(
    old_face_distance: Number, new_face_distance: Number, old_offset: Number = 0, new_offset: Number = 0
) -> TrackChange:
    """Change of track, new minus old, track = face distance - 2 offset, mm; half of it on each side.

    Exact for Fractions. Plane geometry; no source publishes figures, and the independent route is to place
    faces and wheel centres on a line. Refuses face distances not above 0, an offset that leaves no track,
    and one offset without the other.
    """
    above_zero(old_face_distance=old_face_distance, new_face_distance=new_face_distance)
    old = _track("old_offset", old_face_distance, old_offset)
    change = _track("new_offset", new_face_distance, new_offset) - old
    return TrackChange(change, change / 2)


def _track(key: str, face_distance: Number, offset: Number) -> Number:
    if 2 * offset >= face_distance:
        raise WorkingOutError(
            f"{key}: {plain(offset)} mm leaves no track between faces {plain(face_distance)} mm apart; "
            "give less"
        )
    return face_distance - 2 * offset
