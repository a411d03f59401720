"""How the app is put together: one class a screen, every key bound to an action that is there, no ring of imports."""

from __future__ import annotations

import ast
import re
from importlib import import_module
from pathlib import Path

import pytest
from textual.binding import Binding
from textual.screen import Screen

import jobtrack.app
from jobtrack.app.keys import as_set, with_keys
from jobtrack.app.screens.base import PageScreen
from jobtrack.app.screens.key_page import KeysScreen, RestScreen
from jobtrack.app.screens.pressed import PressedScreen

ROOM = Path(jobtrack.app.__file__).parent
MODULES = {
    f"jobtrack.app.{'.'.join(path.relative_to(ROOM).with_suffix('').parts)}": path
    for path in ROOM.rglob("*.py")
    if path.name != "__init__.py"
}


def screens() -> list[type[PageScreen]]:
    """Every screen of the app."""
    for name in MODULES:
        import_module(name)
    return PageScreen.__subclasses__()


def imported(path: Path) -> set[str]:
    """The modules of the app that a module names, inside functions and for type checking too."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{one.name}" for one in node.names)}
    return found & set(MODULES)


def test_a_screen_is_one_class_over_the_one_base() -> None:
    """No screen inherits from another, and none from a mixin."""
    found = screens()
    assert len(found) == 26
    for screen in found:
        assert not screen.__subclasses__()
        assert screen.__mro__[1:4] == (PageScreen, PressedScreen, Screen)


def test_no_module_of_the_app_comes_back_to_itself() -> None:
    """Taken away one by one, those that import nothing that is left, in the end no module is left."""
    left = {name: imported(path) for name, path in MODULES.items()}
    while free := [name for name, needs in left.items() if not needs & set(left)]:
        for name in free:
            del left[name]
    assert not left


def test_widgets_and_parts_know_no_screen() -> None:
    """A widget knows no screen at all; a part knows only what all screens are."""
    known = {name: imported(path) for name, path in MODULES.items()}
    for name, needs in known.items():
        above = {one for one in needs if one.startswith("jobtrack.app.screens.")}
        if name.startswith("jobtrack.app.widgets."):
            assert not above, name
        if name.startswith("jobtrack.app.parts."):
            assert above <= {"jobtrack.app.screens.base"}, name


@pytest.mark.parametrize("screen", screens(), ids=lambda screen: screen.__name__)
def test_every_screen_says_what_it_is_for(screen: type[PageScreen]) -> None:
    """Each has help of its own, two or three sentences, and shows it at ?; the pages over any other have none."""
    if screen in (KeysScreen, RestScreen):
        assert not screen.HELP
        return
    sentences = [one for one in re.split(r"(?<=[.])\s+", screen.HELP) if one]
    assert 2 <= len(sentences) <= 3
    assert with_keys(screen.HELP, as_set(one for one in screen.BINDINGS if isinstance(one, Binding)))
    assert sum(screen.HELP == one.HELP for one in screens()) == 1
    assert any(isinstance(one, Binding) and one.action == "all_keys" for one in screen.BINDINGS)


@pytest.mark.parametrize("screen", screens(), ids=lambda screen: screen.__name__)
def test_every_key_has_its_action_its_id_and_its_sentence(screen: type[PageScreen]) -> None:
    """A key that is named on the screen has an id of its own there; each runs a method and says what it does."""
    bindings = [one for one in screen.BINDINGS if isinstance(one, Binding)]
    assert len(bindings) == len(screen.BINDINGS)
    ids = [one.id for one in bindings if one.id and one.description]
    assert len(set(ids)) == len(ids)
    for one in bindings:
        assert callable(getattr(screen, f"action_{one.action.partition('(')[0]}"))
        assert one.tooltip.endswith((".", "…"))
        assert one.id or not one.show
