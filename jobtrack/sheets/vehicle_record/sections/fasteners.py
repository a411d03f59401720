"""Fasteners, bolt by bolt: how far, to what torque, and the figure where that is off it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.doing.tightening import NOTHING, Bolt, tightening
from jobtrack.job.values.stage_torque import known_figure, setting, stage_torque
from jobtrack.sheets.paper.blocks import Paragraph, Section, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.words.doing.bolts import far_words
from jobtrack.sheets.words.doing.torques import torque_words
from jobtrack.sheets.words.sentences import step_name
from jobtrack.template.plan import PlannedStep
from jobtrack.units.conversion import exact
from jobtrack.units.rounding import beside

WRENCH_OFF = Fraction(6, 100)
"""How far a torque wrench may be off up to 10 N·m, above it 4 %: type II class A, ISO 6789 (2003), from memory."""
BOLTS = ("Bolt", "How far", "Torque", "With", "By, when")


def fasteners(page: Page) -> Section:
    """Each torque line with its figure and whose that is, bolt by bolt at the last stage."""
    found = [one for planned in page.on.steps for one in _lines(page, planned)]
    return section("Fasteners", (), none="No torque is recorded.", sections=found)


def _lines(page: Page, planned: PlannedStep) -> Iterator[Section]:
    for name in planned.step.torque:
        bolts = [bolt for bolt in tightening(page.job, planned, name).every if bolt.done]
        if bolts:
            title = f"{step_name(planned)}: {name.replace('-', ' ')}"
            words = Paragraph(torque_words(page.job, planned, name, page.shown, page.when))
            yield Section(
                title,
                (words, Table(BOLTS, tuple(_bolt(page, planned, name, bolt) for bolt in bolts), "small")),
            )


def _bolt(page: Page, planned: PlannedStep, name: str, bolt: Bolt) -> tuple[Text, ...]:
    done = bolt.done.get(bolt.reached) if bolt.reached != NOTHING else None
    last = done or list(bolt.done.values())[-1]
    act = last.act
    assert isinstance(act, TorqueAct)
    far = f"{far_words(bolt.reached)}{', two recorded it differently' if bolt.apart else ''}"
    stage = "final" if act.stage == "final" else far
    torque = f"{_torque(page, act)}{_off_its_figure(page, planned, name, act)}"
    return bolt.name, stage, torque, act.with_ or "", page.who(last.entry)


def _torque(page: Page, act: TorqueAct) -> str:
    """What it was tightened to as typed, and in the system that is shown where that is another one."""
    typed = act.value_words()
    if typed is None or act.value is None:
        return typed or "no value typed"
    said = page.shown.figure(beside(act.value, (), act.unit)).words()
    return said if said == typed else f"{said} ({typed})"


def _off_its_figure(page: Page, planned: PlannedStep, name: str, act: TorqueAct) -> str:
    """What the figure asks at this stage, where what is recorded is further off than a torque wrench may be."""
    line, known = planned.step.torque[name], known_figure(page.job.now, planned, name)
    torque = act.newton_metres()
    if known is None or torque is None or not known.value:
        return ""
    stages = len(line.stages) or 1
    stage = min(int(act.stage), stages) if act.stage.isdecimal() and int(act.stage) else stages
    wanted = stage_torque(line, stage, known.value)
    if abs(exact(torque) - wanted) <= abs(wanted) * WRENCH_OFF:
        return ""
    return f"; by the figure {page.shown.figure(setting(line, stage, known.value)).words()}"
