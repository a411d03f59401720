"""What is usual for the inputs of each working-out, for old light vehicles: outside it one is asked, never refused.

Wide on purpose: a range holds what a shop can well meet, so that a number outside is a slip of unit, sign or
point more often than not.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Bound = int | Fraction
COMMON = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Plausible:
    """What is usual for an input or result, both ends included, in its unit of the catalogue; and who says so."""

    low: Bound
    high: Bound
    source: str = COMMON


def usual(low: str, high: str, source: str = COMMON) -> Plausible:
    """A range by its ends as decimals, in a unit of the catalogue, and whose it is."""
    return Plausible(Fraction(low), Fraction(high), source)


# Lengths, mm
FACES = usual("900", "2300")
SPRINGS = usual("400", "1500")
FACE_TO_PERCH = usual("40", "900")
PIN = usual("5", "40")
WHEELBASE = usual("1500", "6500")
TRACK = usual("900", "2300")
FRAME = usual("200", "9000")
BARS = usual("200", "2000")
LEVEL = usual("50", "3000")
GAP = usual("-150", "150")
WEDGE = usual("0", "60")
AHEAD = usual("-800", "800")
STACK = usual("0.5", "300")
WASHER = usual("0", "12")
NUT = usual("4", "40")
THREAD_LEFT = usual("0", "60")
BETWEEN_LEGS = usual("30", "200")
LEG = usual("50", "700")
U_BOLT = usual("6", "30")
BEND = usual("1", "60")
SHOCK = usual("120", "1100")
TRAVEL = usual("5", "350")
PAD_HEIGHT = usual("-250", "250")
PACK = usual("5", "250")
WHEEL_OFFSET = usual("-150", "150")
PLAN_OFFSET = usual("-500", "500")
SHAFT = usual("150", "3500")
TUBE = usual("25", "150")
WALL = usual("1", "8")
FALL = usual("-800", "800")
TYRE_RADIUS = usual("200", "600")
TYRE = usual("400", "1200")
HOLE_SPACING = usual("10", "300")
HOLE = usual("3", "60")
CIRCLE = usual("30", "300")
FLANGE = usual("40", "350")
RECTANGLE = usual("15", "250")
SEAT = usual("6", "80")
DRILL = usual("0.5", "40")
BOLT = usual("3", "40")
WRENCH = usual("100", "2000")
ADAPTER = usual("5", "1000")
PLATE = usual("0.5", "60")
FILLET = usual("1.5", "26")
WELD = usual("5", "5000")
WELD_SIDE = usual("5", "1000")
ROD = usual("1.5", "6.5")
ROD_LENGTH = usual("200", "500")
STUB = usual("10", "150")
WIRE = usual("0.5", "1.7")
PERCH_HEIGHT = usual("0", "500")
CENTRE_HEIGHT = usual("300", "1800")
CYLINDER = usual("10", "60")
DRUM = usual("120", "500")
# Angles, deg
SLOPE = usual("-20", "20")
WEDGE_ANGLE = usual("-8", "8", "1 to 3 deg is what wedges are sold for; common practice, no source")
TURNED = usual("-30", "30")
LEAN = usual("0", "45", "30 deg from upright in a shock maker's fitting notes, from memory")
JOINT = usual("0", "35")
ADAPTER_ANGLE = usual("0", "180")
TWIST = usual("0", "135", "NIOSH 94-110, its tables end at 135 deg")
# Ratios
TUBE_SHARE = usual("0.5", "0.8", "makers' pages have 0.65 to 0.75")
GEAR = usual("0.5", "10")
AXLE = usual("2", "9")
GRIP = usual("0.1", "1.3")
TURNS = usual("0.5", "500")
FLANGE_FRICTION = usual("0.05", "0.4")
NUT_FACTOR = usual(
    "0.08", "0.35", "published nut factors lie from 0.10 for oil to 0.35 for zinc; 0.08 waxed, from memory"
)
PROOF_SHARE = usual(
    "0.3", "0.9", "Shigley: 0.75 for joints that come apart, 0.9 for those that stay, from memory"
)
HEAT_FACTOR = usual("0.6", "1", "EN 1011-1 by process: 0.6, 0.8 and 1.0")
PEDAL_RATIO = usual("2", "10")
BRAKE_FACTOR = usual("0.5", "8", "Limpert: 0.7 for a disc to 6 for a duo-servo drum, from memory")
STRONGER = usual("0.2", "5")
BRAKING = usual("0.05", "1.2")
LIFTS = usual("0.05", "15", "NIOSH 94-110, its tables end at 15 a minute")
LOG_SPREAD = usual("0.02", "1.5")
CORRELATION = usual("-1", "1")
# Per cent
GRADE = usual("2", "60", "49 CFR 571.105 asks for 20 and 30 %, from a letter and memory")
REAR_SHARE = usual("3", "80")
DUTY = usual("5", "100")
EXTRA = usual("0", "100", "nothing to as much again; common practice, no source")
STAGE = usual("5", "100")
CARBON = usual(
    "0.02", "0.7", "EN 1011-2 holds from 0.05 to 0.25 %, from memory; spring and rail steel reach 0.7"
)
MANGANESE = usual("0.1", "2.5")
ALLOY = usual("0", "5")
# Masses, kg; forces, N; torques, N*m; pressures, kPa
AXLE_LOAD = usual("100", "6000")
CORNER_LOAD = usual("50", "4000")
VEHICLE = usual("300", "12000")
PERSON = usual("20", "200", "68 to 75 kg in the rules; common practice, no source, for the rest")
ON_BOARD = usual("0", "1500")
LIFTED = usual("0.5", "150")
STAND = usual("100", "20000")
CLAMP = usual("1000", "112000", "ISO 898-1: the proof load of M14 in 12.9 is 112 kN")
ON_PERCH = usual("50", "200000")
PEDAL = usual("10", "2000")
ENGINE = usual("30", "1500")
TIGHTENING = usual("0.5", "1500")
PERCH_TWIST = usual("0", "20000")
TYRE_PRESSURE = usual("80", "900")
# Speeds
SHAFT_SPEED = usual("100", "8000")
ROAD = usual("5", "200")
CUTTING = usual("3", "60", "over 60 m/min is no high-speed steel in steel; common practice, no source")
TORCH = usual("40", "1200")
# Electric
VOLTS = usual("8", "45", "what an arc burns at: 8 to 45 V; common practice, no source")
AMPS = usual("10", "500")
ARC_OR_PLASMA = usual("5", "1000")
# Times and reaches
WELD_TIME = usual("1", "3600")
HOURS = usual("0.02", "500")
REACH = usual("10", "100", "NIOSH 94-110 holds from 25 to 63 cm")
HEIGHT = usual("0", "200", "NIOSH 94-110 holds to 175 cm")

PLAUSIBLE: dict[str, dict[str, Plausible]] = {
    "perch-shift": {"spacing_now": SPRINGS, "spacing_wanted": SPRINGS},
    "perch-shift-from-faces": {
        "face_distance": FACES, "left_face_to_perch": FACE_TO_PERCH, "right_face_to_perch": FACE_TO_PERCH,
        "spacing_wanted": SPRINGS,
    },
    "centre-spacing": {"inner_gap": SPRINGS, "left_pin": PIN, "right_pin": PIN},
    "level": {"gap": GAP, "length": LEVEL},
    "pinion-to-pad": {"gearbox_slope": SLOPE, "pad_slope": SLOPE, "nose_down": SLOPE},
    "wedge": {"angle": WEDGE_ANGLE, "length": LEVEL},
    "wedge-angle": {"thick": WEDGE, "thin": WEDGE, "length": LEVEL},
    "rotated-point": {"ahead": AHEAD, "angle": TURNED},
    "thrust-angle": {"wheelbase_left": WHEELBASE, "wheelbase_right": WHEELBASE, "track": TRACK},
    "square-by-diagonals": {"length": FRAME, "width": FRAME, "first_diagonal": FRAME, "second_diagonal": FRAME},
    "housing-straightness": {"bar": BARS, "front": FACES, "rear": FACES, "top": FACES, "bottom": FACES},
    "u-bolt-leg": {"stack": STACK, "washer": WASHER, "nut": NUT, "projection": THREAD_LEFT},
    "u-bolt-blank": {"inside_width": BETWEEN_LEGS, "leg": LEG, "rod": U_BOLT, "bend_radius": BEND},
    "shock-fit": {
        "collapsed": SHOCK, "extended": SHOCK, "ride_length": SHOCK, "lean": LEAN, "bump": TRAVEL, "droop": TRAVEL,
    },
    "ride-height-change": {
        "old_pad_above_centre": PAD_HEIGHT, "new_pad_above_centre": PAD_HEIGHT, "old_pack": PACK, "new_pack": PACK,
    },
    "track-change": {
        "old_face_distance": FACES, "new_face_distance": FACES, "old_offset": WHEEL_OFFSET, "new_offset": WHEEL_OFFSET,
    },
    "joint-angle": {"side_ahead": TURNED, "side_behind": TURNED, "plan_ahead": TURNED, "plan_behind": TURNED},
    "plan-angle": {"offset": PLAN_OFFSET, "length": SHAFT},
    "joint-motion": {"angle": JOINT, "speed": SHAFT_SPEED},
    "joint-pair": {"ahead_slope": TURNED, "shaft_slope": TURNED, "behind_slope": TURNED, "speed": SHAFT_SPEED},
    "joint-limit": {"speed": SHAFT_SPEED},
    "shaft-critical-speed": {"outside": TUBE, "wall": WALL, "length": SHAFT, "share": TUBE_SHARE},
    "shaft-length": {"along": SHAFT, "across": PLAN_OFFSET, "vertical": FALL},
    "shaft-torque": {
        "engine_torque": ENGINE, "gear_ratio": GEAR, "axle_load": AXLE_LOAD, "grip": GRIP, "tyre_radius": TYRE_RADIUS,
        "axle_ratio": AXLE,
    },
    "shaft-speed": {"road_speed": ROAD, "axle_ratio": AXLE, "gear_ratio": GEAR, "tyre_diameter": TYRE},
    "axle-ratio-from-turns": {"shaft_turns": TURNS, "wheel_turns": TURNS},
    "speedometer": {
        "indicated": ROAD, "old_axle_ratio": AXLE, "new_axle_ratio": AXLE, "old_tyre": TYRE, "new_tyre": TYRE,
    },
    "bolt-circle": {"spacing": HOLE_SPACING, "hole": HOLE},
    "edge-distance": {"flange": FLANGE, "circle": CIRCLE, "hole": HOLE},
    "flange-slip-torque": {"clamp_force": CLAMP, "friction": FLANGE_FRICTION, "radius": CIRCLE},
    "rectangular-pattern": {"length": RECTANGLE, "width": RECTANGLE},
    "second-pattern": {
        "first_circle": CIRCLE, "first_hole": HOLE, "second_circle": CIRCLE, "second_hole": HOLE,
        "first_length": RECTANGLE, "first_width": RECTANGLE, "seat": SEAT,
    },
    "drill-name": {"diameter": DRILL},
    "drill-speed": {"diameter": DRILL, "cutting_speed": CUTTING},
    "tightening-torque": {"nut_factor": NUT_FACTOR, "share": PROOF_SHARE},
    "bolt-clamp": {"torque": TIGHTENING, "nut_factor": NUT_FACTOR, "diameter": BOLT},
    "torque-stages": {"torque": TIGHTENING, "shares": STAGE},
    "adapter-setting": {"torque": TIGHTENING, "wrench": WRENCH, "adapter": ADAPTER, "angle": ADAPTER_ANGLE},
    "fillet-minimum": {"thickness": PLATE},
    "fillet-strength": {"leg": FILLET, "length": WELD},
    "weld-group": {"width": WELD_SIDE, "depth": WELD_SIDE},
    "perch-weld": {
        "line": WELD_SIDE, "spacing": WELD_SIDE, "leg": FILLET, "force": ON_PERCH, "height": PERCH_HEIGHT,
        "twist": PERCH_TWIST,
    },
    "heat-input": {"volts": VOLTS, "amps": AMPS, "travel": TORCH, "k": HEAT_FACTOR},
    "travel-speed": {"length": WELD, "time": WELD_TIME},
    "carbon-equivalent": {
        "C": CARBON, "Mn": MANGANESE, "Cr": ALLOY, "Mo": ALLOY, "V": ALLOY, "Ni": ALLOY, "Cu": ALLOY,
    },
    "duty-cycle": {"rated_current": AMPS, "rated_duty": DUTY, "current": AMPS, "duty": DUTY},
    "rods-needed": {
        "leg": FILLET, "length": WELD, "rod": ROD, "rod_length": ROD_LENGTH, "stub": STUB, "extra": EXTRA,
    },
    "wire-settings": {"thickness": PLATE, "wire": WIRE},
    "electrode-current": {"diameter": ROD},
    "eye-shade": {"current": ARC_OR_PLASMA},
    "axle-loads": {"wheelbase": WHEELBASE, "front_now": AXLE_LOAD, "rear_now": AXLE_LOAD},
    "axle-limit": {
        "plate": AXLE_LOAD, "housing": AXLE_LOAD, "spring_each": CORNER_LOAD, "wheel_each": CORNER_LOAD,
        "tyre_each": CORNER_LOAD, "brakes": AXLE_LOAD, "shaft": AXLE_LOAD, "bearings": AXLE_LOAD,
    },
    "weigh-ticket": {"front": AXLE_LOAD, "rear": AXLE_LOAD, "wheelbase": WHEELBASE},
    "cargo-capacity": {
        "rated": VEHICLE, "unloaded": VEHICLE, "gas": ON_BOARD, "person": PERSON, "water": ON_BOARD,
    },
    "tyre-index-needed": {"axle": AXLE_LOAD},
    "tyre-part-load": {"pressure": TYRE_PRESSURE, "full_pressure": TYRE_PRESSURE},
    "line-pressure": {"pedal_force": PEDAL, "pedal_ratio": PEDAL_RATIO, "bore": CYLINDER},
    "rear-brake-ratio": {
        "old_bore": CYLINDER, "new_bore": CYLINDER, "old_drum": DRUM, "new_drum": DRUM, "old_factor": BRAKE_FACTOR,
        "new_factor": BRAKE_FACTOR, "old_tyre": TYRE, "new_tyre": TYRE,
    },
    "brake-share": {"rear_share": REAR_SHARE, "ratio": STRONGER},
    "braking-weight-share": {
        "mass": VEHICLE, "rear_mass": AXLE_LOAD, "wheelbase": WHEELBASE, "centre_height": CENTRE_HEIGHT,
        "deceleration": BRAKING,
    },
    "drum-wear": {"new": DRUM, "measured": DRUM, "discard": DRUM},
    "force-on-grade": {"mass": VEHICLE, "grade": GRADE},
    "recommended-weight-limit": {
        "load": LIFTED, "reach": REACH, "from_height": HEIGHT, "to_height": HEIGHT, "to_reach": REACH, "turn": TWIST,
        "lifts_per_minute": LIFTS,
    },
    "team-lift": {"each": LIFTED},
    "stand-load": {"load": STAND, "marked": STAND},
    "three-point": {"short": HOURS, "likely": HOURS, "long": HOURS},
    "learned-time": {"expected": HOURS, "doubt": LOG_SPREAD, "scatter": LOG_SPREAD, "seen": HOURS},
    "sum-of-times": {"medians": HOURS, "log_spreads": LOG_SPREAD, "correlation": CORRELATION},
}  # fmt: skip
"""By working-out and input. What isn't here is taken as it is: words, counts, numbers in any unit."""
