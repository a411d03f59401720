"""The quick layer: something of every room, and a list of slow tests that is of today."""

from __future__ import annotations

import re
from pathlib import Path

from tests.support.quick import slow

HERE = Path(__file__).parent
FUNCTIONS = {
    f"{path.relative_to(HERE.parent).as_posix()}::{name}"
    for path in HERE.rglob("test_*.py")
    for name in re.findall(r"^(?:async )?def (test_\w+)", path.read_text(encoding="utf-8"), re.M)
}


def test_each_slow_test_is_there() -> None:
    """Whoever renames or removes one does so in the list too; `pytest --note-slow` measures anew."""
    assert slow() - FUNCTIONS == set()


def test_every_room_has_quick_tests() -> None:
    """No folder is slow altogether."""
    rooms = {Path(name.partition("::")[0]).parent for name in FUNCTIONS}
    assert {Path(name.partition("::")[0]).parent for name in FUNCTIONS - slow()} == rooms
