"""Three copies of a job as files, worked in apart and merged, beside a model that knows nothing of files.

The model is `support/oracle.py`: it knows who had seen what. Beside it the same work is done with right clocks
and without files; the outcome has to be the same but for the times.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Sequence
from datetime import timedelta
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.state import conditions, standing
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, Job
from jobtrack.job.state.view import View
from jobtrack.store.copies import merge
from jobtrack.store.copies.merge import Merged
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.blocks import Block, Header, Scan, scan
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    START,
    Copy,
    Do,
    entry_id,
    finish,
    new_file,
    read,
    settle,
    tick,
    undo,
)
from tests.support.damage import Whole, found, read_once
from tests.support.histories import MOVED, PEOPLE, SIDES, SPACINGS, Script, moves, play, scripts, snapshot
from tests.support.oracle import Event, Oracle

copies = st.integers(0, 2)
sides = st.sampled_from((SIDES[0], SIDES[0], SIDES[1]))
wrong = st.integers(-20_000, 20_000)
"""Minutes by which a clock is off: two weeks either way, so that it often runs backwards."""


class ThreeCopies(RuleBasedStateMachine):
    """Readings, ticks, finishes, undos, settlements and merges in any order in three files."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        # Each history is on a machine of its own: what another one left behind isn't gone from this one.
        os.environ["XDG_STATE_HOME"] = str(Path(self.folder.name) / "state")
        self.events: dict[str, Event] = {}
        self.touched: set[int] = set()

    @initialize()
    def begin(self) -> None:
        """Both vehicles are measured in one file, which is then copied twice."""
        first = new_file(Path(self.folder.name), "copy-0")
        self.files, self.beside = [first], [Copy()]
        self.work(0, "Wim", DONOR, (read("spacing", "1012"), finish), 0)
        self.work(0, "Ada", RECIPIENT, (read("spacing", "965"), finish), 0)
        for number in (1, 2):
            path = first.path.with_name(f"copy-{number}.job.toml")
            path.write_bytes(first.path.read_bytes())
            self.files.append(JobFile(path))
            self.beside.append(self.beside[0].split(""))

    def teardown(self) -> None:
        if self.events:
            self.joins_in_any_order()
            self.both_sides_survive()
            for file, beside in zip(self.files, self.beside, strict=True):
                assert snapshot(file.job) == snapshot(beside.job)
        self.folder.cleanup()

    def work(self, number: int, by: str, step: str | None, do: Sequence[Do], off: int) -> None:
        """One call in one copy, in its file with a wrong clock and beside it with the right one."""
        file, beside, turn = self.files[number], self.beside[number], len(self.events)
        seen = frozenset(entry.id for entry in file.job.view.entries)
        at = START + timedelta(minutes=turn)
        draft = Draft(file.job, by, at + timedelta(minutes=off), step, id=entry_id(turn, "three"))
        try:
            for one in do:
                one(draft)
            did = draft.done()
        except Refused:
            return
        done = file.append(did, draft.by, draft.at, id=draft.id, step=step)
        beside.ids = iter([draft.id])
        beside.call(step, *do, by=by, at=at)
        self.events[draft.id] = Event(done.entry, seen)
        self.touched.add(number)

    @rule(number=copies, side=sides, text=st.sampled_from(MOVED), ended=st.booleans(), off=wrong)
    def measure(self, number: int, side: str, text: str, ended: bool, off: int) -> None:
        self.work(number, PEOPLE[number], side, (read("moved", text), *([finish] if ended else [])), off)

    @rule(number=copies, text=st.sampled_from(SPACINGS), off=wrong)
    def measure_vehicle(self, number: int, text: str, off: int) -> None:
        self.work(number, PEOPLE[number], DONOR, (read("spacing", text), finish), off)

    @rule(number=copies, side=sides, yes=st.booleans(), off=wrong)
    def check(self, number: int, side: str, yes: bool, off: int) -> None:
        self.work(number, PEOPLE[number], side, (tick("scribed", yes),), off)

    @rule(number=copies, side=sides, off=wrong)
    def finish(self, number: int, side: str, off: int) -> None:
        self.work(number, PEOPLE[number], side, (finish,), off)

    @rule(number=copies, off=wrong)
    def undo(self, number: int, off: int) -> None:
        self.work(number, PEOPLE[number], None, (undo,), off)

    @rule(number=copies, side=sides, off=wrong)
    def settle(self, number: int, side: str, off: int) -> None:
        self.work(number, PEOPLE[number], side, (settle("moved", "23.5"),), off)

    @rule(move=moves(3), off=wrong)
    def anything(self, move: tuple[int, str, str | None, tuple[Do, ...]], off: int) -> None:
        """By anybody: releases, closings by name and *stands* too."""
        number, by, step, do = move
        if do:
            self.work(number, by, step, do, off)

    @rule(into=copies, side=sides, texts=st.tuples(st.sampled_from(MOVED), st.sampled_from(MOVED)), off=wrong)
    def meet(self, into: int, side: str, texts: tuple[str, str], off: int) -> None:
        """Two measure the same thing, not knowing of each other, and then one takes in the other's copy."""
        other = (into + 1) % 3
        self.measure(into, side, texts[0], True, off)
        self.measure(other, side, texts[1], False, -off)
        self.merge(into, [other])

    @rule(into=copies, others=st.lists(copies, min_size=1, max_size=2, unique=True))
    def merge(self, into: int, others: list[int]) -> None:
        """A merged file goes where a copy was, and the program that has it open goes on."""
        file = self.files[into]
        merged = merge.merge_files([file.path, *(self.files[number].path for number in others)])
        assert (merged.stopped_by, merged.left_out) == ((), ())
        new = file.path.with_name("merged")
        new.write_bytes(merged.data)
        new.replace(file.path)
        file.refresh()
        self.beside[into].take(*(self.beside[number] for number in others))
        self.touched.add(into)

    @invariant()
    def each_copy_is_as_the_model_has_it(self) -> None:
        for number in sorted(self.touched):
            job = self.files[number].job
            compare(job, Oracle(self.events, frozenset(entry.id for entry in job.view.entries)))
        self.touched.clear()

    def joins_in_any_order(self) -> None:
        """Any order, any brackets, any number of times: the same bytes, of an intact file."""
        paths = [file.path for file in self.files]
        [data] = {merge.merge_files(some).data for some in permutations(paths)}
        pair = paths[0].with_name("pair")
        for one, other, third in permutations(paths):
            pair.write_bytes(merge.merge_files([one, other]).data)
            assert merge.merge_files([pair, third, pair]).data == data
        assert found(data) == []

    def both_sides_survive(self) -> None:
        """Every reading that anybody recorded in any copy is in the merged file, as it was typed."""
        merged = scan(merge.merge_files([file.path for file in self.files]).data)
        there = [(entry.id, readings(Event(entry, frozenset()))) for entry in merged.entries]
        held = {entry.id for file in self.files for entry in file.job.view.entries}
        assert sorted(there) == sorted((name, readings(self.events[name])) for name in held)
        assert held == set(self.events)


def readings(event: Event) -> list[str]:
    return [f"{act.reading} {act.typed}" for act in event.entry.did if isinstance(act, ReadingAct)]


def compare(job: Job, model: Oracle) -> None:
    """What counts, what is in disagreement, what is finished and what is open."""
    for step, item in [(side, "moved") for side in SIDES] + [(DONOR, "spacing")]:
        place = job.places.reading(step, item)
        assert {done.entry.id for done in place.acts} == {
            event.entry.id for event, _ in model.live(step, item)
        }
        assert place.written == model.value(step, item)
    for side in SIDES:
        ended = job.state(side) in (FINISHED, LOOK_AGAIN)
        assert (ended, job.state(side) == FINISHED) == (bool(model.finished(side)), model.stands(side))
    opened = {name.partition("/")[0] for one in job.all_open for name in one.openings}
    assert opened == model.open_marks()


def run(examples: int, steps: int = 16, phases: Sequence[Phase] = (Phase.generate, Phase.shrink)) -> None:
    few = settings(
        max_examples=examples, stateful_step_count=steps, derandomize=True, database=None, deadline=None,
        phases=phases, report_multiple_bugs=False, suppress_health_check=[HealthCheck.too_slow],
    )  # fmt: skip
    run_state_machine_as_test(ThreeCopies, settings=few)


def test_three_copies() -> None:
    """Whatever is done in three copies, each is what the model says, and they join to the same bytes in any order."""
    run(10)


@pytest.mark.whole
def test_three_copies_at_length() -> None:
    """The same, over many more and longer histories."""
    run(int(os.environ.get("JOBTRACK_TEST_TIMES", "300")), 30)


# Faults planted, one at a time

Plant = Callable[[pytest.MonkeyPatch], None]


def last_in_order_wins(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(standing, "live", lambda acts: tuple(acts)[-1:])


def closing_reaches_the_unseen(patch: pytest.MonkeyPatch) -> None:
    honest = conditions.closed_names

    def closed(view: View, stands: Callable[[str], bool]) -> frozenset[str]:
        names = honest(view, stands)
        every = [done for done in view.of_kind(OpensAct, undone=True) if isinstance(done.act, OpensAct)]
        reached = {done.act for done in every if done.name in names}
        return names | {done.name for done in every if done.act in reached}

    patch.setattr(conditions, "closed_names", closed)


def merge_keeps_one_side(patch: pytest.MonkeyPatch) -> None:
    honest = merge.merge

    def one_side(scans: Sequence[tuple[Path, Scan]], header: Header, without: Sequence[str] = ()) -> Merged:
        return honest(scans[:1], header, without)

    patch.setattr(merge, "merge", one_side)


def undo_closes_what_it_opened(patch: pytest.MonkeyPatch) -> None:
    honest = View.of_kind
    patch.setattr(View, "of_kind", lambda view, kind, undone=False: honest(view, kind))


def replaced_is_ignored(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(standing, "live", tuple)


FAULTS: tuple[Plant, ...] = (
    last_in_order_wins,
    closing_reaches_the_unseen,
    merge_keeps_one_side,
    undo_closes_what_it_opened,
    replaced_is_ignored,
)


@pytest.mark.parametrize("plant", FAULTS, ids=lambda plant: plant.__name__)
def test_a_planted_fault_is_caught(plant: Plant, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a fault in the record the three copies are no more what the model says."""
    plant(monkeypatch)
    with pytest.raises((AssertionError, ValueError)):
        run(40, phases=[Phase.generate])


# Damaged copies

Damaging = Callable[[Whole, int], bytes]


def torn(whole: Whole, at: int) -> bytes:
    return whole.data[: whole.starts[-2] + 1 + at % (len(whole.parts[-1]) - 1)]


def stray(whole: Whole, at: int) -> bytes:
    start = whole.starts[1 + at % (len(whole.parts) - 1)]
    return whole.data[:start] + b"\nseen by the owner\n" + whole.data[start:]


def altered(whole: Whole, at: int) -> bytes:
    at = whole.starts[1] + at % (len(whole.data) - whole.starts[1] - 1)
    return whole.changed(at, whole.data[at] ^ 2)


def as_lines_of_another_system(whole: Whole, at: int) -> bytes:
    return whole.data.replace(b"\n", b"\r\n")


def as_it_was(whole: Whole, at: int) -> bytes:
    return whole.data


kinds = st.sampled_from((torn, stray, altered, as_lines_of_another_system, as_it_was))
few = settings(max_examples=60, derandomize=True, database=None, deadline=None,
               suppress_health_check=[HealthCheck.too_slow])  # fmt: skip


def named(scans: Sequence[Scan]) -> list[tuple[Path, Scan]]:
    return [(Path(f"{number}"), one) for number, one in enumerate(scans)]


def sound(one: Scan) -> dict[str, Block]:
    return {block.hash: block for block in one.blocks if block.kind == "sound"}


@few
@given(scripts(), st.lists(st.tuples(kinds, st.integers(0, 10**6)), min_size=3, max_size=3))
def test_damaged_copies_join_to_the_same_bytes(script: Script, how: list[tuple[Damaging, int]]) -> None:
    """Torn ends and stray text are left out and said, what is altered stops unless a copy holds it sound."""
    with read_once():
        wholes = [Whole.of(copy) for copy in play(script).copies]
        scans = [scan(damage(whole, at)) for whole, (damage, at) in zip(wholes, how, strict=False)]
        header = scan(wholes[0].data).header
        assert header is not None
        merged = merge.merge(named(scans), header)
        for some in permutations(scans):
            again = merge.merge(named(some), header)
            assert again.data == merged.data
            assert {name for name, _ in again.stopped_by} == {name for name, _ in merged.stopped_by}
            pair = scan(merge.merge(named(some[:2]), header).data)
            assert merge.merge(named([pair, *some[2:], pair]), header).data == merged.data
        everything = {hash for one in scans for hash in sound(one)}
        assert set(sound(scan(merged.data))) == everything
        lost = [whole.names[whole.part_at(whole.starts[1] + at % (len(whole.data) - whole.starts[1] - 1))]
                for whole, (damage, at) in zip(wholes, how, strict=False) if damage is altered]  # fmt: skip
        assert bool(merged.stopped_by) == any(hash not in everything for hash in lost)
        assert len(merged.left_out) == sum(damage in (torn, stray) for damage, _ in how[: len(wholes)])
