"""The invented jobs, always looked at at the same time."""

from __future__ import annotations

import pytest

from tests.support.job_fixtures import fixed_time, folder, make

__all__ = ["fixed_time", "folder", "make"]


@pytest.fixture(autouse=True)
def same_time(fixed_time: None) -> None:
    """Every page is looked at at that time."""
