"""The library pint, by whose figures ours are checked; its list of units is read when the first test asks, and once."""

from __future__ import annotations

from functools import cache
from typing import Any

import pint


@cache
def registry(**options: Any) -> Any:
    """The units of pint, made with these options."""
    return pint.UnitRegistry(**options)
