"""What is asked of a torque line, what is said of a click, what can be typed, and the table of its bolts."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.compose import values
from jobtrack.job.compose.refusal import Refused
from jobtrack.pages.doing.bolt_table import bolt_table
from jobtrack.pages.doing.bolts import (
    asked_lines,
    asked_words,
    place_words,
    turned_words,
)
from jobtrack.pages.doing.typed_bolts import ALL, Turn, as_words, echo_words, turn, turned
from jobtrack.sheets.words.doing.torques import figure_words, torque_words
from jobtrack.units import UnitError
from jobtrack.units.chosen import US, Chosen
from tests.job.doing.rig import STEP, bolts, rig
from tests.job.doing.rig import turn as turning
from tests.support.builders import Copy

CROSSWISE = ["1", "3", "2", "4"]


def asked(copy: Copy, line: str = "ubolts", shown: Chosen | None = None) -> str:
    return asked_words(copy.job, copy.job.steps[STEP], line, shown or Chosen())


def click(copy: Copy, text: str = "", line: str = "ubolts") -> str:
    """One call, and what is said of it."""
    entry = copy.call(STEP, lambda draft: turned(draft, line, text))
    act = entry.did[-1]
    assert isinstance(act, TorqueAct)
    return turned_words(copy.job, copy.job.steps[STEP], act)


def with_figure(text: str = "110") -> Copy:
    copy = rig()
    copy.call(STEP, lambda draft: values.given(draft, "u-bolt-figure", text))
    return copy


def test_what_is_asked() -> None:
    """Bolt, stage and torque in both units; 33 N·m = 24 lbf ft by NIST SP 811."""
    assert asked(with_figure()) == "ubolts: bolt 1 of 4, stage 1 of 3: 33 N·m = 24 lbf ft"
    assert asked(with_figure(), shown=Chosen(US)).endswith(": 24 lbf ft = 33 N·m")
    assert asked(rig()) == "ubolts: bolt 1 of 4, stage 1 of 3: 30 % of the figure: ask the supplier"
    assert asked(rig(), "studs") == "studs: bolt 1 of 2: 110 N·m = 81 lbf ft"
    assert asked(rig(), "asked") == "asked: bolt 1 of 3, stage 1 of 2: 50 % of the figure: ask the maker"


def test_spaced_capitals_and_the_torque_behind_them_where_it_fits() -> None:
    """On one row of 96 cells, on two of 76; never wider than the room."""
    copy = with_figure()
    for room, rows in ((96, 1), (76, 2), (40, 3)):
        found = [one.plain for one in asked_lines(copy.job, copy.job.steps[STEP], "ubolts", room)]
        assert len(found) == rows
        assert max(map(len, found)) <= room
        assert " ".join("".join(found).split()).endswith("33 N·m = 24 lbf ft")


def test_what_is_said_of_each_click() -> None:
    """The bolt that was recorded; behind the last of a stage what comes next; then that nothing is left."""
    copy = with_figure()
    said = [click(copy) for _ in range(12)]
    assert said[0] == "bolt 1 of 4, stage 1: 33 N·m."
    assert said[2] == "bolt 2 of 4, stage 1: 33 N·m."
    assert said[3] == (
        "bolt 4 of 4, stage 1: 33 N·m. Stage 1 of 3 is recorded of all 4 bolts; "
        "the next is stage 2: 66 N·m = 49 lbf ft."
    )
    assert said[11] == "bolt 4 of 4, stage 3: 110 N·m. The last stage is recorded of all 4 bolts."
    assert asked(copy) == "ubolts: the last stage is recorded of all 4 bolts"
    with pytest.raises(
        Refused, match="the last stage is recorded of all 4 bolts; name the bolt too: 1 final"
    ):
        click(copy)


def test_a_click_without_a_figure_records_the_stage_alone() -> None:
    """The percentage stands, and nothing is made up for a torque."""
    copy = rig()
    assert click(copy) == "bolt 1 of 4, stage 1."
    assert copy.entries[-1].did[-1].as_dict() == {"torque": "ubolts", "member": "1", "stage": "1"}


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("", Turn("1", "1")),
        ("33", Turn("1", "1", "33")),
        ("24 lbf ft", Turn("1", "1", "24 lbf ft")),
        ("3 N*m", Turn("1", "1", "3 N*m")),
        ("3", Turn("1", "1", "3")),
        ("snug", Turn("1", "snug")),
        ("FINGER", Turn("1", "finger")),
        ("final", Turn("1", "final")),
        ("3 snug", Turn("3", "snug")),
        ("3: snug", Turn("3", "snug")),
        ("bolt 3", Turn("3", "1")),
        ("bolt 3 33", Turn("3", "1", "33")),
        ("bolt 3 stage 2", Turn("3", "2")),
        ("4 final 81 lbf ft", Turn("4", "final", "81 lbf ft")),
        ("all snug", Turn(None, "snug")),
        (f"{ALL} finger", Turn(None, "finger")),
        ("3.5", Turn("1", "1", "3.5")),
        ("1,5 Nm", Turn("1", "1", "1,5 Nm")),
        ("3/4", Turn("1", "1", "3/4")),
    ],
)
def test_what_can_be_typed(text: str, meant: Turn) -> None:
    """A number alone is a torque, whichever bolt has that number."""
    assert turn(bolts(rig()), text) == meant


def test_as_words_a_number_is_a_bolt() -> None:
    """Behind the key for words somebody says where they are, not what the wrench shows."""
    assert turn(bolts(rig()), as_words("3")) == Turn("3", "1")
    assert turn(bolts(rig()), as_words("3 snug")) == Turn("3", "snug")
    assert turn(bolts(rig()), as_words("snug")) == Turn("1", "snug")


@pytest.mark.parametrize("text", ["tight", "9 snug", "bolt 9", "3 snugsnug", "33 mm", "stage 7", "30 to 35"])
def test_what_cannot_be_read_is_refused(text: str) -> None:
    """With nothing recorded."""
    copy = with_figure()
    before = len(copy.entries)
    with pytest.raises((Refused, UnitError)):
        click(copy, text)
    assert len(copy.entries) == before


def test_it_is_shown_back() -> None:
    """The bolt, the stage, and a typed torque in both units."""
    copy = with_figure()
    here = copy.job.steps[STEP]
    assert echo_words(copy.job, here, "ubolts", "33") == "= bolt 1 of 4, stage 1: 33 N·m = 24.3 lbf ft"
    assert echo_words(copy.job, here, "studs", "81") == "= bolt 1 of 2, final: 81 lbf ft = 110 N·m"
    assert echo_words(copy.job, here, "ubolts", "3 snug") == "= bolt 3 of 4, snug"
    assert echo_words(copy.job, here, "ubolts", "all finger") == "= all 4 bolts, finger"


def test_whose_figure_stands_beside_it() -> None:
    """The template's source; who typed a given, and what it asks; else whom to ask."""
    copy = with_figure("70 ft lb")
    here = copy.job.steps[STEP]
    assert figure_words(copy.job, here, "studs") == "110 N·m = 81 lbf ft (the maker of the hub)"
    assert figure_words(copy.job, here, "ubolts") == (
        "95 N·m = 70 lbf ft (typed by Wim, 1 Apr 08:00, from “U-bolt torque”)"
    )
    assert torque_words(copy.job, here, "asked") == "ask the maker; 3 bolts; stages 50 %, 100 %"


def test_the_table_has_a_row_a_stage_and_a_column_a_bolt() -> None:
    """In the order of turning; what isn't recorded is a dash, a click without a torque a yes."""
    copy = with_figure()
    copy.call(STEP, *turning((None, "snug")))
    click(copy)
    click(copy, "24 lbf ft")
    click(copy, "4 final")
    rows = [one.plain for one in bolt_table(copy.job, copy.job.steps[STEP], "ubolts", 76)]
    cells = [[cell.strip() for cell in row.split("│")] for row in rows if "│" in row]
    assert cells == [
        ["bolts in turn", *CROSSWISE],
        ["snug", "yes", "yes", "yes", "yes"],
        ["stage 1, 33 N·m", "33", "32.5", "-", "-"],
        ["stage 2, 66 N·m", "-", "-", "-", "-"],
        ["stage 3, 110 N·m", "-", "-", "-", "110"],
    ]


@pytest.mark.parametrize("width", [20, 36, 76, 116])
def test_the_table_fits(width: int) -> None:
    """More bolts than fit stand in a table below; each bolt stands once."""
    copy = rig()
    copy.call(STEP, *turning(("upper front left", "1"), ("b", "1"), ("c", "1"), line="asked"))
    found = bolt_table(copy.job, copy.job.steps[STEP], "asked", width)
    assert max(len(one.plain) for one in found) <= max(width, 34)
    heads = "".join(one.plain for one in found if one.plain.startswith("bolts in"))
    assert all(heads.count(name) == 1 for name in ("upper front", "b ", "c "))


def test_where_somebody_was_last() -> None:
    """The start of a mark: the last torque of the step, with its line where there are several."""
    copy = with_figure()
    here = copy.job.steps[STEP]
    assert place_words(copy.job, here) == ""
    click(copy)
    click(copy)
    assert place_words(copy.job, here) == "ubolts: bolt 3, stage 1"
    click(copy, "all snug", line="studs")
    assert place_words(copy.job, here) == "studs: snug"
