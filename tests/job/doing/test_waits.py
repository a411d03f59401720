"""The wait of a check: when it is over by the entries, and a yes that came sooner, over orders, copies and clocks."""

from __future__ import annotations

import random
from datetime import timedelta
from functools import cache
from typing import Any

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.about import About
from jobtrack.job.acts.base import replace
from jobtrack.job.compose import doing, people
from jobtrack.job.remarks.of_step import step_problems
from jobtrack.job.remarks.waits import BEFORE, CLOCK_BACK, NO_ENTRY, SOON, TooSoon, since, too_soon
from jobtrack.job.state.job import Job
from jobtrack.pages.step.page import step_page
from jobtrack.sheets.answer import answer_lines
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.words.problems import with_ids, with_names
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_entry, write_header
from tests.support.builders import Copy, Do, entry_id, finish, minutes, not_needed, note, tick, undo

WATCHED = {"ask": "Watched for an hour?", "wait": {"minutes": 60, "since": "weld"}}


def template() -> dict[str, Any]:
    """A weld and a watch on each side, and one watch over both; the watch may come whenever somebody records it."""
    return {
        "format": 1, "id": "seam", "title": "Seam", "stage": {"only": {"title": "Only"}},
        "set": {"side": ["left", "right"]},
        "step": {
            "weld": {"stage": "only", "title": "Weld it on", "for_each": "side", "weld": {"seam": {"runs": 3}}},
            "watch": {"stage": "only", "title": "Stay and look", "for_each": "side", "tick": {"stayed": WATCHED}},
            "both": {"stage": "only", "title": "Look round", "tick": {"stayed": WATCHED}},
        },
    }  # fmt: skip


@cache
def about() -> About:
    written = write_header({"id": "seam-1", "title": "Seam"}, template())
    header = scan(written).header
    assert header is not None
    return about_from(tomli.loads(written.decode()), header.hash)


def seam() -> Copy:
    return Copy(Job.fold(about(), ()))


def apart(copy: Copy, salt: str) -> Copy:
    """Another copy of what this one holds, with names of its own."""
    ids = (entry_id(number, salt) for number in range(1000))
    return Copy(Job.fold(about(), copy.entries), ids)


def run(number: str = "1") -> Do:
    return lambda draft: doing.weld(draft, "seam", number)


yes = tick("stayed")


def soon(job: Job, step: str = "watch.left") -> TooSoon | None:
    return too_soon(job, job.steps[step], "stayed")


def why(job: Job, step: str = "watch.left") -> str:
    found = soon(job, step)
    return found.why if found is not None else ""


@pytest.mark.parametrize(("after", "reason"), [(2, SOON), (59.99, SOON), (60, ""), (61, ""), (3000, "")])
def test_sixty_minutes_are_sixty_minutes(after: float, reason: str) -> None:
    """To the second, as the entries have it; just an hour is an hour."""
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    copy.call("watch.left", yes, at=minutes(after))
    assert why(copy.job) == reason


def test_the_last_entry_counts_not_the_first() -> None:
    copy = seam()
    for at in (0, 20, 40):
        copy.call("weld.left", run(str(1 + at // 20)), at=minutes(at))
    copy.call("watch.left", yes, at=minutes(70))
    found = soon(copy.job)
    assert found is not None
    assert (found.waited, found.since) == (timedelta(minutes=30), ("weld.left",))
    assert since(copy.job, copy.job.steps["watch.left"], "stayed").not_before == minutes(100)  # type: ignore[union-attr]


def test_each_side_waits_for_its_own_and_what_has_no_side_for_any() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    copy.call("weld.right", run(), at=minutes(50))
    for step in ("watch.left", "watch.right", "both"):
        copy.call(step, yes, at=minutes(65))
    assert [why(copy.job, step) for step in ("watch.left", "watch.right", "both")] == ["", SOON, SOON]
    found = soon(copy.job, "both")
    assert found is not None
    assert found.since == ("weld.right",)


def test_before_anything_is_recorded_there_is_nothing_to_wait_from() -> None:
    copy = seam()
    copy.call("watch.left", yes, at=minutes(100))
    assert why(copy.job) == NO_ENTRY
    assert since(copy.job, copy.job.steps["watch.left"], "stayed").not_before is None  # type: ignore[union-attr]
    copy.call("weld.left", not_needed("bolted"), at=minutes(101))
    assert why(copy.job) == ""


def test_no_is_no_problem_of_the_wait() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    copy.call("watch.left", tick("stayed", yes=False), at=minutes(1))
    assert why(copy.job) == ""


def test_words_and_the_end_of_the_step_begin_no_wait_anew() -> None:
    """A note, the clock, and *finished* of work that is recorded; where *finished* is all there is, it counts."""
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    copy.call("weld.left", finish, note(), lambda draft: people.clock(draft, "on"), at=minutes(50))
    copy.call("watch.left", yes, at=minutes(61))
    assert why(copy.job) == ""
    bare = seam()
    bare.call("weld.left", finish, at=minutes(50))
    bare.call("watch.left", yes, at=minutes(61))
    assert why(bare.job) == SOON


def test_what_is_taken_back_counts_on_neither_side() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    copy.call("weld.left", run("2"), at=minutes(40))
    copy.call(None, undo, at=minutes(41))
    copy.call("watch.left", yes, at=minutes(61))
    assert why(copy.job) == ""
    copy.call("watch.left", undo, at=minutes(62))
    assert why(copy.job) == ""


def test_a_later_yes_takes_the_place_of_one_too_soon() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    copy.call("watch.left", yes, at=minutes(2))
    assert why(copy.job) == SOON
    copy.call("watch.left", yes, at=minutes(62))
    assert why(copy.job) == ""


def test_of_two_who_did_not_know_of_each_other_one_is_enough() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    other = apart(copy, "other")
    copy.call("watch.left", yes, at=minutes(10))
    other.call("watch.left", yes, by="Ada", at=minutes(60))
    assert why(copy.job) == SOON
    assert why(Job.fold(about(), _all(copy, other))) == ""


def _all(*copies: Copy) -> Any:
    return {entry.hash: entry for copy in copies for entry in copy.entries}.values()


def test_sparks_after_the_watch_make_it_one_too_soon() -> None:
    """Another run on the other copy: whoever watched hadn't seen it."""
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    other = apart(copy, "other")
    copy.call("watch.left", yes, at=minutes(60))
    other.call("weld.left", run("2"), at=minutes(65))
    merged = Job.fold(about(), _all(copy, other))
    found = soon(merged)
    assert found is not None
    assert (found.why, found.waited) == (BEFORE, timedelta(minutes=-5))


def test_a_clock_that_went_back_is_said() -> None:
    """Between two runs, and between the last run and the yes; not for what somebody typed in afterwards."""
    copy = seam()
    copy.call("weld.left", run(), at=minutes(90))
    copy.call("weld.left", run("2"), at=minutes(30))
    copy.call("watch.left", yes, at=minutes(500))
    assert why(copy.job) == CLOCK_BACK
    other = seam()
    other.call("weld.left", run(), at=minutes(90))
    other.call("watch.left", yes, at=minutes(30))
    assert why(other.job) == CLOCK_BACK


def test_what_was_typed_in_afterwards_says_itself_when_it_was() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(90))
    late = copy.call("weld.left", run("2"), at=minutes(30))
    typed = replace(late, typed_at=minutes(95), hash="")
    typed = replace(typed, hash=write_entry(typed)[1])
    job = Job.fold(about(), [one for one in copy.entries if one is not late]).apply(typed)
    done = Copy(job, (entry_id(number, "late") for number in range(9)))
    done.call("watch.left", yes, at=minutes(150))
    assert why(done.job) == ""


WORDS = {
    SOON: "answered yes 2 min after the last entry of {weld}; the template asks for 60 min",
    NO_ENTRY: "answered yes while nothing is recorded of {weld}; the template asks for 60 min after it",
    BEFORE: "answered yes 5 min before the last entry of {weld}; the template asks for 60 min",
    CLOCK_BACK: "answered yes, but a clock went back since entries of {weld}: how long after can't be told; "
    "the template asks for 60 min",
}


def _jobs() -> dict[str, Job]:
    first = seam()
    first.call("weld.left", run(), at=minutes(0))
    first.call("watch.left", yes, at=minutes(2.5))
    none = seam()
    none.call("watch.left", yes, at=minutes(2))
    mine = seam()
    mine.call(None, note(), at=minutes(0))
    other = apart(mine, "other")
    mine.call("watch.left", yes, at=minutes(60))
    other.call("weld.left", run(), at=minutes(65))
    back = seam()
    back.call("weld.left", run(), at=minutes(90))
    back.call("watch.left", yes, at=minutes(30))
    return {
        SOON: first.job,
        NO_ENTRY: none.job,
        BEFORE: Job.fold(about(), _all(mine, other)),
        CLOCK_BACK: back.job,
    }


@pytest.mark.parametrize("reason", WORDS)
def test_it_stands_against_the_step_in_words(reason: str) -> None:
    """By ids for scripts, by names for people, whether the step is finished or not."""
    job = _jobs()[reason]
    problems = [one for one in step_problems(job, "watch.left") if isinstance(one, TooSoon)]
    assert with_ids(job, problems) == [f"Watched for an hour? {WORDS[reason].format(weld='weld.left')}"]
    said = f"Watched for an hour? {WORDS[reason].format(weld='Weld it on (left)')}"
    assert with_names(job, problems) == [said]
    assert said in job_text(job)
    assert said in "".join(one.plain for one in step_page(job, job.steps["watch.left"], 1000, None, False))
    assert with_ids(job, problems)[0] in str(job_json(job)["steps"])


def test_the_command_says_so_right_away() -> None:
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    entry = copy.call("watch.left", yes, at=minutes(2))
    assert answer_lines(copy.job, entry) == [
        "  stayed yes. Answered yes 2 min after the last entry of weld.left; the template asks for 60 min."
    ]


MOVES = st.lists(
    st.tuples(
        st.integers(0, 2),
        st.sampled_from(["weld.left", "weld.right", "watch.left", "both", "take"]),
        st.integers(0, 240),
        st.booleans(),
    ),
    min_size=1,
    max_size=14,
)
"""Which copy, what is recorded in it (or which other copy it takes in), the minute by its clock, yes or no."""


class Model:
    """What each copy has seen, told without hashes: entries by number, with what whoever made it knew."""

    def __init__(self) -> None:
        self.known: list[set[int]] = [set(), set(), set()]
        self.made: list[tuple[str, int, bool, frozenset[int]]] = []

    def make(self, copy: int, step: str, at: int, answer: bool) -> None:
        self.made.append((step, at, answer, frozenset(self.known[copy])))
        self.known[copy].add(len(self.made) - 1)

    def why(self, step: str, of: set[str]) -> str:
        """Why the answer to a watch came too soon, when all copies are joined; empty where it didn't."""
        answers = [one for one, made in enumerate(self.made) if made[0] == step]
        live = [one for one in answers if not any(one in self.made[other][3] for other in answers)]
        if not live or not all(self.made[one][2] for one in live):
            return ""
        reasons = [self._one(one, of) for one in live]
        return "" if "" in reasons else reasons[live.index(max(live, key=lambda one: self.made[one][1]))]

    def _one(self, answer: int, of: set[str]) -> str:
        _, at, _, seen = self.made[answer]
        runs = [one for one, made in enumerate(self.made) if made[0] in of]
        if not runs:
            return NO_ENTRY
        last = max(self.made[one][1] for one in runs)
        back = any(self.made[two][1] < self.made[one][1] and one in self.made[two][3]
                   and self.made[one][0] == self.made[two][0] for one in runs for two in runs)  # fmt: skip
        latest = [one for one in runs if self.made[one][1] == last]
        if back or (at < last and any(one in seen for one in latest)):
            return CLOCK_BACK
        return BEFORE if at < last else SOON if at - last < 60 else ""


@settings(max_examples=300, deadline=None)
@given(MOVES, st.randoms(use_true_random=False))
def test_any_history_is_judged_as_the_model_has_it(
    moves: list[tuple[int, str, int, bool]], shuffle: random.Random
) -> None:
    """Three copies that record and take each other in; joined in any order, at once or one by one."""
    model, copies = Model(), [apart(seam(), str(number)) for number in range(3)]
    for number, step, at, answer in moves:
        copy, other = copies[number], (number + 1 + answer) % 3
        if step == "take":
            copy.job = Job.fold(about(), _all(copy, copies[other]))
            model.known[number] |= model.known[other]
            continue
        copy.call(step, run() if step.startswith("weld") else tick("stayed", answer), at=minutes(at))
        model.make(number, step, at, answer)
    entries = list(_all(*copies))
    shuffle.shuffle(entries)
    grown = Job.fold(about(), ())
    for entry in entries:
        grown = grown.apply(entry)
    for job in (Job.fold(about(), entries), grown):
        _same_but_for_ties(job, model)


def _same_but_for_ties(job: Job, model: Model) -> None:
    assert bool(why(job, "watch.left")) == bool(model.why("watch.left", {"weld.left"}))
    assert bool(why(job, "both")) == bool(model.why("both", {"weld.left", "weld.right"}))
    times = [made[1] for made in model.made]
    if len(set(times)) == len(times):  # of two at the same minute either may be named
        assert why(job, "watch.left") == model.why("watch.left", {"weld.left"})
        assert why(job, "both") == model.why("both", {"weld.left", "weld.right"})
