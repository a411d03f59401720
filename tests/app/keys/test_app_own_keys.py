"""Keys as somebody has set them: pressed, named on every page, and read back from the file."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import Any

import jobtrack
from jobtrack.app.keys import stays
from jobtrack.app.main import JobApp
from jobtrack.app.own_keys import _pages
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.said import NoteAct
from jobtrack.pages.step.scale import LEFT_OF_IT, MARK, RIGHT_OF_IT, THICK
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.settings import Settings
from tests.support.invented_jobs import half_done, seen

SWAPPED = {"note": "m", "mark-place": "t", "answer-yes": "n", "answer-no": "y"}


def app_with(folder: Path, keys: dict[str, str]) -> JobApp:
    return JobApp(folder, "Hob Tansley", half_done(folder / "half.job.toml"), Settings(keys=keys))


def last(path: Path) -> Act:
    return JobFile(path).job.view.entries[-1].did[-1]


async def test_two_keys_have_changed_places(folder: Path) -> None:
    """m writes a note and t a mark; the file says so."""
    app = app_with(folder, SWAPPED)
    assert app.file is not None
    async with app.run_test() as pilot:
        await pilot.press("m", *"rust", "enter")
        noted = last(app.file.path)
        await pilot.press("t", *"here", "enter")
    assert isinstance(noted, NoteAct)
    assert noted.note == "rust"
    assert last(app.file.path).as_dict()["mark"] == "here"


async def test_what_has_no_key_can_be_given_one(folder: Path) -> None:
    """A row behind e, by its name; the page of all keys says both."""
    app = app_with(folder, {"next-look": "ä"})
    async with app.run_test(size=(120, 60)) as pilot:
        await pilot.press("ä")
        assert app.theme == "dark"
        await pilot.press("?", "end")
        assert "ä: Looks: the next of paper, dark and high contrast." in seen(app)
        assert "behind e: Private note: it stays off the sheets that others get." in seen(app)
        assert 'next-look="ä"' in seen(app)


def moved() -> dict[str, str]:
    """No key that can be set stands where it stood: each has a letter of an alphabet of its own."""
    actions = sorted({str(one.id) for page in _pages() for one in page if not stays(one)})
    return {action: chr(ord("а") + number) for number, action in enumerate(actions)}


def test_no_sentence_holds_a_key_that_can_be_set() -> None:
    """A letter by itself in a text of the app or of a page would be a key that can't follow the settings."""
    found = [
        f"{path.name}:{text.lineno}: {text.value}"
        for room in ("app", "pages")
        for path in sorted((Path(jobtrack.__file__).parent / room).rglob("*.py"))
        for text in texts_of(ast.parse(path.read_text(encoding="utf-8")))
        if LONE.search(text.value) and A_QUESTIONS_OWN not in text.value and text.value != HOURS
    ]
    assert not found


LONE = re.compile(r"(?:^|(?<=[ (]))(?!a )[a-z] (?=[a-z(])|(?<=[ (])(?!k = )(?!·)[a-z](?=$|[).,;:])")
HOURS = " h"
A_QUESTIONS_OWN = "Escape"
"""In a sentence that says how a question is left stand the keys that are only its own."""


def texts_of(tree: ast.Module) -> list[Any]:
    """The texts of a module with more than a letter, without its docstrings."""
    told = {id(one.value) for one in ast.walk(tree) if isinstance(one, ast.Expr)}
    return [one for one in ast.walk(tree) if isinstance(one, ast.Constant) and isinstance(one.value, str)
            and id(one) not in told and len(one.value) > 1]  # fmt: skip


def test_a_sentence_names_the_key_that_the_page_has() -> None:
    """`named(key, action)` has the key with which the action is declared."""
    declared = {(one.key, one.id) for page in _pages() for one in page}
    for room in ("app", "pages"):
        for path in sorted((Path(jobtrack.__file__).parent / room).rglob("*.py")):
            for call in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "named":
                    key, action = call.args
                    if isinstance(key, ast.Constant):
                        assert (key.value, ast.literal_eval(action)) in declared, f"{path.name}:{call.lineno}"


def test_what_is_set_and_what_stays_is_the_same_on_every_page() -> None:
    """An action has no letter on one page and Enter on another, where a key could be set only for one of them."""
    kinds: dict[str, set[bool]] = {}
    for page in _pages():
        for one in page:
            kinds.setdefault(str(one.id), set()).add(stays(one))
    assert [action for action, both in kinds.items() if len(both) > 1] == []


WAYS = (
    "down", "note escape", "release escape", "finish escape", "all-keys escape", "find escape",
    "outline", "hand-over escape", "end-job", "stop escape", "escape", "escape", "job-page", "escape",
    "unsafe escape", "reckoner", "escape", "undo", "hazards", "by-whom escape", "quit escape",
)  # fmt: skip


async def test_every_page_names_the_keys_as_they_are_set(folder: Path) -> None:
    """With every key moved, no page says an old one, and each is opened by its new one."""
    keys, said = moved(), []
    app = app_with(folder, keys)
    async with app.run_test(size=(120, 40)) as pilot:
        for way in (["down"], *(way.split() for way in WAYS)):
            for key in way:
                before = seen(app)
                await pilot.press(keys.get(key, key))
                said += [f"{key}: {one}" for one in OLD_KEY.findall(seen(app))]
                assert key not in keys or seen(app) != before, f"{key} did nothing"
    assert said == []


OLD_KEY = re.compile(
    r"(?:^|  )(?!o clock off|b break|l left on)[b-z] [a-z]+|(?:[,.;] |then |press )(?![obl] o)[b-z] [a-z]+s\b",
    re.M,
)
"""A letter by itself in front of a word; not those of the question about a running clock."""


async def test_the_page_of_all_keys_has_the_names_for_the_settings_once_at_its_end(folder: Path) -> None:
    """No line of a key ends in an insiders' name; the last paragraph has each as it stands in a settings file."""
    app = app_with(folder, {"finish": "e", "find": "f", "settle": "ü"})
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("?")
        text = str(app.screen.query_one("Page > Static").render())
        lines, _, names = text.partition("In settings.toml, under [keys], these are called:")
        assert "[" not in lines
        assert 'finish="e", unsafe="a", find="f", all-keys="?"' in " ".join(names.split())
        assert 'settle="ü"' in names
        without = " ".join(names.split()).partition("without a key until you set one: ")[2]
        assert "stands, look-again" in without
        assert "settle" not in without


async def test_the_help_of_a_step_says_how_its_table_draws_a_reading(folder: Path) -> None:
    """By the very signs that the table uses."""
    app = app_with(folder, {})
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("?")
        text = " ".join(str(app.screen.query_one("Page > Static").render()).split())
        assert f"the thick stretch {THICK} is what is wanted, the bar {MARK} the reading" in text
        assert f"{LEFT_OF_IT} or {RIGHT_OF_IT} at an end" in text
