"""A typist at random: whatever is typed, only what the screen had named is recorded, and by the keys meant for it."""

from __future__ import annotations

import random
from collections import Counter
from pathlib import Path

import pytest

from jobtrack.app.main import JobApp
from jobtrack.store.file.writer import JobFile
from tests.support.typist import Typist, act, seat


async def typed(folder: Path, seed: int, readings: int) -> Typist:
    """As many acts in one job as record so many readings."""
    chance = random.Random(seed)
    app = JobApp(folder, "Hob Tansley", seat(folder / f"seat-{seed}.job.toml"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        typist = Typist(pilot)
        while typist.readings < readings:
            for burst in act(chance):
                await typist.type(burst)
            await typist.answer(chance.choice(["enter", "y", "n", "t", "escape", "9"]))
            if chance.random() < 0.5:
                await typist.look_up()
    return typist


@pytest.mark.parametrize("seed", range(2))
async def test_only_what_was_named_is_recorded(folder: Path, seed: int) -> None:
    """No entry of an item that the screen hadn't named, no check by a number's key, none by a double tap."""
    typist = await typed(folder, seed, readings=5)
    assert typist.wrong == []
    assert len(JobFile(typist.path).job.view.entries) == typist.known > 2


@pytest.mark.whole
async def test_a_thousand_readings(folder: Path) -> None:
    """A thousand readings typed at random, in twenty jobs, leave no entry that nobody meant."""
    found: Counter[str] = Counter()
    readings = entries = 0
    for seed in range(1000, 1020):
        typist = await typed(folder, seed, readings=50)
        readings, entries = readings + typist.readings, entries + typist.known
        found.update(one.why for one in typist.wrong)
    print(f"\n{readings} readings, {entries} entries; wrong: {dict(found) or 'none'}")
    assert readings >= 1000
    assert not found
