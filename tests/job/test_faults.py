"""Five faults planted in the fold, one at a time: the laws have to find each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable

import pytest

from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state import conditions, job, standing
from jobtrack.job.state.history import Done, live
from jobtrack.job.state.view import View
from tests.job.test_laws import (
    Law,
    clocks_change_nothing,
    finished_stands_on_what_counts,
    measurements_stay_visible,
    nobody_closes_unseen,
)  # fmt: skip
from tests.support.histories import Script, over_histories

SHARE = 0.05
"""The least share of histories in which a fault must be caught."""

Plant = Callable[[pytest.MonkeyPatch], None]


def last_in_order_wins(patch: pytest.MonkeyPatch) -> None:
    """The act that sorts last counts, whatever it had seen."""
    patch.setattr(standing, "live", lambda acts: tuple(acts)[-1:])


def closing_by_id_alone(patch: pytest.MonkeyPatch) -> None:
    """A closing reaches every opening of the condition that it closes."""
    honest = conditions.closed_names

    def closed(view: View, stands: Callable[[str], bool]) -> frozenset[str]:
        names = honest(view, stands)
        opened = [done for done in view.of_kind(OpensAct, undone=True) if isinstance(done.act, OpensAct)]
        reached = {done.act for done in opened if done.name in names}
        return names | {done.name for done in opened if done.act in reached}

    patch.setattr(conditions, "closed_names", closed)


def finished_without_on(patch: pytest.MonkeyPatch) -> None:
    """What was finished stays finished, on whatever values."""
    patch.setattr(job, "unsettled", lambda *_: [])


def sorting_by_at(patch: pytest.MonkeyPatch) -> None:
    """The clock decides the order."""
    patch.setattr(Entry, "order", property(lambda entry: (entry.at.timestamp(), entry.id, entry.hash)))


def one_of_two_dropped(patch: pytest.MonkeyPatch) -> None:
    """Of several that are left at a place, one is kept."""

    def first(acts: Iterable[Done]) -> tuple[Done, ...]:
        return live(acts)[:1]

    patch.setattr(standing, "live", first)


FAULTS: tuple[tuple[Plant, Law], ...] = (
    (last_in_order_wins, measurements_stay_visible),
    (closing_by_id_alone, nobody_closes_unseen),
    (finished_without_on, finished_stands_on_what_counts),
    (sorting_by_at, clocks_change_nothing),
    (one_of_two_dropped, measurements_stay_visible),
)


@pytest.mark.parametrize(("plant", "law"), FAULTS, ids=lambda one: one.__name__)
def test_a_planted_fault_is_caught(plant: Plant, law: Law, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the fault planted, the law that it breaks fails in at least one history of twenty."""
    plant(monkeypatch)
    caught: Counter[bool] = Counter()

    def count(script: Script) -> None:
        try:
            law(script)
        except AssertionError:
            caught[True] += 1

    met = over_histories(count, examples=50)
    print(f"\n{plant.__name__}: caught in {caught[True]} of {met['all']} histories")
    assert caught[True] >= SHARE * met["all"]
