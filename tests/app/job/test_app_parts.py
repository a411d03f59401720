"""Parts and tools by their keys: each recorded, seen at once, and read back from the file and from every sheet."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from jobtrack.app.main import JobApp
from jobtrack.app.screens.job.parts import PartsScreen
from jobtrack.app.screens.job.to_buy import ToBuyScreen
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct
from jobtrack.job.compose import ending
from jobtrack.job.compose.draft import Draft
from jobtrack.job.doing.parts import parts_of
from jobtrack.job.state.job import IN_HAND, NEXT
from jobtrack.literal import visible
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile
from tests.support.else_rows import found
from tests.support.handed import handed
from tests.support.invented_jobs import NOW, fill, on_top, seen
from tests.support.spring import NAUGHTY, spring

HOB = "Hob Tansley"


@pytest.fixture
def app(folder: Path) -> JobApp:
    """At the spring on the left, which nobody has begun."""
    return JobApp(folder, HOB, spring(folder / "spring.job.toml"))


def recorded(app: JobApp) -> list[tuple[str | None, Sequence[Act]]]:
    """Step and acts of each entry behind the first, as the file has them."""
    assert app.file is not None
    entries = JobFile(app.file.path).job.view.entries
    return [(entry.step, entry.did) for entry in sorted(entries, key=lambda one: one.order)[1:]]


async def answer(pilot: Pilot[int], *answers: str) -> None:
    """Put each answer into the field that is open then."""
    for text in answers:
        await fill(pilot, text)


KEYS: list[tuple[str, Sequence[str], list[Act]]] = [
    ("n", (), [BuyingAct("pins", "asked")]),
    ("o", ("Ilse", "Friday", "48"), [BuyingAct("pins", "ordered", "Ilse", "Friday", "48")]),
    ("o", ("", "", ""), [BuyingAct("pins", "ordered")]),
    ("h", (), [BuyingAct("pins", "here")]),
    ("w", (), [BuyingAct("pins", "wrong")]),
    ("g", (), [BuyingAct("pins", "going back")]),
    ("f", ("2",), [PartAct("pins", "2", "fitted")]),
    ("s", ("1 bent",), [PartAct("pins", "1 bent", "scrapped")]),
    ("k", ("2", "tin"), [PartAct("pins", "2", "kept"), PlaceAct("tin", part="pins")]),
    ("v", ("",), [PartAct("pins", "2", "gone to the other vehicle")]),
    ("l", ("blue tray",), [PlaceAct("blue tray", part="pins")]),
    ("m", ("split pin",), [BuyingAct("split pin", "asked")]),
    ("t", ("rivet gun", "boot"), [PlaceAct("boot", tool="rivet gun")]),
]


@pytest.mark.parametrize(
    ("key", "answers", "acts"), KEYS, ids=[f"{key}-{len(said)}" for key, said, _ in KEYS]
)
async def test_each_letter_records_one_entry(
    app: JobApp, key: str, answers: Sequence[str], acts: list[Act]
) -> None:
    """Of the marked part, the step's first; said back with its name, and seen on the page at once."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", key)
        await answer(pilot, *answers)
        shown = " ".join(seen(app).split())
    ((_, did),) = recorded(app)
    assert [act for act in did if type(act) in {BuyingAct, PartAct, PlaceAct}] == acts
    assert "Recorded 09:41: " in shown
    assert f"({HOB}, 14 May 09:41)" in shown


async def test_what_is_recorded_stands_on_every_sheet(app: JobApp) -> None:
    """In show, in show --json and in the handover, besides the page."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "o")
        await answer(pilot, "Ilse", "Friday", "48")
        await pilot.press("f", "enter", "l")
        await answer(pilot, "blue tray")
        await pilot.press("m")
        await answer(pilot, "split pin")
    job = JobFile(app.file.path).job if app.file else None
    assert job is not None
    as_json = json.dumps(job_json(job))
    for sheet in (job_text(job), handed(job, HOB, "Ada"), as_json):
        text = sheet.replace("\\", "")
        assert "split pin" in text
        assert "blue tray" in text
        assert "Ilse" in text
        assert "fitted" in text
    step = next(one for one in job_json(job)["steps"] if one["id"] == "spring.left")
    assert [(one["part"], one["quantity"], one["fate"]) for one in step["parts"]] == [("pins", "2", "fitted")]


async def test_buying_begins_no_step_and_fitting_does(app: JobApp) -> None:
    """What is bought or put away of a step that nobody has begun is recorded for the job: it opens nothing."""
    async with app.run_test(size=(80, 24)) as pilot:
        assert app.file is not None
        await pilot.press("p", "n", "l")
        await answer(pilot, "tray")
        assert app.file.job.state("spring.left") == NEXT
        assert not app.file.job.open_conditions
        await pilot.press("f", "enter")
        assert app.file.job.state("spring.left") == IN_HAND
        assert "ONE PIN" in seen(app)
        await pilot.press("h")
    steps = [step for step, did in recorded(app)]
    assert steps == [None, None, "spring.left", "spring.left"]


async def test_a_line_and_a_letter_are_pressed(app: JobApp) -> None:
    """With a finger: the line becomes the marked one, the letter is the key."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p")
        await press(pilot, app, "bush")
        await press(pilot, app, "here")
        assert "Recorded 09:41: bush: here." in seen(app)
    assert recorded(app) == [(None, (BuyingAct("bush", "here"),))]


async def press(pilot: Pilot[int], app: JobApp, words: str) -> None:
    """Press where these words stand first."""
    row, text = next((row, text) for row, text in enumerate(seen(app).splitlines()) if words in text)
    await pilot.click(offset=(text.index(words), row))
    await pilot.pause()


async def test_a_double_tap_records_once(app: JobApp) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "h", "h")
        assert "Spring pins is recorded as here already: choose another." in " ".join(seen(app).split())
    assert len(recorded(app)) == 1


async def test_of_whom_and_at_what_price_stays_as_it_was_said(app: JobApp) -> None:
    """Here, wrong, going back and another order: from the last one; only what is needed anew begins anew."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "o")
        await answer(pilot, "Ilse", "Friday", "48")
        await pilot.press("h", "g", "o")
        assert app.screen.query_one(Input).value == "Ilse"
        await pilot.press("enter")
        await answer(pilot, "Monday")
        await pilot.press("enter", "n")
    acts = [act.as_dict() for _, did in recorded(app) for act in did]
    assert [(act["buying"], act.get("from"), act.get("due"), act.get("price")) for act in acts] == [
        ("ordered", "Ilse", "Friday", "48"), ("here", "Ilse", None, "48"), ("going back", "Ilse", None, "48"),
        ("ordered", "Ilse", "Monday", "48"), ("asked", None, None, None),
    ]  # fmt: skip


async def test_a_double_tap_is_no_quantity(app: JobApp) -> None:
    """The second of two presses falls into the field: a quantity has a digit, and Enter alone takes the usual."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "f", "f", "enter")
        assert "How many? Enter alone takes 2." in seen(app)
        assert recorded(app) == []
        await answer(pilot, "")
    assert recorded(app)[-1][1][-1] == PartAct("pins", "2", "fitted")


async def test_undo_brings_back_what_stood_before(app: JobApp) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "n", "h", "u")
        assert "Undone: job: buying Spring pins: here" in " ".join(seen(app).split())
        assert f"asked ({HOB}, 14 May 09:41)" in seen(app)


async def test_escape_records_nothing(app: JobApp) -> None:
    """In each question of an order, and of what is kept."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p")
        for keys in ("o", "ox", "f", "k", "m", "t", "a", "l"):
            await pilot.press(*keys[:1])
            if keys[1:]:
                await answer(pilot, keys[1:])
            await pilot.press("escape")
            assert isinstance(on_top(app), PartsScreen)
            assert "Cancelled: what was asked or typed there isn't recorded." in seen(app)
            assert "n need it" in seen(app)
    assert recorded(app) == []


async def test_unsafe_right_now_is_the_same_letter_as_on_the_step(app: JobApp) -> None:
    """Nobody has to leave the page for it, and the letter means nothing else here."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "a")
        assert "Unsafe right now, at “" in seen(app)
        await answer(pilot, "jack leaks")
        assert isinstance(on_top(app), PartsScreen)
        await pilot.press("!")
        await answer(pilot, "stand cracked")
    assert [did[-1].as_dict()["opens"] for _, did in recorded(app)] == ["jack leaks", "stand cracked"]


async def test_a_tool_takes_a_place_and_nothing_else(app: JobApp) -> None:
    """The step's tools are listed behind the parts."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "end", "f")
        assert "long bar is a tool: l says where it lies." in seen(app)
        await pilot.press("l")
        await answer(pilot, "blue tray")
        assert "lies in blue tray" in seen(app)
    assert recorded(app) == [(None, (PlaceAct("blue tray", tool="long bar"),))]


async def test_a_tool_from_the_row_without_a_key(app: JobApp) -> None:
    """On the page of everything else of the step."""
    async with app.run_test(size=(80, 40)) as pilot:
        await found(pilot, "Tool left in")
        await answer(pilot, "rivet gun", "boot")
        assert "rivet gun: lies in boot" in seen(app)
    assert recorded(app) == [(None, (PlaceAct("boot", tool="rivet gun"),))]


@pytest.mark.parametrize("text", NAUGHTY, ids=range(len(NAUGHTY)))
async def test_words_are_stored_as_typed_and_shown_literally(app: JobApp, text: str) -> None:
    """A part's name, of whom, a price and a place: exactly as typed, no control of it on the screen."""
    name = text[:150]
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "m")
        await answer(pilot, name)
        await pilot.press("o")
        await answer(pilot, text, "", text)
        await pilot.press("l")
        await answer(pilot, text)
        shown = seen(app)
        assert visible(text)[:10] in shown
        assert not {sign for sign in shown if sign != "\n" and visible(sign) != sign}
        assert "m one more part" in shown
    acts = [act.as_dict() for _, did in recorded(app) for act in did]
    said = text.strip()
    assert [act.get("part") for act in acts] == [name.strip()] * 3
    assert (acts[1]["from"], acts[2]["place"]) == (said, said)


async def test_a_name_that_is_too_long_keeps_what_was_typed(app: JobApp) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "m")
        await answer(pilot, "x" * 201)
        assert "A part wants a name of at most 200 characters" in seen(app)
        assert app.screen.query_one(Input).value == "x" * 201
        await answer(pilot, "")
        assert "A part wants a name" in seen(app)
    assert recorded(app) == []


async def test_the_new_part_is_the_marked_one(app: JobApp) -> None:
    """So that its next letter is about it; one that the template has by that name is marked instead."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "m")
        await answer(pilot, "hub cap")
        await pilot.press("h", "m")
        await answer(pilot, "SPRING pins")
        await pilot.press("h")
    assert [act.as_dict()["part"] for _, did in recorded(app) for act in did] == [
        "hub cap",
        "hub cap",
        "pins",
        "pins",
    ]


async def test_the_marked_one_stays_marked_wherever_it_stands(app: JobApp) -> None:
    """A part of the job that is fitted in a step stands among that step's: the next letter is about it all the same."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("y", "p", "down", "down")
        assert "▸ 1 × shackle" in seen(app)
        await pilot.press("f", "enter", "h", "n")
        assert "▸ 1 × shackle" in seen(app)
    acts = [act.as_dict()["part"] for _, did in recorded(app)[1:] for act in did]
    assert acts == ["shackle"] * 3


async def test_without_a_name_it_is_asked_for_first(folder: Path) -> None:
    app = JobApp(folder, None, spring(folder / "spring.job.toml"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "n")
        assert "Who is there?" in seen(app)
        await answer(pilot, "Ada")
    assert app.file is not None
    assert [entry.by for entry in JobFile(app.file.path).job.view.entries][-1] == "Ada"


async def test_a_closed_job_takes_it_all_the_same(app: JobApp) -> None:
    """Recording is never stopped: after the end it is taken, and stands beside the step in words."""
    assert app.file is not None
    draft = Draft(app.file.job, HOB, NOW, None)
    ending.stop_job(draft, "sold as it is")
    app.file.append(draft.done(), draft.by, draft.at, id=draft.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "n", "f", "enter")
        assert "Recorded 09:41: Spring pins: 2 fitted." in seen(app)
        assert "asked" in seen(app)
    job = JobFile(app.file.path).job
    assert next(one.states for one in parts_of(job)) == {"asked"}
    step = next(one for one in job_json(job)["steps"] if one["id"] == "spring.left")
    assert any("after the job was stopped" in text for text in step["problems"])


async def test_the_disk_full_keeps_it_and_says_so(app: JobApp, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not recorded, kept, and recorded when there is room again."""

    def full(path: Path, data: bytes, known: disk.Known) -> None:
        raise OSError(28, "No space left on device")

    async with app.run_test(size=(100, 30)) as pilot:
        await pilot.press("p")
        with monkeypatch.context() as broken:
            broken.setattr(disk, "append", full)
            await pilot.press("h")
            assert "NOT YET RECORDED: 1 entry" in " ".join(seen(app).split())
            assert recorded(app) == []
        await pilot.pause(1.6)
    assert recorded(app) == [(None, (BuyingAct("pins", "here"),))]


# The list to buy with


async def test_all_that_is_missing_is_asked_for_in_one_entry(app: JobApp) -> None:
    """By one key; again there is nothing left to ask for."""
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p", "o")
        await answer(pilot, "Ilse", "", "")
        await pilot.press("p")
        assert isinstance(on_top(app), ToBuyScreen)
        assert "- 4 × bush: nothing recorded" in seen(app)
        assert "- 4 × Spring pins: ordered, from Ilse" in seen(app)
        assert "shackle" not in seen(app), "it comes from the donor"
        await pilot.press("n")
        assert "- 4 × bush: asked" in seen(app)
        assert "Recorded 09:41: 1 part asked for." in seen(app)
        await pilot.press("n")
        assert "nothing is recorded." in seen(app)
    assert recorded(app)[1:] == [(None, (BuyingAct("bush", "asked"),))]


async def test_the_list_is_written_beside_the_job_and_over_nothing(app: JobApp) -> None:
    """A second one gets a number; it is said where each lies."""
    async with app.run_test(size=(100, 30)) as pilot:
        await found(pilot, "Park the job for parts")
        await pilot.press("w", "w")
        said = "".join(row.strip("─ ") for row in seen(app).splitlines())
        assert f"Written: {app.session.folder / 'spring.to-buy-2.txt'}" in said.replace(
            "Written:/", "Written: /"
        )
    first, second = (app.session.folder / f"spring.to-buy{more}.txt" for more in ("", "-2"))
    assert first.read_text() == second.read_text()
    assert "- 4 × Spring pins: nothing recorded" in first.read_text()


async def test_a_list_that_can_not_be_written_is_said(app: JobApp, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(path: Path, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    async with app.run_test(size=(120, 30)) as pilot:
        await pilot.press("p", "p")
        monkeypatch.setattr(disk, "write_new", full)
        await pilot.press("w")
        assert "Not written: " in seen(app)
        assert "No space left on device" in seen(app)


# Pictures


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
def test_the_page_looks_right(app: JobApp, size: tuple[int, int], snap_compare: Callable[..., bool]) -> None:
    """A part ordered, fitted and put away, one that nobody planned, a tool; the letters in sight."""

    async def before(pilot: Pilot[int]) -> None:
        await pilot.press("p", "o")
        await answer(pilot, "Ilse", "Friday", "48")
        await pilot.press("f", "enter", "l")
        await answer(pilot, "blue tray")
        await pilot.press("m")
        await answer(pilot, "split pin 4 mm")
        await pilot.press("t")
        await answer(pilot, "rivet gun", "boot of the van")

    assert snap_compare(app, run_before=before, terminal_size=size)


def test_the_list_to_buy_looks_right(app: JobApp, snap_compare: Callable[..., bool]) -> None:
    async def before(pilot: Pilot[int]) -> None:
        await pilot.press("p", "o")
        await answer(pilot, "Ilse", "Friday", "48")
        await pilot.press("m")
        await answer(pilot, "split pin 4 mm")
        await pilot.press("p", "n")

    assert snap_compare(app, run_before=before, terminal_size=(80, 24))
