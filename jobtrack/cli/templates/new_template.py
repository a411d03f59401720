"""`new-template`: a template written from a few questions, or the next version of one from a job that has ended."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.authoring.begun import begun_text
from jobtrack.authoring.next_version import NextVersion
from jobtrack.authoring.of_file import NoNextVersion, version_of
from jobtrack.authoring.questions import TRIES, TooManyTries, questions
from jobtrack.cli.asking import ask, tell
from jobtrack.cli.saying import DONE, BadInput, say
from jobtrack.store.file import disk
from jobtrack.store.file.writer import JobFile

NOT_WRITTEN = "not written: nobody said yes; the job and its template are as they were"


def new_template(options: argparse.Namespace) -> int:
    """Ask, or read the job; show what would be written; write it."""
    out = Path(options.out)
    if out.exists():
        raise BadInput(f"{out}: is there already; name a file that isn't")
    if not out.parent.is_dir():
        raise BadInput(f"{out}: there is no folder {out.parent}; make it, or name another")
    _write(out, _from_job(Path(options.from_), out) if options.from_ else _from_answers())
    return DONE


def _from_answers() -> str:
    try:
        return begun_text(questions(ask, tell))
    except TooManyTries as error:
        raise BadInput(f"no answer that fits, {TRIES} times, so nothing is written: {error}") from None


def _from_job(path: Path, out: Path) -> str:
    """The next version of the job's template, once somebody has seen what would change and said yes."""
    made = _read(path)
    say(f"Template {made.data['id']}, version {made.data['version']}, from {path}")
    for text in made.words():
        tell(text)
    for line in ("", *made.difference(), ""):
        say(line)
    if ask(f"Write this as {out}? Type yes, then Enter:").casefold() not in ("yes", "y"):
        raise BadInput(NOT_WRITTEN)
    return made.text


def _read(path: Path) -> NextVersion:
    try:
        return version_of(JobFile(path))
    except NoNextVersion as error:
        raise BadInput(f"{path}: {error}") from None


def _write(out: Path, text: str) -> None:
    try:
        disk.write_new(out, text.encode())
    except FileExistsError:
        raise BadInput(
            f"{out}: is there already by now; nothing is written, name a file that isn't"
        ) from None
    say(f"Written: {out}")
    say(f"jobtrack proofread {out}   says what remains to be written")
    say(f"jobtrack rehearse {out}   walks it with nothing recorded")
