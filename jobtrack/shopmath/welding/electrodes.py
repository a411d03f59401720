"""Electrodes as they are written: E70, E70xx, E7018, E7018-1, 7018, ER70S-6."""

from __future__ import annotations

import re

from jobtrack.shopmath.common.grades import PSI
from jobtrack.shopmath.quantity import Number, WorkingOutError, said
from jobtrack.shopmath.welding.tables import ELECTRODE_STRENGTH, RULE_SHARE

_ROD = re.compile(r"E?(\d\d)(XX|[123]\d)?(?:-1)?(?:H(?:4|8|16)R?)?")
_WIRE = re.compile(r"ER(70)S(?:-(?:\d|G|X))?")


def rule_stress(electrode: str) -> Number:
    """The rule's shear stress on the throat, MPa: 0.30 of the electrode's tensile strength."""
    written = _plain(electrode)
    match = _ROD.fullmatch(written) or _WIRE.fullmatch(written)
    group = f"E{match[1]}" if match else ""
    if group not in ELECTRODE_STRENGTH:
        raise WorkingOutError(
            f"electrode: {said(electrode.strip())} is in none of the tables; "
            "accepted: E60, E60xx as E6010, E70, E70xx as E7018, ER70S-6"
        )
    return RULE_SHARE * ELECTRODE_STRENGTH[group] * 1000 * PSI


def rod_name(electrode: str) -> str:
    """A stick electrode as tables list it: E7018 for 7018, e7018-1 or E7018 H4R; others in small letters."""
    match = _ROD.fullmatch(_plain(electrode))
    return f"E{match[1]}{match[2]}" if match and match[2] else electrode.strip().lower()


def _plain(electrode: str) -> str:
    return re.sub(r"\s+", "", electrode).upper()
