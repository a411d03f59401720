"""The torque lines of a step: bolt by bolt in the order in which they are turned, a box for each stage."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.doing.tightening import FINGER, MOST, SNUG, Bolt, Tightening, tightening
from jobtrack.job.values.stage_torque import known_figure, share
from jobtrack.sheets.drawings.bolts import bolts as drawn
from jobtrack.sheets.job_card.card import Card
from jobtrack.sheets.job_card.together import Them, named
from jobtrack.sheets.paper.blocks import Blank, Block, Box, Paragraph, Picture, Strong, Table, Text
from jobtrack.sheets.words.doing.torques import setting_words, torque_words
from jobtrack.template.plan import PlannedStep

UNCOUNTED = 8
"""Rows for the bolts of a line of which nobody knows yet how many there are; common practice, no source."""
_DRAWN_FROM = 3
"""Bolts from which on there is an order to draw."""


def torque_lines(card: Card, them: Them) -> Iterator[Block]:
    """Each line: whose figure it is, then its bolts, then the order in which they are turned; of two the same once."""
    for name in them[0].step.torque:
        said, orders = set[str](), list[Block]()
        for planned in them:
            found = tightening(card.job, planned, name)
            figure = f"{torque_words(card.job, planned, name, card.shown)}."
            label = Strong(named(them, "Torque", name, planned))
            yield Paragraph((label,) if figure in said else (label, figure))
            yield Table(_head(card, planned, name, found), tuple(_rows(card, found)))
            yield from _apart(found)
            said.add(figure)
            orders += [one for one in _order(card, planned, name, found) if one not in orders]
        yield from orders


def _head(card: Card, planned: PlannedStep, name: str, found: Tightening) -> tuple[str, ...]:
    stages = (_stage(card, planned, name, stage, found.stages) for stage in _stages(found))
    return ("bolt, in turn", "finger", "snug", *stages, "who, when")


def _stages(found: Tightening) -> range:
    return range(1, min(found.stages, MOST) + 1)


def _stage(card: Card, planned: PlannedStep, name: str, stage: int, last: int) -> str:
    """ "stage 1, 33 N·m = 24 lbf ft", "final, 110 N·m = 81 lbf ft"; the share where the figure isn't known."""
    called = "final" if stage == last else f"stage {stage}"
    if known_figure(card.job.now, planned, name) is None:
        return f"{called}, {share(planned.step.torque[name], stage):g} %"
    return f"{called}, {setting_words(card.job, planned, name, stage, card.shown)}"


def _rows(card: Card, found: Tightening) -> Iterator[tuple[Text, ...]]:
    reached = (FINGER, SNUG, *_stages(found))
    for bolt in found.every:
        cells = (_cell(bolt, stage) for stage in reached)
        last = [bolt.done[bolt.reached]] if bolt.reached in bolt.done else []
        yield (bolt.name, *cells, card.whose(last))
    for _ in range(0 if found.counted else UNCOUNTED):
        yield ((Blank("", 3),), *((Box(),) for _ in reached), "")


def _cell(bolt: Bolt, stage: int) -> Text:
    """An empty box, or what is recorded of a bolt at a stage: its torque as typed, else yes."""
    act = bolt.done[stage].act if stage in bolt.done else None
    if not isinstance(act, TorqueAct):
        return (Box(),)
    tool = f" with {act.with_}" if act.with_ else ""
    return (Strong(act.value_words() or "yes"), tool) if tool else (Strong(act.value_words() or "yes"),)


def _apart(found: Tightening) -> Iterator[Block]:
    if apart := [bolt.name for bolt in found.every if bolt.apart]:
        yield Paragraph(
            f"Bolt {', '.join(apart)}: different stages were recorded apart; the lower counts.", "small"
        )


def _order(card: Card, planned: PlannedStep, name: str, found: Tightening) -> Iterator[Block]:
    """The bolts with the numbers by which they go, where there is an order to see."""
    drawing, note = (
        drawn(card.job, planned, name, card.shown) if len(found.bolts) >= _DRAWN_FROM else (None, "")
    )
    if drawing is not None:
        yield Picture(drawing, f"Bolts, {name}: the order in which they are turned", note, "small")
