"""What is said beside a result: above what a bolt bears, at a limit, under a table; and no answer in words."""

from __future__ import annotations

import re

import pytest

from jobtrack.shopmath.catalogue import by_topic, find
from jobtrack.workings.answers import answer

NAMES = [name for names in by_topic().values() for name in names]
ANSWERS = re.compile(
    r"\b(no problem|without trouble|no danger|fits|suitable|sufficient|over (the )?rating: |beyond discard: )"
)


def _remarks(name: str, **typed: str) -> str:
    return " ".join(answer(name, typed).remarks)


@pytest.mark.parametrize(
    ("torque", "said"),
    [
        ("112", ""),
        ("130", "is above the 62.6 kN that a bolt of this diameter bears"),
        ("1200", "600 kN is above"),
    ],
)
def test_a_clamp_force_no_bolt_bears_is_said(torque: str, said: str) -> None:
    """M10x1, 64.5 mm² at 970 MPa (ISO 898-1, class 12.9) is 62.6 kN: more than that gets a remark, less none."""
    found = _remarks("bolt-clamp", torque=torque, nut_factor="0.2", diameter="10")
    assert (said in found) if said else ("12.9" not in found)


def test_a_clamp_force_of_an_unlisted_diameter_is_held_against_its_full_circle() -> None:
    """9 mm is in no table: pi/4 of its square at 970 MPa is 61.7 kN."""
    assert "the 61.7 kN that" in _remarks("bolt-clamp", torque="200", nut_factor="0.2", diameter="9")
    assert "12.9" not in _remarks("bolt-clamp", torque="100", nut_factor="0.2", diameter="9")


@pytest.mark.parametrize(
    ("force", "said"),
    [("56 kN", "up to M8x1.25 bears"), ("57 kN", "up to M10x1.5 bears"), ("400 kN", "up to M24x3 bears")],
)
def test_the_slip_torque_says_which_bolts_dont_bear_its_clamp_force(force: str, said: str) -> None:
    """12.9 proof loads of a page citing EN ISO 898-1: M8 35.5, M10 56.3 and M24 342 kN."""
    typed = {"bolts": "4", "clamp_force": force, "friction": "0.15", "radius": "45"}
    assert said in " ".join(answer("flange-slip-torque", typed).remarks)


@pytest.mark.parametrize("measured", ["256", "255.96", "256.04"])
def test_a_drum_at_its_mark_isnt_told_from_beyond(measured: str) -> None:
    """At the discard diameter, or nearer than a gauge tells, the doubt of measuring is said."""
    said = _remarks("drum-wear", new="254", measured=measured, discard="256")
    assert "Count it as beyond" in said
    assert ("is beyond the discard" in said) == (float(measured) > 256)


def test_a_drum_clear_of_its_mark_has_no_such_remark() -> None:
    """Further from the mark than a gauge tells nothing of it is said."""
    assert "Count it" not in _remarks("drum-wear", new="254", measured="255", discard="256")


@pytest.mark.parametrize(
    ("load", "doubt", "over"), [("3000", 1, 0), ("3050", 1, 1), ("2800", 0, 0), ("3200", 0, 1)]
)
def test_a_stand_at_its_mark_isnt_told_from_more(load: str, doubt: int, over: int) -> None:
    """At the mark the doubt of weighing is said; above it, that it is above."""
    said = _remarks("stand-load", load=load, marked="3000", marked_for="pair")
    assert ("Count it as above" in said) == bool(doubt)
    assert ("is above the stand maker's mark" in said) == bool(over)


def test_each_person_above_the_limit_of_one_is_named() -> None:
    """NIOSH 94-110: 23 kg is the load constant, the most for one person at the very best."""
    assert "40 kg, 40 kg: above the 23 kg" in _remarks("team-lift", each="40 kg, 40 kg")
    assert "above the" not in _remarks("team-lift", each="20 kg, 20 kg")


@pytest.mark.parametrize(
    ("leg", "said"),
    [("2", "any thickness"), ("3", "over 6 mm"), ("5", "over 13 mm"), ("6", "over 19 mm"), ("8", "")],
)
def test_a_leg_under_the_least_says_for_which_plate(leg: str, said: str) -> None:
    """AISC table J2.4: 3 mm to 6 mm of plate, 5 to 13, 6 to 19, 8 above."""
    found = _remarks("fillet-strength", leg=leg, length="240", electrode="E7018")
    assert (
        (f"AISC table J2.4 for plate {'of ' if 'any' in said else ''}{said}" in found)
        if said
        else "J2.4" not in found
    )


@pytest.mark.parametrize(
    ("chosen", "said"),
    [
        ("J3311-1", "3-degree, the 3 degree upper limit"),
        ("3-degree", "J3311-1 (2005/2008), read in copies, lists 5 deg"),
    ],
)
def test_the_other_set_of_joint_limits_stands_beside(chosen: str, said: str) -> None:
    """At 3200 rpm one set has 5 deg and the other 3: both are given, whichever was asked for."""
    assert said in _remarks("joint-limit", speed="3200", set=chosen)


def test_a_speed_above_the_other_sets_table_is_said() -> None:
    """Where the other set's table ends before this speed, that is said in the place of a figure."""
    assert "ends at 5000 rpm" in _remarks("joint-limit", speed="6000", set="3-degree")


@pytest.mark.parametrize(
    "name", ["joint-limit", "flange-slip-torque", "joint-pair", "bolt-clamp", "stand-load"]
)
def test_what_can_hurt_has_its_hazard(name: str) -> None:
    """Signal word, hazard, what it does and how to avoid it: at least three sentences."""
    (hazard,) = find(name).hazards
    word, _, rest = hazard.partition(": ")
    assert word in ("DANGER", "WARNING")
    assert len(re.findall(r"\.(?: |$)", rest)) >= 3


@pytest.mark.parametrize("name", NAMES)
def test_no_answer_in_words(name: str) -> None:
    """No yes or no, and no sentence that amounts to one, stands among a working-out's words."""
    done = answer(name, find(name).example)
    assert not ANSWERS.search(done.as_text())
    assert not [text for _, text in done.figures() if text in ("yes", "no")]


def test_yes_and_no_stay_in_the_json() -> None:
    """Scripts rely on the keys: over_rating is still there."""
    done = answer("stand-load", find("stand-load").example)
    assert done.as_json()["results"]["over_rating"]["value"] is False
