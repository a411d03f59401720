"""Proofreading takes as many times as long as a template is longer: calls are counted, since times vary.

Left out are misspelt names: the search for the nearest spelling is among all names, and ends after some number.
"""

from __future__ import annotations

import cProfile
import pstats
from collections.abc import Callable
from pathlib import Path

import pytest

from jobtrack.template.load import load
from jobtrack.template.plan import plan
from jobtrack.template.proofread import check
from tests.support.long_templates import SHAPES

SHORT, TIMES = 100, 10
MOST = 1.1
"""Times the calls for each step."""


def calls(path: Path, text: str) -> int:
    """Calls of functions, compiled ones too, that it takes to proofread a text from a file."""
    path.write_text(text, "utf-8")
    profile = cProfile.Profile()
    profile.runcall(check, path)
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


@pytest.mark.parametrize("shape", [each for name, each in SHAPES.items() if "misspelt" not in name])
def test_ten_times_the_steps_take_ten_times_the_calls(shape: Callable[[int], str], tmp_path: Path) -> None:
    """Whatever the steps are tied together by: order, conditions, sets, values."""
    path = tmp_path / "a.toml"
    calls(path, shape(SHORT))
    short, long = (
        calls(path, shape(count)) / len(plan(load(path)[0]).steps) for count in (SHORT, SHORT * TIMES)
    )
    assert long <= MOST * short
