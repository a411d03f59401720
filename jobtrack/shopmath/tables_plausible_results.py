"""What is usual for the results of each working-out, for old light vehicles: outside it that is said beside it.

As wide as the ranges of the inputs, and for the same reason: inputs that are each usual can together give what no
vehicle has, and so can one slip that lies within its own range.
"""

from __future__ import annotations

from jobtrack.shopmath import tables_plausible as inputs
from jobtrack.shopmath.tables_plausible import Plausible, usual

# Lengths, mm
SHIFT = usual("-200", "200")
OFF_CENTRE = usual("-60", "60")
PER_METRE = usual("-350", "350", "20 deg is 342 mm on a metre; common practice, no source")
WEDGE_RISE = usual("-100", "100")
SWUNG = usual("-250", "250")
BLANK = usual("150", "1400")
BODY_RISE = usual("-200", "200")
TRACK_CHANGE = usual("-300", "300")
EACH_SIDE = usual("-150", "150")
TO_EDGE = usual("3", "100")
METAL_LEFT = usual("0", "100")
LIGAMENT = usual("1", "150")
CENTRE = usual("300", "5200", "a fifth to four fifths of a usual wheelbase; common practice, no source")
DRUM_LEFT = usual(
    "-3", "5", "trade pages give at most 2.29 mm over new; common practice, no source, for the rest"
)
WELD_LINE = usual("20", "3000")
# Angles, deg
BETWEEN_FACES = usual("-60", "60")
TILT = usual("-30", "30")
ZERO_ERROR = usual(
    "-2", "2", "more is an instrument turned or read the wrong way; common practice, no source"
)
THRUST = usual("-2", "2", "0.2 deg at most in a service bulletin; common practice, no source, for 2")
SKEW = usual("-3", "3")
BENT = usual(
    "-6", "6", "1.5 mm on bars of 600 is 0.14 deg in a service manual; common practice, no source, for 6"
)
PLAN = usual("-20", "20")
SHAFT_SLOPE = usual("-30", "30")
APART = usual("0", "10", "3 deg is the most any named set lists; common practice, no source, for 10")
RESIDUAL = usual("0", "10", "handbook tables end at 7.3 deg at 1500 rpm; common practice, no source, for 10")
ON_GRADE = usual("1", "31", "2 to 60 % as an angle; common practice, no source")
# Ratios
RIDE = usual("0.2", "0.8", "near the middle of the stroke in makers' fitting notes, from memory")
SPEEDOMETER = usual("0.5", "2")
IN_HOLES = usual(
    "0.7", "10", "AISC 360-16 lists from 1.25 bolt diameters; common practice, no source, for 0.7 and 10"
)
TYRE_TURNS = usual("265", "800", "a tyre of 400 to 1200 mm; common practice, no source")
INDEX = usual("0.02", "5", "NIOSH 94-110 sees risk for nearly all above 3; common practice, no source, for 5")
# Per cent
ON_FRONT = usual("15", "85")
# Speeds, rpm
RUNS = usual("500", "8000", "from idling to the fastest an old engine turns; common practice, no source")
CRITICAL = usual("1500", "60000")
AT_SHARE = usual("1000", "45000")
DRILL_SPEED = usual("50", "10000", "what drills of a shop turn; common practice, no source")
ACCELERATION = usual("0", "2000", "twice the 1000 rad/s^2 of DSAG-0200 and SAE AE-7, from memory")
# Masses, kg or g; forces, N; torques, N*m; pressures, kPa
TOTAL = usual("0", "12000")
ON_FRONT_AXLE = usual("0", "6000")
ON_REAR_AXLE = usual("-3000", "6000")
BELOW_PLATE = usual("0", "3000")
LEFT_TO_LOAD = usual("-500", "7000")
BY_TYRES = usual("300", "6000")
TEAM = usual("1", "100")
ON_STAND = usual("50", "10000")
DEPOSITED = usual("0.5", "5000")
DRIVE = usual("20", "10000")
SLIPS_AT = usual("30", "20000")
CLAMPED = usual("500", "342000", "ISO 898-1: the proof load of M24 in 12.9 is 342 kN")
STAGE_TORQUE = usual("0.1", "1500", "a beam wrench tells 0.1 N·m; common practice, no source")
UPHILL = usual("50", "40000")
WELD_LOAD = usual("500", "2000000")
PER_LENGTH = usual("130", "2700", "legs of 1.5 to 26 mm in E60 or E70; common practice, no source")
WELD_STRESS = usual("0", "482", "Shigley: the tensile strength of E70xx is 482 MPa")
IN_THE_LINE = usual(
    "500",
    "27580",
    "49 CFR 571.106: a hose bears 27.58 MPa for 2 min; common practice, no source, for the least",
)
# Welding
WIRE_SPEED = usual("1", "20", "what feeders of small sets give; common practice, no source")
RODS = usual("1", "300")
# Times
AGE = usual("0", "45", "codes of this kind began in the 1970s, from memory")
SPREAD = usual("0", "80", "a sixth of 480 h; common practice, no source")
ALL_TOGETHER = usual("0.02", "2000")

RESULTS: dict[str, dict[str, Plausible]] = {
    "perch-shift": {"left_inboard": SHIFT, "right_inboard": SHIFT},
    "perch-shift-from-faces": {
        "spacing_now": inputs.SPRINGS, "face_to_perch": inputs.FACE_TO_PERCH, "left_inboard": SHIFT,
        "right_inboard": SHIFT, "off_centre": OFF_CENTRE,
    },
    "centre-spacing": {"spacing": inputs.SPRINGS},
    "level": {"angle": inputs.SLOPE, "per_metre": PER_METRE},
    "relative-level": {"difference": BETWEEN_FACES},
    "pinion-to-pad": {"pinion_slope": inputs.SLOPE, "pinion_to_pad": inputs.SLOPE},
    "level-reversal": {"tilt": TILT, "zero_error": ZERO_ERROR},
    "wedge": {"rise": WEDGE_RISE},
    "wedge-angle": {"angle": inputs.WEDGE_ANGLE},
    "rotated-point": {"rise": SWUNG},
    "thrust-angle": {"angle": THRUST},
    "square-by-diagonals": {"skew": SKEW},
    "housing-straightness": {"toe": BENT, "camber": BENT},
    "u-bolt-leg": {"leg": inputs.LEG},
    "u-bolt-blank": {"blank": BLANK},
    "shock-fit": {"length_at_bump": inputs.SHOCK, "length_at_droop": inputs.SHOCK, "ride_share": RIDE},
    "ride-height-change": {"body_rise": BODY_RISE},
    "track-change": {"track_change": TRACK_CHANGE, "each_side": EACH_SIDE},
    "plan-angle": {"angle": PLAN},
    "joint-motion": {
        "fastest": inputs.SHAFT_SPEED, "slowest": inputs.SHAFT_SPEED, "peak_acceleration": ACCELERATION,
    },
    "joint-pair": {"difference": APART, "residual": RESIDUAL, "acceleration": ACCELERATION},
    "shaft-critical-speed": {"critical": CRITICAL, "at_share": AT_SHARE},
    "shaft-length": {"length": inputs.SHAFT, "slope": SHAFT_SLOPE},
    "shaft-torque": {"by_engine": DRIVE, "by_grip": DRIVE, "carried": DRIVE},
    "shaft-speed": {"shaft": inputs.SHAFT_SPEED, "engine": RUNS},
    "axle-ratio-from-turns": {"ratio": inputs.AXLE},
    "speedometer": {"true_speed": inputs.ROAD, "factor": SPEEDOMETER},
    "bolt-circle": {"diameter": inputs.CIRCLE},
    "edge-distance": {"to_centre": TO_EDGE, "to_hole": METAL_LEFT, "in_holes": IN_HOLES},
    "flange-slip-torque": {"torque": SLIPS_AT},
    "rectangular-pattern": {"diameter": inputs.CIRCLE},
    "second-pattern": {"ligament": LIGAMENT},
    "drill-speed": {"speed": DRILL_SPEED},
    "tightening-torque": {"torque": inputs.TIGHTENING, "clamp_force": CLAMPED},
    "torque-stages": {"stages": STAGE_TORQUE},
    "adapter-setting": {"setting": inputs.TIGHTENING},
    "fillet-strength": {"load": WELD_LOAD, "per_length": PER_LENGTH},
    "weld-group": {"length": WELD_LINE},
    "perch-weld": {"stress": WELD_STRESS},
    "travel-speed": {"travel": inputs.TORCH},
    "duty-cycle": {"current": inputs.AMPS, "duty": inputs.DUTY},
    "rods-needed": {"deposited": DEPOSITED, "rods": RODS},
    "wire-settings": {"wire_speed": WIRE_SPEED},
    "axle-loads": {"front": ON_FRONT_AXLE, "rear": ON_REAR_AXLE, "total": TOTAL},
    "axle-limit": {"lowest_rating": inputs.AXLE_LOAD, "below_plate": BELOW_PLATE},
    "weigh-ticket": {"centre_behind_front": CENTRE, "front_share": ON_FRONT},
    "cargo-capacity": {"capacity": LEFT_TO_LOAD},
    "tyre-axle-load": {"axle": BY_TYRES},
    "tyre-size": {"diameter": inputs.TYRE, "turns_per_km": TYRE_TURNS},
    "tyre-age": {"age": AGE},
    "line-pressure": {"pressure": IN_THE_LINE},
    "rear-brake-ratio": {
        "torque_ratio": inputs.STRONGER, "road_force_ratio": inputs.STRONGER, "fluid_ratio": inputs.STRONGER,
    },
    "brake-share": {"rear_share_after": inputs.REAR_SHARE},
    "braking-weight-share": {"rear_share": inputs.REAR_SHARE},
    "drum-wear": {"left_to_discard": DRUM_LEFT},
    "force-on-grade": {"force": UPHILL, "angle": ON_GRADE},
    "recommended-weight-limit": {"index": INDEX, "index_at_end": INDEX},
    "team-lift": {"together": TEAM},
    "stand-load": {"on_each": ON_STAND, "rated_each": ON_STAND},
    "three-point": {"mean": inputs.HOURS, "spread": SPREAD},
    "learned-time": {
        "median": inputs.HOURS, "log_spread": inputs.LOG_SPREAD, "next_10": inputs.HOURS, "next_90": ALL_TOGETHER,
    },
    "sum-of-times": {"p50": ALL_TOGETHER, "p80": ALL_TOGETHER, "p90": ALL_TOGETHER},
}  # fmt: skip
"""By working-out and result. What isn't here has a remark of its own, or none, each with its reason in the tests."""
