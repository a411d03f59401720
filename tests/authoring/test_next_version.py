"""The next version of a template from a job: what goes in, what never does, and that nothing else is touched."""

from __future__ import annotations

import copy
import json
from functools import cache
from typing import Any

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.authoring.next_version import NextVersion, after, next_version
from jobtrack.authoring.times import in_order
from jobtrack.job.about import About
from jobtrack.job.acts.said import MET, MetAct
from jobtrack.job.compose import conditions, doing, ending, mending, people, said, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state.job import Job
from jobtrack.schema.problem import MISTAKE
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.load import build
from jobtrack.template.plan import plan
from jobtrack.template.proofread import problems
from tests.support.builders import Copy, Do, finish
from tests.support.cli_calls import TEMPLATE

FILES = (TEMPLATE, *sorted(shipped("job_templates").glob("*.toml")))


@cache
def text_of(number: int) -> str:
    return FILES[number].read_text(encoding="utf-8")


def begun(number: int = 0) -> tuple[Copy, dict[str, Any]]:
    """A job of a template, just begun, and the template's data."""
    data = tomli.loads(text_of(number))
    copied = Copy(Job.fold(About("j", "J", plan(build(data)), ""), ()))
    copied.begin()
    return copied, data


def made(copied: Copy, data: dict[str, Any]) -> NextVersion:
    """The next version, the job stopped."""
    copied.call(None, lambda draft: ending.stop_job(draft, "enough"))
    return next_version(copied.job, data)


def add(step: str, title: str, **near: str) -> Do:
    return lambda draft: steps.add_step(draft, step, title, **near)


def without(found: NextVersion) -> dict[str, Any]:
    """The new version's data with everything taken out that the old one hasn't."""
    old, data = found.before, copy.deepcopy(found.data)
    new_steps = {*data["step"]} - {*old["step"]}
    data["step"] = {id: step for id, step in data["step"].items() if id not in new_steps}
    _restore(data, old, "part")
    for id, step in data["step"].items():
        was = old["step"][id]
        for table in ("part", "tick"):
            _restore(step, was, table)
        if isinstance(was.get("after"), list):
            step["after"] = [one for one in step["after"] if one not in new_steps]
        elif "after" in was:
            step["after"] = was["after"]
        if "minutes" in step:
            step["minutes"] = was["minutes"]
    data["version"] = old["version"]
    return data


def _restore(new: dict[str, Any], old: dict[str, Any], table: str) -> None:
    if table in new:
        new[table] = {name: one for name, one in new[table].items() if name in old.get(table, {})}
        if table not in old:
            del new[table]


# What goes in


def test_a_step_behind_another_and_one_ahead() -> None:
    """Each stands in the stage of the step that it was put beside; what waited for that one waits for it."""
    copied, data = begun()
    copied.call(
        None, add("seat", "Clean the seat", after="tack"), add("chalk", "Chalk the floor", before="tack")
    )
    found = made(copied, data)
    assert list(found.data["step"]) == ["spacing", "plate", "chalk", "tack", "seat", "nuts"]
    assert found.data["step"]["seat"] == {"stage": "fit", "title": "Clean the seat"}
    planned = plan(build(found.data))
    assert planned.steps["tack"].after == ("chalk",)
    assert planned.steps["nuts"].after == ("seat",)
    assert [one.words for one in found.changes] == [
        "Step added after “Tack the hook, then weld it”: “Clean the seat”.",
        "Step added before “Tack the hook, then weld it”: “Chalk the floor”.",
    ]  # fmt: skip
    assert found.words()[0] == "2 steps added."
    assert found.words()[-1].startswith("Made from version 1, as it stands in the job")


def test_a_step_ahead_of_one_that_says_what_it_waits_for() -> None:
    """The new one waits for that, and the other for the new one too."""
    copied, data = begun()
    copied.call(None, add("sweep", "Sweep", before="spacing.donor"))
    found = made(copied, data)
    assert found.data["step"]["sweep"] == {"stage": "survey", "title": "Sweep", "after": []}
    assert found.data["step"]["spacing"]["after"] == ["sweep"]


def test_a_step_in_a_repeated_stage_is_said_to_be_repeated() -> None:
    """It was put in for one side, and will stand there for each."""
    copied, data = begun()
    copied.call(None, add("file-it", "File the edge", after="plate.left"))
    found = made(copied, data)
    assert "(once for each side, as its stage; it was put in for one)" in found.changes[0].words
    assert {"file-it.left", "file-it.right"} <= {*plan(build(found.data)).steps}


def test_a_step_beside_an_added_one_and_an_id_that_a_template_can_t_have() -> None:
    """Steps lean on each other as in the job; an id with signs becomes one without."""
    copied, data = begun()
    copied.call(None, add("Öl & Fett!", "Grease", after="nuts"))
    copied.call(None, add("wipe", "Wipe", before="Öl & Fett!"))
    copied.call(None, add("left", "A member's name", after="wipe"))
    found = made(copied, data)
    assert list(found.data["step"])[3:] == ["nuts", "wipe", "left-2", "ol-fett"]


def test_a_step_that_wasn_t_needed_after_all_stays_out() -> None:
    """Put in and marked not needed: it is named as left out."""
    copied, data = begun()
    copied.call(None, add("seat", "Clean the seat", after="tack"))
    copied.call("seat", steps.not_needed)
    found = made(copied, data)
    assert "seat" not in found.data["step"]
    assert found.left_out == ["the step “Clean the seat”: it was put in, then marked not needed"]


def test_an_added_step_that_was_undone_stays_out() -> None:
    """What was taken back isn't in the job."""
    copied, data = begun()
    copied.call(None, add("seat", "Clean the seat", after="tack"))
    copied.call(None, mending.undo)
    assert made(copied, data).changes == []


@pytest.mark.parametrize(
    ("before", "likely", "wanted"),
    [
        ([10, 20, 60], 30, [10, 30, 60]),
        ([10, 20, 60], 10, [5, 10, 60]),
        ([10, 20, 60], 60, [10, 60, 65]),
        ([10, 20, 60], 5, [1, 5, 60]),
        ([], 5, [1, 5, 10]),
        ([], 90, [85, 90, 95]),
    ],
)
def test_times_stay_in_order(before: list[float], likely: int, wanted: list[float]) -> None:
    """What lies on its side of the likely time stays, else it gives way by five minutes: counted by hand."""
    assert in_order(before, likely) == wanted


def test_a_time_is_the_mean_of_the_sides_and_only_of_what_is_finished() -> None:
    """40 and 60 min on the two sides are 50; the step in hand says nothing; within a tenth nothing is changed."""
    copied, data = begun()
    day = copied.entries[0].at.date().isoformat()
    for step, hours in (("plate.left", "0:40"), ("plate.right", "1:00"), ("nuts", "0:11"), ("tack", "2:00")):
        by = f"by {step}"
        copied.call(step, lambda draft: said.note(draft, "here"), by=by)
        copied.call(None, lambda draft, hours=hours: people.worked(draft, hours, None, day), by=by)  # type: ignore[misc]
        if step != "tack":
            copied.call(step, finish, by=by)
    found = made(copied, data)
    assert found.data["step"]["plate"]["minutes"] == [10, 50, 60]
    assert found.data["step"]["tack"]["minutes"] == [20, 30, 40]
    assert found.data["step"]["nuts"]["minutes"] == [5, 10, 15]
    assert [one.words for one in found.changes] == [
        "“Make the plate” took 50 min: now 10, 50, 60, before 10, 20, 60."
    ]
    assert any("labour of all who worked on it" in one for one in found.words())


def test_parts_and_surprises_but_no_price_no_name_and_no_note() -> None:
    """What was needed and what was met go in; who sold it, for how much, and what was written down don't."""
    copied, data = begun()
    secret = "owner-in-a-hurry"
    order = {"from_": f"Ilse {secret}", "due": secret, "price": f"{secret} 12"}
    copied.call("nuts", lambda draft: doing.buying(draft, "Split pin", "asked"))
    copied.call("nuts", lambda draft: doing.buying(draft, "Split pin", "ordered", **order), by=secret)
    copied.call(
        "nuts", lambda draft: said.private_note(draft, secret), lambda draft: said.note(draft, secret)
    )
    copied.call("nuts", lambda draft: said.met(draft, "sheared", "stud", "front left"), by=secret)
    copied.call("nuts", lambda draft: conditions.opens(draft, "brake line chafed through"), by=secret)
    copied.call("nuts", lambda draft: doing.part(draft, "Split pin", "3", "fitted"), by=secret)
    copied.call(None, lambda draft: doing.buying(draft, "Wrong seal", "asked"))
    copied.call(None, lambda draft: doing.buying(draft, "Wrong seal", "wrong"))
    copied.call(None, lambda draft: said.met(draft, "worn", "my patience"))
    copied.call(None, lambda draft: people.agreed(draft, secret, secret, amount="260"))
    found = made(copied, data)
    nuts = found.data["step"]["nuts"]
    assert nuts["part"] == {"split-pin": {"count": 3, "from": "new", "say": "Split pin"}}
    asked = [one["ask"] for id, one in nuts["tick"].items() if id != "painted"]
    assert asked == [
        "Looked at, since it was met once: stud (sheared), front left?",
        "Looked at, since it was met once: brake line chafed through?",
    ]
    assert secret not in found.text
    assert "260" not in found.text
    assert found.words()[0] == "1 part added, 2 checks added for what was met."
    assert found.left_out == [
        "the part “Wrong seal”: it was neither fitted nor kept on order",
        "“my patience (worn)”: it was met in no step",
    ]


@pytest.mark.parametrize(
    ("version", "wanted"),
    [("1", "2"), ("9", "10"), ("1.9", "1.10"), ("v3 draft", "v4 draft"), ("spring", "spring 2"), ("", "2")],
)
def test_the_version_behind(version: str, wanted: str) -> None:
    """The last number in it is raised by one."""
    assert after(version) == wanted


# Nothing else is touched


@pytest.mark.parametrize(
    "path", sorted(shipped("sample_jobs").glob("*.job.toml")), ids=lambda path: path.stem
)
def test_a_shipped_job_gives_its_times_surprises_and_parts(path: Any) -> None:
    """No step was added in it; without its changes the new version reads as the template that it was begun from."""
    file = JobFile(path)
    found = next_version(file.job, file.template_data())
    met = sum(isinstance(act, MetAct) for entry in file.job.view.entries for act in entry.did)
    assert {one.kind for one in found.changes} <= {"time", "check", "part"}
    assert sum(one.kind == "check" for one in found.changes) == met > 0
    assert json.dumps(without(found)) == json.dumps(found.before)
    assert tomli.loads(found.text) == found.data


PLACES, WORDS = st.integers(0, 400), st.text(min_size=1, max_size=8)
DEEDS = {
    "add": ["after", "before", ""], "buy": ["asked", "here", "wrong"], "met": [*MET], "opens": [""],
    "worked": ["0:03", "2:00", "40"], "finish": [""],
}  # fmt: skip
OPS = st.sampled_from([*DEEDS]).flatmap(
    lambda deed: st.tuples(st.just(deed), st.sampled_from(DEEDS[deed]), PLACES, WORDS)
)


def do(copied: Copy, op: tuple[str, str, int, str], number: int) -> None:
    """One thing somebody does, in whichever step; what is refused isn't done."""
    what, how, place, words = op
    step = list(copied.job.steps)[place % len(copied.job.steps)]
    by, day = f"nobody-{number}", copied.entries[0].at.date().isoformat()
    deeds: dict[str, Do] = {
        "add": lambda draft: steps.add_step(draft, words, words, **({how: step} if how else {})),
        "buy": lambda draft: _buy(draft, words, how),
        "met": lambda draft: said.met(draft, how, words),
        "opens": lambda draft: conditions.opens(draft, words),
        "worked": lambda draft: people.worked(draft, how, None, day),
        "finish": steps.finished,
    }  # fmt: skip
    try:
        if what == "worked":
            copied.call(step, lambda draft: said.private_note(draft, "a secret"), by=by)
        copied.call(None if what in ("worked",) or (what == "add" and not how) else step, deeds[what], by=by)
    except Refused:
        return


def _buy(draft: Draft, name: str, state: str) -> None:
    for each in dict.fromkeys(("asked", state)):
        doing.buying(draft, name, each, price="12")


@settings(max_examples=60)
@given(st.integers(0, len(FILES) - 1), st.lists(OPS, max_size=8))
def test_without_its_changes_it_is_the_same_template(
    number: int, ops: list[tuple[str, str, int, str]]
) -> None:
    """Whatever is done in a job of a shipped template: no mistake more, the old one behind it, nobody's name in it."""
    copied, data = begun(number)
    for place, op in enumerate(ops):
        do(copied, op, place)
    found = made(copied, data)
    assert json.dumps(without(found)) == json.dumps(data)
    assert json.dumps(tomli.loads(found.text)) == json.dumps(found.data)
    assert [one for one in problems(found.data) if one.kind == MISTAKE] == []
    assert "nobody-" not in found.text
    assert "a secret" not in found.text
    assert bool(found.changes) == (found.data | {"version": "1"} != data | {"version": "1"})
