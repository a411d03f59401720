"""An invented job in which givens say how many bolts there are: one for the job, one a vehicle."""

from __future__ import annotations

from functools import cache
from typing import Any

import tomli

from jobtrack.job.about import About
from jobtrack.job.compose import values
from jobtrack.job.doing.tightening import Tightening, tightening
from jobtrack.job.state.job import Job
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from tests.support.builders import Copy, Do, entry_id

NUTS, PLATES = "nuts", "plates"
"""Wheel nuts, as many as the given of the job says; plate bolts of each vehicle, as its own given says."""
STUDS = "wheel-studs"
ASKED = "how many bolts isn't known yet: “Wheel studs a wheel”"


def template() -> dict[str, Any]:
    """One step for the job and one for each vehicle, each with a torque line in two stages."""
    nuts: dict[str, Any] = {"figure": "ask the maker", "bolts": STUDS, "stages": [50, 100]}
    plates: dict[str, Any] = {"figure": "ask the maker", "bolts": "plate-bolts", "stages": [50, 100]}
    return {
        "format": 1, "id": "studs", "title": "Studs", "stage": {"only": {"title": "Only"}},
        "vehicle": {"donor": "The one that gives", "recipient": "The one that gets"},
        "given": {
            STUDS: {"ask": "Wheel studs a wheel", "unit": "count"},
            "donor": {"plate-bolts": {"ask": "Plate bolts", "unit": "count"}},
            "recipient": {"plate-bolts": {"ask": "Plate bolts", "unit": "number"}},
        },
        "step": {
            NUTS: {"stage": "only", "title": "Wheel nuts", "torque": {"nuts": nuts}},
            PLATES: {"stage": "only", "title": "Plates", "for_each": "vehicle", "torque": {"plate": plates}},
        },
    }  # fmt: skip


@cache
def about() -> About:
    """What the header of a job file of this template says."""
    written = write_header({"id": "studs-1", "title": "Studs"}, template())
    header = scan(written).header
    assert header is not None
    return about_from(tomli.loads(written.decode()), header.hash)


def studs(*givens: tuple[str, str], salt: str = "studs") -> Copy:
    """A copy of the job, with what is known of it."""
    copy = Copy(Job.fold(about(), ()), (entry_id(number, salt) for number in range(10_000)))
    for name, text in givens:
        copy.call(None, known(name, text))
    return copy


def known(name: str, text: str) -> Do:
    """A given, as typed."""
    return lambda draft: values.given(draft, name, text)


def line(copy: Copy, step: str = NUTS, name: str = "nuts") -> Tightening:
    """How far a torque line is tightened."""
    return tightening(copy.job, copy.job.steps[step], name)
