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
from tests.support.terminal import Bench

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
def begun(folder: Path) -> Iterator[Bench]:
    """At the first question that isn't the title or the name."""
    bench = Bench(folder / "hay-trailer.job.toml", "Begin a job from a template", IN_FOLDER)
    bench.press("\r")
    bench.type("Hay trailer\r")
    bench.press("\r")
    yield bench
    bench.child.close(force=True)


def to_the_last_page(bench: Bench) -> str:
    """Enter to every question that is left; what stood on the screen meanwhile."""
    asked = ""
    for _ in range(60):
        if "Begin the job?" in bench.shown:
            return asked
        asked += bench.shown
        bench.press("\r")
    pytest.fail(f"the questions have no end:\n{bench.shown}")


def test_begin_now_writes_what_is_known(begun: Bench) -> None:
    """After one answer Tab and b begin the job, the rest not known yet."""
    begun.type("Tarn hay trailer\r")
    begun.press("\t", "b")
    assert begun.path.exists(), begun.shown
    places = JobFile(begun.path).job.places
    assert places.given("recipient.name").value == "Tarn hay trailer"
    assert places.given("donor.name").value is None


def test_each_question_says_which_of_how_many(begun: Bench) -> None:
    """The third question says so."""
    assert re.search(r"Question 3 of \d\d", begun.shown), begun.shown


def test_the_last_page_names_the_keys_that_it_takes(begun: Bench) -> None:
    """The row of keys names b and no Enter; Enter writes nothing, b begins."""
    to_the_last_page(begun)
    assert "Enter" not in begun.keys
    assert begun.keys.startswith("b begin the job")
    assert not begun.path.exists()
    begun.press("b")
    assert begun.path.exists()


def test_what_stands_on_a_measurement_is_not_asked(begun: Bench) -> None:
    """No question of what follows while nothing is measured."""
    asked = to_the_last_page(begun)
    assert "under the donor" in asked
    assert "fits as it is" not in asked


@pytest.fixture
def comer(folder: Path) -> Iterator[Callable[[str], Bench]]:
    """Somebody at a job that waits for Ada Prosser."""
    path = handed_over(folder / "handed.job.toml").path
    benches: list[Bench] = []

    def sits_down(by: str) -> Bench:
        benches.append(Bench(path, "take over", IN_JOB.format(by=by)))
        benches[-1].read()
        return benches[-1]

    yield sits_down
    for one in benches:
        with closing(one.child):
            one.child.terminate(force=True)


def key_to_take_over(bench: Bench) -> str:
    """The key that the screen names for taking over."""
    found = re.search(r"(\w) (?:I )?take over", bench.keys)
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
