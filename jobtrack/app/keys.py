"""How a key is made a binding, the row that names the keys, and the keys that screens share; their own are theirs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from textual.binding import Binding

from jobtrack.pages.job.conditions import JOB_KEY

RECORDS = Binding.Group("records")
"""Keys that record at once: where a second key is waited for, such a key only cancels."""


def key(key: str, word: str, action: str, help: str, shown: bool = True, records: bool = False) -> Binding:
    """A key by the action that it runs; the last row names it if `shown`, the page of all keys always.

    Its id, by which somebody's own keymap would name it, is the action with its words.
    """
    return Binding(key, action, word, shown, tooltip=help, id=_id(action), group=RECORDS if records else None)


def also(key: str, action: str, help: str, records: bool = False) -> Binding:
    """A second key for an action; it has no id, so that a keymap moves only the first."""
    return Binding(key, action, "", False, tooltip=help, group=RECORDS if records else None)


class Row(NamedTuple):
    """Something without a key of its own, one row of a page that lists such things."""

    action: str
    name: str
    more: str


def _id(action: str) -> str:
    return action.replace("('", ".").replace("(", ".").rstrip("')").replace("_", "-")


def cap(binding: Binding) -> str:
    """A key as it stands on the screen."""
    return binding.key_display or (
        binding.key.capitalize() if len(binding.key) > 1 and binding.key.isalpha() else binding.key
    )


def rows(bindings: Iterable[Binding], room: int) -> list[str]:
    """The shown keys with their words, broken to the width."""
    found = [""]
    for one in bindings:
        word = f"{cap(one)} {one.description}"
        more = f"{found[-1]}   {word}" if found[-1] else word
        if not one.show:
            continue
        if len(more) <= room:
            found[-1] = more
        else:
            found.append(word)
    return found


ARROWS = (
    key("up", "", "mark(-1)", "Choose the one above.", shown=False),
    key("down", "", "mark(1)", "Choose the one below.", shown=False),
)
ALL_KEYS = key("?", "all keys", "all_keys", "This page.")
QUIT = key("q", "quit", "quit", "End the program.")
RECKONER = key("x", "reckoner", "reckoner", "The reckoner: the calculator at the bench.")
JOB = key(
    JOB_KEY, "job", "job_page", "The job: all that is open, its hazards, what is recorded beside the steps."
)
REST = key("space", "", "rest", "All of what was said last, where it was cut short.", shown=False)
SCROLLING = (
    key("pageup", "", "scroll_page('pageup')", "Scroll the page.", shown=False),
    key("pagedown", "", "scroll_page('pagedown')", "Scroll the page.", shown=False),
    key("home", "", "scroll_page('home')", "To the top of the page.", shown=False),
    key("end", "", "scroll_page('end')", "To the end of the page.", shown=False),
)
"""On every page, and never in its row of keys."""
