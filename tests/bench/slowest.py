"""The three slowest workings-out beside the same work in numpy, in the same run: `python tests/bench/slowest.py`.

Each is timed on the example of its help, the numpy form on the same numbers as floats, its tables already
arrays. Both have to give the same figures. Nothing is kept between two calls: no cache on either side.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from time import perf_counter_ns

import numpy as np

import jobtrack.shopmath
from jobtrack.shopmath.catalogue import Value, by_topic, calculate, find
from jobtrack.shopmath.common.named_sets import NUT_FACTORS
from jobtrack.shopmath.flange.drill_tables import DRILLS
from jobtrack.shopmath.lifting.tables import FREQUENCY, RATES
from jobtrack.shopmath.loads.tyre_tables import LOAD_INDEX
from jobtrack.workings.answers import read_inputs

ROUNDS = 200
"""Calls of each; the fastest counts."""

DRILL_SIZES = np.array([float(size) for size in DRILLS.values()])
LOWS, HIGHS = (np.array([float(getattr(one, end)) for one in NUT_FACTORS]) for end in ("low", "high"))
LIFTS = np.array([float(rate) for rate in RATES])
OFTEN = np.array([float(factor) for factor in FREQUENCY["short", False]])
INDICES, LOADS = np.array(list(LOAD_INDEX)), np.array(list(LOAD_INDEX.values()), dtype=float)

Figures = list[float]


def drill_name() -> Figures:
    """Nearest and next larger of all drills, mm."""
    off = np.abs(DRILL_SIZES - 9.0)
    return [float(DRILL_SIZES[np.argmin(off)]), float(np.min(DRILL_SIZES[DRILL_SIZES >= 9.0]))]


def second_pattern() -> Figures:
    """Middle of the widest gap between four holes folded into a quarter turn; distances there."""
    pitch = 90.0
    folded = np.sort(np.arange(4) * 90.0 % pitch)
    gaps = np.diff(np.append(folded, folded[0] + pitch))
    middles = (folded + gaps / 2) % pitch
    turn = np.min(middles[gaps > gaps.max() - 1e-9])
    distance = np.sqrt(50.0**2 + 45.0**2 - 2 * 50.0 * 45.0 * np.cos(np.radians(gaps.max() / 2)))
    return [float(turn), float(distance - 11.5), float(distance - 16.0)]


def tightening_torque() -> Figures:
    """M10 of 8.8: torque and clamp force, and which listed nut factors hold 0.20."""
    clamp = 0.75 * 580 * np.pi / 4 * (10 - 0.938194 * 1.5) ** 2
    np.flatnonzero((LOWS <= 0.2) & (HIGHS >= 0.2))
    return [float(0.2 * 0.010 * clamp), float(clamp)]


def bolt_clamp() -> Figures:
    """50 N m on 10 mm, and which listed nut factors hold 0.20."""
    np.flatnonzero((LOWS <= 0.2) & (HIGHS >= 0.2))
    return [float(np.divide(50_000, 0.2 * 10))]


def recommended_weight_limit() -> Figures:
    """12 kg from 55 to 150 cm at 25 cm, fair grip, seldom: both ends."""
    often = np.interp(0.2, LIFTS, OFTEN)
    heights = np.array([55.0, 150.0])
    reach, travel = 25 / 25, 0.82 + 4.5 / np.abs(np.diff(heights))[0]
    grips = np.where(heights < 75, 0.95, 1.0)
    limits = 23 * reach * (1 - 0.003 * np.abs(heights - 75)) * travel * often * grips
    return [float(limits[0]), float(12 / limits[0]), float(limits[1]), float(12 / limits[1])]


def repeat_readings() -> Figures:
    """Mean and deviation of five, and the uncertainty with display and instrument."""
    readings = np.array([4.2, 4.3, 4.1, 4.3, 4.2])
    scatter = readings.std(ddof=1)
    parts = np.array([scatter / np.sqrt(5), 0.1 / np.sqrt(12), 0.2 / np.sqrt(3)])
    uncertainty = np.sqrt(np.sum(parts**2))
    return [float(readings.mean()), float(scatter), float(uncertainty), float(2 * uncertainty)]


def shaft_critical_speed() -> Figures:
    """A tube of 76.2 by 2.1 mm, 1500 mm."""
    critical = 7.5e3 * np.pi * np.sqrt(207e9 / 7850) * np.hypot(76.2, 72.0) / 1500.0**2
    return [float(critical), float(0.75 * critical)]


def tyre_index_needed() -> Figures:
    """The first index whose two tyres carry 1720 kg."""
    return [float(INDICES[np.searchsorted(2 * LOADS, 1720.0)])]


def sum_of_times() -> Figures:
    """Four log-normals that go together, by matched moments."""
    medians, spreads = np.array([2, 3.5, 1.25, 4]), np.array([0.4, 0.3, 0.5, 0.25])
    alike = np.full((4, 4), 0.3)
    np.fill_diagonal(alike, 1.0)
    means = medians * np.exp(spreads**2 / 2)
    variance = np.sum(np.outer(means, means) * np.expm1(alike * np.outer(spreads, spreads)))
    square = np.log1p(variance / means.sum() ** 2)
    middle = np.log(means.sum()) - square / 2
    tenths = np.array([0.0, 0.8416212335729143, 1.2815515655446004])
    return [float(each) for each in np.exp(middle + tenths * np.sqrt(square))]


IN_NUMPY: dict[str, Callable[[], Figures]] = {
    function.__name__.replace("_", "-"): function
    for function in (
        drill_name, second_pattern, tightening_torque, bolt_clamp, recommended_weight_limit, repeat_readings,
        shaft_critical_speed, tyre_index_needed, sum_of_times,
    )
}  # fmt: skip


def fastest(call: Callable[[], object]) -> int:
    """Nanoseconds of the fastest call."""
    times = []
    for _ in range(ROUNDS):
        begun = perf_counter_ns()
        call()
        times.append(perf_counter_ns() - begun)
    return min(times)


def typed(name: str) -> dict[str, Value]:
    """The numbers of the example."""
    work = find(name)
    return read_inputs(work, work.example)


def figures(name: str) -> Figures:
    """The numbers among the results of the example."""
    values = calculate(name, typed(name)).values.values()
    return [float(each) for each in values if each is not None and not isinstance(each, str | tuple)]


def caches() -> list[str]:
    """Modules of shop mathematics that speak of functools or a cache."""
    folder = Path(jobtrack.shopmath.__file__).parent
    words = ("functools", "cache")
    return [one.name for one in folder.rglob("*.py") if any(word in one.read_text("utf-8") for word in words)]


def main() -> int:
    """Print the three slowest; 1 where numpy lacks one or gives another figure."""
    names = [name for topic in by_topic().values() for name in topic]
    times = {name: fastest(partial(calculate, name, typed(name))) for name in names}
    slowest = sorted(times, key=times.__getitem__, reverse=True)[:3]
    print(f"{len(names)} workings-out, the fastest of {ROUNDS} calls each; the three slowest: {slowest}")
    for name in slowest:
        if name not in IN_NUMPY:
            print(f"{name}: among the three slowest and not written in numpy here; add it", file=sys.stderr)
            return 1
        if not np.allclose(IN_NUMPY[name](), figures(name), rtol=1e-6, atol=0):
            print(f"{name}: numpy gives {IN_NUMPY[name]()}, not {figures(name)}", file=sys.stderr)
            return 1
        ours, theirs = times[name] / 1000, fastest(IN_NUMPY[name]) / 1000
        print(f"{name}: {ours:.1f} µs, in numpy {theirs:.1f} µs, {ours / theirs:.1f} times as long")
    print(f"modules of shop mathematics with functools or a cache: {', '.join(caches()) or 'none'}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
