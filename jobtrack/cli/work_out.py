"""`work-out`: one working-out, the list of them, or their page."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from shutil import get_terminal_size

from jobtrack.cli.saying import DONE, BadInput, say, say_json, say_lines
from jobtrack.store.file import disk

WORK_OUT_EXAMPLE = (
    "Example: jobtrack work-out perch-shift spacing_now=1012 spacing_wanted=38in (or NAME --help, or --json); "
    "all of them as a page: jobtrack work-out --out workings-out.md (NAME: only that one)"
)


def work_out(options: argparse.Namespace) -> int:
    """One working-out, or the list of them by topic."""
    from jobtrack.pictures import picture_rows
    from jobtrack.shopmath import catalogue
    from jobtrack.workings import answers as workings

    if options.out is not None and not options.help_wanted:
        return _catalogue_page(options)
    if options.name is None:
        return _by_topic(options)
    if options.help_wanted:
        say_lines(workings.describe(catalogue.find(options.name)))
        return DONE
    answer = workings.answer(options.name, _pairs(options.inputs))
    if options.json:
        say_json(answer.as_json())
    else:
        say_lines(answer.as_text())
        rows = picture_rows(
            options.name, answer.outcome, get_terminal_size().columns, plain=not _shows_dots()
        )
        for row in rows:
            say(row)
    return DONE


def _by_topic(options: argparse.Namespace) -> int:
    """The list of all workings-out."""
    from jobtrack.shopmath import catalogue

    topics = catalogue.by_topic()
    if options.json:
        say_json(topics)
    for topic, names in topics.items() if not options.json else ():
        say(f"{topic}: {', '.join(names)}")
    if options.help_wanted:
        say(WORK_OUT_EXAMPLE)
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
