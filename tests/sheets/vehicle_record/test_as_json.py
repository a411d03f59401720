"""What the record states of readings is what `show --json` states of them: all that are the vehicle's, and no other."""

from __future__ import annotations

from typing import Any

import pytest

from jobtrack.job.state.job import Job
from jobtrack.sheets.as_json.job import job_json
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.units.chosen import METRIC, METRIC_FIRST, US, Chosen
from tests.sheets.vehicle_record.made import exchange, in_section, numbers, record, rows, stated
from tests.support.builders import read, settle
from tests.support.histories import Script, over_histories, play

VEHICLES = ("recipient", "donor")
SAMPLES = ("axle-exchange-finished", "axle-exchange-half-done")
ABOUT_DONOR = ("donor-up", "donor-down", "other-vehicle")
"""The steps of the axle exchange that are done on the donor, as its template says of each."""


def expected(job: Job, vehicle: str, about: str | None = None) -> dict[tuple[str, str], dict[str, Any]]:
    """The readings of the vehicle by step and name, as JSON has them; `about`: whose the steps over no vehicle are."""
    found = {}
    for step in job_json(job)["steps"]:
        base, _, member = step["id"].partition(".")
        owner = member if member in VEHICLES else "donor" if base in ABOUT_DONOR else about
        for name, one in step["readings"].items() if owner in (vehicle, None) else ():
            if one["value"] is not None or one["by"] or one["others"]:
                say = job.steps[step["id"]].step.reading[name].say or name
                found[f"{step['title']} ({member})" if member else step["title"], say] = one
    return found


def agree(job: Job, vehicle: str, about: str | None = None, shown: Chosen = METRIC_FIRST) -> int:
    """Hold a record against JSON; gives how many readings there are."""
    wanted, found = expected(job, vehicle, about), stated(record(job, vehicle, shown=shown))
    assert set(found) == set(wanted)
    for place, one in wanted.items():
        target, measured, lies, tool = found[place]
        assert lies == (one["verdict"] if one["verdict"] != "none" else ""), place
        assert tool.startswith(one["with"] or ""), place
        if one["doubt"]:
            assert numbers(tool.rpartition("±")[2])[0] == pytest.approx(one["doubt"], rel=0.06), place
        _same_value(one, measured, place)
        for limit in ("target", "at_least", "at_most"):
            if one[limit] is not None:
                room = one["off_by"] / 10 if one["off_by"] else 0.02 * abs(one[limit]) + 0.01
                assert near(one[limit], target, room), (place, limit, target)
    return len(wanted)


def _same_value(one: dict[str, Any], measured: str, place: object) -> None:
    if one["value"] is not None:
        doubt = 0 if one["by"] else one["doubt"] or 0  # what is worked out is said no finer than that
        assert near(one["value"], measured, 0.006 * abs(one["value"]) + 0.005 + doubt), (place, measured)
    elif one["word"]:
        assert one["word"] in measured
    for typed in one["typed"] if isinstance(one["typed"], list) else ():
        assert numbers(typed)
    if not one["by"] and one["others"]:
        assert measured.startswith("disagreement") or one["value"] is not None


def near(value: float, text: str, room: float) -> bool:
    """Whether a text says this number."""
    return any(abs(one - value) <= room for one in numbers(text))


def test_over_histories() -> None:
    """Copies that were worked on apart and joined; the template says not whose a step is: on both records, then."""

    def check(script: Script) -> None:
        job = play(script).merged
        assert all(agree(job, vehicle) for vehicle in VEHICLES)

    met = over_histories(check, examples=30)
    assert met["disagreement"] > 5


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("vehicle", VEHICLES)
def test_the_samples(name: str, vehicle: str) -> None:
    """Every reading of both samples."""
    job = JobFile(shipped("sample_jobs") / f"{name}.job.toml").job
    count = agree(job, vehicle, "recipient")
    assert count > {"recipient": 100, "donor": 40}[vehicle]


def test_in_the_other_units_the_same_ones_stand() -> None:
    """Pounds first, kilograms behind; where each lies is the same."""
    job = JobFile(shipped("sample_jobs") / f"{SAMPLES[1]}.job.toml").job
    metric, us = (stated(record(job, "donor", shown=Chosen(one))) for one in (METRIC, US))
    assert {place: one[2] for place, one in metric.items()} == {place: one[2] for place, one in us.items()}
    turned = [place for place, one in us.items() if one[1].split()[1:2] == ["in"]]
    assert len(turned) > 20
    assert all(metric[place][1].split()[1].strip("(") == "mm" for place in turned)


def test_what_was_replaced_settled_and_disagrees_stands_apart() -> None:
    """A slip, a measuring again, a settlement with whose value it is; and what nobody settled."""
    copy = exchange()
    other = copy.split("other")
    other.job = Job.fold(copy.job.about, copy.entries)
    copy.call("height", read("tilt", "3"), read("lean", "10"))
    other.call("height", read("tilt", "4"), read("lean", "11"), by="Ada")
    copy.job = Job.fold(copy.job.about, {*copy.entries, *other.entries})
    copy.call("height", settle("tilt", "", "Ada"), by="Jo")
    copy.call("height", read("share", "190"))
    copy.call("height", read("share", "199"))
    found = [row[:2] + row[3:] for row in rows(in_section(record(copy.job), TITLE))]
    assert ("share, Height of the step", "190 mm", "199 mm, measured again (Wim, 1 Apr 2031 08:04)") in found
    assert {row[1] for row in found if row[0] == "tilt, Height of the step"} == {"3 deg", "4 deg"}
    assert any("4 deg, settled, Ada's value (Jo, " in row[-1] for row in found)
    assert {row[1] for row in found if row[0] == "lean, Height of the step"} == {"10 mm", "11 mm"}


TITLE = "Taken before and replaced, and disagreements"
