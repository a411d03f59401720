"""An invented job with bolts and welds, and copies of it that grow apart."""

from __future__ import annotations

from functools import cache, partial
from typing import Any

import tomli

from jobtrack.job.about import About
from jobtrack.job.compose import doing
from jobtrack.job.doing.tightening import Tightening, tightening
from jobtrack.job.doing.welding import Welding, welding
from jobtrack.job.state.job import Job
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from tests.support.builders import Copy, Do, entry_id

STEP, UBOLTS, WELD = "clamp", "u-bolts", "weld"
"""All in one step; bolts alone; a weld alone."""


def template() -> dict[str, Any]:
    """One step with bolts, whose figure a given, the template or nobody holds, and a weld."""
    torque: dict[str, Any] = {
        "ubolts": {
            "figure": "ask the supplier",
            "given": "u-bolt-figure",
            "bolts": 4,
            "stages": [30, 60, 100],
        },
        "studs": {"figure": {"value": "81 ft lb", "source": "the maker of the hub"}, "bolts": 2},
        "asked": {"figure": "ask the maker", "bolts": 3, "stages": [50, 100]},
    }
    weld = {"pad": {"runs": 3, "rod": "2.5 mm", "before_next": "hand-warm"}}
    return {
        "format": 1, "id": "rig", "title": "Rig", "stage": {"only": {"title": "Only"}},
        "given": {"u-bolt-figure": {"ask": "U-bolt torque", "unit": "N*m"}},
        "step": {
            STEP: {"stage": "only", "title": "Clamp it", "torque": torque, "weld": weld},
            UBOLTS: {"stage": "only", "title": "U-bolts", "torque": {"ubolts": torque["ubolts"]}},
            WELD: {"stage": "only", "title": "Weld it on", "weld": weld},
        },
    }  # fmt: skip


@cache
def about() -> About:
    """What the header of a job file of the rig's template says."""
    written = write_header({"id": "rig-1", "title": "Rig"}, template())
    header = scan(written).header
    assert header is not None
    return about_from(tomli.loads(written.decode()), header.hash)


def rig() -> Copy:
    """A copy of the job, nothing recorded yet."""
    return Copy(Job.fold(about(), ()))


def apart(copy: Copy, salt: str) -> Copy:
    """Another copy of what this one holds now."""
    ids = (entry_id(number, salt) for number in range(10_000))
    return Copy(Job.fold(about(), copy.entries), ids)


def joined(*copies: Copy) -> Copy:
    """All that some copies hold."""
    entries = {entry.hash: entry for copy in copies for entry in copy.entries}
    return Copy(Job.fold(about(), entries.values()), (entry_id(number, "joined") for number in range(100)))


def turn(*bolts: tuple[str | None, str], line: str = "ubolts") -> list[Do]:
    """Bolts, each turned to a stage, in one call."""
    return [partial(doing.turned, name=line, bolt=bolt, stage=stage) for bolt, stage in bolts]


def bolts(copy: Copy, line: str = "ubolts") -> Tightening:
    """How far a torque line is tightened."""
    return tightening(copy.job, copy.job.steps[STEP], line)


def runs(copy: Copy) -> Welding:
    """What is recorded of the weld."""
    return welding(copy.job.view, copy.job.steps[STEP], "pad")


def asked(copy: Copy, line: str = "ubolts") -> tuple[int, str] | None:
    """The stage and the bolt whose turn it is."""
    found = bolts(copy, line)
    return None if found.stage is None or found.next is None else (found.stage, found.next.name)
