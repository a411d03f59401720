"""What the file itself has against it, in words: the screens and the command line share them."""

from __future__ import annotations

from jobtrack.sheets.words.sentences import counted
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import last_seen, rescue
from jobtrack.store.machine.state_files import hard_links


def file_lines(file: JobFile) -> list[str]:
    """What waits, what is gone, what can't be recorded or read; empty says nothing about the vehicle."""
    return [*waiting_lines(file), *_gone(file), *_reading_only(file), *_torn(file), *_names(file)]


def waiting_lines(file: JobFile) -> list[str]:
    """What the file didn't take yet, and where it is kept; empty where nothing waits."""
    found = file.waiting
    if not found:
        return []
    kept = rescue.files(file.real, file.header.hash)
    where = f"kept in {kept[0]}" if kept else "kept nowhere but here, so write it down"
    entries = counted(len(found), "entry", "entries")
    return [
        f"NOT YET RECORDED: {entries}, the first of {found[0].at:%Y-%m-%d %H:%M} by {found[0].by}; {where}, "
        "and recorded by itself when the file takes it."
    ]


def taken_up_line(count: int) -> str:
    """That what had waited is on the disk now."""
    return f"Recorded now what had waited: {counted(count, 'entry', 'entries')}."


def _gone(file: JobFile) -> list[str]:
    if not file.gone:
        return []
    here = [one for one in file.gone if not one.elsewhere(file.real)]
    if not here:
        other = max(file.gone, key=lambda one: one.when).file
        return [f"Another copy, {other}, has entries that this one hasn't; jobtrack merge joins them."]
    last = max(here, key=lambda one: one.when)
    where = "this file" if last.file == last_seen.named(file.real) else last.file
    return [
        f"Entries are gone that this machine has seen, the last of {last.when:%Y-%m-%d %H:%M} by {last.by}, "
        f"in {where}. If an older copy was put back, join it with the newer one: jobtrack merge."
    ]


def _reading_only(file: JobFile) -> list[str]:
    why = file.read_only
    return [f"Open for reading only: {why}; this list may be incomplete."] if why else []


def _torn(file: JobFile) -> list[str]:
    if file.torn is None:
        return []
    return [
        f"Line {file.torn.line}: the write of an entry was broken off; it counts for nothing, and the whole "
        "entries before it are here."
    ]


def _names(file: JobFile) -> list[str]:
    """By which other names one could get into one's own way, or into another job."""
    said = []
    if (names := hard_links(file.real)) > 1:
        said.append(
            f"This file has {names} names (hard links): record by one of them only. It can't be merged in place, "
            "which would part them."
        )
    if (there := file.leads_elsewhere) is not None:
        said.append(f"{file.path} leads to {there} by now; this is {file.real}, and it is recorded there.")
    return said


def locks_line(file: JobFile) -> list[str]:
    """Said once, where two programs could get into each other's way."""
    if file.locks_work():
        return []
    return [
        f"Locks don't work in {file.real.parent}: let only one program at a time record in this file; "
        "elsewhere work on a copy, and join the copies with jobtrack merge."
    ]
