"""`begin`, `merge`, `intact`, `templates`, `proofread`: what makes, joins and examines files."""

from __future__ import annotations

import argparse
from base64 import b32encode
from collections.abc import Sequence
from pathlib import Path

from jobtrack.commands.asked import split
from jobtrack.commands.saying import DONE, FINDING, BadInput, complain, say, say_json, typed, typed_name
from jobtrack.record import disk, folder, intact, merge, now
from jobtrack.record.begin import begin as begin_job
from jobtrack.record.blocks import scan, write_entry
from jobtrack.record.entries import Entry, OpensAct, SetAsideAct
from jobtrack.record.readfile import JobFileError
from jobtrack.sheets.lines import FIRST_WORD
from jobtrack.template.findings import NOTHING_FOUND, as_json, as_lines

ALL_GIVENS = 48 * 1024
"""Bytes of the givens that fit into a job's first entry."""


def begin(options: argparse.Namespace) -> int:
    """A new job file from a template, with its first entry."""
    from jobtrack.template.proofread import check

    path = folder.template_path(options.template)
    mistakes = [one for one in check(path) if one.kind == "mistake"]
    if mistakes:
        raise BadInput(f"{as_lines(mistakes)[0]}; {len(mistakes)} mistakes in all, `proofread` lists them")
    givens = [split("given", typed("--given", text)) for text in options.given or ()]
    if sum(len(value.encode()) for _, value in givens) > ALL_GIVENS:
        raise BadInput(
            f"the givens are longer than {ALL_GIVENS} bytes together; record some of them afterwards"
        )
    title = None if options.title is None else typed_name("--title", options.title)
    file = begin_job(path, Path(options.out), typed_name("--by", options.by), title, givens)
    say(f"Begun: {file.job.about.title}, in {file.path}")
    say(FIRST_WORD)
    return DONE


def merge_copies(options: argparse.Namespace) -> int:
    """Join copies of a job into a new file."""
    paths = [Path(options.jobfile), *(Path(other) for other in options.other)]
    out = Path(options.out)
    if options.without and not options.by:
        raise BadInput("--without wants --by: who goes on without the damaged entry")
    without = tuple(dict.fromkeys(options.without or ()))
    merged = merge.merge_files(paths, without)
    _need_them_all(without, paths)
    if merged.stopped_by:
        for hash, where in merged.stopped_by:
            complain(
                f"{where}: an entry can't be read and no copy holds it sound; "
                f"go on with --without {hash} --by NAME"
            )
        return FINDING
    data = merged.data
    for hash in without:
        data += _set_aside(data, hash, typed_name("--by", options.by))
    try:
        disk.write_new(out, data)
    except FileExistsError:
        raise BadInput(f"{out}: is there already; name a file that isn't") from None
    except OSError as error:
        raise JobFileError(f"{out}: can't be written: {error.strerror}; choose another place") from error
    for line in merged.left_out:
        complain(line)
    say(f"Merged {len(paths)} copies into {out}.")
    return DONE


def _need_them_all(without: Sequence[str], paths: Sequence[Path]) -> None:
    """Raises BadInput where a hash to go on without isn't one that stops the merge."""
    damaged = [hash for hash, _ in merge.merge_files(paths).stopped_by] if without else []
    for hash in without:
        if hash not in damaged:
            known = ", ".join(damaged) or "none"
            raise BadInput(f"--without {hash}: no damaged entry of that hash stops it; there are: {known}")


def _set_aside(data: bytes, hash: str, by: str) -> bytes:
    """The entry that goes on without a damaged one: its id follows from the hash, its condition stays."""
    entries = scan(data).entries
    followed = {parent for entry in entries for parent in entry.follows}
    ends = tuple(sorted(entry.hash for entry in entries if entry.hash not in followed))
    opens = OpensAct(f"an entry that can't be read was set aside ({hash}); what it opened isn't known")
    id = b32encode(bytes.fromhex(hash)).decode().lower()[:16]
    entry = Entry(
        id,
        1 + max((one.n for one in entries), default=0),
        now.local_now(),
        by,
        (SetAsideAct(of=(hash,)), opens),
        ends,
    )
    return write_entry(entry)[0]


def examine(options: argparse.Namespace) -> int:
    """Whether a job file is as it was written."""
    path = Path(options.jobfile)
    found = intact.intact(path)
    for one in found:
        say(one.text(path))
    if all(one.remark for one in found):
        say(intact.INTACT)
        return DONE
    return FINDING


def templates(options: argparse.Namespace) -> int:
    """The templates that travel with the program."""
    found = folder.templates()
    if options.json:
        say_json(
            [{"id": one.id, "title": one.title, "steps": one.steps, "file": str(one.file)} for one in found]
        )
        return DONE
    for one in found:
        say(f"{one.id}: {one.title} ({one.steps} steps)")
    return DONE


def proofread(options: argparse.Namespace) -> int:
    """What is wrong or doubtful in the form of templates."""
    from jobtrack.template.proofread import check

    found = [one for name in options.template for one in check(Path(name))]
    if options.json:
        print(as_json(found))
        return FINDING if found else DONE
    for line in as_lines(found) or [NOTHING_FOUND]:
        say(line)
    return FINDING if found else DONE
