"""What the app looks like: near-white, one near-black ink; colour stands only in the four signal-word panels."""

from __future__ import annotations

from textual.theme import Theme

PAPER, INK = "#f7f5ef", "#1a1a18"

STYLES = {
    "": "",
    "strong": "bold",
    "small": "",
    "ruled": "bold underline",
    "underlined": "underline",
    "DANGER": "bold #ffffff on #b01c1c",
    "WARNING": "bold #000000 on #ee8a1d",
    "CAUTION": "bold #000000 on #f3cf2a",
    "NOTICE": "bold #ffffff on #1d4f91",
}
"""Signal words in the colours that ANSI Z535.6 gives them (red, orange, yellow, blue), as quoted; the word
says the same without its colour."""

THEME = Theme(
    name="job-card", primary=INK, secondary=INK, warning=INK, error=INK, success=INK, accent=INK,
    foreground=INK, background=PAPER, surface=PAPER, panel=PAPER, boost=PAPER, dark=False,
    variables={"input-cursor-background": INK, "input-cursor-foreground": PAPER,
               "input-selection-background": "#d8d4c8", "scrollbar": "#a8a498", "scrollbar-hover": "#7a766c",
               "scrollbar-active": INK, "scrollbar-background": PAPER, "scrollbar-background-hover": PAPER,
               "scrollbar-background-active": PAPER, "border": INK, "border-blurred": INK},
)  # fmt: skip
