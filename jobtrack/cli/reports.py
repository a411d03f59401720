"""`show`, `hours`: what is read off a job."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from jobtrack.cli.on_paper.writing import place, write
from jobtrack.cli.saying import DONE, complain, say, say_json, say_lines
from jobtrack.job.state.damage import Damage
from jobtrack.literal import visible
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import jobs_folder as folder
from jobtrack.store.machine import now

if TYPE_CHECKING:
    from jobtrack.hours.labour import Labour


def show(options: argparse.Namespace) -> int:
    """The state of a job, or a paper about it."""
    from jobtrack.cli.on_paper.wheel_tag import wheel_tag
    from jobtrack.pages.look_up.what_now import what_now_text
    from jobtrack.sheets.as_json.job import job_json
    from jobtrack.sheets.job_text import job_text
    from jobtrack.sheets.to_buy import to_buy_text
    from jobtrack.sheets.words.about_file import file_lines

    if options.wheel_tag is not None:
        return wheel_tag(options)
    file = JobFile(Path(options.jobfile))
    if options.json:
        say_json(job_json(file.job, file.gone))
        return DONE
    if options.to_buy:
        say_lines(to_buy_text(file.job, now.local_now()))
        return DONE
    if options.now:
        say_lines("\n".join(map(visible, what_now_text(file.job))))
        return DONE
    say_lines(job_text(file.job))
    for line in file_lines(file):
        say(f"! {line}")
    return DONE


def hours(options: argparse.Namespace) -> int:
    """Labour hours over job files and folders of them."""
    from jobtrack.hours.labour import labour
    from jobtrack.sheets.csv_text import hours_csv

    table = place(options.csv, (".csv",))
    found = labour([file.job for file in _opened(options.path)], options.per or "step")
    if options.json:
        _say_hours_as_json(found)
        return DONE
    if table is not None:
        write(table, hours_csv(found).encode())
    _say_hours(found)
    if table is not None:
        say(f"The table is {table}")
    return DONE


def _say_hours_as_json(found: Labour) -> None:
    from jobtrack.sheets.words.hours import labour_words

    groups = [
        {"key": one.key, "hours": one.hours, "estimated_hours": one.estimated_hours} for one in found.groups
    ]
    say_json({"total_hours": found.total_hours, "groups": groups})
    for text in labour_words(found.overlaps):
        complain(f"{text}.")


def _say_hours(found: Labour) -> None:
    from jobtrack.sheets.words.hours import labour_words
    from jobtrack.sheets.words.sentences import clock_lines

    say(f"Labour: {found.total_hours:.2f} h")
    for one in found.groups:
        estimate = f" (template {one.estimated_hours:.2f} h)" if one.estimated_hours is not None else ""
        say(f"  {one.key}: {one.hours:.2f} h{estimate}")
    for text in labour_words((*found.overlaps, *found.remarks)):
        say(f"{text}.")
    for text in clock_lines(found.running, found.on_break):
        say(text)


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
                complain(f"{one}{_uncounted(damage)}")
            yield file


def _uncounted(damage: Damage) -> str:
    if damage.header:
        return f":{damage.line}: its header was changed"
    if damage.gone:
        return f": the entry of {damage.gone} is gone; its time isn't counted"
    return f":{damage.line}: an entry can't be read; its time isn't counted"
