"""Reading what a person types, exactly, and showing it back. No floats in between."""

from __future__ import annotations

from jobtrack.units.conversion import convert, convert_difference, exact
from jobtrack.units.names import UnitError, kind, known, same_kind, shown, spellings
from jobtrack.units.showing import both, show
from jobtrack.units.typed.lists import list_items, unit_is_missing
from jobtrack.units.typed.reading import Typed, read, typed_unit
from jobtrack.units.typed.slips import Slip, likely, question

__all__ = [
    "Slip",
    "Typed",
    "UnitError",
    "both",
    "convert",
    "convert_difference",
    "exact",
    "kind",
    "known",
    "likely",
    "list_items",
    "question",
    "read",
    "same_kind",
    "show",
    "shown",
    "spellings",
    "typed_unit",
    "unit_is_missing",
]
