"""Every look can be read: the contrast of what is written, computed from the styles and from what is painted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from rich.color import Color, ColorSystem
from rich.style import Style as Painted
from textual.dom import DOMNode
from textual.pilot import Pilot
from textual.style import Style
from textual.widgets.input import Selection

from jobtrack.app.looks.theme import STYLES, THEMES
from jobtrack.app.main import JobApp
from jobtrack.pages.typeset import Line, Span
from jobtrack.store.machine.settings import LOOKS, Settings
from tests.support.contrast import AA, AAA, NO_TEXT, RGB, contrast
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import half_done

WANTED = {"paper": AA, "dark": AA, "high-contrast": AAA}
NEVER_SHOWN = {"input--placeholder", "input--suggestion"}
Open = Callable[[str], JobApp]


@pytest.fixture
def opened(folder: Path) -> Open:
    """The app on a half-done job in one of the looks."""
    job = half_done(folder / "half.job.toml")
    return lambda look: JobApp(folder, "Hob Tansley", job, Settings(looks=look))  # type: ignore[arg-type]


def test_the_formula() -> None:
    """Black on white is 21 and any colour on itself 1 (WCAG 2.2); #777777 on white is 4.48, just too little (1.4.3)."""
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((90, 7, 200), (90, 7, 200)) == 1
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(4.48, abs=0.005)


def rgb(colour: Color | None, few: bool) -> RGB:
    """A painted colour, as it is or as the nearest of 256."""
    assert colour is not None
    shown = colour.downgrade(ColorSystem.EIGHT_BIT) if few else colour
    red, green, blue = shown.get_truecolor()
    return red, green, blue


def pair(style: Painted, few: bool = False) -> tuple[RGB, RGB]:
    """Ink and ground."""
    ink, ground = rgb(style.color, few), rgb(style.bgcolor, few)
    return (ground, ink) if style.reverse else (ink, ground)


def painted(app: JobApp) -> Iterator[tuple[str, Painted]]:
    """Every piece of text on the screen with its style."""
    for strip in app.screen._compositor.render_strips():
        for segment in strip:
            if segment.text.strip():
                assert segment.style is not None
                yield segment.text, segment.style


def styled(app: JobApp) -> Iterator[tuple[str, RGB, RGB]]:
    """What the style sheet gives each widget, and each part of one, for ink and ground."""
    nodes: list[DOMNode] = [app.screen, *app.screen.query("*")]
    for node in nodes:
        _, _, ground, ink = node.colors
        yield str(node), ink.rgb, ground.rgb
        for name in node._get_component_classes() - NEVER_SHOWN:
            ground, over = node.get_component_styles(name).background, node.get_component_styles(name).color
            yield f"{node} {name}", over.rgb, ground.rgb


async def walk(app: JobApp, pilot: Pilot[int]) -> list[tuple[str, Painted]]:
    """What the pages paint: a step and its hazards, outline, far view, parts, reckoner, a field with a selection."""
    found = []
    for key in (
        "z",
        "o",
        "escape",
        "v",
        "v",
        "p",
        "escape",
        "?",
        "escape",
        "x",
        "escape",
        "j",
        "escape",
        "down",
        "2",
        "3",
    ):
        await pilot.press(key)
        found += list(painted(app))
    field = app.screen.query_one("Field")
    field.selection = Selection(0, 1)  # type: ignore[attr-defined]
    await pilot.pause()
    return found + list(painted(app))


@pytest.mark.parametrize("look", LOOKS)
async def test_all_that_is_painted_can_be_read(opened: Open, look: str) -> None:
    """In as many colours as there are, and in the nearest of 256."""
    app = opened(look)
    async with app.run_test(size=(80, 30)) as pilot:
        found = await walk(app, pilot)
        await pilot.press("escape")
        app.screen.query_one("Page").show(  # type: ignore[attr-defined]
            [Line((Span(f"look {name}", name),)) for name in STYLES]
        )
        await pilot.pause()
        found += list(painted(app))
    assert {text for text, _ in found} >= {f"look {name}" for name in STYLES}
    for text, style in found:
        for few in (False, True):
            assert contrast(*pair(style, few)) >= WANTED[look], (text, str(style), few)


@pytest.mark.parametrize("look", LOOKS)
async def test_all_that_has_a_style_can_be_read(opened: Open, look: str) -> None:
    """Widgets, the cursor, selected text in a field and on the page, by the style sheet."""
    app = opened(look)
    async with app.run_test():
        found = list(styled(app))
        theme = app.theme_variables
    assert any("input--cursor" in name for name, *_ in found)
    assert any("input--selection" in name for name, *_ in found)
    assert any("screen--selection" in name for name, *_ in found)
    for name, ink, ground in found:
        assert contrast(ink, ground) >= WANTED[look], (name, ink, ground)
    for name in STYLES:
        style = Style.parse(STYLES[name], theme)
        if style.background is not None and style.background.a:
            assert style.foreground is not None
            assert contrast(style.foreground.rgb, style.background.rgb) >= WANTED[look], name


@pytest.mark.parametrize("look", LOOKS)
def test_what_is_no_text_can_be_seen(look: str) -> None:
    """The cursor and the bar that tells how far a page is scrolled, on the ground of the page (1.4.11)."""
    theme = THEMES[look]
    ground = rgb(Color.parse(theme.background or ""), few=False)
    for name in ("input-cursor-background", "scrollbar", "scrollbar-hover", "scrollbar-active"):
        assert contrast(rgb(Color.parse(theme.variables[name]), few=False), ground) >= NO_TEXT, name


@pytest.mark.parametrize("look", LOOKS)
def test_colour_is_the_panels_alone(look: str) -> None:
    """Ink, ground and what is marked are greys, or nearly: nobody has to tell two hues apart."""
    theme = THEMES[look]
    names = [
        name for name in theme.variables if not name.startswith(("danger", "warning", "caution", "notice"))
    ]
    for colour in (theme.foreground, theme.background, *(theme.variables[name] for name in names)):
        parts = rgb(Color.parse(colour or ""), few=False)
        assert max(parts) - min(parts) <= 20, colour


async def test_the_look_is_changed_and_said_back(opened: Open) -> None:
    """Behind e, one row: the next look, until the program ends, and how it stays."""
    app = opened("paper")
    async with app.run_test(size=(80, 24)) as pilot:
        seen = []
        for _ in range(3):
            await choose_row(pilot, "next_look")
            seen.append((app.theme, app.screen.entry.last))  # type: ignore[attr-defined]
    assert [theme for theme, _ in seen] == ["dark", "high-contrast", "paper"]
    assert seen[0][1].startswith('Looks: dark, until the program ends. For every time: looks = "dark" in ')
