"""Taking over: what was seen, and what the job says of what wasn't, until it is closed or somebody has seen it."""

from __future__ import annotations

from jobtrack.job.acts.people import TakenOverAct
from jobtrack.job.compose import mending, people
from jobtrack.job.remarks.of_job import job_problems as problems
from jobtrack.sheets.words.problems import with_names
from tests.support.builders import Copy, Do, close, marked, opens, read
from tests.support.said import job_problems

ADA = "taken over by Ada without having seen: tacked.left"


def give(to: str) -> Do:
    return lambda draft: people.hand_over(draft, to)


def take(*seen: str) -> Do:
    return lambda draft: people.take_over(draft, seen)


def given() -> Copy:
    """A job with a bracket tacked, open, handed to Ada."""
    copy = marked()
    copy.call("tack.left", read("slope", "2"))
    copy.call(None, give("Ada"))
    return copy


def seen_in(copy: Copy) -> tuple[str, ...]:
    [*_, last] = copy.job.view.of_kind(TakenOverAct)
    assert isinstance(last.act, TakenOverAct)
    return last.act.seen


def test_only_what_was_seen_stands_there() -> None:
    """What the comer ticked, and of that what is open; a command means all that is open."""
    copy = given()
    names = tuple(one.name for one in copy.job.open_conditions)
    assert "tacked.left" in names
    copy.call(None, take("tacked.left", "never.there"), by="Ada")
    assert seen_in(copy) == ("tacked.left",)
    copy.call(None, people.take_over, by="Ada")
    assert seen_in(copy) == names


def test_what_was_not_seen_is_a_problem_until_it_is_closed() -> None:
    """By id for scripts, by its tag or its words for people; closed, nothing stands against the job."""
    copy = given()
    copy.call(None, take(*(one.name for one in copy.job.open_conditions if one.id != "tacked")), by="Ada")
    assert job_problems(copy.job) == [ADA]
    tacked = next(one for one in copy.job.open_conditions if one.id == "tacked")
    called = f"{tacked.tag or tacked.text} (left)"
    assert with_names(copy.job, problems(copy.job)) == [f"taken over by Ada without having seen: {called}"]
    copy.call(None, close("tacked.left"), by="Ada")
    assert job_problems(copy.job) == []


def test_whoever_takes_over_after_having_seen_it_ends_it() -> None:
    """Ada saw nothing, Bo all; and the other way round Bo's not having seen it stands."""
    copy = given()
    copy.call(None, take(), by="Ada")
    assert len(job_problems(copy.job)) == 1
    copy.call(None, give("Bo"), by="Ada")
    copy.call(None, people.take_over, by="Bo")
    assert job_problems(copy.job) == []
    copy.call(None, give("Ada"), by="Bo")
    copy.call(None, take(*seen_in(copy)[:-1]), by="Ada")
    [said] = job_problems(copy.job)
    assert said.startswith("taken over by Ada without having seen:")


def test_what_is_opened_afterwards_is_nobodys_oversight() -> None:
    """A condition opened after the taking over, or in another copy meanwhile, wasn't there to be seen."""
    copy = given()
    other = copy.split("other")
    copy.call(None, people.take_over, by="Ada")
    copy.call(None, opens("jack sinks"))
    other.call(None, opens("hose chafed"))
    copy.take(other)
    assert {one.text for one in copy.job.open_conditions} >= {"jack sinks", "hose chafed"}
    assert job_problems(copy.job) == []


def test_an_undone_taking_over_says_nothing() -> None:
    """What is taken back counts for nothing."""
    copy = given()
    copy.call(None, take(), by="Ada")
    assert len(job_problems(copy.job)) == 1
    copy.call(None, mending.undo, by="Ada")
    assert job_problems(copy.job) == []
