"""Shop mathematics: pure functions on plain numbers, one module a trade topic, found through `catalogue`.

Importing the package puts every topic's workings-out into the catalogue; it imports nothing else of ours.
"""

from jobtrack.shopmath import fit, flange, fasteners, loads  # noqa: F401, I001  (the catalogue's own order)
