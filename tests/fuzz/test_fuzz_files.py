"""A short run of the fuzzer, always with the same seeds; `fuzz_files.py` itself runs as long as one likes."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fuzz.fuzz_files import one_case

SEEDS = [range(start, start + 25) for start in range(1, 201, 25)]


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_broken_files_end_in_the_projects_own_errors(seeds: range, tmp_path: Path) -> None:
    """Two hundred broken job files and templates: read, or refused on one line, each within five seconds."""
    found = [one for seed in seeds if (one := one_case(seed, tmp_path)) is not None]
    assert not found, "\n".join(f"seed {one.seed}: {one.what}" for one in found)
