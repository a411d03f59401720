"""How a key is made a binding, the row that names the keys, and the keys that screens share; their own are theirs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from rich.cells import cell_len
from textual.binding import Binding
from textual.keys import key_to_character

from jobtrack.pages.job.conditions import JOB_KEY
from jobtrack.pages.own_keys import named

RECORDS = Binding.Group("records")
"""Keys that record at once: where a second key is waited for, such a key only cancels."""


def key(key: str, word: str, action: str, help: str, shown: bool = True, records: bool = False) -> Binding:
    """A key by the action that it runs; the last row names it if `shown`, the page of all keys always.

    Its id, by which somebody's settings name it, is the action with its words. `{}` in the help is the key as set.
    """
    return Binding(key, action, word, shown, tooltip=help, id=_id(action), group=RECORDS if records else None)


def also(key: str, action: str, help: str, records: bool = False) -> Binding:
    """A second key for an action; it has no id: it stays where it is, and gives way to a key that somebody has set."""
    return Binding(key, action, "", False, tooltip=help, group=RECORDS if records else None)


class Row(NamedTuple):
    """Something without a key of its own, one row of a page that lists such things."""

    action: str
    name: str
    more: str


UNSET = "behind-e"
"""In the place of a key where an action has none; no terminal sends it."""


def without_key(row: Row) -> Binding:
    """What such a row does as a binding, so that somebody may set a key for it."""
    return Binding(UNSET, row.action, "", False, tooltip=f"{row.name}: {row.more}.", id=_id(row.action))


def _id(action: str) -> str:
    return action.replace("('", "-").replace("(", "-").rstrip("')").replace("_", "-")


def character(binding: Binding) -> str:
    """What a key types, or its name where that is nothing one could see."""
    found = key_to_character(binding.key)
    return found if found and found.isprintable() and not found.isspace() else binding.key


def stays(binding: Binding) -> bool:
    """Whether its key means the same in every list and field, and isn't anybody's to set: Enter, Escape, an arrow."""
    return len(character(binding)) > 1 and binding.key not in ("space", UNSET)


def as_set(bindings: Iterable[Binding]) -> list[Binding]:
    """The bindings with the keys that somebody has set, without second keys that have another use now."""
    given = list(bindings)
    own = [one.with_key(named(character(one), one.id)) if one.id else one for one in given]
    moved = {now.key for now, one in zip(own, given, strict=True) if now.key != character(one)}
    return [one for one in own if one.id or character(one) not in moved]


def cap(binding: Binding) -> str:
    """A key as it stands on the screen; of what has none, where it is chosen."""
    if binding.key == UNSET:
        return f"behind {named('e', 'find')}"
    found = binding.key_display or character(binding)
    return found.capitalize() if len(found) > 1 and found.isalpha() else found


def help_of(binding: Binding) -> str:
    """What a key does, in a sentence."""
    return binding.tooltip.replace("{}", cap(binding))


def with_keys(text: str, bindings: Iterable[Binding]) -> str:
    """A text that names actions in braces, `{undo}`, with the keys that run them."""
    return text.format_map({one.id: cap(one) for one in bindings if one.id})


def last_rows(bindings: Iterable[Binding], room: int, most: int, beside: str) -> list[str]:
    """The shown keys with their words, in so many rows at most; what stands beside the last is at its end."""
    texts = [words(one) for one in bindings if one.show]
    if not beside:
        return in_rows(texts, room)[:most]
    found = in_rows(texts, room - cell_len(beside) - 3)[:most]
    found[-1] += " " * (room - cell_len(found[-1]) - cell_len(beside)) + beside
    return found


def words(binding: Binding) -> str:
    """A key and what it does, as the screen says it."""
    return f"{cap(binding)} {binding.description}"


def in_rows(texts: Iterable[str], room: int) -> list[str]:
    """Keys with their words one behind the other, broken between two of them."""
    found = [""]
    for word in texts:
        more = f"{found[-1]}  {word}" if found[-1] else word
        if len(more) <= room:
            found[-1] = more
        else:
            found.append(word)
    return found


ARROWS = (
    key("up", "", "mark(-1)", "Choose the one above.", shown=False),
    key("down", "", "mark(1)", "Choose the one below.", shown=False),
)
ALL_KEYS = key("?", "keys", "all_keys", "This page.")
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
UNITS = key(
    "comma", "units", "units", "Metric or US units first, for what is shown; what was typed stays as it was typed, "
    "and a number without a unit is taken in the template's.",
)  # fmt: skip
"""On every page where a comma isn't text."""
