"""Copies joined: the same bytes in any order, and what stops it."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from jobtrack.job.compose import mending
from jobtrack.store.copies.intact import intact
from jobtrack.store.copies.merge import Merged, merge_files
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, create
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    WORK,
    file_with,
    new_file,
    note,
    read,
    record,
    template,
    tick,
)


def copy_of(file: JobFile, name: str) -> JobFile:
    path = file.path.with_name(f"{name}.job.toml")
    path.write_bytes(file.path.read_bytes())
    return JobFile(path)


def three(folder: Path) -> list[Path]:
    """Three copies that each went on by themselves, the third from the second."""
    first = file_with(folder, WORK[:2])
    second = copy_of(first, "second")
    record(first, DONOR, read("spacing", "1013"), number=10)
    record(second, DONOR, read("spacing", "1012.5"), by="Ada", number=20)
    third = copy_of(second, "third")
    record(second, "mark.left", read("moved", "23"), by="Ada", number=21)
    record(third, "mark.left", tick("scribed"), by="Jo", number=30)
    return [first.path, second.path, third.path]


def joined(*paths: Path) -> bytes:
    merged = merge_files(paths)
    assert merged.stopped_by == ()
    return merged.data


def written(folder: Path, data: bytes, name: str = "merged") -> Path:
    path = folder / f"{name}.job.toml"
    path.write_bytes(data)
    return path


def test_merging_knows_no_order(tmp_path: Path) -> None:
    """All six orders give the same bytes, those of an intact file with everything in it."""
    copies = three(tmp_path)
    [data] = {joined(*some) for some in permutations(copies)}
    path = written(tmp_path, data)
    assert intact(path) == []
    assert len(JobFile(path).job.view.entries) == 6


def test_merging_knows_no_brackets(tmp_path: Path) -> None:
    """(a with b) with c is a with (b with c)."""
    a, b, c = three(tmp_path)
    left = joined(written(tmp_path, joined(a, b), "ab"), c)
    assert left == joined(a, written(tmp_path, joined(b, c), "bc"))


def test_merging_again_changes_nothing(tmp_path: Path) -> None:
    """A file with itself, or with what was merged into it, is itself."""
    a, b, c = three(tmp_path)
    assert joined(a, a) == a.read_bytes()
    merged = written(tmp_path, joined(a, b, c))
    assert joined(merged, a, b) == merged.read_bytes()


def test_the_loose_ends_of_all_branches_are_followed_next(tmp_path: Path) -> None:
    """The first entry behind a merge follows every branch's end."""
    path = written(tmp_path, joined(*three(tmp_path)))
    file = JobFile(path)
    ends = file.job.view.loose_ends
    assert len(ends) == 3
    assert record(file, None, note(), number=40).entry.follows == tuple(sorted(ends))
    assert intact(path) == []


def test_both_measurements_are_in_the_merged_file(tmp_path: Path) -> None:
    """What two people measured apart is a disagreement after merging."""
    standing = JobFile(written(tmp_path, joined(*three(tmp_path)))).job.places.reading(DONOR, "spacing")
    assert (standing.agreed, len(standing.acts)) == (False, 2)


def damaged(folder: Path, old: bytes, new: bytes) -> tuple[JobFile, Path]:
    file = file_with(folder, WORK)
    bad = written(folder, file.path.read_bytes().replace(old, new), "bad")
    return file, bad


def test_a_damaged_entry_stops_a_merge_and_is_named(tmp_path: Path) -> None:
    """An altered block that no copy holds sound stops the merge, named by hash and line."""
    file, bad = damaged(tmp_path, b"965.2", b"965.3")
    other = new_file(tmp_path, "empty")
    merged = merge_files([bad, other.path])
    assert [name for name, _ in merged.stopped_by] == [file.blocks[1].hash]
    assert merged.stopped_by[0][1] == f"{bad}:{file.blocks[1].line}"


def test_merging_without_it_goes_on(tmp_path: Path) -> None:
    """Named to be left out, the damaged block stops nothing."""
    file, bad = damaged(tmp_path, b"965.2", b"965.3")
    merged = merge_files([bad], without=[file.blocks[1].hash])
    assert merged.stopped_by == ()
    assert len(JobFile(written(tmp_path, merged.data)).job.view.entries) == len(WORK) - 1


@pytest.mark.parametrize("what", ["value", "hash"])
def test_a_copy_that_holds_it_sound_mends_it(tmp_path: Path, what: str) -> None:
    """Where another copy has the entry as it was written, its value or its hash damaged here, that one is taken."""
    file = file_with(tmp_path, WORK)
    hash = file.blocks[1].hash.encode()
    old, new = {"value": (b"965.2", b"965.3"), "hash": (b'\nhash = "' + hash, b'\nhash = "' + hash[::-1])}[
        what
    ]
    bad = written(tmp_path, file.path.read_bytes().replace(old, new), "bad")
    assert joined(bad, file.path) == joined(file.path, bad) == file.path.read_bytes()


def test_stray_text_is_left_out_and_said(tmp_path: Path) -> None:
    """Text that belongs to no entry stays in the file it is in; the merge says so and goes on."""
    file = file_with(tmp_path, WORK)
    parts = [file.header.data, b"\nstray\n", *(block.data for block in file.blocks)]
    merged = merge_files([written(tmp_path, b"".join(parts), "bad"), file.path])
    assert merged.data == file.path.read_bytes()
    assert "belongs to no entry" in merged.left_out[0]


def test_a_block_that_was_taken_in_stops_nothing(tmp_path: Path) -> None:
    """Once its content was taken in by name, the damaged block is left behind."""
    file, bad = damaged(tmp_path, b"965.2", b"965.3")
    opened = JobFile(bad)
    lost = file.blocks[1].hash
    record(opened, RECIPIENT, lambda draft: mending.take_in(draft, lost), read("spacing", "38 in"), number=20)
    assert merge_files([bad]).stopped_by == ()


def test_a_torn_end_is_left_out_and_said(tmp_path: Path) -> None:
    """A broken-off write stops nothing: it is left out, and the file is named."""
    file = file_with(tmp_path, WORK)
    torn = written(tmp_path, file.path.read_bytes()[:-9], "torn")
    merged: Merged = merge_files([torn])
    assert (len(merged.left_out), merged.stopped_by) == (1, ())
    assert str(torn) in merged.left_out[0]
    assert joined(torn, file.path) == file.path.read_bytes()


def test_line_endings_are_put_back(tmp_path: Path) -> None:
    """A copy with CRLF merges to the bytes of the one without."""
    file = file_with(tmp_path, WORK)
    other = written(tmp_path, file.path.read_bytes().replace(b"\n", b"\r\n"), "crlf")
    assert joined(other) == joined(other, file.path) == file.path.read_bytes()


def test_another_job_is_refused(tmp_path: Path) -> None:
    """Files of two jobs, or of one begun from another template, aren't merged; the odd one is named."""
    file = new_file(tmp_path)
    other = create(tmp_path / "other.job.toml", "job-2", "Another", template())
    with pytest.raises(JobFileError, match=r"other\.job\.toml:1: a different job"):
        merge_files([file.path, other.path])


def test_a_changed_header_is_refused(tmp_path: Path) -> None:
    """A copy whose header was changed isn't merged, nor is one without any."""
    file = file_with(tmp_path, WORK)
    changed = written(tmp_path, file.path.read_bytes().replace(b"Bay horse-box", b"Boy horse-box"), "changed")
    with pytest.raises(JobFileError, match=r"changed\.job\.toml:1: its header was changed"):
        merge_files([file.path, changed])
    with pytest.raises(JobFileError, match=r"no copy has a sound header"):
        merge_files([changed])
    with pytest.raises(JobFileError, match=r"can't be read"):
        merge_files([tmp_path / "nowhere"])
