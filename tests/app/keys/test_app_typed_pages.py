"""Beginning a job and taking one over, key by key through a real terminal; the job file tells what the keys did."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from jobtrack.job.acts.people import TakenOverAct
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import handed_over
from tests.support.terminal import ESCAPE, Bench

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal as POSIX has them")
IN_FOLDER = (
    "import sys; from pathlib import Path; from jobtrack.app.main import run; "
    "sys.exit(run(Path(sys.argv[1]).parent, 'Hob'))"
)
IN_JOB = (
    "import sys; from pathlib import Path; from jobtrack.app.main import run_job; "
    "sys.exit(run_job(Path(sys.argv[1]), {by!r}))"
)
TO_THE_END = "\x1b[F"


@pytest.fixture
def jobs(folder: Path) -> Iterator[Bench]:
    """The jobs of an empty folder."""
    bench = Bench(folder / "hay-trailer.job.toml", "Begin a job from a template", IN_FOLDER)
    yield bench
    bench.child.close(force=True)


def test_a_title_and_enter_begin_a_job(jobs: Bench) -> None:
    """Enter on the template, a title, Enter: the job is in its file, and its first step stands there."""
    jobs.press("\r")
    assert jobs.keys.startswith("Enter begins the job"), jobs.shown
    jobs.type("Hay trailer")
    assert not jobs.path.exists()
    jobs.press("\r")
    jobs.wait_for("is begun by Hob")
    first, *more = JobFile(jobs.path).job.view.entries
    assert (first.by, more) == ("Hob", [])
    assert "Stage 1 of" in jobs.shown


def test_typed_in_one_go_begins_one_job(jobs: Bench) -> None:
    """All keys in one go, Enter twice: one job, begun once, and nothing else is recorded."""
    jobs.type_ahead("\rHay trailer\r\r")
    jobs.wait_for("is begun by Hob")
    jobs.read()
    assert [path.name for path in jobs.path.parent.glob("*.job.toml")] == [jobs.path.name]
    assert len(JobFile(jobs.path).job.view.entries) == 1


def test_escape_writes_nothing(jobs: Bench) -> None:
    """Escape from a typed title goes back to the jobs; the title stands there again the next time."""
    jobs.press("\r")
    jobs.type("Hay trailer")
    jobs.press(ESCAPE)
    jobs.wait_for("Begin a job from a template")
    assert not jobs.path.exists()
    jobs.press("\r")
    jobs.wait_for("> Hay trailer")


@pytest.fixture
def comer(folder: Path) -> Iterator[Callable[[str], Bench]]:
    """Somebody at a job that waits for Ada Prosser."""
    path = handed_over(folder / "handed.job.toml").path
    benches: list[Bench] = []

    def sits_down(by: str) -> Bench:
        benches.append(Bench(path, "i take over", IN_JOB.format(by=by)))
        benches[-1].read()
        return benches[-1]

    yield sits_down
    for one in benches:
        with closing(one.child):
            one.child.terminate(force=True)


def key_to_take_over(bench: Bench) -> str:
    """The key that the screen names for taking over."""
    found = re.search(r"(\w) take over", bench.keys)
    assert found is not None, bench.keys
    return found[1]


def taken(bench: Bench) -> list[str]:
    """Who has taken the job over, as the file has it."""
    return [done.entry.by for done in JobFile(bench.path).job.view.of_kind(TakenOverAct)]


def test_nobody_takes_over_unread(comer: Callable[[str], Bench]) -> None:
    """The named person's key, Enter and key record nothing before the page was in sight to its end."""
    bench = comer("Ada Prosser")
    key = key_to_take_over(bench)
    bench.press(key, "\r", key)
    assert taken(bench) == []
    bench.press(TO_THE_END, key, "\r", key)
    assert taken(bench) == ["Ada Prosser"]


def test_another_takes_over_only_with_a_typed_name(comer: Callable[[str], Bench]) -> None:
    """Key, Enter, key by somebody else record nothing; a typed name is held beside whose the job was to be."""
    bench = comer("Hob Tansley")
    key = key_to_take_over(bench)
    bench.press(TO_THE_END, key, "\r", key)
    assert taken(bench) == []
    bench.press("\x1b", key)
    bench.type("Hob Tansley\r")
    assert "It was handed to Ada Prosser; you are Hob Tansley." in bench.asked
    assert taken(bench) == []
    bench.press(key)
    assert taken(bench) == ["Hob Tansley"]
