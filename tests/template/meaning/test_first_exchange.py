"""What is found in the first version of the axle exchange: all that mechanics found in it by reading, and more."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.template.findings import as_lines
from jobtrack.template.proofread import check
from tests.support.exchange import EXCHANGE

FOUND = Path(__file__).with_name("first_exchange.txt").read_text("utf-8").splitlines()

BY_READING = {
    "U-bolts cut, and nothing said of disc and fire": ("step.axle-out.does", "“cut”"),
    "perches tacked with arc light alone": ("step.tack.hazard", "sparks or fire, electric shock, fume"),
    "brackets welded with arc light alone": ("step.housing.hazard", "sparks or fire, electric shock, fume"),
    "brackets ground, and no word of the disc": ("step.housing.hazard", "it grinds"),
    "no approval before the tacks": ("step.tack.not_while", "asked first"),
    "no approval before the brackets": ("step.housing.not_while", "asked first"),
    "no fire watch after the cutting": ("step.cut.opens", "no fire watch"),
    "no fire watch after the tacks": ("step.tack.opens", "no fire watch"),
    "dye beside sparks": ("step.cut.do", "“Dye” is used in the same step"),
    "half an hour here and an hour there": ("step.cut.hazard", "30 min here, and of 60 min"),
    "half an hour in the check too": ("step.cut.tick.watched", "30 min here, and of 60 min"),
    "electric shock nowhere": ("step.weld.hazard", "electric shock"),
    "dust and fume nowhere": ("step.cut.hazard", "dust or fume"),
    "under the donor without its caution": ("step.donor-axle.hazard", "goes under a vehicle"),
    "nobody under it, yet read under it": ("step.bare-trial.do", "Nobody under it"),
    "under the vehicle at the brakes": ("step.brakes.hazard", "goes under a vehicle"),
    "bled without a word of the fluid": ("step.brakes.hazard", "bleeds a brake line"),
    "let down without the battery": ("step.down.hazard", "battery"),
    "let down without chocks": ("step.down.do", "chocks"),
    "15 km before plates and insurance": ("step.roll-test.do", "plates, insurance"),
    "dye on the bare axle": ("step.strip.hazard", "solvent or dye"),
    "dye on the cold weld": ("step.cold.does", "“dye”"),
    "vent, leads and battery in one check": ("step.down.tick.vent", "several things"),
    "level, grade and plug in one check": ("step.shafts-in.tick.level", "several things"),
    "four looks at a weld in one check": ("step.cold.tick.looked", "several things"),
    "a whole sweep in one check": ("step.bare-trial.tick.sweep", "several things"),
    "papers, photos and limits in one check": ("step.roll-test.tick.owner", "several things"),
}
"""What people found who read it as if they had to work from it, and the finding that says so now."""


def test_each_finding_is_the_one_that_was_looked_at() -> None:
    """Line, words and order, none more and none less: whoever changes a rule sees here what it says of a real one."""
    assert [line.removeprefix(f"{EXCHANGE}:") for line in as_lines(check(EXCHANGE))] == FOUND


@pytest.mark.parametrize("point", BY_READING)
def test_what_people_found_is_found(point: str) -> None:
    """Each point has a finding at its key that names it."""
    key, words = BY_READING[point]
    assert [line for line in FOUND if f" {key}: " in line and words in line]
