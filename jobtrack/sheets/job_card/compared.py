"""The table that sets two vehicles side by side: what each reading is, how far apart, what follows."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.sheets.job_card.card import WHO, Card, frame
from jobtrack.sheets.job_card.known import known_words
from jobtrack.sheets.paper.blocks import Block, Strong, Table, Text
from jobtrack.sheets.words.values.in_units import measured_in
from jobtrack.template.model import CompareRow
from jobtrack.template.plan import PlannedStep


def compared(card: Card, planned: PlannedStep) -> Iterator[Block]:
    """A row a dimension; the frames for how far apart and what follows stay empty until that is recorded."""
    vehicles = list(card.job.plan.template.vehicle)
    if rows := planned.step.compare:
        head = ("dimension", *vehicles, "what follows")
        yield Table(head, tuple(_row(card, planned, row, vehicles) for row in rows.values()))


def _row(card: Card, planned: PlannedStep, row: CompareRow, vehicles: list[str]) -> tuple[Text, ...]:
    return (
        row.say or row.of,
        *(_of_vehicle(card, row.of, one) for one in vehicles),
        _follows(card, planned, row),
    )


def _of_vehicle(card: Card, name: str, vehicle: str) -> Text:
    """What was measured on a vehicle, else a frame with its unit."""
    step, _, reading = name.rpartition(".")
    ref = card.job.plan.resolve(f"{step}.{vehicle}.{reading}")
    there = card.job.steps.get(ref.step or "") if ref is not None and ref.kind == "reading" else None
    if ref is None or there is None:
        return (frame(None),)
    said = measured_in(card.job, there, ref.item, card.shown, None)
    return (Strong(said),) if said else (frame(card.shown.unit(there.step.reading[ref.item].unit)),)


def _follows(card: Card, planned: PlannedStep, row: CompareRow) -> Text:
    ref = card.job.plan.resolve(row.then, planned) if row.then else None
    if ref is None or ref.kind != "given":
        return ""
    said = known_words(card, ref.name)
    return (Strong(said),) if said else (frame(None, WHO),)
