"""The checks of a sheet in a browser find what they look for: each by a page that is wrong in that alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.browser import CHECKS, faults, rendered
from tests.support.browser.chromium import DOING_WITHOUT, in_browser

ROWS = "".join(f"<p>A row of a sheet, number {number}.</p>" for number in range(4))
SOUND = f"<h1>A sheet</h1>{ROWS}<h2>A part</h2>{ROWS}"


def page(body: str) -> str:
    return (
        '<!doctype html><html lang="en-GB"><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width"><style>@page { margin: 15mm } body { margin: 0 }</style>'
        f"<body>{body}</body></html>"
    )


WRONG = {
    "too wide": (f"{SOUND}<pre>{'no blank can break it ' * 12}</pre>", "wider than its box: "),
    "clipped": (f'{SOUND}<div style="overflow: hidden; height: 9px"><p>half a row</p></div>', "px high in 9: half"),
    "beside the paper": (f'{SOUND}<p style="position: absolute; left: -900px">gone</p>', "not printed: gone"),
    "in the margin": (f'{SOUND}<p style="position: absolute; left: -20px">noted</p>', "outside the margins: "),
    "orphan": (f'{SOUND}<p style="break-before: page">alone</p>', "page 2 of 2 has 1 rows: alone"),
    "grey": (f'{SOUND}<p style="color: #777777">pale</p>', "4.48 to 1, (119, 119, 119) on (255, 255, 255): pale"),
    "on a panel": (
        f'{SOUND}<div style="background: #ffd100"><b style="color: #fff">signal</b></div>', "(255, 209, 0): signal",
    ),
    "half seen": (f'{SOUND}<p style="opacity: .5">faint</p>', "(128, 128, 128) on (255, 255, 255): faint"),
    "heading left out": (f"{SOUND}<h4>Too deep</h4>{ROWS}", "h4 below h2: Too deep"),
    "two titles": (f"{SOUND}<h1>Another</h1>{ROWS}", "with 2 of level 1"),
    "no title": (f"<h2>A part</h2>{ROWS}", "with 0 of level 1"),
    "no words": (f"{SOUND}<h2> </h2>{ROWS}", "a heading without words: h2"),
    "from elsewhere": (f'{SOUND}<img src="http://sheet.invalid/x.png" alt="">', "http://sheet.invalid/x.png"),
}  # fmt: skip
"""What is wrong with a page, the page, and what must be said of it."""


@pytest.mark.parametrize("name", WRONG)
def test_what_is_wrong_is_found(name: str) -> None:
    """By the check that looks for it, and no other says anything."""
    body, said = WRONG[name]
    printed = rendered(page(body))
    found = [check(printed) for check in CHECKS]
    assert any(said in one for each in found for one in each), found
    assert sum(map(bool, found)) == 1, found


def test_a_sound_page_has_no_fault(tmp_path: Path) -> None:
    """And its words stand where they were printed; its pictures are there to look at."""
    assert faults(page(SOUND)) == []
    printed = rendered(page(SOUND), "Letter")
    [one] = printed.pages
    assert (round(one.width), round(one.height)) == (612, 792)  # 8.5 by 11 in (ANSI/ASME Y14.1)
    assert one.text.startswith("A sheet A row of a sheet, number 0.")
    assert 42 < one.words[0].left < 45  # 15 mm are 42.5 points
    assert [path.name for path in printed.save_pngs(tmp_path, "sound")] == ["sound-Letter-1.png"]


def test_a_word_that_goes_on_in_the_next_row_is_there() -> None:
    """Broken at its stroke; rows of many lengths, so that it comes to stand at the end of one."""
    rows = "".join(f"<p>{'x' * length} {'Hand-warm ' * 40}</p>" for length in range(1, 12))
    assert faults(page(f"<h1>A sheet</h1>{rows}")) == []


def test_a_run_may_do_without_a_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    """It says why; without a word it fails where the whole check runs, rather than skip in silence."""
    monkeypatch.setenv(DOING_WITHOUT, "no network here")
    with pytest.raises(pytest.skip.Exception, match="not looked at in a browser: no network here"):
        in_browser(lambda _: None)
    monkeypatch.delenv(DOING_WITHOUT)
    monkeypatch.setenv("CI", "true")
    monkeypatch.setenv("PATH", "")
    with pytest.raises(pytest.fail.Exception, match=r"isn't installed .*; JOBTRACK_NO_BROWSER says why"):
        in_browser(lambda _: None)
