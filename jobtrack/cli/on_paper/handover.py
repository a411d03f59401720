"""`handover`: recorded, and its sheet written."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.cli.on_paper.writing import place, shown, write_and_record
from jobtrack.cli.saying import DONE, say, typed, typed_name
from jobtrack.job.acts.people import SAID
from jobtrack.job.compose import people
from jobtrack.job.compose.draft import Draft
from jobtrack.sheets.handover.sheet import handover_sheet
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import now


def handover(options: argparse.Namespace) -> int:
    """Record a handover and write its sheet."""
    out = place(options.out, ENDINGS)
    file, to = JobFile(Path(options.jobfile)), typed_name("--to", options.to)
    draft = Draft(file.meant, typed_name("--by", options.by), now.local_now())
    said = _said(options)
    people.hand_over(draft, to, said)
    sheet = handover_sheet(draft.job, draft.by, to, said, shown(options, draft.job), draft.at)
    data = written(sheet, out.suffix if out is not None else ".md")
    write_and_record(out, data, lambda: file.append(draft.done(), draft.by, draft.at, id=draft.id))
    if out is None:
        print(data.decode(), end="")
        return DONE
    say(f"Handed over to {to}; the sheet is {out}")
    return DONE


def _said(options: argparse.Namespace) -> dict[str, str]:
    """What the giver says, by the keys of a handover; each in one row."""
    given = {name: text for name in SAID if (text := getattr(options, name)) is not None}
    return {
        name: " ".join(typed(f"--{name.replace('_', '-')}", text).split()) for name, text in given.items()
    }
