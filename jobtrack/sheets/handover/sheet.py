"""The handover of a half-finished job: what whoever carries on must know, the worst first; a short one for oneself."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from jobtrack.job.acts.people import SAID, HandoverAct
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.against import NOTHING, against_section, measured_section
from jobtrack.sheets.handover.begin_next import next_section
from jobtrack.sheets.handover.besides import besides_section
from jobtrack.sheets.handover.donts import donts_section
from jobtrack.sheets.handover.fasteners import NONE, fasteners_section
from jobtrack.sheets.handover.handing import Handing, handing
from jobtrack.sheets.handover.holds_up import holds_up_section
from jobtrack.sheets.handover.inside import hazards_section, inside_section
from jobtrack.sheets.handover.open_now import open_section
from jobtrack.sheets.handover.parts import parts_section
from jobtrack.sheets.handover.said import new_section, said_section
from jobtrack.sheets.handover.together import TYPED_NAMES, signed_section, slip_section, together_section
from jobtrack.sheets.paper.blocks import Paragraph, Section, Sheet
from jobtrack.sheets.words.sentences import FIRST_WORD
from jobtrack.units.chosen import Chosen

AS_RECORDED = "As it was written down: look at the vehicle before going by it."


def handover_sheet(
    job: Job, by: str, to: str, said: Mapping[str, str] | None, shown: Chosen, at: datetime
) -> Sheet:
    """The whole sheet for somebody else; given to oneself, the short one.

    `said`: the giver's own words by the keys of `SAID`; `shown`: the unit system that figures are said in first;
    `at`: when it is given.
    """
    giving = handing(job, by, to, said, shown, at)
    if giving.to_oneself:
        return short_sheet(giving)
    sections = (
        open_section(giving),
        donts_section(giving),
        holds_up_section(giving),
        inside_section(giving),
        hazards_section(giving),
        fasteners_section(giving),
        next_section(giving),
        against_section(giving),
        measured_section(giving),
        parts_section(giving),
        said_section(giving),
        new_section(giving),
        besides_section(giving),
        signed_section(giving),
        slip_section(),
    )
    return _sheet(giving, f"Handover: {job.about.title}", f"From {by} to {to}", sections)


def taking_over_sections(job: Job, given: Done, shown: Chosen) -> tuple[Section, ...]:
    """What whoever takes over reads beside what is open, as the job stands now, with what the giver said."""
    act, entry = given.act, given.entry
    to = act.to if isinstance(act, HandoverAct) else ""
    said = {name: text for name in SAID if (text := getattr(act, name, None))}
    giving = handing(job, entry.by, to, said, shown, entry.at)
    sections = (
        donts_section(giving),
        holds_up_section(giving),
        inside_section(giving),
        hazards_section(giving),
        fasteners_section(giving),
        against_section(giving),
        said_section(giving),
        together_section(giving),
    )
    return tuple(one for one in sections if _says_something(one) and not _says_nothing(one))


def _says_nothing(one: Section) -> bool:
    """Whether a section only says that there is nothing of its kind."""
    return one.blocks in ((Paragraph(NOTHING),), (Paragraph(NONE),)) and not one.sections


def short_sheet(giving: Handing) -> Sheet:
    """For oneself in the morning: what holds it up, fasteners, where inside, the job's hazards, what is open."""
    sections = (
        holds_up_section(giving),
        fasteners_section(giving),
        inside_section(giving),
        hazards_section(giving),
        open_section(giving),
    )
    return _sheet(
        giving,
        f"For the morning: {giving.job.about.title}",
        f"By {giving.by}, to carry on",
        sections,
        (TYPED_NAMES, FIRST_WORD),
    )


def _sheet(
    giving: Handing, title: str, who: str, sections: tuple[Section, ...], foot: tuple[str, ...] = ()
) -> Sheet:
    when = f"{who}, {giving.times.said(giving.at, year=True)}. {giving.times.head}"
    head = (when, f"{giving.job.plan.template.title}.{_last_entry(giving)} {AS_RECORDED}")
    return Sheet("handover", title, head, tuple(filter(_says_something, sections)), foot)


def _says_something(one: Section) -> bool:
    return bool(one.blocks or one.sections)


def _last_entry(giving: Handing) -> str:
    """When something was recorded last, with its year: no other time on the sheet has one."""
    before = [entry.at for entry in giving.job.view.entries if entry.at < giving.at]
    return f" Last entry {giving.times.said(max(before), year=True)}." if before else ""
