"""The page of what can be done now: each step under its heading, with the sentences that keep it honest."""

from __future__ import annotations

from typing import Any

from jobtrack.job.compose import doing
from jobtrack.pages.look_up.what_now import Entry, entries, sentence
from jobtrack.pages.wording import CLOSED
from jobtrack.sheets.words.doing.what_now import RINGS
from jobtrack.sheets.words.sentences import NEXT
from tests.job.doing.test_can_be_done import copy_of
from tests.support import builders
from tests.support.builders import Copy

UNDER = {"does": ["under"], "not_beside": ["lifts"]}


def parts(copy: Copy) -> dict[str, list[Entry]]:
    """The entries by the heading they stand under."""
    found: dict[str, list[Entry]] = {}
    for one in entries(copy.job):
        if one.head:
            found[one.head] = []
        list(found.values())[-1].append(one)
    return found


def said(copy: Copy, head: str) -> dict[str, str]:
    return {one.step: one.more for one in parts(copy).get(head, [])}


def made() -> Copy:
    """A job with something of each kind."""
    steps: dict[str, Any] = {
        "look": {"hold": {"ask": "Seen by another?"}, "title": "Look at it", "opens": ["loose"]},
        "turn": {"after": ["look"], "title": "Turn it"},
        "paint": {"after": ["look", "turn"], "title": "Paint it"},
        "clips": {"only_when": {"held": ["clips"]}},
        "drive": {"not_while": ["loose"]},
        "lift": {"people": 2, "hoist": True},
        "crawl": UNDER,
        "wheels": {"helper_alone": True},
        "bolt": {"part": {"screw": {"say": "Screw M8"}}},
    }
    copy = copy_of(steps, given={"held": {"ask": "How is it held?", "choose": ["clips", "bolts"]}},
                   condition={"loose": {"text": "Nuts loose", "tag": "LOOSE"}})  # fmt: skip
    copy.call("look", builders.finish)
    copy.call(None, lambda draft: doing.buying(draft, "screw", "ordered"))
    return copy


def test_each_step_stands_under_what_it_is_for() -> None:
    """One person, two, side by side; each kind of waiting; what waits for a step before last of all."""
    found = {head: [one.step for one in rows] for head, rows in parts(made()).items()}
    assert found == {
        "Next, by one person": ["crawl", "wheels"],
        "Next, by two people or more together": ["lift"],
        "By two people side by side": ["crawl"],
        "Waiting for a hold to be released": ["turn"],
        "Waiting for an open condition to be closed": ["drive"],
        "Waiting for a part": ["bolt"],
        "Waiting for something not known yet": ["clips"],
        "Waiting for a step before": ["paint"],
    }


def test_what_a_step_takes_and_waits_for_is_said_by_its_name() -> None:
    """Not by ids."""
    copy = made()
    assert said(copy, "Next, by two people or more together") == {"lift": "2 people; hoist or trolley"}
    assert said(copy, "Next, by one person")["wheels"] == "a helper may do it alone"
    assert said(copy, "By two people side by side") == {
        "crawl": "beside it: “Wheels” (a helper may do it alone)"
    }
    assert said(copy, "Waiting for a hold to be released") == {"turn": "hold not released after “Look at it”"}
    assert said(copy, "Waiting for an open condition to be closed") == {"drive": "open: LOOSE"}
    assert said(copy, "Waiting for a part") == {"bolt": "not recorded as here: Screw M8"}
    assert said(copy, "Waiting for something not known yet") == {"clips": "not known yet: How is it held?"}
    assert said(copy, "Waiting for a step before")["paint"].startswith("after “Turn it”; hold not released")


def test_many_steps_before_are_counted_and_the_first_named() -> None:
    """Thirty names would hide the one that matters."""
    steps: dict[str, Any] = {f"s{number}": {} for number in range(30)}
    steps["last"] = {"after": list(steps)}
    assert said(copy_of(steps), "Waiting for a step before") == {"last": "after “S0” and 29 more steps"}


def test_the_sentence_promises_nothing() -> None:
    """Next only means that the order doesn't stop it; a closed job says what closing doesn't mean."""
    assert sentence(made().job) == NEXT
    copy = copy_of({"sweep": {}})
    copy.call("sweep", builders.finish)
    assert sentence(copy.job).startswith("No step is next")
    copy.call(None, builders.close_job)
    assert CLOSED in sentence(copy.job)
    assert entries(copy.job) == []


def test_alone_under_a_vehicle_somebody_rings() -> None:
    """Said where a step for one person is under a vehicle or hot work, and not where none is."""
    assert parts(copy_of({"crawl": UNDER}))["Next, by one person"][0].below == RINGS
    assert parts(copy_of({"sweep": {}}))["Next, by one person"][0].below == ""
