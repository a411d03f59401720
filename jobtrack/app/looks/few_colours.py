"""Terminals of sixteen colours or of none: what is painted there in the place of a look's own colours.

Which shade such a colour has is the terminal's own affair, so only pairs stand here that the usual palettes keep
apart. Where there is no colour at all, what has a ground of its own is shown in reverse.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping

from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter

from jobtrack.app.looks.theme import THEMES

NONE, SIXTEEN, MANY = 0, 16, 256
DEFAULT = ("default", "default")
INK_ON_GROUND = {"paper": DEFAULT, "dark": ("white", "black"), "high-contrast": ("bright_white", "black")}
"""Paper is the terminal's own two colours: bold black is grey on many such terminals, so a white ground is none."""
PANEL = {
    "danger": ("bright_white", "red"), "warning-panel": ("bright_yellow", "black"),
    "caution": ("bright_yellow", "black"), "notice": ("bright_white", "blue"),
}  # fmt: skip
"""Ink and ground of the signal-word panels. Black on yellow would be too faint where yellow is brown."""


def colours(environment: Mapping[str, str]) -> int:
    """How many colours can be painted: none where NO_COLOR asks for none or the terminal has none; 16; or MANY."""
    if environment.get("NO_COLOR"):
        return NONE
    if os.name != "posix" or environment.get("COLORTERM", "").lower() in ("truecolor", "24bit"):
        return MANY
    told = _in_terminfo(environment.get("TERM", ""))
    return NONE if told <= 0 else SIXTEEN if told < MANY else MANY


def _in_terminfo(terminal: str) -> int:
    """How many the system's own list of terminals gives it; 16 where it isn't in the list."""
    try:
        import curses
    except ImportError:
        return SIXTEEN
    try:
        curses.setupterm(terminal, sys.__stdout__.fileno() if sys.__stdout__ else 1)
        return curses.tigetnum("colors")
    except (OSError, ValueError, curses.error):
        return SIXTEEN


class FewColours(LineFilter):
    """Paints the looks in the colours that there are."""

    def __init__(self, count: int) -> None:
        super().__init__()
        self._instead = {
            colour: _instead(colour, look, DEFAULT if count == NONE else INK_ON_GROUND[look], count)
            for look, theme in THEMES.items()
            for colour in (*theme.variables.values(), theme.background, theme.foreground)
            if colour is not None
        }
        """By the ground on which something is painted in a look."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The same segments in other colours."""
        return [Segment(text, style and self.style(style), control) for text, style, control in segments]

    def style(self, style: Style) -> Style:
        """A style in the colours that there are; bold and underlined stay."""
        ground = style.bgcolor and style.bgcolor.triplet
        return style + self._instead.get(ground.hex if ground else "", PLAIN)


PLAIN = Style(color=DEFAULT[0], bgcolor=DEFAULT[1])


def _instead(colour: str, look: str, page: tuple[str, str], count: int) -> Style:
    """What is painted on one colour of a look: the page, a panel, or what is marked by a ground of its own."""
    theme = THEMES[look]
    panel = next((name for name in PANEL if theme.variables[name] == colour), None)
    ink, ground = PANEL[panel] if panel and count != NONE else page
    return Style(
        color=ink, bgcolor=ground, reverse=(not panel or count == NONE) and colour != theme.background
    )
