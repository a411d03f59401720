"""What the app looks like: one ink on one ground in three ways; colour stands only in the four signal-word panels."""

from __future__ import annotations

from textual.theme import Theme

from jobtrack.store.machine.settings import LOOKS

STYLES = {
    "": "",
    "strong": "bold",
    "small": "",
    "ruled": "bold underline",
    "underlined": "underline",
    "DANGER": "bold $danger-ink on $danger",
    "WARNING": "bold $warning-ink on $warning-panel",
    "CAUTION": "bold $caution-ink on $caution",
    "NOTICE": "bold $notice-ink on $notice",
}
"""Signal words in the colours that ANSI Z535.6 gives them (red, orange, yellow, blue), as quoted; the word
says the same without its colour."""

PANELS = {
    "danger": "#b01c1c", "danger-ink": "#ffffff", "warning-panel": "#ee8a1d", "warning-ink": "#000000",
    "caution": "#f3cf2a", "caution-ink": "#000000", "notice": "#1d4f91", "notice-ink": "#ffffff",
}  # fmt: skip
DEEP_RED = {"danger": "#9c1515"}
"""The red on which white reaches the contrast that high contrast asks for."""


def _theme(name: str, ink: str, ground: str, marked: str, bar: str, panels: dict[str, str]) -> Theme:
    """One look: what is written, on what, under selected text, and the bar that tells how far a page is scrolled."""
    return Theme(
        name=name, primary=ink, secondary=ink, warning=ink, error=ink, success=ink, accent=ink,
        foreground=ink, background=ground, surface=ground, panel=ground, boost=ground, dark=name != LOOKS[0],
        variables={"input-cursor-background": ink, "input-cursor-foreground": ground,
                   "input-selection-background": marked, "input-selection-foreground": ink,
                   "screen-selection-background": marked, "screen-selection-foreground": ink,
                   "scrollbar": bar, "scrollbar-hover": ink, "scrollbar-active": ink,
                   "scrollbar-background": ground, "scrollbar-background-hover": ground,
                   "scrollbar-background-active": ground, "border": ink, "border-blurred": ink, **panels},
    )  # fmt: skip


THEMES = {
    "paper": _theme("paper", "#1a1a18", "#f7f5ef", "#d8d4c8", "#6f6b62", PANELS),
    "dark": _theme("dark", "#e8e4d8", "#17181a", "#45464a", "#85868a", PANELS),
    "high-contrast": _theme("high-contrast", "#ffffff", "#000000", "#3a3a3a", "#b4b4b4", PANELS | DEEP_RED),
}
"""The looks by the names that the settings have for them."""


def after(look: str) -> str:
    """The look that comes next, round and round."""
    return LOOKS[(LOOKS.index(look) + 1) % len(LOOKS)]
