"""Where each working-out is: the names of the catalogue by the module that holds them, in its order.

So a name is known, and a topic listed, before a topic is loaded. The topic is the module's folder.
"""

INDEX: dict[str, tuple[str, ...]] = {
    "fit.perches": (
        "perch-shift",
        "perch-shift-from-faces",
        "centre-spacing",
        "level",
        "relative-level",
        "pinion-to-pad",
    ),
    "fit.angles": (
        "level-reversal",
        "wedge",
        "wedge-angle",
        "rotated-point",
    ),
    "fit.square": (
        "thrust-angle",
        "square-by-diagonals",
        "housing-straightness",
    ),
    "fit.springs": (
        "u-bolt-leg",
        "u-bolt-blank",
        "shock-fit",
    ),
    "fit.heights": (
        "ride-height-change",
        "track-change",
    ),
    "driveline.joints": (
        "joint-angle",
        "plan-angle",
        "joint-motion",
    ),
    "driveline.pairs": (
        "joint-pair",
        "joint-limit",
    ),
    "driveline.shaft": (
        "shaft-critical-speed",
        "shaft-length",
        "shaft-torque",
    ),
    "driveline.ratios": (
        "shaft-speed",
        "axle-ratio-from-turns",
        "speedometer",
    ),
    "flange.circles": (
        "bolt-circle",
        "edge-distance",
        "flange-slip-torque",
    ),
    "flange.patterns": (
        "rectangular-pattern",
        "second-pattern",
    ),
    "flange.holes": (
        "clearance-hole",
        "drill-name",
        "tap-drill",
        "drill-speed",
    ),
    "fasteners.strength": (
        "stress-area",
        "proof-load",
    ),
    "fasteners.torque": (
        "tightening-torque",
        "bolt-clamp",
    ),
    "fasteners.tightening": (
        "torque-stages",
        "tightening-order",
        "adapter-setting",
    ),
    "fasteners.engagement": ("thread-engagement",),
    "welding.fillets": (
        "fillet-minimum",
        "fillet-strength",
    ),
    "welding.groups": (
        "weld-group",
        "perch-weld",
    ),
    "welding.heat": (
        "heat-input",
        "travel-speed",
        "carbon-equivalent",
    ),
    "welding.supply": (
        "duty-cycle",
        "rods-needed",
    ),
    "welding.settings": (
        "wire-settings",
        "electrode-current",
        "eye-shade",
    ),
    "loads.axles": (
        "axle-loads",
        "axle-limit",
    ),
    "loads.weighing": (
        "weigh-ticket",
        "cargo-capacity",
    ),
    "loads.tyres": (
        "tyre-axle-load",
        "tyre-index-needed",
        "tyre-part-load",
    ),
    "loads.tyre_marks": (
        "tyre-size",
        "tyre-age",
    ),
    "brakes.pressure": (
        "line-pressure",
        "rear-brake-ratio",
        "brake-share",
        "braking-weight-share",
    ),
    "brakes.holding": (
        "drum-wear",
        "force-on-grade",
    ),
    "lifting.lifting": (
        "recommended-weight-limit",
        "team-lift",
        "stand-load",
    ),
    "measurement.measurement": (
        "repeat-readings",
        "verdict",
    ),
    "times.times": (
        "three-point",
        "learned-time",
        "sum-of-times",
    ),
}

MODULE_OF = {name: module for module, names in INDEX.items() for name in names}
"""The module that puts a name into the catalogue."""
