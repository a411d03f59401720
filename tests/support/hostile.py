"""Text that spoils screens, put into the fields of the app; and whether a screen is as it should be behind it."""

from __future__ import annotations

import re
from typing import Any

from rich.cells import cell_len
from textual.geometry import Region
from wcwidth import wcswidth

from jobtrack.app.main import JobApp
from jobtrack.app.screens.base import PageScreen
from jobtrack.literal import visible
from tests.support.invented_jobs import seen
from tests.support.spiteful import RAW

TEXTS = {
    "direction": "שלום abc \u202e321\u202c نص عربي \u2067x\u2069",
    "hidden": "a\u200bb\u200cc\u200dd\u00ade\ufefff\u2060g \u2028h\u3164i\U000e0041",
    "combining": "Zo" + "\u0351\u036b\u0343" * 4 + "e\u0301 ก็็็็ नि",
    "pictures": "👩\u200d🔧⚠\ufe0f👍🏽🇬🇧#\ufe0f\u20e3 葛\U000e0100 長い",
    "control": "x\x1b[2J\x1b]8;;http://x\x07y\x9b31m\x00\x08\x7f\x85 \t\x1b[?1049l",
    "markup": "[b]x[/b] [/x] [@click=app.quit]y[/] [3/4] <b>*z*</b> `q` {0} %s $x \\[",
}
"""Each kind of sign by itself."""
SIGNS = " ".join(TEXTS.values())
WORDS = re.sub(r"\d", "", SIGNS)
"""Without digits, where a text with one would be read as a number."""
LONG = "長" * 1000 + " bolt" * 1400
"""10 kB on one line: a word without an end, of wide signs, then a thousand short ones."""
TOO_LONG = LONG + LONG[:1000]
"""More than any text of the record has."""
NAME = "長" * 200
"""The longest name, twice as wide as it has signs."""


def texts_in(value: Any) -> list[str]:
    """Every text in an act."""
    if isinstance(value, dict):
        return [one for each in value.values() for one in texts_in(each)]
    if isinstance(value, list | tuple):
        return [one for each in value for one in texts_in(each)]
    return [value] if isinstance(value, str) else []


def one_of(text: str) -> set[str]:
    """How a text may stand in the record: as typed, but for blanks at its ends; a name with single blanks."""
    return {text.strip(), " ".join(text.split())}


def shows_some(app: JobApp, text: str) -> bool:
    """Whether a stretch of a text stands on the screen as it is shown."""
    screen, shown = seen(app), visible(text)
    return any(shown[at : at + 12] in screen for at in range(0, len(shown), 3))


def intact(app: JobApp) -> None:
    """No row is wider than the terminal, nothing raw is painted, and what is asked is in sight with its keys."""
    rows = app.screen._compositor.render_strips()
    assert len(rows) == app.size.height
    for row in rows:
        text = "".join(part.text for part in row)
        assert cell_len(text) == app.size.width, text
        assert wcswidth(text) <= app.size.width + text.count("नि"), (
            text
        )  # a vowel sign that few terminals agree on
        assert not RAW.search(text), text
    in_sight(app)


def in_sight(app: JobApp) -> None:
    """The field where one is open, what is said about it, and the row of keys lie inside the terminal."""
    screen = app.screen
    assert isinstance(screen, PageScreen)
    wanted = ["#keys", *(["#row", "#said"] if screen.entry.asking is not None else [])]
    wanted += ["#said"] if screen.entry.waiting is not None else []
    terminal = Region(0, 0, *app.size)
    for name in wanted:
        part = screen.query_one(name)
        if part.display:
            assert part.region.height, (name, seen(app))
            assert terminal.contains_region(part.region), (name, part.region, seen(app))
