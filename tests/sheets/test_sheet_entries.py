"""What an entry did, in a few words."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.base import Act, UnknownAct
from jobtrack.job.acts.doing import BuyingAct, PartAct, PhotoAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.acts.ending import JobClosedAct
from jobtrack.job.acts.people import AgreedAct, TakenOverAct, WorkedAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.acts.said import MetAct, NoteAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.sheets.words.doing.acts import entry_words
from tests.support.builders import Copy, finish, note, read
from tests.support.example_acts import ACTS


def test_every_kind_has_its_words() -> None:
    """No kind of act is called something that this program doesn't know."""
    assert {kind for kind in KINDS.values() if kind.words is Act.words} == set()
    assert {act.words() for act in ACTS if "doesn't know" in act.words()} == set()
    assert UnknownAct({"weighed": 5}).words() == "something that this program doesn't know"


@pytest.mark.parametrize(
    ("act", "words"),
    [
        (ReadingAct("moved", 22.8, "mm", "22.8"), "moved 22.8"),
        (ReadingAct("moved", 22.8, "mm", "22.8 mm", mistyped=True), "moved 22.8 mm, typed wrong before"),
        (ReadingAct("plate", (8.0, 8.1), "mm", ("8", "8.1")), "plate 8; 8.1"),
        (MetAct("sheared", "eye bolt", "flush"), "met: sheared, eye bolt, flush"),
        (TorqueAct("nuts", "2", "1", 55.0, "N*m", "40 ft lb"), "torque nuts: bolt 2, stage 1, 40 ft lb"),
        (TorqueAct("nuts", stage="final"), "torque nuts: final"),
        (
            TorqueAct("housing-bolts", "3", "2", 33.0, "N*m", "33", "beam wrench"),
            "torque housing-bolts: bolt 3, stage 2, 33 N·m with beam wrench",
        ),
        (TorqueAct("nuts", "front", "snug"), "torque nuts: front, snug"),
        (WeldAct("hook", "2", 95.0), "weld hook: run 2, 95 A"),
        (
            WeldAct("hook", "2", 95.0, 24.0, 3.5, "3.2 mm"),
            "weld hook: run 2, 95 A, 24 V, 3.5 min, rod 3.2 mm",
        ),
        (PartAct("bolts", "3", "scrapped"), "part bolts: 3, scrapped"),
        (
            BuyingAct("u-bolts", "ordered", "Harrow & Sons", "2031-04-09", "80"),
            "buying u-bolts: ordered, from Harrow & Sons, due 2031-04-09, price 80",
        ),
        (PhotoAct("a1.jpg", "00ff"), "photo a1.jpg"),
        (TakenOverAct(reading="moved"), "taken over, moved taken again"),
        (
            JobClosedAct(differently="measure twice", broke="a disc"),
            "job closed; would do differently: measure twice; what broke: a disc",
        ),
        (PlaceAct("jam jar", part="bolts"), "bolts: at jam jar"),
        (WorkedAct(2.5, "Ada", "2031-04-01"), "2.5 h worked, by Ada, 2031-04-01"),
        (AgreedAct("Ivo", "brackets", amount="260"), "agreed, Ivo: brackets, 260"),
        (NoteAct("He owes me.", private=True), "a private note"),
        (NoteAct("x" * 61), f"note: {'x' * 60}…"),
    ],
    ids=lambda one: one if isinstance(one, str) else "",
)
def test_words_hold_what_was_typed(act: Act, words: str) -> None:
    """Name, value as typed, and what else was said; a private note stays private."""
    assert act.words() == words


def test_an_entry_has_its_step_and_time() -> None:
    """Everything that one call did, in the step where it was done."""
    copy = Copy()
    assert entry_words(copy.call("pin-spacing.donor", read("spacing", "1012"), finish)) == (
        "pin-spacing.donor: spacing 1012; finished (08:00)"
    )
    assert entry_words(copy.call(None, note("Rain."))) == "job: note: Rain. (08:01)"
