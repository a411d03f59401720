"""Every kind of act, recorded once, stands on the filled card with the name of whoever recorded it."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.mending import UndoesAct
from jobtrack.job.acts.people import ClockAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.compose import mending
from jobtrack.job.state.job import Job
from jobtrack.sheets.job_card.sheet import job_card
from jobtrack.units.chosen import METRIC_FIRST
from tests.sheets.job_card.reading_cards import every_text
from tests.sheets.test_every_act_stands import EXAMPLES, WHO, begun

ELSEWHERE: dict[type[Act], str] = {
    ClockAct: "hours stand with the hours of the job, not on the card for the bench",
    UndoesAct: "what it does is that what it takes back stands nowhere, which is tried here on all the others",
}
"""Kinds that have no row of their own, with the reason."""


def stands(job: Job, empty: bool = False) -> bool:
    """Whether a row of the card names whoever recorded the one act."""
    sheet = job_card(job, METRIC_FIRST, datetime(2031, 5, 1, tzinfo=UTC), empty)
    said = [one for one in every_text(sheet) if "Filled in as recorded until" not in one]
    return any(WHO in one or "Smell by the tank" in one for one in said)


@pytest.mark.parametrize(
    "kind", [one for one in KINDS.values() if one not in ELSEWHERE], ids=lambda one: one.kind
)
def test_each_kind_of_act_stands_on_the_card(kind: type[Act]) -> None:
    """Not before it is recorded, nor once it is undone, nor ever on the empty card; a condition stays open."""
    copy, example = begun(), EXAMPLES[kind]
    assert not stands(copy.job)
    copy.call(example.step, example.do, by=WHO)
    assert stands(copy.job)
    assert not stands(copy.job, empty=True)
    copy.call(None, mending.undo, by=WHO)
    assert stands(copy.job) == (kind is OpensAct)
