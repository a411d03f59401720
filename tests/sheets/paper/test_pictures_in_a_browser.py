"""Every picture of a working-out on one sheet, as a browser draws it: letters no wider than they were reckoned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from jobtrack.figures.drawing import Drawing, Label
from jobtrack.figures.paper.letters import text_width
from jobtrack.pictures import PICTURES, picture_of
from jobtrack.sheets.paper.blocks import Picture, Section, Sheet
from jobtrack.sheets.paper.forms import written
from jobtrack.shopmath.catalogue import find
from jobtrack.units.chosen import METRIC_FIRST, US, Chosen
from jobtrack.workings import answers as workings
from tests.support.browser import faults
from tests.support.browser.chromium import in_browser

if TYPE_CHECKING:
    from playwright.sync_api import Page

SIGNS = "→ ± ½ – “W” @ 全角 ﷽ ᙶ ก็ 𝕎 Ω"
MEASURED = """() => [...document.querySelectorAll('figure svg')].map(svg => {
  const view = svg.viewBox.baseVal
  const texts = [...svg.querySelectorAll('tspan')].map(one => {
    const first = one.getStartPositionOfChar(0).x, wide = one.getComputedTextLength()
    return {text: one.textContent, left: first, wide}
  })
  return {width: view.width, texts, overflow: getComputedStyle(svg).overflow}
})"""


def drawings() -> list[Drawing]:
    found = []
    for name in PICTURES:
        outcome = workings.answer(name, find(name).example).outcome
        found += [
            picture_of(name, outcome.inputs, outcome.values, shown) for shown in (METRIC_FIRST, Chosen(US))
        ]
    return [*filter(None, found)]


def sheet(drawings: list[Drawing]) -> str:
    blocks = tuple(Picture(one, "What is seen") for one in drawings)
    return written(Sheet("job-card", "Pictures", (), (Section("All of them", blocks),)), ".html").decode()


def measured(page: Page, html: str) -> Any:
    page.set_content(html)
    return page.evaluate(MEASURED)


def test_letters_keep_within_what_was_reckoned_for_them() -> None:
    """Each row of each text, by the fonts of this machine; those of letters that aren't known are held to it."""
    shown = [*drawings(), Drawing(tuple(Label((at, 0), SIGNS, "right") for at in (0, 1)))]
    html = sheet(shown)
    found = in_browser(lambda page: measured(page, html))
    assert len(found) == len(shown)
    for picture in found:
        for one in picture["texts"]:
            assert one["wide"] <= text_width(one["text"]) + 0.05, one
            assert -0.05 <= one["left"] <= one["left"] + one["wide"] <= picture["width"] + 0.05, one


def test_pictures_print_whole() -> None:
    """On A4 and Letter and on a telephone, black on white."""
    assert faults(sheet(drawings())) == []
