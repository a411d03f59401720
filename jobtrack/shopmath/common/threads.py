"""Threads as the trade writes them: M10x1.5, M14x1.5, M10, 1/2-13, 3/4-16, 1-14 UNS."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from jobtrack.shopmath.common.tables import METRIC_COARSE, METRIC_FINE, UNIFIED
from jobtrack.shopmath.quantity import WorkingOutError, said

INCH = Fraction("25.4")
"""mm in an inch, exact."""

_METRIC = re.compile(r"M(\d{1,3}(?:\.\d{1,3})?)(?:[X*](\d{1,2}(?:\.\d{1,3})?))?")
_UNIFIED = re.compile(r"((?:1-)?\d{1,2}/\d{1,2}|\d)-(\d{1,2})(UN[CFS])?")


@dataclass(frozen=True, slots=True)
class Thread:
    """A listed thread."""

    name: str
    metric: bool
    diameter: Fraction
    """Nominal, mm."""
    pitch: Fraction
    """mm."""

    @property
    def stress_area(self) -> float:
        """Tensile stress area, mm^2.

        Metric: pi/4 (d - 0.938194 P)^2, the diameter midway between pitch and rounded-root minor diameter.
        Unified: pi/4 (D - 0.974279 P)^2, midway between pitch and basic minor diameter. Constants exact:
        13/24 and 9/16 of the square root of 3. Source: ISO 898-1 and ASME B1.1, from memory; published areas
        are in the tests.
        """
        share = Fraction(13, 24) if self.metric else Fraction(9, 16)
        return math.pi / 4 * (self.diameter - float(share) * math.sqrt(3) * self.pitch) ** 2


def _listed() -> dict[str, Thread]:
    threads = [_metric(size, pitch) for size, pitch in METRIC_COARSE.items()]
    threads += [_metric(size, pitch) for size, pitches in METRIC_FINE.items() for pitch in pitches]
    threads += [_unified(size, count) for rows in UNIFIED.values() for size, count in rows]
    return {thread.name: thread for thread in threads}


def _metric(size: str, pitch: str) -> Thread:
    return Thread(f"M{size}x{pitch}", True, Fraction(size), Fraction(pitch))


def _unified(size: str, threads_an_inch: int) -> Thread:
    return Thread(f"{size}-{threads_an_inch}", False, Fraction(size) * INCH, INCH / threads_an_inch)


LISTED: dict[str, Thread] = _listed()
"""Every thread of the tables by its name."""

_SERIES = {f"{size}-{count}": series for series, rows in UNIFIED.items() for size, count in rows}


def read_thread(text: str) -> Thread:
    """The listed thread of this spelling; a metric size alone is the coarse thread."""
    written = re.sub(r"\s+", "", text).upper().replace("×", "X")
    if metric := _METRIC.fullmatch(written):
        name = _metric_name(metric)
    elif unified := _UNIFIED.fullmatch(written):
        name = _unified_name(unified, text)
    else:
        raise WorkingOutError(
            f"thread: {said(text)} can't be read; write it as M10x1.5, M10 (coarse), 1/2-13 or 3/4-16"
        )
    if name not in LISTED:
        raise WorkingOutError(f"thread: {name} is in none of the tables; near it: {_near(name)}")
    return LISTED[name]


def _metric_name(match: re.Match[str]) -> str:
    size = _tidy(match[1])
    pitch = match[2] or METRIC_COARSE.get(size)
    return f"M{size}x{_tidy(pitch)}" if pitch else f"M{size}"


def _unified_name(match: re.Match[str], text: str) -> str:
    name = f"{match[1]}-{match[2]}"
    series = _SERIES.get(name)
    if match[3] and series and match[3] != series:
        raise WorkingOutError(f"thread: {said(text.strip())} is not listed; {name} is {series}")
    return name


def _tidy(number: str) -> str:
    return f"{float(number):g}"


def _near(name: str) -> str:
    from difflib import get_close_matches

    size = re.split("[x-]", name)[0]
    same_size = [listed for listed in LISTED if re.split("[x-]", listed)[0] == size]
    return ", ".join(same_size or get_close_matches(name, list(LISTED), n=4, cutoff=0))
