"""What comes before what, round loops and the dry walk, held against the plain way on templates made at random."""

from __future__ import annotations

import random
from difflib import get_close_matches
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jobtrack.template.checks.in_order.dry_walk import walked
from jobtrack.template.checks.in_order.sequence import loop, plan_links, sequence
from jobtrack.template.load import build
from jobtrack.template.plan import Plan, plan
from jobtrack.template.values import nearest
from tests.support.made_templates import templates
from tests.support.plain_order import PlainWalk, comes_before, goes_round

TEMPLATES = templates().map(build).map(plan)


@given(TEMPLATES)
@settings(max_examples=80, deadline=None)
def test_a_loop_is_found_where_there_is_one(made: Plan) -> None:
    """Each name in it is after the next one; there is none where the steps can be taken away one by one."""
    names = loop(made.steps, plan_links(made))
    assert bool(names) == goes_round(made)
    assert all(other in made.steps[one].after for one, other in pairwise(names))
    assert names[:1] == names[-1:]


@given(TEMPLATES)
@settings(max_examples=80, deadline=None)
def test_what_comes_before_is_what_grows_from_after(made: Plan) -> None:
    """Of each pair of steps, and of all steps that come before several."""
    assume(not goes_round(made))
    plain, found = comes_before(made), sequence(made)
    for step in made.steps:
        assert {one for one in made.steps if found.before(one, step)} == plain[step]
        assert found.with_own(step) == found.set_of([*plain[step], step])
    both = set.intersection(*(plain[step] for step in made.steps))
    assert found.before_all(made.steps) == found.set_of(both)


@given(TEMPLATES)
@settings(max_examples=80, deadline=None)
def test_the_dry_walk_goes_as_the_plain_one(made: Plan) -> None:
    """The same steps in the same order, with the same left open."""
    assume(not goes_round(made))
    plain, found = PlainWalk(made).run(), walked(made)
    assert list(found.finished) == plain.finished
    assert {(name, member) for name, members in found.open.items() for member in members} == plain.open


def _at_once(count: int, **keys: Any) -> Plan:
    """A stage of steps that wait for no other, each with some of these keys taken at random."""
    pick = random.Random(count)
    stage = {"title": "S", "for_each": "side", "one_by_one": count % 2 == 0}
    steps = {
        f"step-{number}": {
            "stage": "all", "title": "T", "after": [],
            **{key: [name for name in names if pick.random() < 0.3] for key, names in keys.items()},
        }
        for number in range(count)
    }  # fmt: skip
    data = {"format": 1, "id": "a", "title": "A", "set": {"side": ["left", "right"]}, "stage": {"all": stage}}
    return plan(build(data | {"condition": {name: {"text": name} for name in "abc"}, "step": steps}))


@pytest.mark.parametrize("count", range(5, 45))
def test_the_walk_turns_back_to_what_was_stopped(count: int) -> None:
    """Steps that could all be begun at once stop each other by what they leave open, and go on by what they close."""
    made = _at_once(count, opens=["a", "b"], closes=["a", "b", "c"], not_while=["a", "b", "a.left"])
    assert list(walked(made).finished) == PlainWalk(made).run().finished


@given(st.text("abcd-.", max_size=9), st.lists(st.text("abcd-.", max_size=9), max_size=9))
def test_the_nearest_spelling_is_the_one_that_difflib_finds(name: str, known: list[str]) -> None:
    """It only looks less far."""
    assert [nearest(name, known)] == (get_close_matches(name, [one for one in known if one], 1) or [""])
