"""What is recorded as open still, what is due afterwards, and how the job ended."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct, JobStoppedAct
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.sheets.paper.blocks import Block, Point, Points, Section, Strong, Table, Text
from jobtrack.sheets.vehicle_record.page import Page, section
from jobtrack.sheets.words.sentences import CLOSED, NO_CONDITION, counted, worst_first

NOT_DONE = "not recorded as done"


def open_still(page: Page) -> Section:
    """What is recorded as open, the worst first, with who left it and since when."""
    points = tuple(Point(_open(page, one)) for one in worst_first(page.job) if page.on.condition(one))
    blocks: list[Block] = [Points(points)] if points else []
    return section("Recorded as open", blocks, none=NO_CONDITION)


def _open(page: Page, one: OpenCondition) -> Text:
    since = f", {page.when(one.since)}" if one.since else ""
    by = f" (left by {one.by}{since})" if one.by else ""
    remark = f"; {one.remark}" if one.remark else ""
    tag = f" Tag: {one.tag}." if one.tag else ""
    return (Strong(one.words), f"{remark}{by}.{tag}")


def due(page: Page) -> Section:
    """What is due afterwards, and what of it is recorded as done."""
    rows = tuple(due_rows(page))
    blocks: list[Block] = [Table(("What", "After", "Done"), rows)] if rows else []
    return section("Due afterwards", blocks, none="The template names nothing that is due afterwards.")


def due_rows(page: Page) -> Iterator[tuple[str, str, str]]:
    """What is due, after how far or how long, and by whom and when it was done."""
    done = {one.act.due: one for one in page.of_kind(DueDoneAct) if isinstance(one.act, DueDoneAct)}
    for name, line in page.job.plan.template.due_afterwards.items():
        if page.on.whole:
            by = page.who(done[name].entry) if name in done else NOT_DONE
            yield line.say or name, line.after, by


def how_it_ended(page: Page) -> Text:
    """How the job ended, with the sentence of that."""
    job = page.job
    if job.ended == "closed":
        last = job.view.of_kind(JobClosedAct)[-1]
        broke = (
            f" What broke: {last.act.broke}." if isinstance(last.act, JobClosedAct) and last.act.broke else ""
        )
        sentence = "" if job.open_conditions else f" {CLOSED}"
        return f"Closed by {page.who(last.entry)}.{sentence}{broke}"
    if job.ended == "stopped":
        last = job.view.of_kind(JobStoppedAct)[-1]
        because = last.act.because if isinstance(last.act, JobStoppedAct) else ""
        return f"Stopped, not finished, by {page.who(last.entry)}: {because}. What is recorded as open stands below."
    left = sum(not job.settled(one.id) for one in page.on.steps)
    return f"Not ended yet: {counted(left, 'step')} of {len(page.on.steps)} neither finished nor not needed."
