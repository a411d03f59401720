"""Copies of a job on one person's stick and another's laptop: joined in place, or put back too old."""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock, Timeout

from jobtrack.store.copies import merge
from jobtrack.store.copies.intact import intact
from jobtrack.store.file import disk
from tests.support.cli_calls import TEMPLATE, Shop, entries, one_line, step

DONOR = "spacing.donor"
GONE = "! Entries are gone that this machine has seen"
MERGED = "Merged 2 copies in the place of {}.\n"


@pytest.fixture
def stick(shop: Shop) -> Path:
    """A copy of the job on a stick; Wim goes on here, Ada there."""
    folder = shop.folder / "stick"
    folder.mkdir()
    copy = Path(shutil.copy(shop.job, folder))
    shop.done("record", shop.job, DONOR, "--by", "Wim", "--reading", "holes=1012")
    shop.done("record", copy, DONOR, "--by", "Ada", "--reading", "holes=1015")
    shop.done("record", copy, "--by", "Ada", "--note", "Done in her yard.")
    return copy


def holes(shop: Shop, path: Path) -> dict[str, object]:
    """What `show --json` says of the one reading that both have taken."""
    found = step(json.loads(shop.done("show", path, "--json").out), DONOR)["readings"]["holes"]
    return {"value": found["value"], "others": {(one["by"], one["value"]) for one in found["others"]}}


# USB stick: copied, continued on both, joined


def test_both_ways_and_orders_give_the_same_bytes(shop: Shop, stick: Path) -> None:
    """A new file, in the place of the one, in the place of the other: the same, and all entries in it."""
    first, second = shop.job, stick
    shop.done("merge", first, second, "--out", "one.job.toml")
    shop.done("merge", second, first, "--out", "two.job.toml")
    here = Path(shutil.copy(first, "here.job.toml"))
    there = Path(shutil.copy(second, "there.job.toml"))
    assert shop.done("merge", here, second, "--in-place").out == MERGED.format(here)
    assert shop.done("merge", there, first, "--in-place").out == MERGED.format(there)
    paths = [Path("one.job.toml"), Path("two.job.toml"), here, there]
    assert len({path.read_bytes() for path in paths}) == 1
    assert len(entries(here)) == 4
    assert intact(here) == []


def test_a_disagreement_stands_until_somebody_settles_it(shop: Shop, stick: Path) -> None:
    """Both readings are there after the merge, and no value; settled, the value stands and both stay in the file."""
    shop.done("merge", shop.job, stick, "--in-place")
    assert holes(shop, shop.job) == {"value": None, "others": {("Wim", 1012.0), ("Ada", 1015.0)}}
    [said] = [
        line for line in shop.done("show", shop.job).out.splitlines() if "! holes: a disagreement" in line
    ]
    assert "1012 (Wim)" in said
    assert "1015 (Ada)" in said
    assert said.endswith("it has no value until somebody settles it")
    shop.record(DONOR, "--settle", "holes=1015")
    shop.done("merge", stick, shop.job, "--in-place")
    assert holes(shop, stick)["value"] == 1015.0
    assert "a disagreement" not in shop.done("show", stick).out
    values = [act["value"] for entry in entries(stick) for act in entry["did"] if "reading" in act]
    assert sorted(values) == [1012.0, 1015.0]


def test_joined_again_nothing_changes(shop: Shop, stick: Path) -> None:
    """A second merge in place leaves the file as it is, and doesn't even write it."""
    shop.done("merge", shop.job, stick, "--in-place")
    before, state = shop.job.read_bytes(), shop.job.stat()
    shop.done("merge", shop.job, stick, "--in-place")
    assert shop.job.read_bytes() == before
    assert (shop.job.stat().st_ino, shop.job.stat().st_mtime_ns) == (state.st_ino, state.st_mtime_ns)


def test_work_goes_on_after_a_merge_in_place(shop: Shop, stick: Path) -> None:
    """The next entry follows both branches."""
    shop.done("merge", shop.job, stick, "--in-place")
    shop.record("--note", "Back together.")
    assert len(entries(shop.job)[-1]["follows"]) == 2
    assert intact(shop.job) == []


@pytest.mark.parametrize("more", [[], ["--out", "both.job.toml", "--in-place"]])
def test_where_to_is_said_once(shop: Shop, stick: Path, more: list[str]) -> None:
    """Neither a new file nor in place, or both: exit 2, and nothing is written."""
    before = shop.job.read_bytes()
    ended = shop.run("merge", shop.job, stick, *more)
    assert ended.status == 2
    assert "--out FILE" in one_line(ended.err)
    assert shop.job.read_bytes() == before
    assert not Path("both.job.toml").exists()


def test_an_entry_recorded_meanwhile_is_kept(
    shop: Shop, stick: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What another program records before the lock is had is in the result; afterwards it is kept out."""
    honest, replace, kept_out = disk.locked, disk.replace_whole, []

    @contextmanager
    def locked(path: Path, wait: float | None = None) -> Iterator[None]:
        monkeypatch.setattr(disk, "locked", honest)
        shop.done("record", shop.job, "--by", "Teo", "--note", "meanwhile")
        with honest(path, wait):
            yield

    def replace_whole(path: Path, data: bytes) -> None:
        with pytest.raises(Timeout):
            FileLock(f"{shop.job}.lock", timeout=0).acquire()
        kept_out.append(path)
        replace(path, data)

    monkeypatch.setattr(disk, "locked", locked)
    monkeypatch.setattr(disk, "replace_whole", replace_whole)
    shop.done("merge", shop.job, stick, "--in-place")
    assert kept_out == [shop.job]
    assert {one["by"] for one in entries(shop.job)} == {"Wim", "Ada", "Teo"}
    assert len(entries(shop.job)) == 5


def test_a_held_lock_is_said(shop: Shop, stick: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program holds it for longer than one waits: exit 2, and the file stays as it was."""
    monkeypatch.setattr(disk, "LOCK_WAIT", 0.05)
    before = shop.job.read_bytes()
    with disk.locked(shop.job):
        ended = shop.run("merge", shop.job, stick, "--in-place")
    assert ended.status == 2
    assert "another program holds the file's lock" in one_line(ended.err)
    assert shop.job.read_bytes() == before


def test_a_lock_that_cannot_be_had_is_said(shop: Shop, stick: Path) -> None:
    """A folder in the place of the lock's file: exit 2, and the file stays as it was."""
    Path(f"{shop.job}.lock").unlink(missing_ok=True)
    Path(f"{shop.job}.lock").mkdir()
    before = shop.job.read_bytes()
    ended = shop.run("merge", shop.job, stick, "--in-place")
    assert ended.status == 2
    assert re.fullmatch(rf"{re.escape(str(shop.job))}: can't be locked: .*; use --out", one_line(ended.err))
    assert shop.job.read_bytes() == before


def test_git_s_own_files_get_no_lock(shop: Shop, stick: Path) -> None:
    """Under another name than a job file's nothing is left beside it."""
    folder = shop.folder / "tree"
    folder.mkdir()
    ours = Path(shutil.copy(shop.job, folder / ".merge_file_a1b2c3"))
    shop.done("merge", ours, stick, "--in-place")
    assert [one.name for one in folder.iterdir()] == [ours.name]
    assert len(entries(ours)) == 4


def test_an_empty_copy_holds_nothing(shop: Shop, stick: Path) -> None:
    """Git gives an empty older copy where it knows none: it is left out. The file itself can't be empty."""
    empty = shop.folder / "empty.job.toml"
    empty.write_bytes(b"")
    assert shop.done("merge", shop.job, stick, empty, "--in-place").out == MERGED.format(shop.job)
    assert len(entries(shop.job)) == 4
    assert shop.run("merge", empty, stick, "--in-place").status == 2
    assert empty.read_bytes() == b""


# Damage


def test_damage_leaves_the_file_as_it_was(shop: Shop, stick: Path) -> None:
    """An entry that no copy holds sound, here or there: exit 1, and the file stays as it was."""
    stick.write_bytes(stick.read_bytes().replace(b"her yard", b"his yard"))
    for first, second in ((shop.job, stick), (stick, shop.job)):
        before = first.read_bytes()
        ended = shop.run("merge", first, second, "--in-place")
        assert ended.status == 1
        assert "an entry can't be read and no copy holds it sound" in one_line(ended.err)
        assert first.read_bytes() == before


def test_another_job_leaves_the_file_as_it_was(shop: Shop) -> None:
    """Different headers: exit 2."""
    other = shop.folder / "other.job.toml"
    shop.done("begin", TEMPLATE, "--out", other, "--by", "Wim")
    before = shop.job.read_bytes()
    assert shop.run("merge", shop.job, other, "--in-place").status == 2
    assert shop.job.read_bytes() == before


@pytest.mark.parametrize("what", ["torn", "altered", "stray"])
def test_what_cannot_be_read_is_kept_beside(shop: Shop, stick: Path, what: str) -> None:
    """What the result doesn't hold of the file that it replaces is put aside byte for byte, and said."""
    shop.done("merge", stick, shop.job, "--in-place")
    whole = stick.read_bytes()
    damaged = {
        "torn": whole[:-9], "altered": whole.replace(b"her yard", b"his yard"), "stray": whole + b"scrap = 1\n",
    }[what]  # fmt: skip
    shop.job.write_bytes(damaged)
    ended = shop.done("merge", shop.job, stick, "--in-place")
    assert shop.job.read_bytes() == whole
    [aside] = shop.folder.glob("hook.set-aside-*")
    assert aside.read_bytes() == damaged
    assert f"{shop.job}: held what can't be read; as it was, it is kept in {aside}\n" in ended.err


def test_without_a_damaged_entry_in_place(shop: Shop, stick: Path) -> None:
    """By name, with its condition; the damaged copy is kept beside."""
    damaged = stick.read_bytes().replace(b"her yard", b"his yard")
    stick.write_bytes(damaged)
    said = shop.run("merge", stick, shop.job, "--in-place").err
    found = re.search(r"--without ([0-9a-f]{32})", said)
    assert found
    shop.done("merge", stick, shop.job, "--in-place", "--without", found[1], "--by", "Ada")
    assert found[1] in "".join(act["opens"] for act in entries(stick)[-1]["did"] if "opens" in act)
    [aside] = stick.parent.glob("hook.set-aside-*")
    assert aside.read_bytes() == damaged


@pytest.mark.skipif(os.name != "posix", reason="links and modes as Unix has them")
def test_links_and_modes_stay(shop: Shop, stick: Path) -> None:
    """The file behind a link is replaced, not the link; who may write to it may go on."""
    shop.job.chmod(0o664)
    link = shop.folder / "link.job.toml"
    link.symlink_to(shop.job)
    shop.done("merge", link, stick, "--in-place")
    assert link.is_symlink()
    assert len(entries(shop.job)) == 4
    assert shop.job.stat().st_mode & 0o777 == 0o664


def test_a_disk_that_takes_nothing_leaves_the_file(
    shop: Shop, stick: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It can't be replaced: exit 2, one line, and the file stays as it was."""

    def full(path: Path, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk, "replace_whole", full)
    before = shop.job.read_bytes()
    ended = shop.run("merge", shop.job, stick, "--in-place")
    assert ended.status == 2
    assert one_line(ended.err) == f"{shop.job}: can't be replaced: No space left on device; use --out"
    assert shop.job.read_bytes() == before


# An older copy put back by mistake


@pytest.fixture
def newer(shop: Shop) -> Path:
    """Two entries recorded, then an older copy put back; the newer one is still on the stick."""
    older = shop.job.read_bytes()
    shop.record("--note", "one")
    shop.record(DONOR, "--reading", "holes=1012", by="Ada")
    copy = Path(shutil.copy(shop.job, shop.folder / "newer.job.toml"))
    shop.job.write_bytes(older)
    return copy


def test_an_older_copy_is_noticed(shop: Shop, newer: Path) -> None:
    """`show` says when and by whom the last that is gone was, and what mends it; `intact` calls it missing."""
    last = entries(newer)[-1]
    [said] = [line for line in shop.done("show", shop.job).out.splitlines() if line.startswith(GONE)]
    assert f"the last of {last['at']:%Y-%m-%d %H:%M} by Ada, in this file." in said
    assert said.endswith("jobtrack merge.")
    ended = shop.run("intact", shop.job)
    assert (ended.status, ended.err) == (1, "")
    lines = len(shop.job.read_bytes().splitlines())
    assert one_line(ended.out).startswith(f"{shop.job}:{lines}: missing: the entry {last['hash']} ")


def test_the_newer_copy_has_nothing_against_it(shop: Shop, newer: Path) -> None:
    """It holds all that was seen."""
    assert GONE not in shop.done("show", newer).out
    assert shop.run("intact", newer).status == 0


def test_what_only_the_other_copy_has_is_named_with_its_file(shop: Shop, stick: Path) -> None:
    """Two copies worked on from one machine: each names the other, until they are joined; nothing is gone."""
    other = f"! Another copy, {shop.job}, has entries that this one hasn't; jobtrack merge joins them."
    assert other in shop.done("show", stick).out
    assert "missing" in shop.done("intact", stick).out
    shop.done("merge", stick, shop.job, "--in-place")
    assert "Another copy" not in shop.done("show", stick).out


def test_another_copy_that_is_no_longer_there_is_gone(shop: Shop, stick: Path) -> None:
    """Where the file in which the rest was seen is gone too, its entries are."""
    shop.done("show", shop.job)
    shop.job.unlink()
    [said] = [line for line in shop.done("show", stick).out.splitlines() if line.startswith(GONE)]
    assert f"by Wim, in {shop.job}." in said
    assert shop.run("intact", stick).status == 1


def test_work_on_an_older_copy_does_not_hide_it(shop: Shop, newer: Path) -> None:
    """It is said until the newer copy is merged; then everything is there."""
    shop.record("--note", "went on")
    assert GONE in shop.done("show", shop.job).out
    assert shop.run("intact", shop.job).status == 1
    shop.done("merge", shop.job, newer, "--in-place")
    assert GONE not in shop.done("show", shop.job).out
    assert shop.run("intact", shop.job).status == 0
    assert len(entries(shop.job)) == 4


def test_a_machine_that_has_seen_nothing_says_nothing(
    shop: Shop, newer: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On another machine the older copy is a whole file: it alone can't know."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "another machine"))
    assert GONE not in shop.done("show", shop.job).out
    assert shop.run("intact", shop.job).status == 0


@pytest.mark.parametrize("what", ["corrupt", "no folder"])
def test_a_broken_memory_breaks_nothing(
    shop: Shop, newer: Path, own_state: Path, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    """Show, intact and record work as ever; nothing is said that isn't known."""
    if what == "corrupt":
        [memory] = (own_state / "jobtrack" / "seen").glob("*.json")
        memory.write_bytes(b'[{"hash": ')
    else:
        nowhere = own_state / "nowhere"
        nowhere.write_bytes(b"")
        monkeypatch.setenv("XDG_STATE_HOME", str(nowhere))
    assert GONE not in shop.done("show", shop.job).out
    assert shop.run("intact", shop.job).status == 0
    shop.record("--note", "on")


# Several names of one file


@pytest.mark.skipif(os.name != "posix", reason="links as Unix has them")
def test_hard_links_are_said_and_not_parted(shop: Shop, stick: Path) -> None:
    """A file with a second name: `show` says so by either, and a merge in its place is refused in one line."""
    second = shop.folder / "second.job.toml"
    os.link(shop.job, second)
    before = shop.job.read_bytes()
    for one in (shop.job, second):
        assert (
            "! This file has 2 names (hard links): record by one of them only." in shop.done("show", one).out
        )
        ended = shop.run("merge", one, stick, "--in-place")
        assert ended.status == 2
        assert one_line(ended.err) == (
            f"{one}: the file has 2 names (hard links), and a merge in place would part them; use --out"
        )
    assert shop.job.samefile(second)
    assert shop.job.read_bytes() == before
    second.unlink()
    assert "hard links" not in shop.done("show", shop.job).out
    shop.done("merge", shop.job, stick, "--in-place")


@pytest.mark.skipif(os.name != "posix", reason="links as Unix has them")
@pytest.mark.parametrize("name", ["today.job.toml", "today", "today.toml"])
def test_a_merge_holds_the_lock_by_any_name(
    shop: Shop, stick: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever the link is called, a merge by it waits for who records in the file itself."""
    monkeypatch.setattr(disk, "LOCK_WAIT", 0.05)
    link = shop.folder / name
    link.symlink_to(shop.job)
    with disk.locked(shop.job):
        ended = shop.run("merge", link, stick, "--in-place")
    assert (ended.status, "holds the file's lock" in one_line(ended.err)) == (2, True)
    shop.done("merge", link, stick, "--in-place")
    assert not Path(f"{link}.lock").exists()


def test_a_job_of_another_ending_is_locked_too(
    shop: Shop, stick: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A job file that somebody has called otherwise is recorded in and merged under one lock."""
    monkeypatch.setattr(disk, "LOCK_WAIT", 0.05)
    other = shop.job.rename(shop.folder / "hook.toml")
    with disk.locked(other):
        assert shop.run("merge", other, stick, "--in-place").status == 2


@pytest.mark.skipif(os.name != "posix", reason="links as Unix has them")
def test_a_link_that_changes_under_a_merge(shop: Shop, stick: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A link that leads elsewhere since it was read: exit 2, and neither file is written to."""
    link = shop.folder / "today.job.toml"
    link.symlink_to(shop.job)
    before = shop.job.read_bytes(), stick.read_bytes()
    honest = merge.merge_files

    def turned(*arguments: Any) -> merge.Merged:
        merged = honest(*arguments)
        link.unlink()
        link.symlink_to(stick)
        return merged

    monkeypatch.setattr(merge, "merge_files", turned)
    ended = shop.run("merge", link, stick, "--in-place")
    assert (ended.status, "leads to another file" in one_line(ended.err)) == (2, True)
    assert (shop.job.read_bytes(), stick.read_bytes()) == before


@pytest.mark.skipif(os.name != "posix", reason="links as Unix has them")
def test_a_photo_by_a_link_lies_beside_the_file(shop: Shop) -> None:
    """A photo recorded by a link is where each name of the job finds it."""
    bench = shop.folder / "bench"
    bench.mkdir()
    link = bench / "today.job.toml"
    link.symlink_to(shop.job)
    photo = shop.folder / "seen.png"
    photo.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(64))
    shop.done("record", link, "--photo", photo, "--by", "Wim")
    assert len(list((shop.folder / "hook.photos").iterdir())) == 1
    assert [one.name for one in bench.iterdir()] == [link.name]
