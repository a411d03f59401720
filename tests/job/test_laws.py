"""The laws of the record over histories of two and three copies that collide often.

The expected outcome comes from `support/oracle.py`, which knows who had seen what and looks at no names.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, Job
from jobtrack.store.copies.merge import merge
from jobtrack.store.text.blocks import Block, Header, Scan, scan_blocks
from jobtrack.store.text.writing import write_entry
from tests.support.builders import DONOR, about
from tests.support.histories import SIDES, Played, Script, over_histories, play, scripts, snapshot
from tests.support.oracle import Oracle

SHARE = 0.2
"""The least share of histories that must reach each kind of collision."""


def nobody_closes_unseen(script: Script) -> None:
    """Law 1: an opening that no closing had seen is open, and so is exactly what the oracle says."""
    played = play(script)
    for job, oracle in _views(played):
        openings = {name.partition("/")[0] for one in job.all_open for name in one.openings}
        for event in oracle.openings():
            seen = {name for closing in oracle.closings() for name in closing.seen | {closing.entry.id}}
            assert event.entry.id in seen or event.entry.id in openings
        assert openings == oracle.open_marks()


def finished_stands_on_what_counts(script: Script) -> None:
    """Law 2: a step is finished exactly while a *finished* of it answers both questions for what counts now."""
    played = play(script)
    for job, oracle in _views(played):
        for step in SIDES:
            finished = job.state(step) in (FINISHED, LOOK_AGAIN)
            assert finished == bool(oracle.finished(step))
            assert (job.state(step) == FINISHED) == oracle.stands(step)


def measurements_stay_visible(script: Script) -> None:
    """Law 3: every value that nobody later at its place had seen stands there; if they differ, none counts."""
    played = play(script)
    for job, oracle in _views(played):
        for step, item in [(side, "moved") for side in SIDES] + [(DONOR, "spacing")]:
            standing = job.places.reading(step, item)
            live = oracle.live(step, item)
            assert {done.entry.id for done in standing.acts} == {event.entry.id for event, _ in live}
            assert standing.written == oracle.value(step, item)
        for side in SIDES:
            live = oracle.live(side, "scribed")
            assert {done.entry.id for done in job.places.tick(side, "scribed").acts} == {
                event.entry.id for event, _ in live
            }


def clocks_change_nothing(script: Script) -> None:
    """Law 4: the same moves with clocks that are days off have the same outcome."""
    assert snapshot(play(script).merged) == snapshot(play(script, script.clocks).merged)


def _views(played: Played) -> list[tuple[Job, Oracle]]:
    """Each copy and the whole, beside what the oracle gives for it."""
    jobs = [*(copy.job for copy in played.copies), played.merged]
    return [(job, played.oracle(frozenset(entry.id for entry in job.view.entries))) for job in jobs]


Law = Callable[[Script], None]
LAWS: tuple[Law, ...] = (
    nobody_closes_unseen,
    finished_stands_on_what_counts,
    measurements_stay_visible,
    clocks_change_nothing,
)


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.__name__)
def test_law(law: Law) -> None:
    """Each law holds, and one history in five reaches an unseen opening, a disagreement, a changed value."""
    met = over_histories(law)
    print_shares(law.__name__, met)
    for what, times in met.items():
        assert times >= SHARE * met["all"], f"only {times} of {met['all']} histories reach: {what}"


def print_shares(name: str, met: Counter[str]) -> None:
    """Shown by `pytest -s`."""
    print(f"\n{name}: " + ", ".join(f"{what} {times / met['all']:.0%}" for what, times in met.items()))


few = settings(max_examples=60, derandomize=True, database=None, deadline=None,
               suppress_health_check=[HealthCheck.too_slow])  # fmt: skip


@few
@given(scripts(), st.randoms(use_true_random=False))
def test_the_order_of_arrival_is_nothing(script: Script, chance: random.Random) -> None:
    """Folding the set in any order, and applying entry by entry in any order, give the same state."""
    merged = play(script).merged
    entries = list(merged.view.entries)
    chance.shuffle(entries)
    one_by_one = Job.fold(about(), ())
    for entry in entries:
        one_by_one = one_by_one.apply(entry)
        one_by_one.next_steps  # noqa: B018  asked on the way, so that nothing remembered may spoil the end
    assert snapshot(Job.fold(about(), entries)) == snapshot(merged) == snapshot(one_by_one)
    assert snapshot(one_by_one.apply(entries[0])) == snapshot(merged)


def _as_copy(name: str, job: Job) -> tuple[Path, Scan]:
    blocks = (Block("sound", 1, write_entry(entry)[0], entry.hash, entry) for entry in job.view.entries)
    return Path(name), Scan(None, tuple(blocks), crlf=False)


@few
@given(scripts())
def test_merged_bytes_know_no_order(script: Script) -> None:
    """Copies merged in any order, or one after the other, give the same bytes, and those the same state."""
    played = play(script)
    header = Header(b"", about().hash, sound=True)
    copies = [_as_copy(f"{number}", copy.job) for number, copy in enumerate(played.copies)]
    [data] = {merge(some, header).data for some in permutations(copies)}
    entries = [block.entry for block in scan_blocks(data, 1) if block.entry is not None]
    assert snapshot(Job.fold(about(), entries)) == snapshot(played.merged)
