"""How the pages look that ask before something is recorded, at 80x24."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from jobtrack.app.main import JobApp
from tests.app.looks.test_app_pictures import Compare, keys

OnJobs = Callable[[str], JobApp]
PICTURES = {
    "surprise": ("mark.right", ["s"]),
    "danger": ("mark.right", ["s", "c", *"left spring hanger", "enter"]),
    "what-follows": ("mark.right", ["s", "e", *"drain plug", "enter", "n"]),
    "was-it-meant": ("pin-spacing.donor", ["down", *"38", "enter"]),
    "measured-again": ("mark.left", ["down", *"21", "enter"]),
    "swapped": ("mark.right", ["l"]),
}  # fmt: skip
"""The step, and the keys."""


@pytest.mark.parametrize("name", PICTURES)
def test_asking(name: str, on_job: OnJobs, snap_compare: Compare) -> None:
    """Each question with its keys fits the screen."""
    step, pressed = PICTURES[name]
    assert snap_compare(on_job("half-done"), run_before=keys(*pressed, step=step), terminal_size=(80, 24))
