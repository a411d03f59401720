"""What is known of each part: how many are wanted, how far the buying is, what became of it, where it lies."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from jobtrack.job.acts.doing import BuyingAct, PlaceAct
from jobtrack.job.compose import doing, mending, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.doing.parts import PartOf, part_called, parts_of, tools_of
from jobtrack.sheets.to_buy import NONE, to_buy_sections, to_buy_text
from jobtrack.store.copies.merge import merge_files
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import NOW
from tests.support.spring import spring

Fill = Callable[[Draft], object]


class Bench:
    """A small job, and calls of somebody in it."""

    def __init__(self, folder: Path) -> None:
        self.file = spring(folder / "spring.job.toml")
        self.at = NOW

    def call(self, step: str | None, *fills: Fill, by: str = "Hob", file: JobFile | None = None) -> None:
        at, file = self.at, file or self.file
        draft = Draft(file.job, by, at, step)
        for fill in fills:
            fill(draft)
        file.append(draft.done(), draft.by, at, id=draft.id, step=step)
        self.at += timedelta(minutes=5)

    def part(self, name: str, step: str | None = None) -> PartOf:
        return next(one for one in parts_of(self.file.job, step) if one.name == name)


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(tmp_path)


def bought(name: str, state: str, **order: str) -> Fill:
    return lambda made: doing.buying(made, name, state, **order)


def test_those_of_the_step_come_first(bench: Bench) -> None:
    """By the step that is asked about, each with how many it wants and how many the job does."""
    found = [(one.name, one.of_step, one.wanted) for one in parts_of(bench.file.job, "spring.left")]
    assert found == [("pins", 2, 4), ("bush", 2, 4), ("shackle", None, 1)]
    assert [one.of_step for one in parts_of(bench.file.job, "clean")] == [None] * 3


def test_a_step_that_is_not_needed_wants_nothing(bench: Bench) -> None:
    """A part that steps alone name is wanted by those that are needed."""
    bench.call("spring.left", lambda made: steps.not_needed(made, "it has none"))
    assert bench.part("bush").wanted == 2
    assert bench.part("pins").wanted == 4


def test_the_last_state_of_buying_stands_and_undone_the_one_before(bench: Bench) -> None:
    """What replaces another stands alone; taken back, the other stands again."""
    bench.call(None, bought("pins", "ordered", from_="Ilse", due="Friday", price="48"))
    bench.call(None, bought("pins", "here"))
    assert bench.part("pins").states == {"here"}
    bench.call(None, mending.undo)
    (done,) = bench.part("pins").buying
    assert isinstance(done.act, BuyingAct)
    assert done.act.how_far() == "ordered, from Ilse, due Friday, price 48"


def test_two_who_did_not_know_of_each_other_disagree(bench: Bench, tmp_path: Path) -> None:
    """Both states stay, the list to buy says so."""
    copy = tmp_path / "stick.job.toml"
    copy.write_bytes(bench.file.path.read_bytes())
    bench.call(None, bought("pins", "ordered", from_="Ilse"))
    bench.call(None, bought("pins", "here"), by="Ada", file=JobFile(copy))
    out = tmp_path / "both.job.toml"
    out.write_bytes(merge_files([bench.file.path, copy]).data)
    job = JobFile(out).job
    (pins,) = [one for one in parts_of(job) if one.name == "pins"]
    assert pins.states == {"ordered", "here"}
    assert pins.outstanding
    ((_, rows),) = [one for one in to_buy_sections(job) if "pins" in " ".join(one[1])]
    assert any("disagreement: " in row and "ordered, from Ilse" in row for row in rows)


def test_a_part_that_nobody_planned_is_asked_for_first(bench: Bench) -> None:
    """Any other act about an unknown part is refused, and says how it is done; then its name is known."""
    for fill in (
        bought("hub cap", "ordered"),
        lambda made: doing.part(made, "hub cap", "1", "fitted"),
    ):
        with pytest.raises(
            Refused, match=r"no part 'hub cap' in this job; there are: bush, pins, shackle; one that"
        ):
            bench.call("clean", fill)
    bench.call(None, bought("hub cap", "asked"))
    bench.call(None, bought("Hub  Cap", "ordered"), lambda made: doing.place(made, "HUB CAP", "shelf 2"))
    part = bench.part("hub cap")
    assert (part.planned, part.wanted, part.of_step, part.states) == (None, 0, None, {"ordered"})
    assert [done.act for done in part.places] == [PlaceAct("shelf 2", part="hub cap")]


def test_a_part_is_known_by_what_the_template_calls_it(bench: Bench) -> None:
    """Its id, or its words, whatever the capitals: no second part comes of it."""
    assert part_called(bench.file.job, " spring PINS") == "pins"
    assert part_called(bench.file.job, "spring pin") is None
    bench.call(None, bought("Spring pins", "asked"))
    assert [one.name for one in parts_of(bench.file.job)] == ["pins", "shackle", "bush"]


@pytest.mark.parametrize("name", ["", "  ", "x" * 201])
def test_a_name_has_a_length(bench: Bench, name: str) -> None:
    with pytest.raises(Refused, match="a name of at most 200 characters"):
        bench.call(None, bought(name, "asked"))


def test_a_part_of_the_step_that_nobody_planned(bench: Bench) -> None:
    """Asked for in a step it is listed with that step's."""
    bench.call("spring.left", bought("grease nipple", "asked"))
    assert bench.part("grease nipple", "spring.left").of_step == 0
    assert bench.part("grease nipple", "clean").of_step is None


def test_tools_of_the_step_and_those_that_were_left_somewhere(bench: Bench) -> None:
    bench.call(None, lambda made: doing.place(made, "rivet gun", "boot"))
    bench.call(None, lambda made: doing.place(made, "long bar", "door"))
    bench.call(None, lambda made: doing.place(made, "long bar", "blue tray"))
    found = {one.name: [done.act for done in one.places] for one in tools_of(bench.file.job, "spring.left")}
    assert list(found) == ["long bar", "rivet gun"]
    (bar,) = found["long bar"]
    assert isinstance(bar, PlaceAct)
    assert bar.place == "blue tray"


def test_outstanding(bench: Bench) -> None:
    """New parts without a word, and all whose buying isn't *here*; not what is fitted in full since."""

    def out() -> list[str]:
        return [one.name for one in parts_of(bench.file.job) if one.outstanding]

    assert out() == ["pins", "bush"]
    bench.call(None, lambda made: doing.place(made, "bush", "bench"), bought("shackle", "wrong"))
    assert out() == ["pins", "shackle"]
    bench.call(None, bought("pins", "ordered"))
    bench.call("clean", lambda made: doing.part(made, "pins", "3", "fitted"))
    assert out() == ["pins", "shackle"]
    bench.call("clean", lambda made: doing.part(made, "pins", "1", "fitted"))
    assert out() == ["shackle"]
    bench.call(None, bought("pins", "asked"))
    assert out() == ["pins", "shackle"], "one more is needed after all were fitted"
    bench.call(None, bought("pins", "here"), bought("shackle", "here"))
    assert out() == []


def test_the_list_to_buy(bench: Bench) -> None:
    """What is missing, then what is on its way, with whom and when due; people's words visible."""
    bench.call(
        None, bought("pins", "ordered", from_="Ilse\x1b[2J", due="Friday"), bought("clip\u202e", "asked")
    )
    assert to_buy_text(bench.file.job, NOW).splitlines() == [
        "To buy for: Spring on the hay trailer",
        "Written 14 May 2031, 09:41",
        "",
        "To get:",
        "- 4 × bush: nothing recorded",
        "- clip�: asked",
        "",
        "On the way:",
        "- 4 × Spring pins: ordered, from Ilse␛[2J, due Friday",
    ]
    bench.call(None, *(bought(name, "here") for name in ("pins", "bush", "clip\u202e")))
    assert to_buy_text(bench.file.job, NOW).splitlines()[3:] == [NONE]


def test_digits_without_end_are_no_count(bench: Bench) -> None:
    """A quantity is somebody's own words; a row of digits that no part comes in stops nothing."""
    bench.call(None, bought("pins", "asked"))
    bench.call("clean", lambda made: doing.part(made, "pins", "9" * 5000, "fitted"))
    assert bench.part("pins").outstanding
