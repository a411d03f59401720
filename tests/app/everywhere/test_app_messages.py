"""What the app says when something can't be had ends with what to do."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

import jobtrack
from jobtrack.app.main import JobApp
from jobtrack.pages.step.entering import by_label
from jobtrack.pages.step.items import GIVEN, Item
from tests.support.invented_jobs import fill, seen

OnJob = Callable[[str], JobApp]
ROOT = Path(jobtrack.__file__).parent
WHAT_TO_DO = re.compile(
    r"\{key\}|Enter|Escape|PageDown|\b(type|press|look|choose|take|mend|write|record|give|name|put|finish|say|undo|wait|stay)\b",
    re.IGNORECASE,
)
"""A key, or a word of doing; `{key}` stands for a key that can be set, and for what is asked now."""
KEY_OF = {"named", "_key", "onward"}
HOLDS_KEYS = {"hint", "choose", "quit", "note"}
"""What gives the key of an action, or a sentence of keys; and names that hold one."""
MEND = re.compile(r";|: | wants | one of |goes on|is wanted")
"""How a refusal goes on to what is wanted instead: behind a semicolon or a colon, or in its own sentence."""


def texts(room: str, call: str) -> Iterator[tuple[str, str]]:
    """The texts that are given to a function by that name in a room's files, with their place."""
    for path in sorted((ROOT / room).rglob("*.py")):
        for one in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(one, ast.Call) and called(one) == call:
                for text in (text for given in one.args[:1] for text in plain(given)):
                    yield f"{path.name}:{one.lineno}", text


def called(one: ast.Call) -> str:
    """The name of what is called, a function's or a method's."""
    return one.func.attr if isinstance(one.func, ast.Attribute) else getattr(one.func, "id", "")


def value(one: ast.expr) -> str:
    """What stands for a value in a text: a key, the hint of what is asked, or any other."""
    calls = {called(call) for call in ast.walk(one) if isinstance(call, ast.Call)}
    names = {getattr(part, "attr", getattr(part, "id", "")) for part in ast.walk(one)}
    return "{key}" if calls & KEY_OF or names & HOLDS_KEYS else "{}"


def plain(given: ast.expr) -> Iterator[str]:
    """A text as it stands in the source, a stand-in for each value in it; both of two that are chosen from."""
    if isinstance(given, ast.Constant) and isinstance(given.value, str):
        yield given.value
    elif isinstance(given, ast.JoinedStr):
        yield "".join(str(one.value) if isinstance(one, ast.Constant) else value(one) for one in given.values)
    elif isinstance(given, ast.IfExp):
        yield from (*plain(given.body), *plain(given.orelse))
    elif isinstance(given, ast.BinOp):
        yield "".join(text for side in (given.left, given.right) for text in plain(side))


def test_every_message_says_what_to_do() -> None:
    """Each text that the entry line is given to say names a key or a thing to do."""
    found = [(where, text) for where, text in texts("app", "say") if text]
    assert len(found) > 25
    assert [one for one in found if not WHAT_TO_DO.search(one[1])] == []


def test_every_refusal_says_what_is_wanted_instead() -> None:
    """Each refusal of the rules about acts goes on to what can be done."""
    found = [
        *texts("job/compose", "Refused"),
        *texts("job/compose", "Wants"),
        *texts("job/compose", "NoReason"),
    ]
    assert len(found) > 30
    assert [one for one in found if not MEND.search(one[1]) and not one[1].rstrip().endswith("{}")] == []


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (["up", "up", "r"], "This step has no hold point to release; f finishes it."),
        (["2", "escape"], "Cancelled: what was asked or typed there isn't recorded."),
        (["e", *["down"] * 3, "escape"], ""),
        (["space"], "Nothing was recorded here since this page was opened; look at the page"),
        (["comma"], "Shown now: US units first; press the same key to turn them back."),
        (["o", "1", "enter"], "Not recorded: 1. Escape cancels."),
    ],
)
async def test_it_is_said(keys: list[str], said: str, on_job: OnJob) -> None:
    """On the screen, with the key as it is set; nothing is said twice."""
    app = on_job("half-done")
    async with app.run_test(size=(110, 40)) as pilot:
        screen = app.screen
        if "r" in keys:
            screen.go("cut.right")  # type: ignore[attr-defined]
        await pilot.press(*keys)
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert said in text
        assert text.count("othing is recorded") <= 1


async def test_a_finished_step_says_what_comes_next(on_job: OnJob) -> None:
    """Finishing once more what is finished says so by its words, not by an id, and where to go on."""
    app = on_job("half-done")
    async with app.run_test(size=(110, 40)) as pilot:
        await pilot.press("f", "enter")
        await pilot.pause()
        await pilot.press("f")
        await pilot.pause()
        text = " ".join(seen(app).split())
        assert "This step is finished already." in text
        assert "nothing was written" not in text


async def test_a_refusal_reads_as_its_line(on_job: OnJob) -> None:
    """What was typed wrong is named by the line's own words."""
    app = on_job("half-done")
    async with app.run_test(size=(110, 50)) as pilot:
        await pilot.press("j", "k", "home", *["down"] * 6, "enter")
        await fill(pilot, "elsewhere")
        text = " ".join(seen(app).split())
        assert "Where the donor axle is is one of under the donor, loose; not 'elsewhere'" in text
        assert "donor.axle-is" not in text


def test_only_a_line_s_own_id_gives_way_to_its_words() -> None:
    """A refusal that begins otherwise stays as it is; a text that only begins with the same letters too."""
    item = Item(GIVEN, "axle", "Which axle?")
    assert by_label("axle wants yes or no, not 'x'", item) == "Which axle wants yes or no, not 'x'"
    assert by_label("axles: repeats are plain numbers", item) == "axles: repeats are plain numbers"
    assert by_label(None, item) is None
