"""Keys typed at the wrong place, one by one through a real terminal of 80 by 24; the job file tells what they did.

What the file holds is looked at first, then what the screen says of it.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from jobtrack.app.parts.taking_keys import SAME_PRESS
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.store.file.writer import JobFile
from tests.support.terminal import DOWN, ESCAPE, UP, Bench
from tests.support.typist import seat

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal as POSIX has them")


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    found = Bench(seat(folder / "seat.job.toml").path, "B O R E")
    yield found
    found.child.close(force=True)


@pytest.mark.parametrize("typed", ["1/4 in", "12 mm", "5 y", "37 15/16 in", "5 ft", "4 kg", "0.4 u"])
def test_a_number_typed_at_a_check_records_nothing(bench: Bench, typed: str) -> None:
    """Every key of a number typed at a check belongs to a field; Enter says that nothing is recorded."""
    bench.type("23.1\r")
    bench.to("Seat wiped clean?")
    before = bench.acts()
    assert len(before) == 1
    bench.type(f"{typed}\r")
    assert bench.acts() == before
    bench.wait_for(f"Not recorded: {typed}.")
    assert "Enter records nothing here" in bench.shown
    assert "Enter takes it" not in bench.shown


def test_a_number_typed_at_a_check_opens_no_page(bench: Bench) -> None:
    """The h of hours is text at a check, and doesn't hand the job over."""
    bench.to("Seat wiped clean?")
    bench.type("9.5 h")
    assert "To whom" not in bench.shown
    assert "Handover" not in bench.shown
    assert "9.5 h" in bench.asked


def test_a_number_typed_at_a_check_goes_to_a_reading(bench: Bench) -> None:
    """Up gives what was typed to the reading above, where Enter records it."""
    bench.to("Seat wiped clean?")
    bench.type("1/4 in\r")
    assert bench.ticks() == []
    bench.press(UP)
    bench.wait_for("R I D G E")
    bench.press("\r")
    bench.holds(bench.readings, [("ridge", "1/4 in")])
    assert bench.ticks() == []


def test_a_double_tap_answers_one_check(bench: Bench) -> None:
    """y twice in a moment answers the check on the screen once, and no other; Enter goes on to the next."""
    bench.to("Seat wiped clean?")
    bench.type("yy")
    bench.holds(bench.ticks, [("clean", True)])
    bench.wait_for("Seat wiped clean: yes.")
    bench.press("\r")
    bench.wait_for("Both pins in?")
    bench.press("y")
    bench.holds(bench.ticks, [("clean", True), ("pinned", True)])


def test_keys_typed_ahead_answer_nothing_unseen(bench: Bench) -> None:
    """Keys that came in one go answer only what stood on the screen when they came."""
    bench.to("Seat wiped clean?")
    bench.type_ahead("y\ry\ry")
    bench.holds(bench.ticks, [("clean", True)])
    time.sleep(1)
    bench.read()
    assert bench.ticks() == [("clean", True)]


def test_a_number_typed_ahead_waits_for_its_line(bench: Bench) -> None:
    """A number for a line that isn't painted yet is neither lost nor recorded before the line stood there."""
    bench.type_ahead("23.1\r0.4\r")
    bench.holds(bench.readings, [("bore", "23.1")])
    bench.wait_for("S T E P")
    bench.press("\r")
    bench.holds(bench.readings, [("bore", "23.1"), ("step", "0.4")])


def test_what_was_recorded_stands_apart_from_what_is_asked(bench: Bench) -> None:
    """First what was recorded and where it lies, then the line that is asked for."""
    bench.type("22.1\r")
    asked = bench.asked
    assert "Bore: outside: 22.1 mm, wanted 23.5 ± 1 mm." in asked
    assert asked.index("outside: 22.1 mm") < asked.index("S T E P")
    bench.press(DOWN)
    bench.wait_for("Bore: outside: 22.1 mm")
    bench.type("4\r")
    assert "outside: 22.1 mm" not in bench.asked


def test_an_absurd_number_is_asked_about_before_it_is_recorded(bench: Bench) -> None:
    """9999999 mm is asked about; Enter again records nothing, and yes records it as typed."""
    bench.to("D E P T H")
    bench.type("9999999\r")
    bench.wait_for("Is it typed right?")
    bench.press("\r")
    assert bench.readings() == []
    bench.press("y")
    bench.holds(bench.readings, [("depth", "9999999")])


def test_finishing_names_what_is_missing(bench: Bench) -> None:
    """f says what has no answer; f again records nothing, Enter finishes, and once finished f finishes no more."""
    bench.press("f")
    assert bench.acts() == []
    bench.wait_for("Finishing it now leaves this open:")
    bench.type("ff")
    assert bench.acts() == []
    bench.press("\r")
    assert [type(one) for one in bench.acts()] == [FinishedAct]
    bench.type("f\rf\r")
    assert sum(isinstance(one, FinishedAct) for one in bench.acts()) == 1


def test_a_number_typed_at_a_question_is_whole(bench: Bench) -> None:
    """A number's first key cancels a question that waits for a second key, and begins the number."""
    bench.press("!")
    bench.type("jack sinks\r")
    bench.press("c", "\r", "\r")
    bench.wait_for("By Hob (as typed).")
    bench.type("23.1\r")
    bench.holds(bench.readings, [("bore", "23.1")])


def test_a_key_that_records_only_cancels_a_question(bench: Bench) -> None:
    """k at the question of finishing records neither the finish nor the clock."""
    bench.press("f", "k")
    assert bench.acts() == []
    bench.wait_for("Cancelled")


def test_undo_walks_back(bench: Bench) -> None:
    """u takes back one entry after the other, says which, and never brings one back."""
    bench.type("23.1\r")
    bench.type("0.4\r")
    assert undone(bench) == ("23.1", "0.4")
    for left, said in (
        (("23.1", None), "Step 0.4"),
        ((None, None), "Bore 23.1"),
        ((None, None), "nothing that could be undone"),
    ):
        bench.press("u")
        assert undone(bench) == left
        bench.wait_for(said)
        time.sleep(SAME_PRESS)
    assert len(JobFile(bench.path).job.view.entries) == 4


def test_a_held_key_is_one_press(bench: Bench) -> None:
    """u as often as a held key comes takes back one entry, not all of them."""
    bench.type("23.1\r")
    bench.type("0.4\r")
    assert undone(bench) == ("23.1", "0.4")
    for _ in range(8):
        bench.child.send("u")
        time.sleep(SAME_PRESS / 10)
    bench.wait_for("Undone")
    assert undone(bench) == ("23.1", None)


def undone(bench: Bench) -> tuple[object, ...]:
    """What counts of the first two readings, as it was typed."""
    places = JobFile(bench.path).job.places
    bore, step = (places.reading("measure", name).reading for name in ("bore", "step"))
    return tuple(one.typed if isinstance(one, ReadingAct) else None for one in (bore, step))


def test_quitting_with_the_clock_on_asks(bench: Bench) -> None:
    """q with the clock on doesn't end but names the clock; Escape stays, b ends on a break."""
    bench.press("k")
    assert clocks(bench) == ["on"]
    bench.press("q")
    bench.wait_for("The clock of Hob is on.", 5)
    bench.press(ESCAPE)
    bench.wait_for("Cancelled")
    bench.press("q", "b")
    bench.ended()
    assert clocks(bench) == ["on", "break"]


def test_the_clock_key_says_on(bench: Bench) -> None:
    """What k did is said below the page."""
    bench.press("k")
    assert clocks(bench) == ["on"]
    assert "clock on" in bench.asked


def clocks(bench: Bench) -> list[str]:
    """What the file holds of the clock."""
    return [one.clock for one in bench.acts() if isinstance(one, ClockAct)]


def test_a_number_where_nothing_is_measured(bench: Bench) -> None:
    """In a step without readings the letters of a number are no keys: no mark is asked for."""
    bench.press("\x1b[C")
    bench.wait_for("Sweep the floor")
    bench.type("12 mm\r")
    assert bench.acts() == []
    bench.wait_for("Not recorded: 12 mm.")


def test_a_note_names_its_step(bench: Bench) -> None:
    """The field of a note, a mark and an unsafe thing says which step it is for."""
    bench.press("t")
    assert "Measure the seat" in bench.asked
    bench.type("dry\r")
    bench.holds(bench.acts, [NoteAct("dry")])
    assert not [one for one in bench.acts() if isinstance(one, MarkAct)]


def test_escape_leads_to_the_outline(bench: Bench) -> None:
    """Escape cancels what is typed; with nothing pending it shows the outline, and there leads back."""
    bench.type("23")
    bench.press(ESCAPE)
    assert bench.acts() == []
    bench.press(ESCAPE)
    bench.wait_for("Outline of A seat", 5)
    bench.press(ESCAPE)
    bench.wait_for("B O R E")


def test_pasted_numbers_do_not_run_into_one(bench: Bench) -> None:
    """Numbers that come in one go with their Enters: none is made of two of them."""
    bench.type_ahead("23\r0.4\r5\r")
    time.sleep(1)
    bench.read()
    bench.press("\r")
    time.sleep(1)
    bench.read()
    typed = [text for _, text in bench.readings()]
    assert typed
    assert set(typed) <= {"23", "0.4", "5"}
