"""Sheets beside a job: never one over another, and a folder that takes none is said in one line."""

from __future__ import annotations

import errno
from datetime import datetime
from pathlib import Path

import pytest

from jobtrack.store.file import disk
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.sheet_files import folder_of, keep_sheet

AT = datetime(2031, 5, 14, 9, 41)


def test_one_never_goes_over_another(tmp_path: Path) -> None:
    """Two of one minute lie beside each other, in the folder named after the job."""
    job = tmp_path / "bay.job.toml"
    paths = [
        keep_sheet(job, kind, AT, data).path
        for kind, data in (("tag", b"1"), ("tag", b"2"), ("Card / x", b"3"))
    ]
    assert [path.name for path in paths] == [
        "tag-2031-05-14-0941.html", "tag-2031-05-14-0941-2.html", "card-x-2031-05-14-0941.html",
    ]  # fmt: skip
    assert [path.read_bytes() for path in paths] == [b"1", b"2", b"3"]
    assert {path.parent for path in paths} == {folder_of(job)} == {tmp_path / "bay.sheets"}


def test_what_takes_none_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file or a link in the folder's place, a full disk: one line with the place and the mend, and nothing left."""
    job = tmp_path / "bay.job.toml"
    folder = folder_of(job)
    folder.write_text("mine")
    with pytest.raises(JobFileError, match=r"bay\.sheets: is no folder; .* move it away"):
        keep_sheet(job, "tag", AT, b"1")
    folder.unlink()
    folder.symlink_to(tmp_path)
    with pytest.raises(JobFileError, match="leads elsewhere"):
        keep_sheet(job, "tag", AT, b"1")
    folder.unlink()

    def full(path: Path, data: bytes, private: bool = False) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(disk, "write_new", full)
    with pytest.raises(JobFileError, match=r"can't be written: No space left on device; make room"):
        keep_sheet(job, "tag", AT, b"1")
    assert list(folder.iterdir()) == []
