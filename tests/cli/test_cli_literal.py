"""What people type is stored as it is and shown as text, never as markup or terminal codes."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.support.cli_calls import Shop, entries

NOTE = "[3/4] up [/x] [bold]not[/bold] *star* \x1b[31mred\x1b[0m \N{WRENCH} <b>&amp; # 1. \u202eback `x`"
SEEN = NOTE.replace("\x1b", "\N{SYMBOL FOR ESCAPE}").replace("\u202e", "\N{REPLACEMENT CHARACTER}")


def test_a_note_is_stored_exactly(shop: Shop) -> None:
    """Read back by any TOML reader, a note is what was typed, control characters and all."""
    assert shop.record("tack", "--note", NOTE) == [{"note": NOTE}]


def test_a_note_is_literal_in_show(shop: Shop) -> None:
    """Brackets, slashes and emoji as they are, the control character as a visible stand-in."""
    shop.record("tack", "--note", NOTE)
    out = shop.done("show", shop.job).out
    assert f"      note: {SEEN} (Wim, " in out
    assert "\x1b" not in out
    assert "\u202e" not in out


def test_a_note_is_literal_in_the_handover(shop: Shop) -> None:
    """Taken out of its backslashes, the Markdown says what was typed."""
    shop.record("tack", "--note", NOTE)
    shop.done("handover", shop.job, "--by", "Wim", "--to", "Ada", "--out", "sheet.md")
    sheet = Path("sheet.md").read_text(encoding="utf-8")
    [line] = [line for line in sheet.splitlines() if "bold" in line]
    assert f"Note: {SEEN} (Wim, " in re.sub(r"\\(.)", r"\1", line)
    assert not re.search(r"(?<!\\)[\[\]*`<>#&]", line)


def test_json_has_it_exactly(shop: Shop) -> None:
    """`show --json` is plain ASCII; taken apart it holds what was typed."""
    shop.record("--opens", NOTE)
    out = shop.done("show", shop.job, "--json").out
    assert out.isascii()
    assert "\x1b" not in out
    assert NOTE in [one["text"] for one in json.loads(out)["open_conditions"]]


@pytest.mark.parametrize("control", ["\x1b[2J", "\x07", "\x7f", "\x9b31m", "\u202e", "\t", "\r", "\n"])
def test_no_control_character_reaches_the_terminal(shop: Shop, control: str) -> None:
    """In names, titles, steps, conditions, places: none of it comes out raw."""
    hostile = f"a{control}b"
    shop.record("--opens", hostile, "--note", hostile, "--mark", hostile, "--place", f"bar=on {hostile}",
                "--add-step", f"x=T {hostile}", "--agreed", f"me={hostile}", by=f"W{control}m")  # fmt: skip
    shop.record("x", "--note", hostile, "--mark", hostile)
    shown = shop.done("show", shop.job)
    sheet = shop.done("handover", shop.job, "--by", f"W{control}m", "--to", hostile)
    refused = shop.run("record", shop.job, hostile, "--by", "Wim", "--note", "x")
    assert refused.status == 2
    for text in (shown.out, sheet.out, refused.err):
        assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]", text)
    assert entries(shop.job)[1]["did"][0] == {"opens": hostile}


def test_a_name_is_shown_as_first_typed(shop: Shop) -> None:
    """People are told apart by their names trimmed and without regard to case."""
    shop.record("--clock", "on", "--at", "2031-04-02T08:00:00Z", by="Ada  P ")
    shop.record("--note", "x", "--at", "2031-04-02T09:00:00Z", by="ADA p")
    shop.record("--worked", "1", by="ada P")
    state = json.loads(shop.done("show", shop.job, "--json").out)
    assert state["hours"]["by_person"] == {"Ada P": 2.0}
