"""Parts that are missing or on their way, and where things lie."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.job.acts.doing import BuyingAct
from jobtrack.job.doing.parts import PartOf, parts_of, tools_of
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.handing import Handing, points
from jobtrack.sheets.paper.blocks import Paragraph, Section
from jobtrack.sheets.to_buy import NONE, outstanding
from jobtrack.sheets.words.doing.parts import APART, NOTHING, part_name

TITLE = "Parts, and where things are"


def parts_section(giving: Handing) -> Section:
    """What is missing or on its way, then each place that was recorded."""
    missing = [_outstanding(giving, one) for one in outstanding(giving.job)]
    none = [] if missing else [Paragraph(NONE)]
    return Section(TITLE, (*none, *points(missing), *points(_places(giving))))


def _outstanding(giving: Handing, one: PartOf) -> str:
    """ "4 × U-bolts: ordered, from Ilse, due Friday (Wim, 2 Apr 09:41)"."""
    many = f"{one.wanted} × " if one.wanted else ""
    rows = [
        f"{done.act.how_far()} ({giving.who(done)})" for done in one.buying if isinstance(done.act, BuyingAct)
    ]
    return f"{many}{part_name(one)}: {APART if rows[1:] else ''}{' and '.join(rows) or NOTHING}"


def _places(giving: Handing) -> Iterator[str]:
    for name, places in _placed(giving.job):
        if places:
            rows = [f"{getattr(done.act, 'place', '')} ({giving.who(done)})" for done in places]
            yield f"Place of {name}: {APART if rows[1:] else ''}{' and '.join(rows)}"


def _placed(job: Job) -> Iterator[tuple[str, tuple[Done, ...]]]:
    yield from ((part_name(one), one.places) for one in parts_of(job))
    yield from ((one.name, one.places) for one in tools_of(job))
