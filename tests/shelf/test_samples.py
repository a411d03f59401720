"""The shipped sample jobs: made from their value files, and what each of them has to show."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from jobtrack.job.acts.doing import BuyingAct, PartAct, TorqueAct, WeldAct
from jobtrack.job.acts.ending import DueDoneAct
from jobtrack.job.acts.people import AgreedAct, HandoverAct, TakenOverAct
from jobtrack.job.acts.said import MetAct
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.state.job import IN_HAND, Job
from jobtrack.sheets.as_json.job import job_json
from jobtrack.store.copies.intact import intact
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.store.machine.practice import SAMPLE as HALF_DONE
from jobtrack.template.load import load
from tests.shelf.samples import SAMPLES, sample
from tests.support.handed import handed, section, unescaped

FINISHED = "axle-exchange-finished.job.toml"
SHOWN = (
    AgreedAct, BuyingAct, PartAct, TorqueAct, WeldAct, MetAct, SettledAct, HandoverAct, TakenOverAct, DueDoneAct,
)  # fmt: skip
"""What the finished one has at least one of."""
OPEN = [
    "on-stands", "battery-off", "shaft-off", "no-parking-brake", "brakes-open", "axle-out", "axle-dry",
    "shafts-out", "shafts-out", "perch-tacked",
]  # fmt: skip
"""What the half-done one leaves open, in the order in which it was opened."""


@pytest.fixture
def copies(tmp_path: Path) -> dict[str, JobFile]:
    """The shipped samples, copied."""
    for name in SAMPLES:
        (tmp_path / name).write_bytes((shipped("sample_jobs") / name).read_bytes())
    return {name: JobFile(tmp_path / name) for name in SAMPLES}


@pytest.fixture
def finished(copies: dict[str, JobFile]) -> Job:
    return copies[FINISHED].job


@pytest.fixture
def half_done(copies: dict[str, JobFile]) -> Job:
    return copies[HALF_DONE].job


def test_no_other_sample_is_shipped() -> None:
    assert sorted(path.name for path in shipped("sample_jobs").iterdir()) == sorted(SAMPLES)


@pytest.mark.parametrize("name", SAMPLES)
def test_it_is_what_its_value_file_makes(name: str, tmp_path: Path) -> None:
    """To the byte; where template or values have changed, `python -m tests.shelf.samples` makes it anew."""
    made = sample(name, tmp_path).read_bytes()
    same = made == (shipped("sample_jobs") / name).read_bytes()
    assert same, f"{name} isn't what its values make now: run python -m tests.shelf.samples"


@pytest.mark.parametrize("name", SAMPLES)
def test_it_stands_on_the_template_as_it_is_shipped(name: str, copies: dict[str, JobFile]) -> None:
    """The same text in it, and the file whole."""
    template, _ = load(shipped("job_templates") / "axle-exchange.toml")
    assert copies[name].job.plan.template == template
    assert intact(copies[name].path) == []


def test_the_finished_one_shows_every_kind_of_work(finished: Job) -> None:
    """Two people and more, hours of each; buying and parts, bolts, runs, a surprise, an agreement, a disagreement."""
    acts = {type(act) for entry in finished.view.entries for act in entry.did}
    assert set(SHOWN) - acts == set()
    state = job_json(finished)
    assert (state["job"]["ended"], state["open_conditions"]) == ("closed", [])
    assert sorted(state["hours"]["by_person"]) == ["Ada Prosser", "Nell Orrick", "Teo Banfield"]
    assert all(hours > 0 for hours in state["hours"]["by_person"].values())
    assert state["hours"]["total_hours"] == pytest.approx(sum(state["hours"]["by_step"].values()))


def test_the_finished_one_says_what_was_decided_about_a_reading_outside(finished: Job) -> None:
    """The bare trial's slip lies outside, and who leaves it so stands beside it."""
    step = _step(finished, "trial-angles")
    assert step["readings"]["slip"]["verdict"] == "outside"
    assert ["Nell agrees to leave it" in note["note"] for note in step["notes"]] == [True]


def test_its_u_bolts_are_turned_one_by_one_in_their_order(finished: Job) -> None:
    """Four bolts, each through snug, two stages and the final one."""
    acts = [done.act for done in finished.view.in_step("u-bolts.left")]
    turned = [(act.member, act.stage) for act in acts if isinstance(act, TorqueAct)]
    assert [bolt for bolt, stage in turned if stage == "final"] == ["1", "3", "2", "4"]
    assert sorted({stage for _, stage in turned}) == ["1", "2", "final", "snug"]


def test_the_half_done_one_stops_in_the_first_perch(half_done: Job) -> None:
    """Tacked and not welded: what is open, in hand, outside and on its way, and nothing is next beside it."""
    assert [one.id for one in half_done.open_conditions] == OPEN
    assert [step for step in half_done.steps if half_done.state(step) == IN_HAND] == ["warm.left"]
    assert half_done.state("tack.left") == "finished"
    assert half_done.next_steps == []
    assert half_done.now.verdict("warm.left", "metal") == "outside"


def test_it_is_handed_to_the_helper_with_its_donts(half_done: Job) -> None:
    """The last entry hands it to Ada, who hasn't taken it over; the sheet says what she doesn't begin."""
    *_, last = half_done.view.entries
    assert [act.to for act in last.did if isinstance(act, HandoverAct)] == ["Ada Prosser"]
    head, _, first, *others = section(unescaped(handed(half_done)), "Recorded as open, right now")
    assert head == "| What | Left by, since | Stops |"
    assert first.startswith("| PERCH LOOSE (left): ")
    assert "| “Cut the old perch off, grind flush (right)” and " in first
    [brakes] = [one for one in others if one.startswith("| NO BRAKES: ")]
    assert "| “Down on its wheels” and " in brakes


def _step(job: Job, id: str) -> Any:
    return next(one for one in job_json(job)["steps"] if one["id"] == id)
