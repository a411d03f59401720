"""What was done with hands: welds run by run; parts, whence and what became of each."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct, WeldAct
from jobtrack.job.doing.parts import PartOf, parts_of
from jobtrack.job.doing.welding import welding
from jobtrack.job.state.history import Done
from jobtrack.sheets.paper.blocks import Block, Paragraph, Section, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.vehicle_record.private import all_said
from jobtrack.sheets.words.doing.parts import UNPLANNED, part_name
from jobtrack.sheets.words.doing.welds import run_figures, weld_words
from jobtrack.sheets.words.sentences import joined, step_name
from jobtrack.template.plan import PlannedStep

WELDS_SEEN = (
    "Where a weld was looked at, it was looked at from outside against the list, and the answers stand among the "
    "checks. The inside of the weld was not examined."
)
"""Of a weld that nobody has come to look at yet it claims no look."""
RUNS = ("Run", "Recorded of it", "By, when")
PARTS = ("Part", "From", "What became of it", "Place, as recorded")
OF_WHOM = "of whom isn't recorded"


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
