"""What can be done now, by one, by two, side by side, and what waits for what: on templates made by hand."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.about import About
from jobtrack.job.acts.said import MarkAct
from jobtrack.job.compose import doing
from jobtrack.job.doing.can_be_done import (
    COMPARED,
    NEEDS_SAYING,
    CanBeDone,
    can_be_done,
    side_by_side,
)
from jobtrack.job.state.job import IN_HAND, LOOK_AGAIN, NEXT, TO_COME, Job
from jobtrack.job.state.order import Blocker
from jobtrack.template.checks.words import DOES
from jobtrack.template.load import build
from jobtrack.template.plan import plan
from tests.support import builders
from tests.support.builders import Copy, Do

Table = dict[str, Any]
LIFT = {"does": ["lifts"], "not_beside": ["under"]}
UNDER = {"does": ["under"], "not_beside": ["lifts"]}


def copy_of(steps: dict[str, Table], **tables: Any) -> Copy:
    """A copy of a job whose template has these steps, each waiting for nothing unless it says so, in one stage."""
    named = {
        id: {"stage": "only", "title": id.capitalize(), "after": [], **step} for id, step in steps.items()
    }
    data = {"format": 1, "id": "made", "title": "Made by hand", "stage": {"only": {"title": "Only"}},
            "step": named, **tables}  # fmt: skip
    return Copy(Job.fold(About("made", "Made by hand", plan(build(data)), "00"), ()))


def now(steps: dict[str, Table], **tables: Any) -> CanBeDone:
    """What can be done in it before anything is recorded."""
    return can_be_done(copy_of(steps, **tables).job)


def pairs(found: CanBeDone) -> list[tuple[str, str]]:
    return [(one.one, one.other) for one in found.side_by_side]


def waits(found: CanBeDone) -> dict[str, list[tuple[str, str]]]:
    return {one.step: [(each.kind, each.what) for each in one.for_] for one in found.waiting}


def bought(name: str, state: str) -> Do:
    return lambda draft: doing.buying(draft, name, state)


def test_one_person_s_steps_and_two_people_s_are_told_apart() -> None:
    """By the template's `people`; both are next."""
    found = now({"sweep": {}, "lift": {"people": 2, **LIFT}, "carry": {"people": 3}})
    assert (found.by_one, found.by_more) == (("sweep",), ("lift", "carry"))
    assert not found.side_by_side  # two people are all that a step for two leaves


def test_steps_in_hand_come_by_themselves_and_bear_another_beside_them() -> None:
    """A step that somebody is on is no longer next; what goes beside it is said."""
    copy = copy_of({"sweep": {}, "sort": {}})
    copy.call("sweep", lambda draft: draft.add(MarkAct("left corner")))
    found = can_be_done(copy.job)
    assert (found.in_hand, found.by_one, pairs(found)) == (("sweep",), ("sort",), [("sweep", "sort")])


@pytest.mark.parametrize("kinds", [(LIFT, UNDER), (UNDER, LIFT)])
def test_nobody_lifts_while_another_is_under_it(kinds: tuple[Table, Table]) -> None:
    """Either step may be the one that says it."""
    assert not now({"one": kinds[0], "other": kinds[1]}).side_by_side
    silent = {"does": ["brake-dust"]}
    assert pairs(now({"one": silent, "other": kinds[1]})) == [("one", "other")]


@pytest.mark.parametrize("kind", sorted(NEEDS_SAYING))
def test_without_not_beside_nothing_goes_beside_what_can_hurt_another(kind: str) -> None:
    """Lifting, driving, cutting, welding, heating, bleeding, opening fuel and the like: the template must say."""
    assert not now({"one": {"does": [kind]}, "sweep": {}}).side_by_side
    assert pairs(now({"one": {"does": [kind], "not_beside": ["solvent"]}, "sweep": {}})) == [("one", "sweep")]


def test_every_kind_of_work_is_of_the_template_s_list() -> None:
    """The kinds that need saying are kinds that a template can have, and the brief list is among them."""
    assert set(DOES) >= NEEDS_SAYING
    assert {"lifts", "drives", "cuts", "welds", "heats", "bleeds", "opens-fuel"} <= NEEDS_SAYING


@pytest.mark.parametrize("above", ["lifts", "lowers", "drives", "welds", "opens-fuel"])
def test_a_template_that_forgot_it_puts_nobody_under_it(above: str) -> None:
    """Under a vehicle that is lifted, moved, welded on or drained nobody is sent, whatever `not_beside` names."""
    said = {"not_beside": ["solvent"]}
    assert not now({"one": {"does": ["under"], **said}, "other": {"does": [above], **said}}).side_by_side


def test_what_beginning_one_opens_keeps_the_other_apart() -> None:
    """A step that isn't to be done while something is open isn't put beside the step that opens it."""
    open_line = {"open-line": {"text": "Brake line open"}}
    found = now({"strip": {"opens": ["open-line"]}, "try": {"not_while": ["open-line"]}, "sweep": {}},
                condition=open_line)  # fmt: skip
    assert pairs(found) == [("strip", "sweep"), ("try", "sweep")]


def test_sides_done_one_by_one_are_not_done_side_by_side() -> None:
    """Both may be begun, only not together."""
    sides = {"only": {"title": "Only", "for_each": "side", "one_by_one": True}}
    found = now({"mark": {}}, stage=sides, set={"side": ["left", "right"]})
    assert (found.by_one, pairs(found)) == (("mark.left", "mark.right"), [])
    sides["only"]["one_by_one"] = False
    both = now({"mark": {}}, stage=sides, set={"side": ["left", "right"]})
    assert pairs(both) == [("mark.left", "mark.right")]


def test_what_waits_says_for_what() -> None:
    """A step before, its hold, an open condition, a given nobody has said, the side begun first."""
    copy = copy_of(
        {
            "look": {"hold": {"ask": "Seen by another?"}, "opens": ["loose"]},
            "turn": {"after": ["look"]},
            "clips": {"only_when": {"held": ["clips"]}},
            "drive": {"not_while": ["loose"]},
        },
        given={"held": {"ask": "How is it held?", "choose": ["clips", "bolts"]}},
        condition={"loose": {"text": "Nuts loose"}},
    )
    assert waits(can_be_done(copy.job)) == {
        "turn": [("step", "look")],
        "clips": [("unknown", "held")],
    }
    copy.call("look", builders.finish)
    assert waits(can_be_done(copy.job)) == {
        "turn": [("hold", "look")],
        "clips": [("unknown", "held")],
        "drive": [("condition", "Nuts loose")],
    }
    copy.call(None, builders.given("held", "clips"))
    copy.call("look", builders.release, by="Ada")
    copy.call(None, builders.close("loose"))
    found = can_be_done(copy.job)
    assert (found.waiting, found.by_one) == ((), ("turn", "clips", "drive"))


def test_a_stage_waits_for_what_should_be_on_the_bench_before_it() -> None:
    """A bought part isn't here until somebody records it; one from the donor is, until somebody records otherwise."""
    copy = copy_of({"strip": {}}, part={"hose": {"before": "only"}, "pads": {"before": "only", "from": "donor"},
                                        "paint": {}})  # fmt: skip
    assert waits(can_be_done(copy.job)) == {"strip": [("part", "hose")]}
    assert not can_be_done(copy.job).by_one
    copy.call(None, bought("hose", "ordered"))
    copy.call(None, bought("pads", "wrong"))
    assert waits(can_be_done(copy.job)) == {"strip": [("part", "hose"), ("part", "pads")]}
    copy.call(None, bought("hose", "here"))
    copy.call(None, bought("pads", "here"))
    assert can_be_done(copy.job).by_one == ("strip",)


def test_a_stage_that_has_begun_waits_for_no_part_any_more() -> None:
    """The part was to be here before the stage; what is left of it goes on."""
    copy = copy_of({"strip": {}, "sort": {}}, part={"hose": {"before": "only"}})
    copy.call("sort", builders.finish)
    assert can_be_done(copy.job).by_one == ("strip",)


def test_a_step_waits_for_its_own_part_only_where_it_is_recorded_as_not_here() -> None:
    """Nobody has to record every screw; what is ordered, wrong or going back isn't here."""
    copy = copy_of({"bolt": {"part": {"screw": {}}}})
    assert can_be_done(copy.job).by_one == ("bolt",)
    copy.call(None, bought("screw", "ordered"))
    assert waits(can_be_done(copy.job)) == {"bolt": [("part", "screw")]}
    copy.call(None, bought("screw", "here"))
    assert can_be_done(copy.job).by_one == ("bolt",)


def test_two_who_recorded_apart_that_a_part_is_here_and_is_wrong_leave_it_not_here() -> None:
    """In doubt it isn't: somebody would stand there without it."""
    copy = copy_of({"bolt": {"part": {"screw": {}}}})
    other = Copy(copy.job, (f"other{number}" for number in range(9)))
    copy.call(None, bought("screw", "here"))
    other.call(None, bought("screw", "wrong"), by="Ada")
    joined = Job.fold(copy.job.about, (*copy.entries, *other.entries))
    assert waits(can_be_done(joined)) == {"bolt": [("part", "screw")]}


def test_of_a_job_that_has_ended_nothing_is_to_be_done() -> None:
    """Neither next nor waiting."""
    copy = copy_of({"sweep": {}})
    copy.call("sweep", builders.finish)
    copy.call(None, builders.close_job)
    assert can_be_done(copy.job) == CanBeDone()


def test_only_so_many_are_held_against_each_other() -> None:
    """A thousand steps that wait for nothing are no list of half a million pairs."""
    found = now({f"s{number}": {} for number in range(300)})
    assert (len(found.by_one), len(found.side_by_side)) == (300, COMPARED * (COMPARED - 1) // 2)


KINDS = st.lists(st.sampled_from(sorted(DOES)), max_size=3)
STEPS = st.lists(
    st.fixed_dictionaries({"does": KINDS, "not_beside": KINDS, "people": st.sampled_from([1, 1, 2])}),
    min_size=1, max_size=6,
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(STEPS, st.randoms())
def test_each_step_stands_in_one_list_and_no_pair_breaks_a_rule(steps: list[Table], chance: Any) -> None:
    """Whatever a template says: in hand, again, one, more and waiting share nothing and leave no open step out."""
    named = {f"s{number}": {**step, **({"after": [f"s{number - 1}"]} if number and chance.random() < 0.4 else {})}
             for number, step in enumerate(steps)}  # fmt: skip
    copy = copy_of(named)
    for id in named:
        if chance.random() < 0.4:
            copy.call(id, chance.choice([builders.finish, lambda draft: draft.add(MarkAct("here"))]))
    found = can_be_done(copy.job)
    lists = [
        *found.in_hand,
        *found.look_again,
        *found.by_one,
        *found.by_more,
        *(one.step for one in found.waiting),
    ]
    wanted = [id for id in named if copy.job.state(id) in (IN_HAND, LOOK_AGAIN, NEXT, TO_COME)]
    assert sorted(lists) == sorted(wanted)
    for one, other in pairs(found):
        a, b = (copy.job.steps[id].step for id in (one, other))
        assert {one, other} <= {*found.in_hand, *found.by_one}
        assert a.people == b.people == 1
        assert not set(a.does) & set(b.not_beside)
        assert not set(b.does) & set(a.not_beside)
        assert all(step.not_beside for step in (a, b) if set(step.does) & NEEDS_SAYING)
    by_one = [copy.job.steps[id] for id in named if id in (*found.in_hand, *found.by_one)]
    alone = [one for one in by_one if one.step.people == 1]
    assert pairs(found) == [(a.id, b.id) for a, b in combinations(alone, 2) if side_by_side(a, b)]
    assert all(side_by_side(a, b) == side_by_side(b, a) for a, b in combinations(alone, 2))


def test_the_reason_names_the_kind_and_the_thing() -> None:
    """As data, to be put into words at the edge."""
    found = now({"first": {}, "then": {"after": ["first"]}})
    assert found.waiting[0].for_ == (Blocker("step", "first"),)
