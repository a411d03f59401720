"""Checks that ask several things, or ask for a no: questions of both sorts, and sound ones beside them."""

from __future__ import annotations

import pytest

from jobtrack.template.checks.meaning.questions import asks_several
from jobtrack.template.proofread import problems

SEVERAL = [
    "Vent hose free at droop, leads and sensor plugged in, battery on?",
    "Oil at the level for this angle, grade and additive as asked, drain plug tight?",
    "Looked at from outside cold: no crack, craters filled, no undercut, dye shows nothing?",
    "Stands rated, floor flat and chocks in place?",
    "Pads bare and faces bare and pilot bare?",
]
ONE = [
    "Chocks front and back of both front wheels?",
    "Customer's yes and price ceiling written down, with date?",
    "Parking brake alone held it nose up and nose down?",
    "Front axle not driven, or its ratio within 1 % of this one?",
    "Pipe capped, and no drip from it?",
    "Hose and leads clear of spring and axle?",
    "Quiet on drive, coast and float?",
    "Rails and hangers: no crack, no rivet loose?",
    "Driver told: new linings, gentle stops, nuts again at 50 miles?",
]
WANTS_NO = [
    "Any leak?",
    "Is there a crack at the toes?",
    "Leaks?",
    "Does it rub anywhere?",
    "Anything loose?",
    "Are any nuts dry?",
]
WANTS_YES = [
    "No leak at any joint?",
    "Is the pad bare?",
    "Does it turn freely?",
    "Leak test done?",
    "Nothing touched?",
]


@pytest.mark.parametrize("ask", SEVERAL)
def test_lists_of_three_ask_several_things(ask: str) -> None:
    """Two commas, two *and*, or a comma and an *and*."""
    assert asks_several(ask)


@pytest.mark.parametrize("ask", ONE)
def test_pairs_and_what_is_added_ask_one(ask: str) -> None:
    """Left and right, a comma that only adds, a colon that begins anew."""
    assert not asks_several(ask)


def _found(ask: str) -> list[str]:
    step = {"stage": "look", "title": "Look", "tick": {"seen": {"ask": ask}}}
    data = {"format": 1, "id": "bench", "title": "Bench", "stage": {"look": {"title": "Look"}}}
    return [each.key[-1] for each in problems({**data, "step": {"look-round": step}})]


@pytest.mark.parametrize("ask", WANTS_NO)
def test_a_no_that_is_hoped_for_is_found(ask: str) -> None:
    """*Yes* is what is wanted of each check, so a check that hopes for a no is turned round."""
    assert _found(ask) == ["ask"]


@pytest.mark.parametrize("ask", WANTS_YES)
def test_a_yes_that_is_hoped_for_is_left_alone(ask: str) -> None:
    """Though leaks and touching are spoken of."""
    assert not _found(ask)
