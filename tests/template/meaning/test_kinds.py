"""The words by which a kind of work is told: sentences that say it, and sound ones that only look like it."""

from __future__ import annotations

import pytest

from jobtrack.template.checks.meaning.kinds import HOT, KINDS, done, sparks
from jobtrack.template.checks.words import DOES

SAYS = {
    "lifts": [
        "Jack lifts, stands hold.",
        "Hoist or trolley, two people.",
        "Raise it until the shackle moves.",
        "Stands go under the frame.",
        "Lift the rear.",
    ],
    "lowers": [
        "Let it down slowly.",
        "Then down off the stands.",
        "Jack down while somebody watches.",
        "Lower the axle.",
    ],
    "under": ["Go under the vehicle with a lamp.", "Seen from below?", "Lie under it."],
    "drives": ["Drive it round the yard.", "Walking pace three times.", "Road test next."],
    "cuts": [
        "Cut short of the tube.",
        "Drill the pilot hole.",
        "Old rivets drilled out?",
        "Ream to size.",
        "U-bolts are scrap, cut.",
    ],
    "grinds": ["Grind flush.", "Edges ground flush?"],
    "welds": ["Four tacks, crosswise.", "Weld it on.", "Tack it in place."],
    "heats": [
        "Heat it with a gas torch.",
        "Heat the nut until it turns.",
        "Preheated to the maker's figure?",
    ],
    "bleeds": ["Bleed with new fluid.", "Open the line, plug both ends.", "Brake lines off?"],
    "opens-fuel": ["Drain the fuel tank.", "Fuel lines disconnected?", "Undo the fuel line."],
    "near-fuel": ["Undo the tank straps.", "Unclip the fuel line and tie it back."],
    "frees-spring": ["Pack in a spring clamp.", "Slacken the U-bolts.", "Return springs off."],
    "brake-dust": ["Drum off by its puller threads.", "Take the drums off.", "Wipe up the brake dust."],
    "battery": ["Battery off, negative first.", "Disconnect the battery."],
    "airbag": ["Wait for the airbag's store to run down.", "Unplug the pretensioners."],
    "solvent": [
        "Then dye.",
        "No crack by dye over the whole patch?",
        "Wipe with acetone.",
        "Degrease the drum.",
    ],
}

LOOKS_LIKE_IT = {
    "lifts": [
        "Lift the cap off.",
        "Nobody lifts meanwhile.",
        "Jack nuts on the tray.",
        "Spare, jack and chocks still in reach?",
        "Leave to lift given?",
        "A vehicle on stands waits for a bolt.",
    ],
    "lowers": ["Customer's yes written down?", "The lower end of the leg.", "Look before it comes down."],
    "under": [
        "Thread under the nut.",
        "Nobody under it while it moves.",
        "No sink under the pedal?",
        "Look at the seat under load.",
    ],
    "drives": [
        "Noise on drive, coast and float.",
        "Half-inch drive socket.",
        "Drive it out with a drift.",
        "Driven axle?",
    ],
    "cuts": [
        "Nothing is cut until the list is here.",
        "Cut ends, rail and floor cold?",
        "Cut the cable ties.",
        "The uncut perch.",
    ],
    "grinds": ["Flat ground, private.", "Earth to ground.", "Never grind a leaf."],
    "welds": [
        "No crack at the weld toes?",
        "Look at every weld.",
        "Measure again on the tacks.",
        "Nothing welded on a spring?",
    ],
    "heats": ["What has the heat done?", "Look with a torch.", "No heat: the perch is beside it."],
    "bleeds": ["Bleed screw at the top?", "Bore of the cylinder."],
    "opens-fuel": ["Fuel noted.", "Drain the axle into a can.", "Air tank drained?"],
    "near-fuel": ["Arches, tank and prop shaft clear?", "Fuel in the tank written down?"],
    "frees-spring": ["Spring seat measured.", "Ride height at the spring.", "U-bolts snug."],
    "brake-dust": ["Brakes off the drums.", "Drum gauge at four places.", "Oil of the new drum off."],
    "battery": ["Is there a battery?", "Battery still as it was found?"],
    "airbag": ["Airbag lamp goes out?"],
    "solvent": ["No cleaner near the arc.", "A clean cloth."],
}


def test_each_kind_has_its_row_and_examples() -> None:
    """No kind of work that `does` knows goes without words, nor words without examples for and against."""
    assert set(KINDS) == set(DOES) == set(SAYS) == set(LOOKS_LIKE_IT)
    assert set(HOT) < set(KINDS)


@pytest.mark.parametrize(
    ("kind", "sentence"), [(kind, text) for kind, texts in SAYS.items() for text in texts]
)
def test_sentences_that_say_it(kind: str, sentence: str) -> None:
    """Each of these says that the step does work of this kind."""
    assert KINDS[kind].said_in(done(sentence), "")


@pytest.mark.parametrize(
    ("kind", "sentence"), [(kind, text) for kind, texts in LOOKS_LIKE_IT.items() for text in texts]
)
def test_sentences_that_only_look_like_it(kind: str, sentence: str) -> None:
    """None of these says it."""
    assert not KINDS[kind].said_in(done(sentence), "")


@pytest.mark.parametrize(
    ("kind", "tool", "tells"),
    [
        ("frees-spring", "spring clamp", True),
        ("grinds", "angle grinder", True),
        ("heats", "oxy-acetylene set", True),
        ("lifts", "hoist", False),
        ("lifts", "trolley jack", False),
        ("under", "creeper", True),
        ("battery", "jump leads", True),
        ("cuts", "drill gauge", False),
        ("heats", "torch", False),
        ("solvent", "brake cleaner", True),
    ],
)
def test_tools_that_tell_and_tools_that_do_not(kind: str, tool: str, tells: bool) -> None:
    """A hoist among the tools is a tool; a spring clamp is taken for nothing but a spring."""
    assert bool(KINDS[kind].said_in("", tool)) is tells


COVERED = {
    "lifts": ("Vehicle on a jack, falls and crushes", "Sharp rim, scratches"),
    "lowers": ("Vehicle coming down", "Cold water"),
    "under": ("Lying under a vehicle, rolls over arms", "Joint gives way under the pedal; axle crushes feet"),
    "drives": ("Vehicle on a slope, rolls", "Arc light"),
    "cuts": ("Cutting disc, bursts", "Arc light"),
    "grinds": ("Sparks and grit", "Arc light"),
    "welds": ("Arc light, burns eyes", "Sparks"),
    "heats": ("Hot metal, burns", "Battery"),
    "bleeds": ("Brake fluid, burns eyes", "Joint that gives way"),
    "opens-fuel": ("Fuel vapour, explodes", "Dust"),
    "near-fuel": ("Fire at the tank", "Dust"),
    "frees-spring": ("Spring still under load, flies", "Axle tips"),
    "brake-dust": ("Brake dust, asbestos", "Brake fluid"),
    "battery": ("Battery, splashes acid", "Jack"),
    "airbag": ("Airbag goes off", "Battery"),
    "solvent": ("Cleaner, irritates skin", "Dust"),
}


@pytest.mark.parametrize("kind", COVERED)
def test_messages_that_cover_and_that_do_not(kind: str) -> None:
    """A message covers a kind by naming its danger, whatever else it says."""
    covers, passes_by = COVERED[kind]
    assert (KINDS[kind].covered_by(covers), KINDS[kind].covered_by(passes_by)) == (True, False)


def test_what_is_not_done_is_not_said() -> None:
    """What a sentence forbids, or puts before or after, falls out up to the next stop; *by* brings it back."""
    assert done("No crack by dye. Nobody lifts, then grind.").split() == ["by", "dye.", ",", "then", "grind."]


@pytest.mark.parametrize(
    ("text", "hot"),
    [
        ("Cut with the grinder", True),
        ("Cut it", True),
        ("Drill on the press", False),
        ("Hacksaw and file", False),
    ],
)
def test_cold_cutting_throws_no_sparks(text: str, hot: bool) -> None:
    """A drill, a reamer or a hand saw alone asks for no fire watch; what isn't told counts as hot."""
    assert sparks(text) is hot
