"""Every shipped template: proofread without a finding, and walked from begun to ended with figures written by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.job.state.job import Job
from jobtrack.shopmath.index import INDEX
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.load import load
from tests.shelf.replay import VALUES, problems, value_files
from tests.shelf.value_file import read

UNDER_CONSTRUCTION: tuple[str, ...] = ()
"""Templates whose value files are still to be written. Empty when the shelf is full."""
SHIPPED = {path.stem: path for path in sorted(shipped("job_templates").glob("*.toml"))}


def _unless_under_construction(template: str) -> object:
    mark = pytest.mark.xfail(reason="the shelf is under construction", strict=True)
    return pytest.param(template, marks=[mark] if template in UNDER_CONSTRUCTION else [])


@pytest.mark.parametrize("template", [_unless_under_construction(one) for one in SHIPPED])
def test_it_is_walked_from_begun_to_ended(template: str, tmp_path: Path) -> None:
    """No finding, no call that fails, every step, condition and hold come by, and the end is as the files say."""
    jobs: list[Job | None] = []
    found = problems(
        SHIPPED[template], value_files(template), tmp_path, lambda walked: jobs.append(walked.job)
    )
    assert found == [], "\n".join(found)
    assert jobs
    assert all(job is not None and job.plan.template.id == template for job in jobs)


@pytest.mark.parametrize("template", SHIPPED)
def test_it_uses_workings_out_that_exist(template: str) -> None:
    names = {name for module in INDEX.values() for name in module}
    found, _ = load(SHIPPED[template])
    assert {one.use for step in found.step.values() for one in step.work_out.values()} - names == set()


@pytest.mark.parametrize("template", SHIPPED)
def test_its_file_is_called_by_its_id(template: str) -> None:
    assert load(SHIPPED[template])[0].id == template


def test_every_value_file_is_of_a_shipped_template() -> None:
    """Named ID.toml or ID-WHAT.toml after the template that it says it is of, so that it is found."""
    for path in VALUES.glob("*"):
        template = read(path).template
        assert template in SHIPPED, f"{path.name}: no template {template} is shipped"
        assert path in value_files(template), f"{path.name}: call it {template}.toml or {template}-WHAT.toml"


def test_what_is_under_construction_is_there() -> None:
    assert set(UNDER_CONSTRUCTION) <= set(SHIPPED)
