"""`merge`: copies of a job joined, into a new file or in the place of the first; by hand or called by git."""

from __future__ import annotations

import argparse
from base64 import b32encode
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from pathlib import Path

from jobtrack.cli.saying import DONE, FINDING, BadInput, complain, say, typed_name
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.mending import SetAsideAct
from jobtrack.store.copies import merge
from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine import now
from jobtrack.store.machine.state_files import absolute, hard_links
from jobtrack.store.text.blocks import digest, scan
from jobtrack.store.text.writing import write_entry

JOB = ".job.toml"
"""How a job file's name ends."""
GITS_OWN = ".merge_file_"
"""How the name of a file begins that git makes for its merge driver and takes away again."""
FOR_GIT = """\
# In each clone, once (git keeps this outside the files that it shares):
git config merge.jobtrack.name "Join copies of a job, entry by entry"
git config merge.jobtrack.driver "jobtrack merge %A %B %O --in-place"
# In one of them; commit both files, and the others get them:
echo "*.job.toml merge=jobtrack -text" >> .gitattributes
echo "*.job.toml.lock" >> .gitignore
echo ".*.new" >> .gitignore
"""
"""What makes git join copies of a job by this program, as lines for a shell."""

Put = Callable[[bytes], None]


def merge_copies(options: argparse.Namespace) -> int:
    """Join copies of a job into a new file, or in the place of the first."""
    if (options.out is None) is not options.in_place:
        raise BadInput(
            "merge wants one of --out FILE, for a new file, and --in-place, for the place of JOBFILE"
        )
    if options.without and not options.by:
        raise BadInput("--without wants --by: who goes on without the damaged entry")
    first = Path(options.jobfile)
    with ExitStack() as held:
        if options.in_place:
            real = absolute(first)
            _hold(held, first, real)
            return _joined(options, lambda data: _replace(first, real, data), f"in the place of {first}")
        out = Path(options.out)
        return _joined(options, lambda data: _write_new(out, data), f"into {out}")


def _hold(held: ExitStack, first: Path, real: Path) -> None:
    """Lock a job file until it is replaced, so that nobody appends in between. What git has made wants none."""
    if real.name.startswith(GITS_OWN) or not real.exists():
        return
    try:
        held.enter_context(disk.locked(real))
    except TimeoutError:
        why = "another program holds the file's lock; close it there, or use --out"
        raise JobFileError(f"{first}: {why}") from None
    except OSError as error:
        raise JobFileError(f"{first}: can't be locked: {error.strerror}; use --out") from error
    if (names := hard_links(real)) > 1:
        why = f"the file has {names} names (hard links), and a merge in place would part them"
        raise JobFileError(f"{first}: {why}; use --out")


def _joined(options: argparse.Namespace, put: Put, where: str) -> int:
    """Read the copies, put what they come to where it belongs, and say so."""
    paths = _copies(options)
    without = tuple(dict.fromkeys(options.without or ()))
    merged = merge.merge_files(paths, without)
    _need_them_all(without, paths)
    if merged.stopped_by:
        for hash, place in merged.stopped_by:
            complain(
                f"{place}: an entry can't be read and no copy holds it sound; "
                f"go on with --without {hash} --by NAME"
            )
        return FINDING
    data = merged.data
    for hash in without:
        data += _set_aside(data, hash, typed_name("--by", options.by))
    put(data)
    for line in merged.left_out:
        complain(line)
    say(f"Merged {len(paths)} copies {where}.")
    return DONE


def _copies(options: argparse.Namespace) -> list[Path]:
    """The copies to join. Where both sides have begun a file git knows no older copy, and gives an empty one."""
    others = [Path(other) for other in options.other]
    return [
        Path(options.jobfile),
        *(
            other
            for other in others
            if not (options.in_place and other.is_file() and not other.stat().st_size)
        ),
    ]


def _write_new(out: Path, data: bytes) -> None:
    try:
        disk.write_new(out, data)
    except FileExistsError:
        raise BadInput(f"{out}: is there already; name a file that isn't") from None
    except OSError as error:
        raise JobFileError(f"{out}: can't be written: {error.strerror}; choose another place") from error


def _replace(first: Path, real: Path, data: bytes) -> None:
    """Put the joined copies in the place of the first; what of it they don't hold is kept beside it."""
    if absolute(first) != real:
        raise JobFileError(
            f"{first}: leads to another file since it was read; nothing was written, try again"
        )
    try:
        before = real.read_bytes()
        if before == data:
            return
        if not real.name.startswith(GITS_OWN) and not _holds(data, before):
            _keep_beside(real, before)
        disk.replace_whole(real, data)
    except OSError as error:
        raise JobFileError(f"{first}: can't be replaced: {error.strerror}; use --out") from error


def _holds(data: bytes, before: bytes) -> bool:
    """Whether joined copies hold all blocks of one of them: not what was torn, altered or stray there."""
    kept = {block.data for block in scan(data).blocks}
    return all(block.data in kept for block in scan(before).blocks)


def _keep_beside(real: Path, before: bytes) -> None:
    aside = real.with_name(f"{real.name.removesuffix(JOB)}.set-aside-{digest(before)}")
    if not aside.exists():
        disk.write_new(aside, before)
    complain(f"{real}: held what can't be read; as it was, it is kept in {aside}")


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
