"""What `show --json` says of jobs that went through copies, collisions and damage is as its published model."""

from __future__ import annotations

import json
import random
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from jobtrack.cli.schema import shape_of
from jobtrack.job.state.job import Job
from jobtrack.sheets.as_json.job import job_json
from jobtrack.store.file.reader import JobFileError
from tests.support.damage import Whole, busy, opened
from tests.support.histories import Script, over_histories, play


@cache
def show() -> TypeAdapter[Any]:
    """The published model."""
    return TypeAdapter(shape_of("show"))


def held(job: Job) -> Any:
    """The state of a job as it is printed, taken by the model."""
    text = json.dumps(job_json(job), allow_nan=False)
    show().validate_json(text, strict=True)
    return json.loads(text)


def test_histories_of_copies_that_collide() -> None:
    """Disagreements, releases before a change, undone and taken-over steps, running clocks."""
    states: set[str] = set()

    def check(script: Script) -> None:
        played = play(script)
        for job in (*(copy.job for copy in played.copies), played.merged):
            states.update(step["state"] for step in held(job)["steps"])

    over_histories(check, 40)
    assert {"in hand", "finished", "look again"} <= states


def test_damaged_files() -> None:
    """A byte changed anywhere: what can still be read is printed in the same shape, the damage among what is open."""
    whole, pick, damaged = Whole.of(busy(30)).data, random.Random(20310402), 0
    for _ in range(60):
        data = bytearray(whole)
        data[pick.randrange(len(data))] ^= 1 << pick.randrange(7)
        try:
            job = opened(bytes(data)).job
        except JobFileError:
            continue
        held(job)
        damaged += bool(job.damage)
    assert damaged > 30
