"""The rooms, looked at from a fresh process: what the core and a plain command bring with them."""

from __future__ import annotations

import json
import pkgutil
import subprocess
import sys
from pathlib import Path

import pytest

import jobtrack.app
import jobtrack.shopmath
from tests.support.exchange import HALF_DONE
from tests.support.mistakes import SOUND

HEAVY = {"textual", "rich", "pydantic", "tomli_w", "hypothesis", "zoneinfo", "sqlite3", "jinja2", "PIL"}
"""What the first frame, and every plain command, does without."""
CORE = [
    "jobtrack.store.file.writer",
    "jobtrack.job.compose.draft",
    "jobtrack.store.copies.merge",
    "jobtrack.store.copies.intact",
    "jobtrack.store.machine.jobs_folder",
    "jobtrack.job.remarks.effects",
    "jobtrack.job.remarks.of_job",
    "jobtrack.job.remarks.of_step",
    "jobtrack.sheets.as_json.job",
    "jobtrack.sheets.job_text",
    "jobtrack.sheets.handover.sheet",
    "jobtrack.sheets.job_card.sheet",
    "jobtrack.sheets.vehicle_record.list",
    "jobtrack.sheets.vehicle_record.photo_files",
    "jobtrack.sheets.paper.html",
    "jobtrack.cli.on_paper.writing",
    "jobtrack.hours.labour",
    "jobtrack.workings.answers",
    "jobtrack.template.load",
    "jobtrack.schema.reader",
    "jobtrack.store.machine.settings",
    "jobtrack.cli.record.command",
    "jobtrack.cli.reports",
    "jobtrack.cli.main",
    "jobtrack.figures.cells",
    "jobtrack.pictures",
]
ROOM_OF = {
    "show": "jobtrack.cli.reports",
    "hours": "jobtrack.cli.reports",
    "intact": "jobtrack.cli.files",
    "work-out": "jobtrack.cli.work_out",
    "templates": "jobtrack.cli.templates.shelf",
    "proofread": "jobtrack.cli.files",
    "schema": "jobtrack.cli.schema",
}
"""Where what a command does is written: it was really run."""
APP = [one.name for one in pkgutil.walk_packages(jobtrack.app.__path__, "jobtrack.app.")]
SHOPMATH = [one.name for one in pkgutil.walk_packages(jobtrack.shopmath.__path__, "jobtrack.shopmath.")]


def modules_after(code: str) -> set[str]:
    """The modules that a fresh process holds after some code."""
    code += "\nimport json, sys\nprint(json.dumps(sorted(sys.modules)))"
    ended = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, timeout=60, check=True, text=True
    )
    return set(json.loads(ended.stdout.splitlines()[-1]))


def rooms(modules: set[str]) -> set[str]:
    """The packages that modules belong to."""
    return {module.partition(".")[0] for module in modules}


@pytest.mark.parametrize("module", CORE)
def test_the_core_brings_nothing_heavy(module: str) -> None:
    """Importing a room below the screens imports no screen and nothing heavy."""
    found = modules_after(f"import {module}")
    assert module in found
    assert not rooms(found) & HEAVY
    assert not {one for one in found if one.startswith("jobtrack.app")}


@pytest.mark.parametrize(
    "arguments",
    [
        ["show", HALF_DONE],
        ["show", HALF_DONE, "--json"],
        ["hours", HALF_DONE],
        ["hours", HALF_DONE, "--json"],
        ["intact", HALF_DONE],
        ["work-out"],
        ["templates", "--json"],
        ["proofread", SOUND, "--json"],
        ["schema"],
    ],
    ids=lambda arguments: " ".join(Path(one).name for one in arguments),
)
def test_a_plain_command_brings_nothing_heavy(arguments: list[object]) -> None:
    """Reading a whole job, and saying what is in it, does without them too."""
    words = [str(one) for one in arguments]
    found = modules_after(f"from jobtrack.cli.main import main\nassert main({words!r}) == 0")
    assert ROOM_OF[words[0]] in found
    assert not rooms(found) & HEAVY
    assert not {one for one in found if one.startswith("jobtrack.app")}


def test_neither_the_app_nor_recording_brings_pydantic(tmp_path: Path) -> None:
    """Nor does a settings file with a mistake in it, which has to be named with its line."""
    (tmp_path / "settings.toml").write_text("colour = 1\n")
    found = modules_after(
        f"import jobtrack.cli.record.command, {', '.join(APP)}\n"
        "from pathlib import Path\nfrom jobtrack.store.machine.settings import read_settings\n"
        f"assert read_settings(Path({str(tmp_path / 'settings.toml')!r})).mistakes"
    )
    assert {"textual", "jobtrack"} <= rooms(found)
    assert "pydantic" not in rooms(found)


def test_showing_a_job_brings_no_template_checker() -> None:
    """A job is opened without the proofreader."""
    found = modules_after(
        f"from jobtrack.cli.main import main\nassert main(['show', {str(HALF_DONE)!r}]) == 0"
    )
    assert "jobtrack.template.model" in found
    assert "jobtrack.template.proofread" not in found


def test_shop_mathematics_knows_nobody() -> None:
    """All its modules together bring nothing of the program outside, and nothing that isn't Python's own."""
    found = modules_after("\n".join(f"import {module}" for module in SHOPMATH))
    ours = {one for one in found if one.startswith("jobtrack")}
    assert set(SHOPMATH) <= ours
    assert {one for one in ours if not one.startswith("jobtrack.shopmath")} == {"jobtrack"}
    bare = rooms(modules_after("import sys"))
    others = rooms(found) - bare - set(sys.stdlib_module_names) - {"jobtrack"}
    assert not others, sorted(others)
