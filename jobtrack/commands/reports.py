"""`show`, `work-out`, `hours`, `handover`: what is read off a job."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path
from shutil import get_terminal_size
from typing import TYPE_CHECKING

from jobtrack.commands.saying import DONE, BadInput, complain, say, say_json, say_lines, typed_name
from jobtrack.record import disk, folder, now
from jobtrack.record.acts import Draft
from jobtrack.record.jobfile import JobFile
from jobtrack.record.readfile import JobFileError

if TYPE_CHECKING:
    from jobtrack.workings import Answer

WIDEST, HIGHEST = 80, 20
"""Columns and rows of a picture."""


def show(options: argparse.Namespace) -> int:
    """The state of a job."""
    from jobtrack.sheets.about_file import file_lines
    from jobtrack.sheets.as_json import job_json
    from jobtrack.sheets.plain import job_text

    file = JobFile(Path(options.jobfile))
    if options.json:
        say_json(job_json(file.job))
        return DONE
    say_lines(job_text(file.job))
    for line in file_lines(file):
        say(f"! {line}")
    return DONE


WORK_OUT_EXAMPLE = (
    "Example: jobtrack work-out perch-shift spacing_now=1012 spacing_wanted=38in (or NAME --help, or --json); "
    "all of them as a page: jobtrack work-out --out workings-out.md (NAME: only that one)"
)


def work_out(options: argparse.Namespace) -> int:
    """One working-out, or the list of them by topic."""
    from jobtrack import workings
    from jobtrack.shopmath import catalogue

    if options.out is not None and not options.help_wanted:
        return _catalogue_page(options)
    if options.name is None:
        topics = catalogue.by_topic()
        if options.json:
            say_json(topics)
        for topic, names in topics.items() if not options.json else ():
            say(f"{topic}: {', '.join(names)}")
        if options.help_wanted:
            say(WORK_OUT_EXAMPLE)
        return DONE
    if options.help_wanted:
        say_lines(workings.describe(catalogue.find(options.name)))
        return DONE
    answer = workings.answer(options.name, _pairs(options.inputs))
    if options.json:
        say_json(answer.as_json())
    else:
        say_lines(answer.as_text())
        for line in _picture(answer):
            say(line)
    return DONE


def _catalogue_page(options: argparse.Namespace) -> int:
    """The page of all workings-out, or of one, into a file that isn't there yet."""
    from jobtrack.sheets.catalogue_page import catalogue_markdown

    out = Path(options.out)
    if options.inputs or options.json:
        raise BadInput(f"{out}: the page shows its own examples; leave out KEY=VALUE and --json")
    if out.suffix != ".md":
        raise BadInput(f"{out}: the page is Markdown; name a file that ends in .md")
    if out.exists():
        raise BadInput(f"{out}: is there already; name a file that isn't")
    page = catalogue_markdown(options.name)
    try:
        disk.write_new(out, page.encode())
    except OSError as error:
        raise BadInput(f"{out}: can't be written: {error.strerror}; name another") from error
    say(f"The page is {out}")
    return DONE


def _picture(answer: Answer) -> list[str]:
    """The picture under the results, where there is one, after an empty line."""
    from jobtrack.figures.cells import in_cells
    from jobtrack.pictures import picture_of

    drawing = picture_of(answer.work.name, answer.outcome.inputs, answer.outcome.values)
    if drawing is None:
        return []
    columns = min(WIDEST, get_terminal_size().columns)
    return ["", *in_cells(drawing, columns, HIGHEST, plain=not _shows_dots())]


def _shows_dots() -> bool:
    """Whether the output's encoding has braille dots and arrows."""
    try:
        "⣿→".encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return False
    return True


def _pairs(texts: list[str]) -> dict[str, str]:
    pairs: dict[str, str] = {}
    for text in texts:
        key, equals, value = text.partition("=")
        if not equals or not key:
            raise BadInput(f"work-out wants KEY=VALUE, not {text!r}")
        if key in pairs:
            raise BadInput(f"{key} is given twice; give it once")
        pairs[key] = value
    return pairs


def hours(options: argparse.Namespace) -> int:
    """Labour hours over job files and folders of them."""
    from jobtrack.hours.labour import labour

    jobs = [file.job for file in _opened(options.path)]
    found = labour(jobs, options.per or "step")
    if options.json:
        groups = [
            {"key": one.key, "hours": one.hours, "estimated_hours": one.estimated_hours}
            for one in found.groups
        ]
        say_json({"total_hours": found.total_hours, "groups": groups})
        for text in found.overlaps:
            complain(f"{text}.")
        return DONE
    say(f"Labour: {found.total_hours:.2f} h")
    for one in found.groups:
        estimate = f" (template {one.estimated_hours:.2f} h)" if one.estimated_hours is not None else ""
        say(f"  {one.key}: {one.hours:.2f} h{estimate}")
    for text in (*found.overlaps, *found.remarks):
        say(f"{text}.")
    for name in found.running:
        say(f"The clock of {name} runs; it counts to their last entry.")
    return DONE


def _opened(names: list[str]) -> Iterator[JobFile]:
    for name in names:
        path = Path(name)
        for one in sorted(path.glob(f"*{folder.ENDING}")) if path.is_dir() else [path]:
            try:
                file = JobFile(one)
            except JobFileError as error:
                if not path.is_dir() and not one.exists():
                    raise
                complain(str(error))
                continue
            for damage in file.job.damage:
                what = (
                    "its header was changed"
                    if damage.header
                    else "an entry can't be read; its time isn't counted"
                )
                complain(f"{one}:{damage.line}: {what}")
            yield file


def handover(options: argparse.Namespace) -> int:
    """Record a handover and write its sheet."""
    from jobtrack.sheets.handover import handover_markdown

    out = Path(options.out) if options.out else None
    if out is not None and out.suffix != ".md":
        raise BadInput(f"{out}: the sheet is Markdown so far; name a file that ends in .md")
    if out is not None and out.exists():
        raise BadInput(f"{out}: is there already; name a file that isn't")
    if out is not None and not out.parent.is_dir():
        raise BadInput(f"{out}: there is no such folder; make it first, or name another place")
    file, to = JobFile(Path(options.jobfile)), typed_name("--to", options.to)
    draft = Draft(file.meant, typed_name("--by", options.by), now.local_now())
    draft.hand_over(to)
    file.append(draft.done(), draft.by, draft.at, id=draft.id)
    sheet = handover_markdown(file.job, draft.by, to)
    if out is None:
        print(sheet, end="")
        return DONE
    try:
        disk.write_new(out, sheet.encode())
    except OSError as error:
        raise BadInput(
            f"{out}: the handover is recorded, its sheet can't be written: {error.strerror}"
        ) from error
    say(f"Handed over to {to}; the sheet is {out}")
    return DONE
