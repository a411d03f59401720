"""Shop mathematics: pure functions on plain numbers, one module a trade topic, found through `catalogue`.

Importing the package puts every topic's workings-out into the catalogue; it imports nothing else of ours.
"""

from jobtrack.shopmath import (  # noqa: F401, I001  (the catalogue's own order)
    fit,
    fit_angles,
    fit_square,
    fit_springs,
    fit_heights,
    driveline,
    driveline_pairs,
    driveline_shaft,
    driveline_ratios,
    flange,
    flange_patterns,
    flange_holes,
    fasteners_strength,
    fasteners,
    fasteners_order,
    fasteners_engagement,
    welding,
    welding_groups,
    welding_heat,
    welding_supply,
    welding_settings,
    loads,
    weighing,
    tyres,
    tyre_marks,
    brakes,
    brakes_holding,
    lifting,
    measurement,
    times,
)
