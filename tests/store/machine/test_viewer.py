"""The system's viewer: a picture of the job's own or a sheet as written, by a program apart; else where it lies."""

from __future__ import annotations

import os
import sys
import time
from datetime import datetime
from pathlib import Path

import pytest

from jobtrack.store.file.sheet_files import keep_sheet
from jobtrack.store.machine import photos, viewer
from tests.support.pictures import jpeg

pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="a stand-in for the viewer of Linux"
)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    folder = tmp_path / "jobs"
    folder.mkdir()
    return folder / "bay.job.toml"


@pytest.fixture
def photo(job: Path, tmp_path: Path) -> str:
    """A photo of the job."""
    taken = tmp_path / "a.jpg"
    taken.write_bytes(jpeg("a"))
    return photos.take(taken, job).photo


@pytest.fixture
def shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where a stand-in for the system's viewer writes what it was asked to show, and from which session."""
    programs, seen = tmp_path / "bin", tmp_path / "seen"
    programs.mkdir()
    stand_in = programs / "xdg-open"
    # The session of a process: field 6 of /proc/self/stat (proc(5))
    stand_in.write_text(f"#!/bin/sh\nread -r _ _ _ _ _ session _ < /proc/self/stat\necho \"$1\" $session > {seen}.new\n"
                        f"mv {seen}.new {seen}\n")  # fmt: skip
    stand_in.chmod(0o755)
    monkeypatch.setenv("PATH", f"{programs}{os.pathsep}/bin{os.pathsep}/usr/bin")
    monkeypatch.setenv("DISPLAY", ":7")
    return seen


def asked(shown: Path) -> str:
    until = time.monotonic() + 10
    while not shown.exists():
        assert time.monotonic() < until, "the viewer was never begun"
        time.sleep(0.01)
    return shown.read_text().strip()


def test_opened_in_a_session_of_its_own(job: Path, photo: str, shown: Path) -> None:
    """With the whole name of the file, and away from this terminal."""
    path = photos.folder_of(job) / photo
    assert viewer.show_photo(job, photo) == f"Opened by the system's viewer: {path}"
    what, _, session = asked(shown).rpartition(" ")
    assert what == str(path)
    assert int(session) != os.getsid(0)


def test_without_a_screen_it_says_where_it_lies(
    job: Path, photo: str, shown: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a bare console, or over a plain line to another machine, nothing is begun."""
    monkeypatch.delenv("DISPLAY")
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    said = f"Nothing here shows pictures. It lies at {photos.folder_of(job) / photo}"
    assert viewer.show_photo(job, photo) == said
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    monkeypatch.setenv("PATH", str(job.parent))
    assert viewer.show_photo(job, photo) == said
    assert not shown.exists()


@pytest.mark.parametrize("name", ["../a.jpg", "/etc/passwd", "a/../../a.jpg", "a\\b.jpg", "-x.jpg", ""])
def test_a_name_that_could_lead_out_opens_nothing(job: Path, photo: str, shown: Path, name: str) -> None:
    assert "Opened" not in viewer.show_photo(job, name)
    assert not shown.exists()


def test_what_is_no_picture_is_not_opened(job: Path, photo: str, shown: Path) -> None:
    """A job file of a stranger may name any file that came with it: a starter, a page, another ending."""
    folder = photos.folder_of(job)
    (folder / "run.desktop").write_text("[Desktop Entry]\nExec=rm -rf x\n")
    (folder / "run2.desktop").write_bytes(jpeg("x"))
    (folder / "page.jpg").write_text("<html></html>")
    os.mkfifo(folder / "pipe.jpg")
    for name in ("run.desktop", "run2.desktop", "page.jpg"):
        assert viewer.show_photo(job, name).endswith("isn't what its name says: it isn't opened.")
    assert (
        viewer.show_photo(job, "pipe.jpg")
        == f"pipe.jpg doesn't lie in {folder}; copy it there to look at it."
    )
    assert not shown.exists()


def test_a_photo_that_is_not_there(job: Path, photo: str, shown: Path) -> None:
    folder = photos.folder_of(job)
    (folder / photo).unlink()
    assert viewer.show_photo(job, photo) == f"{photo} doesn't lie in {folder}; copy it there to look at it."


def test_a_sheet_is_opened_as_it_was_written(job: Path, shown: Path) -> None:
    """What lies under its name by the time it is to be opened, and isn't what was written, is left alone."""
    sheet = keep_sheet(job, "job-card", datetime(2031, 5, 14, 9, 41), b"<p>card</p>")
    sheet.path.write_bytes(b"<p>other</p>")
    assert viewer.show_sheet(sheet) == f"{sheet.path} isn't as it was written: it isn't opened."
    sheet.path.unlink()
    assert "isn't opened" in viewer.show_sheet(sheet)
    assert not shown.exists()
    again = keep_sheet(job, "job-card", datetime(2031, 5, 14, 9, 41), b"<p>card</p>")
    assert viewer.show_sheet(again) == f"Opened by the system's viewer: {again.path}"
    assert asked(shown).startswith(str(again.path))


def test_a_sheet_without_a_screen(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where it lies is said."""
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    sheet = keep_sheet(job, "job-card", datetime(2031, 5, 14, 9, 41), b"<p>card</p>")
    assert viewer.show_sheet(sheet) == f"Nothing here shows sheets. It lies at {sheet.path}"
