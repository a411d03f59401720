"""Keys typed at the wrong place, one by one through a real terminal of 80 by 24; the job file tells what they did."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pexpect
import pyte
import pytest
from test_app_process import ENVIRONMENT, RUN
from typist import seat

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.acts.steps import FinishedAct
from jobtrack.job.acts.values import ReadingAct, TickAct
from jobtrack.store.file.writer import JobFile

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a pseudo-terminal as POSIX has them")
DOWN, UP, ESCAPE = "\x1b[B", "\x1b[A", "\x1b"


class Bench:
    """The app in a pseudo-terminal, and the screen that it paints."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.screen)
        self.child = pexpect.spawn(
            sys.executable,
            ["-c", RUN, str(path)],
            env=ENVIRONMENT | {"XDG_STATE_HOME": str(path.parent / "state")},
            dimensions=(24, 80),
            timeout=30,
        )
        self.child.delaybeforesend = None
        self.wait_for("B O R E")

    @property
    def shown(self) -> str:
        return " ".join(" ".join(self.screen.display).split())

    def read(self, quiet: float = 0.2) -> None:
        """Take in what is painted until nothing more comes."""
        while True:
            try:
                self.stream.feed(self.child.read_nonblocking(65536, timeout=quiet))
            except (pexpect.TIMEOUT, pexpect.EOF):
                return

    def wait_for(self, text: str, seconds: float = 20) -> None:
        """Read until a text stands on the screen."""
        until = time.monotonic() + seconds
        while text not in self.shown:
            assert time.monotonic() < until, f"{text!r} never stood on the screen:\n{self.shown}"
            self.read(0.05)

    def type(self, keys: str, gap: float = 0.03) -> None:
        """One key after the other, so many seconds apart."""
        for key in keys:
            self.child.send(key)
            time.sleep(gap)
        self.read()

    def type_ahead(self, keys: str) -> None:
        """All keys in one go, before anything can be painted."""
        self.child.send(keys)
        self.read()

    def press(self, *keys: str) -> None:
        """Whole keys, each read to its end."""
        for key in keys:
            self.child.send(key)
            self.read()

    def to(self, text: str) -> None:
        """Choose, with Down, the line that the screen then asks for."""
        for _ in range(12):
            if text in self.asked:
                return
            self.press(DOWN)
        pytest.fail(f"{text} can't be chosen:\n{self.shown}")

    @property
    def asked(self) -> str:
        """The rows below the page."""
        rules = [row for row, text in enumerate(self.screen.display) if text.strip().startswith("──────")]
        rows = self.screen.display[rules[-2] : rules[-1]] if len(rules) > 1 else []
        return " ".join(" ".join(rows).split())

    def acts(self) -> list[Act]:
        """All that the file holds."""
        return [act for entry in JobFile(self.path).job.view.entries for act in entry.did]

    def holds(self, what: Callable[[], Sequence[object]], wanted: Sequence[object]) -> None:
        """What the file holds, once all that was typed has arrived."""
        until = time.monotonic() + 5
        while what() != wanted and time.monotonic() < until:
            self.read(0.05)
        assert what() == wanted, self.shown

    def ticks(self) -> list[tuple[str, bool]]:
        return [(act.tick, act.yes) for act in self.acts() if isinstance(act, TickAct)]

    def readings(self) -> list[tuple[str, object]]:
        return [(act.reading, act.typed) for act in self.acts() if isinstance(act, ReadingAct)]


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    found = Bench(seat(folder / "seat.job.toml").path)
    yield found
    found.child.close(force=True)


@pytest.mark.parametrize("typed", ["1/4 in", "12 mm", "5 y", "37 15/16 in", "9.5 h", "0.4 u"])
def test_a_number_typed_at_a_check_records_nothing(bench: Bench, typed: str) -> None:
    """Every key of a number typed at a check belongs to a field; Enter says that nothing is recorded."""
    bench.to("Seat wiped clean?")
    bench.type(f"{typed}\r")
    bench.wait_for(f"Not recorded: {typed}.")
    assert "Enter records nothing here" in bench.shown
    assert "Enter takes it" not in bench.shown
    assert bench.acts() == []


def test_a_number_typed_at_a_check_goes_to_a_reading(bench: Bench) -> None:
    """Up gives what was typed to the reading above, where Enter records it."""
    bench.to("Seat wiped clean?")
    bench.type("1/4 in\r")
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
    bench.wait_for("nothing is recorded")
    assert bench.ticks() == [("clean", True)]


def test_a_number_typed_fast_is_not_lost(bench: Bench) -> None:
    """The first keys of a number reach the next line's field though it isn't painted yet."""
    bench.type_ahead("23.1\r0.4")
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


def test_an_absurd_number_is_asked_about_after_it_is_recorded(bench: Bench) -> None:
    """9999999 mm is recorded as typed, and the question whether that was meant stays in sight."""
    bench.to("D E P T H")
    bench.type("9999999\r")
    bench.holds(bench.readings, [("depth", "9999999")])
    bench.wait_for("Is it typed right?")


def test_finishing_names_what_is_missing(bench: Bench) -> None:
    """f says what has no answer; f again records nothing, Enter finishes, and once finished f finishes no more."""
    bench.press("f")
    bench.wait_for("Finishing it now leaves this open:")
    bench.type("ff")
    assert bench.acts() == []
    bench.press("\r")
    assert [type(one) for one in bench.acts()] == [FinishedAct]
    bench.type("f\rf\r")
    assert sum(isinstance(one, FinishedAct) for one in bench.acts()) == 1


def test_a_number_typed_at_a_question_is_whole(bench: Bench) -> None:
    """A number's first key cancels a waiting question and begins the number; a key that records only cancels."""
    bench.press("f")
    bench.type("23.1\r")
    bench.holds(bench.readings, [("bore", "23.1")])
    bench.press("f", "k")
    bench.wait_for("Cancelled")
    assert not [one for one in bench.acts() if isinstance(one, ClockAct)]


def test_undo_walks_back(bench: Bench) -> None:
    """u takes back one entry after the other, says which, and never brings one back."""
    bench.type("23.1\r")
    bench.type("0.4\r")
    for said in ("step 0.4", "bore 23.1", "nothing that could be undone"):
        bench.press("u")
        bench.wait_for(said)
    assert JobFile(bench.path).job.places.reading("measure", "bore").reading is None


def test_quitting_with_the_clock_on_asks(bench: Bench) -> None:
    """k says on; q names the clock; Escape stays, b ends on a break."""
    bench.press("k")
    bench.wait_for("clock on")
    bench.press("q")
    bench.wait_for("The clock of Hob is on.")
    bench.press(ESCAPE)
    time.sleep(0.2)
    bench.press("q", "b")
    bench.child.expect(pexpect.EOF)
    assert [one.clock for one in bench.acts() if isinstance(one, ClockAct)] == ["on", "break"]


def test_a_number_where_nothing_is_measured(bench: Bench) -> None:
    """In a step without readings the letters of a number are no keys: no mark is asked for."""
    bench.press("\x1b[C")
    bench.wait_for("Sweep the floor")
    bench.type("12 mm\r")
    bench.wait_for("Not recorded: 12 mm.")
    assert bench.acts() == []


def test_a_note_names_its_step(bench: Bench) -> None:
    """The field of a note, a mark and an unsafe thing says which step it is for."""
    bench.press("t")
    bench.wait_for("Measure the seat")
    bench.type("dry\r")
    bench.holds(bench.acts, [NoteAct("dry")])
    assert not [one for one in bench.acts() if isinstance(one, MarkAct)]


def test_escape_leads_to_the_outline(bench: Bench) -> None:
    """Escape cancels what is typed; with nothing pending it shows the outline, and there leads back."""
    bench.type("23")
    bench.press(ESCAPE)
    bench.wait_for("Cancelled")
    bench.press(ESCAPE)
    bench.wait_for("Outline of A seat")
    bench.press(ESCAPE)
    bench.wait_for("B O R E")
