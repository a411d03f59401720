"""What was done with hands: fasteners bolt by bolt, welds run by run; parts, whence and what became of each."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.doing.parts import PartOf, parts_of
from jobtrack.job.doing.tightening import NOTHING, Bolt, tightening
from jobtrack.job.doing.welding import welding
from jobtrack.job.state.history import Done
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.vehicle_record.private import all_said
from jobtrack.sheets.words.doing.bolts import far_words
from jobtrack.sheets.words.doing.parts import UNPLANNED, part_name
from jobtrack.sheets.words.doing.torques import torque_words
from jobtrack.sheets.words.doing.welds import run_figures, weld_words
from jobtrack.sheets.words.sentences import joined, step_name
from jobtrack.template.plan import PlannedStep
from jobtrack.units.rounding import beside

WELDS_SEEN = (
    "Where a weld was looked at, it was looked at from outside against the list, and the answers stand among the "
    "checks. The inside of the weld was not examined."
)
"""Of a weld that nobody has come to look at yet it claims no look."""
BOLTS = ("Bolt", "How far", "Torque", "With", "By, when")
RUNS = ("Run", "Recorded of it", "By, when")
PARTS = ("Part", "From", "What became of it", "Place, as recorded")
OF_WHOM = "of whom isn't recorded"


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
            yield Section(title, (words, Table(BOLTS, tuple(_bolt(page, bolt) for bolt in bolts), "small")))


def _bolt(page: Page, bolt: Bolt) -> tuple[Text, ...]:
    done = bolt.done.get(bolt.reached) if bolt.reached != NOTHING else None
    last = done or list(bolt.done.values())[-1]
    act = last.act
    assert isinstance(act, TorqueAct)
    far = f"{far_words(bolt.reached)}{', two recorded it differently' if bolt.apart else ''}"
    stage = "final" if act.stage == "final" else far
    return bolt.name, stage, _torque(page, act), act.with_ or "", page.who(last.entry)


def _torque(page: Page, act: TorqueAct) -> str:
    """What it was tightened to as typed, and in the system that is shown where that is another one."""
    typed = act.value_words()
    if typed is None or act.value is None:
        return typed or "no value typed"
    said = page.shown.figure(beside(act.value, (), act.unit)).words()
    return said if said == typed else f"{said} ({typed})"


def welds(page: Page) -> Section:
    """Each weld as it was to be made, and what is recorded of its runs."""
    found = [one for planned in page.on.steps for one in _welds(page, planned)]
    blocks: tuple[Block, ...] = (Paragraph(WELDS_SEEN, "strong"),) if found else ()
    return section("Welds", blocks, none="No weld is recorded.", sections=found)


def _welds(page: Page, planned: PlannedStep) -> Iterator[Section]:
    for name in planned.step.weld:
        runs = welding(page.job.view, planned, name).runs
        rows = tuple(_run(page, run, done) for run, done in runs.items())
        if any(runs.values()):
            wanted = Paragraph(f"To be made: {weld_words(planned.step.weld[name])}")
            yield Section(
                f"{step_name(planned)}: {name.replace('-', ' ')}", (wanted, Table(RUNS, rows, "small"))
            )


def _run(page: Page, run: str, done: Done | None) -> tuple[Text, ...]:
    if done is None or not isinstance(done.act, WeldAct):
        return run, "not recorded", ""
    return run, run_figures(done.act) or "made, no figures typed", page.who(done.entry)


def parts(page: Page) -> Section:
    """The parts of which something is recorded here."""
    mine = [found for one in parts_of(page.job) if (found := _on_record(page, one)) is not None]
    rows = tuple(_part(page, one) for one in mine)
    return section("Parts", [Table(PARTS, rows, "small")] if rows else [], none="No part is recorded.")


def _on_record(page: Page, one: PartOf) -> PartOf | None:
    """A part with what belongs to this vehicle of it, private things taken out; None where that is nothing."""
    kinds = (
        tuple(all_said((done for done in acts if page.on.entry(done.entry)), page.including))
        for acts in (one.buying, one.became, one.places)
    )
    buying, became, places = kinds
    left = replace(one, buying=buying, became=became, places=places)
    return left if buying or became or places else None


def _part(page: Page, one: PartOf) -> tuple[Text, ...]:
    became = [
        f"{_fate(done.act)} ({page.where(done.entry.step)}, {page.who(done.entry)})" for done in one.became
    ]
    places = [done.act.place for done in one.places if isinstance(done.act, PlaceAct)]
    return (
        part_name(one), _from(page, one),
        "; ".join(became) or "nothing recorded", joined(places),
    )  # fmt: skip


def _from(page: Page, one: PartOf) -> str:
    """Where a part comes from: as the template has it, how far the buying is, and of whom."""
    from_ = UNPLANNED if one.planned is None else one.planned.from_ or ""
    bought = [done.act for done in one.buying if isinstance(done.act, BuyingAct)]
    unsaid = bought and not any(act.from_ for act in bought)
    of = (_bought_of(page, one.name) or OF_WHOM) if unsaid else ""
    return "; ".join(filter(None, (from_, *(act.how_far() for act in bought), of)))


def _bought_of(page: Page, part: str) -> str:
    """Of whom it was bought, as was said last before: who says that a part is here needn't say it again."""
    acts = [done.act for done in page.of_kind(BuyingAct)]
    said = [act for act in acts if isinstance(act, BuyingAct) and act.part == part and act.from_]
    return f"{said[-1].buying} before, from {said[-1].from_}" if said else ""


def _fate(act: object) -> str:
    return " ".join(filter(None, (act.fate or "used", act.quantity))) if isinstance(act, PartAct) else ""
