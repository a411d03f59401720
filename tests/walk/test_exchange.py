"""A whole axle exchange of the first version through the command line, from a value file written by hand."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from jobtrack.sheets.as_json.job import job_json
from jobtrack.store.copies.intact import intact
from jobtrack.store.file.writer import JobFile
from tests.walk.replay import replay, values


class Follower:
    """Another program that has the file open all the time, and looks at it now and then."""

    def __init__(self) -> None:
        self.file: JobFile | None = None
        self.calls = 0
        self.met_disagreement: set[str] = set()

    def __call__(self, path: Path) -> None:
        self.calls += 1
        self.file = self.file or JobFile(path)
        self.file.refresh()
        job = self.file.job
        for step, planned in job.steps.items():
            found = {f"{step}.{name}" for name, reading in planned.step.reading.items()
                     if reading.from_ is None and not job.places.reading(step, name).agreed}  # fmt: skip
            self.met_disagreement |= found
        if self.calls % 8 == 0:
            assert job_json(JobFile(path).job) == job_json(job)


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory) -> tuple[JobFile, Follower]:
    follower = Follower()
    path = replay("exchange_values.toml", tmp_path_factory.mktemp("walk") / "exchange.job.toml", follower)
    return JobFile(path), follower


def test_the_exchange_ends_closed_with_nothing_open(walked: tuple[JobFile, Follower]) -> None:
    """Walked from begun to closed, every step is settled, no condition is open and the job is closed."""
    file, _ = walked
    state = job_json(file.job)
    assert state["job"]["ended"] == "closed"
    assert {step["state"] for step in state["steps"]} <= {"finished", "not needed"}
    assert state["open_conditions"] == []
    assert state["problems"] == []
    assert intact(file.path) == []


def test_what_lay_outside_stays_outside(walked: tuple[JobFile, Follower]) -> None:
    """Exactly the five readings that the value file says are outside, and each is a problem of its step."""
    state = job_json(walked[0].job)
    outside = [f"{step['id']}.{name}" for step in state["steps"]
               for name, reading in step["readings"].items() if reading["verdict"] == "outside"]  # fmt: skip
    assert sorted(outside) == sorted(values("exchange_values.toml")["expect"]["outside"])
    assert len(outside) == 5
    problems = {step["id"]: " ".join(step["problems"]) for step in state["steps"]}
    assert all("is outside" in problems[name.rpartition(".")[0]] for name in outside)


def test_the_disagreement_was_met_and_settled(walked: tuple[JobFile, Follower]) -> None:
    """Two people measured one thing apart: a disagreement until one settled it, both values still shown."""
    file, follower = walked
    settled = values("exchange_values.toml")["expect"]["settled"]
    assert follower.met_disagreement == {settled}
    reading = _reading(file, settled)
    assert reading["value"] is not None
    assert len(reading["others"]) >= 2


def test_a_measurement_taken_again_keeps_the_old_one(walked: tuple[JobFile, Follower]) -> None:
    """The value taken again counts; the one before it stays to be seen."""
    reading = _reading(walked[0], values("exchange_values.toml")["expect"]["taken_again"])
    assert [one["value"] for one in reading["others"]] != [reading["value"]]
    assert reading["others"]


def test_read_again_it_is_the_same(walked: tuple[JobFile, Follower]) -> None:
    """A program that followed the file from the start and one that opens it at the end see one state."""
    file, follower = walked
    assert follower.file is not None
    assert json.dumps(job_json(follower.file.job)) == json.dumps(job_json(file.job))


def _reading(file: JobFile, name: str) -> Any:
    step, _, reading = name.rpartition(".")
    return next(one for one in job_json(file.job)["steps"] if one["id"] == step)["readings"][reading]
