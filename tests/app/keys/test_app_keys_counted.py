"""Five walks at 80 by 24, key by key as the screen asks for them: how many keys each takes, and that none scrolls.

What is pressed or typed next stands in the rows painted before each key (`Walker.look_for`). The counts are exact, so
that a dearer walk is noticed, and a cheaper one. `pytest tests/app/keys/test_app_keys_counted.py -s` prints the table.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.acts.people import HandoverAct, TakenOverAct
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.state.job import FINISHED, RELEASED, Job
from jobtrack.sheets.handover.handing import GIVER_SAYS
from jobtrack.sheets.words.sentences import worst_first
from jobtrack.store.file.writer import JobFile, create
from tests.job.doing.rig import UBOLTS, template
from tests.support.invented_jobs import Builder
from tests.support.walker import HEAD, Count, Walker
from tests.walk.replay import replay

SIZE = (80, 24)
NOT_CLOSED = "Every line of this step has an answer"
FINISHED_NOW = "This step is finished"


@pytest.fixture(scope="module")
def table() -> Iterator[dict[str, Count]]:
    """The counts of the walks taken, printed at the end."""
    counts: dict[str, Count] = {}
    yield counts
    print("", HEAD, *(count.row(name) for name, count in counts.items()), sep="\n")


Table = dict[str, Count]


def counted(table: Table, name: str, walker: Walker, wanted: Count) -> None:
    """Hold the keys of a walk to what it takes."""
    table[name] = walker.count
    assert walker.count == wanted
    assert walker.count.scrolling == 0


def acts(job: Job, kind: type[Act], step: str | None = None) -> list[Act]:
    """The acts of a kind in a step."""
    return [done.act for done in job.view.of_kind(kind) if step in (None, done.entry.step)]


def typed(job: Job, step: str) -> list[tuple[str, object]]:
    """The readings of a step as typed."""
    return [(act.reading, act.typed) for act in acts(job, ReadingAct, step) if isinstance(act, ReadingAct)]


def ticked(job: Job, step: str) -> list[tuple[str, bool]]:
    """The checks of a step."""
    return [(act.tick, act.yes) for act in acts(job, TickAct, step) if isinstance(act, TickAct)]


async def release(walker: Walker, asked: str) -> None:
    """The hold, with the name of who is there and the second key."""
    await walker.press(asked, "r")
    await walker.press("Who releases it", "enter")
    await walker.press("Press r again to record it", "r")


async def test_first_stage(folder: Path, table: Table) -> None:
    """A job begun new, then the whole of its first stage: one weight, three checks, three things known, go."""
    async with JobApp(folder, "Hob Tansley").run_test(size=SIZE) as pilot:
        await pilot.pause()
        walker = Walker(pilot)
        await walker.press("Begin: Axle exchange", "enter")
        await walker.type("What is this job called?", "Hay trailer")
        await walker.type("Rear axle load, recipient, as used (kg)", "1190")
        await walker.check("Three other ways compared in writing, with hours and price? y yes")
        await walker.check("Customer's yes and price ceiling written down, with date? y yes")
        await walker.check("Inspector and insurer asked, name and date written down? y yes")
        await walker.type("1 of 3: Rear axle load on its plate (recipient)", "1350")
        await walker.type("2 of 3: Rear axle load on its plate (donor)", "1700")
        await walker.type("3 of 3: Load that one rear tyre is marked for (recipient)", "800")
        await release(walker, "Go 1: is this the way, and who says so?")
        await walker.press(NOT_CLOSED, "f")
        await walker.press(FINISHED_NOW, "enter")
        assert walker.sees("Slopes of gearbox, pads and pinion (recipient): next")
    [path] = folder.glob("*.job.toml")
    job = JobFile(path).job
    assert [job.state(one.id) for one in job.plan.in_stage("decide")] == [FINISHED]
    assert job.about.title == "Hay trailer"
    assert typed(job, "decide") == [("rear-load", "1190")]
    assert ticked(job, "decide") == [("other-ways", True), ("customer", True), ("inspector", True)]
    known = {act.given: act.value for act in acts(job, GivenAct, "decide") if isinstance(act, GivenAct)}
    assert known == {"recipient.rear-plate": 1350, "donor.rear-plate": 1700, "recipient.tyre-load": 800}
    assert job.now.verdict("decide", "rear-load") == "within"
    counted(table, "first stage, from the list of jobs", walker, Count(43, 26))


@pytest.fixture
def stripped(folder: Path, capsys: pytest.CaptureFixture[str]) -> JobFile:
    """A half-done job up to the bare axle on its stands: the left perch is next."""
    file = JobFile(replay("half_done_values.toml", folder / "perch.job.toml", until="mark.left"))
    capsys.readouterr()
    return file


async def test_one_perch(stripped: JobFile, table: Table) -> None:
    """The left perch marked, cut and tacked, both holds released, each number as in its values."""
    app = JobApp(stripped.path.parent, "Teo Banfield", stripped)
    async with app.run_test(size=SIZE) as pilot:
        walker = Walker(pilot)
        await mark(walker)
        await cut(walker)
        await tack(walker)
        assert walker.sees("Weld it on (left): next")
    job = JobFile(stripped.path).job
    perch = ("mark.left", "cut.left", "tack.left")
    assert [job.state(step) for step in perch] == [FINISHED] * 3
    assert [hold.state for step in perch if (hold := job.hold(step))] == [RELEASED] * 2
    assert [typed(job, step) for step in perch] == [
        [("moved", "24")],
        [("wall-loss", "0.4")],
        [("gap", "3/64 in"), ("other", "0.8"), ("slope", "0.7"), ("face-to-perch", "280.5"),
         ("pinion-to-pad", "2.1")],
    ]  # fmt: skip
    assert [ticked(job, step) for step in perch] == [
        [("own-marks", True)], [("no-notch", True), ("watched", True)], [("clamped", True)],
    ]  # fmt: skip
    counted(table, "one perch: mark, cut, tack, two holds", walker, Count(53, 26))


async def mark(walker: Walker) -> None:
    """The new place; finishing closes a condition, so it asks for a second key."""
    await walker.type("left: New edge from the old one, inboard (mm)", "24")
    await walker.check("Punch marks and scribed line reach past the old and the new place? y yes")
    await release(walker, "Cut release: side, direction and figure read back aloud? r releases it")
    await walker.press(NOT_CLOSED, "f")
    await walker.press("Press Enter to finish it", "enter")
    await walker.press(FINISHED_NOW, "enter")


async def cut(walker: Walker) -> None:
    """The old perch off."""
    await walker.type("left: Tube wall ground away at the deepest (mm)", "0.4")
    await walker.check("No notch, no crack by dye over the whole patch? y yes")
    await walker.press("Somebody watched until half an hour after the last spark? y yes", "y")
    await walker.press("f finishes the step, Enter goes on", "f")
    await walker.press(FINISHED_NOW, "enter")


async def tack(walker: Walker) -> None:
    """The new one set and tacked."""
    await walker.type("left: Gap under the perch before clamping (mm)", "3/64 in")
    await walker.type("left: Slope of the OTHER perch as it is now (deg)", "0.8")
    await walker.type("left: Slope of this perch (deg)", "0.7")
    await walker.type("left: Wheel face to perch centre (mm)", "280.5")
    await walker.type("left: Pinion to pad (deg)", "2.1")
    await walker.check("No gap left when clamped? y yes")
    await release(walker, "Weld release: place and level read back aloud? r releases it")
    await walker.press(NOT_CLOSED, "f")
    await walker.press(FINISHED_NOW, "enter")


async def test_four_u_bolts_in_three_stages(folder: Path, table: Table) -> None:
    """The supplier's figure, twelve clicks in the crosswise order of each stage, finished."""
    path = folder / "rig.job.toml"
    create(path, "rig", "Rig", template())
    app = JobApp(folder, "Hob Tansley", JobFile(path))
    async with app.run_test(size=SIZE) as pilot:
        assert isinstance(app.screen, StepScreen)
        app.screen.go(UBOLTS)
        await pilot.pause()
        walker = Walker(pilot)
        await walker.type("U-bolt torque", "110")
        for stage in "123":
            for bolt in range(1, 5):
                await walker.press(f"bolt {CROSSWISE[bolt - 1]} of 4, stage {stage} of 3", "y")
        await walker.press("Enter goes on", "enter")
        await walker.press(NOT_CLOSED, "f")
        assert walker.sees(FINISHED_NOW)
    job = JobFile(path).job
    clicks = [
        (act.stage, act.member, act.value) for act in acts(job, TorqueAct) if isinstance(act, TorqueAct)
    ]
    torque = {"1": 33, "2": 66, "3": 110}
    assert clicks == [(stage, bolt, torque[stage]) for stage in "123" for bolt in CROSSWISE]
    assert job.state(UBOLTS) == FINISHED
    counted(table, "four U-bolts in three stages", walker, Count(18, 3))


CROSSWISE = "1324"
"""The order in which four bolts are turned."""


async def test_handing_over_and_taking_over(make: Callable[[str], JobFile], table: Table) -> None:
    """One hands over and ends the program; the other opens the job, reads to the end what is open, and takes over."""
    file = make("half-done")
    async with JobApp(file.path.parent, "Hob Tansley", file).run_test(size=SIZE) as pilot:
        giver = Walker(pilot)
        await giver.press("Hold point", "h")
        await giver.press("h hand over", "h")
        await giver.type("To whom is it handed over?", "Ada Prosser")
        for _, question in GIVER_SAYS:
            await giver.press(question, "enter")
        await giver.press("Press h again to record it", "h")
        assert giver.sees("handed over to Ada Prosser")
    counted(table, "handing over", giver, Count(20, 11))
    file = JobFile(file.path)
    async with JobApp(file.path.parent, None, file).run_test(size=SIZE) as pilot:
        comer = Walker(pilot)
        assert comer.sees("Handed over by Hob Tansley to Ada Prosser")
        for one in worst_first(file.job):
            await comer.press(f"▸ Open, not seen yet: {one.tag}", "y")
        await comer.read_on("Say back the two most dangerous things.")
        await comer.press("i take over", "i")
        await comer.type("Who takes over?", "Ada Prosser")
        await comer.press("Press i again to record it", "i")
        assert comer.sees("Mark the new place (right): in hand")
        await pilot.pause()
    job = JobFile(file.path).job
    assert acts(job, HandoverAct) == [HandoverAct("Ada Prosser")]
    [taken] = job.view.of_kind(TakenOverAct)
    assert isinstance(taken.act, TakenOverAct)
    assert taken.entry.by == "Ada Prosser"
    assert set(taken.act.seen) == {one.name for one in job.open_conditions}
    counted(table, "taking over", comer, Count(25, 11, read=2))


async def test_a_correction(folder: Path, table: Table) -> None:
    """3.2 typed as 2.3, noticed after the next number: two arrows, the number again, and the key that says mistyped."""
    job = Builder(folder / "slopes.job.toml", "Horse-box")
    job.begin()
    job.done("decide", rear_load="1190")
    app = JobApp(folder, "Hob Tansley", job.file)
    async with app.run_test(size=SIZE) as pilot:
        walker = Walker(pilot)
        await walker.type("recipient: Gearbox output (deg)", "4")
        await walker.type("recipient: Pinion, as it is (deg)", "2.3")
        await walker.type("recipient: Spring pad, left (deg)", "1.0")
        await walker.choose("recipient: Spring pad, right (deg)", "up", "up")
        await walker.type("recipient: Pinion, as it is (deg)", "3.2")
        await walker.press("t the number before was typed wrong", "t")
        assert walker.sees("recipient: Spring pad, right (deg)")
    after = JobFile(job.file.path).job
    pinion = [
        act for act in acts(after, ReadingAct) if isinstance(act, ReadingAct) and act.reading == "pinion"
    ]
    assert [(act.typed, act.mistyped) for act in pinion] == [("2.3", False), ("3.2", True)]
    assert typed(after, "pad-slopes.recipient")[:3] == [
        ("gearbox", "4"),
        ("pinion", "2.3"),
        ("pad-left", "1.0"),
    ]
    counted(table, "a correction, two numbers on", walker, Count(17, 10, chosen=2))
