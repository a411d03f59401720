"""The keys that somebody has set, held against every page of the app; one line for each that can't be had."""

from __future__ import annotations

import pkgutil
from collections.abc import Callable, Iterator, Mapping
from difflib import get_close_matches
from importlib import import_module

from msgspec.structs import replace
from textual.binding import Binding

from jobtrack.app.keys import UNSET, character, stays
from jobtrack.app.screens.base import PageScreen
from jobtrack.pages.step.entering import NUMBER_STARTS
from jobtrack.store.machine.settings import Found, Settings

SPACE = "space"
ON_THE_PAD = ("*", "/")
Page = dict[str, str]
"""The actions of a page, each with its key."""
Complain = Callable[[str, str, str], None]
"""Takes an action, what is wrong with its key, and how to mend it."""


def usable(found: Found) -> tuple[Settings, list[str]]:
    """The settings without the keys that can't be had, and a line for each mistake in the file."""
    keys, mistakes = dict(found.settings.keys), list(found.mistakes)

    def complain(action: str, why: str, mend: str) -> None:
        mistakes.append(found.mistake(("keys", action), why, mend))
        keys.pop(action, None)

    pages = list(_pages()) if keys else []
    for action, key in list(keys.items()):
        _alone(action, key, pages, complain)
    while clash := next(_clashes(keys, pages), None):
        complain(*clash)
    return replace(found.settings, keys=keys), mistakes


def _pages() -> Iterator[list[Binding]]:
    """The bindings of every page."""
    import jobtrack.app.screens as room

    for one in pkgutil.walk_packages(room.__path__, f"{room.__name__}."):
        import_module(one.name)
    for screen in PageScreen.__subclasses__():
        yield [one for one in screen.BINDINGS if isinstance(one, Binding) and one.id]


def _alone(action: str, key: str, pages: list[list[Binding]], complain: Complain) -> None:
    """Complain of an action that there isn't, or of a key that doesn't work it by itself."""
    of_action = [one for page in pages for one in page if one.id == action]
    if not of_action:
        complain(action, f"no action is called {action[:60]}", _near(action, pages))
    elif any(stays(one) for one in of_action):
        fixed = of_action[0].key.capitalize()
        complain(action, f"{fixed} means the same on every page and stays", "Take this line out")
    elif len(key) == 1 and key in NUMBER_STARTS:
        complain(action, f"{key} begins a number", "Choose a letter")
    elif key in ON_THE_PAD:
        complain(action, f"{key} answers a check on the number pad", "Choose a letter")
    elif key != SPACE and (len(key) != 1 or not key.isprintable() or key.isspace()):
        complain(action, f"{key[:40]} is no key that is pressed alone", 'Write one letter, or "space"')
    elif key != key.lower():
        complain(action, f"{key} takes two keys, Shift and {key.lower()}", f'Write "{key.lower()}"')


def _near(action: str, pages: list[list[Binding]]) -> str:
    known = sorted({str(one.id) for page in pages for one in page if not stays(one)})
    near = get_close_matches(action, known, 3)
    return f"Did you mean {' or '.join(near)}?" if near else "The page of all keys names each"


def _clashes(keys: Mapping[str, str], pages: list[list[Binding]]) -> Iterator[tuple[str, str, str]]:
    """What was set so that one key would do two things on a page: the action set last, why, how to mend it."""
    order = list(keys)
    for page in pages:
        taken: dict[str, str] = {}
        for action, key in sorted(
            _keys_on(page, keys), key=lambda one: order.index(one[0]) if one[0] in keys else -1
        ):
            if (other := taken.setdefault(key, action)) != action:
                yield (
                    action,
                    f"{key} is the key of {other} on the same page",
                    f"Set another, or another for {other}",
                )


def _keys_on(page: list[Binding], keys: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Each action of a page with its key as set."""
    for one in (one for one in page if one.key != UNSET or one.id in keys):
        yield str(one.id), keys.get(str(one.id), character(one))
