"""Templates of one's own, of the jobs folder and shipped, on the page of the jobs and where a job is begun."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.begin import BeginScreen
from jobtrack.app.screens.jobs import JobsScreen
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.template_folders import own_folder
from tests.support.exchange import EXCHANGE
from tests.support.invented_jobs import fill, on_top, seen
from tests.support.mistakes import SOUND

OnFolder = Callable[[], JobApp]


def words(pilot: Pilot[int]) -> str:
    """What is to be seen, its rows joined."""
    return " ".join(seen(pilot.app).split())


def put(folder: Path, id: str, title: str) -> Path:
    """A small template in a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    text = SOUND.read_text(encoding="utf-8").replace('"bracket"', f'"{id}"', 1)
    path = folder / f"{id}.toml"
    path.write_text(text.replace('"A bracket on a tube"', f'"{title}"', 1), encoding="utf-8")
    return path


async def test_ones_own_stand_first_and_say_so(folder: Path, on_folder: OnFolder) -> None:
    """Then those of the jobs folder, then those shipped; one that takes another's place says whose."""
    put(own_folder(), "axle-exchange", "My exchange")
    put(folder, "seat", "A seat")
    async with on_folder().run_test(size=(100, 24)) as pilot:
        await pilot.pause()
        text = words(pilot)
    assert "Begin: My exchange (3 steps in the template), your own, in place of the shipped one" in text
    assert "Begin: A seat (3 steps in the template), from the jobs folder" in text
    assert text.index("My exchange") < text.index("A seat")
    assert "Axle exchange" not in text


async def test_the_page_of_beginning_names_the_file(folder: Path, on_folder: OnFolder) -> None:
    """Whose template it is and whose place it takes, where there is a choice; what it has goes into the job."""
    own = put(own_folder(), "axle-exchange", "My exchange")
    async with on_folder().run_test(size=(160, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(pilot.app.screen, BeginScreen)
        said = f"The template is your own, in place of the shipped one: {own}."
        assert said.replace(" ", "") in words(pilot).replace(" ", "")
        await fill(pilot, "Hay trailer")
        await pilot.pause()
    [path] = folder.glob("*.job.toml")
    assert JobFile(path).job.plan.template.title == "My exchange"


async def test_a_shipped_one_without_another_says_nothing_of_files(on_folder: OnFolder) -> None:
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert "The template is" not in words(pilot)


async def test_a_broken_one_is_named_below_and_hides_nothing(folder: Path, on_folder: OnFolder) -> None:
    """With file, line and reason; the marker stays on what can be begun."""
    broken = own_folder() / "axle-exchange.toml"
    own_folder().mkdir(parents=True)
    broken.write_text('format = 1\nid = "axle\n', encoding="utf-8")
    (folder / "odd.toml").write_text("[tool]\nname = 1\n", encoding="utf-8")
    async with on_folder().run_test(size=(160, 24)) as pilot:
        await pilot.pause()
        text = words(pilot)
        assert "Begin: Axle exchange (26 steps in the template)" in text
        assert f"Not a template that can be read: {broken}:2: " in text
        assert f"Not a template that can be read: {folder / 'odd.toml'}:1: tool: unknown key tool" in text
        await pilot.press("down", "down", "end", "enter")
        await pilot.pause()
        assert isinstance(pilot.app.screen, BeginScreen)
        assert "Begin a job: Axle exchange" in text.replace("Begin: ", "Begin a job: ")


async def test_hostile_words_of_a_template_are_text(folder: Path, on_folder: OnFolder) -> None:
    """A title with markup, a file's name with it too."""
    put(folder, "odd", "[red]Odd[/] \\u202e one")
    (folder / "[b]x.toml").write_text("format = \n", encoding="utf-8")
    async with on_folder().run_test(size=(120, 24)) as pilot:
        await pilot.pause()
        assert "Begin: [red]Odd[/] " in seen(pilot.app)
        assert "[b]x.toml" in words(pilot).replace(" ", "")
        assert "\u202e" not in seen(pilot.app)


@pytest.mark.parametrize("size", [(80, 24), (60, 16)])
async def test_a_dozen_list_well(
    folder: Path, on_folder: OnFolder, make: Callable[[str], JobFile], size: tuple[int, int]
) -> None:
    """Below two jobs: the marked one is in sight all the way down and up, and Enter begins that one."""
    make("half-done")
    make("surveyed")
    for number in range(12):
        put(own_folder(), f"kind-{number:02}", f"Work of kind {number:02}")
    async with on_folder().run_test(size=size) as pilot:
        await pilot.pause()
        assert isinstance(pilot.app.screen, JobsScreen)
        await pilot.press("down")
        for number in range(12):
            await pilot.press("down")
            await pilot.pause()
            assert f"▸ Begin: Work of kind {number:02} " in words(pilot)
        for number in reversed(range(11)):
            await pilot.press("up")
            await pilot.pause()
            assert f"▸ Begin: Work of kind {number:02} " in words(pilot)
        await pilot.press("end")
        await pilot.pause()
        assert "▸ Begin: Axle exchange (26 steps in the template)" in words(pilot)
        await pilot.press("up", "enter")
        await pilot.pause()
        assert "Begin a job: Work of kind 11" in words(pilot)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(on_top(pilot.app), JobsScreen)
        assert "▸ Begin: Work of kind 11" in words(pilot)


async def test_one_that_is_put_there_meanwhile_is_found(folder: Path, on_folder: OnFolder) -> None:
    """Whenever the page of the jobs is come back to."""
    async with on_folder().run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        (folder / "again.toml").write_text(
            EXCHANGE.read_text("utf-8").replace('"Axle exchange"', '"Another way"', 1), encoding="utf-8"
        )
        await pilot.press("escape")
        await pilot.pause()
        assert "Begin: Another way (26 steps in the template), from the jobs folder, in place of" in words(
            pilot
        )
