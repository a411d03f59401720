"""Copies of a job shared through the real git: cloned, recorded in apart, pulled, pushed."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import jobtrack
from jobtrack.cli.merging import FOR_GIT
from jobtrack.store.copies.intact import intact
from jobtrack.store.file.writer import JobFile
from tests.support.cli_calls import TEMPLATE, Shop, entries

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="git isn't installed")
NAME = "hook.job.toml"
WHO = ("Wim", "Ada", "Teo")
CONVERTED = "*.job.toml merge=jobtrack text\n"
"""What one clone says of its own: line endings are converted there, whatever the others say."""


class Clone:
    """One laptop's copy of the shop's repository."""

    def __init__(self, folder: Path, who: str, shop: Shop) -> None:
        self.folder = folder
        self.who = who
        self.job = folder / NAME
        self._shop = shop

    def git(self, *words: str) -> subprocess.CompletedProcess[str]:
        """One call of git, whatever comes of it."""
        return subprocess.run(
            ["git", *words], cwd=self.folder, capture_output=True, text=True, timeout=60, check=False
        )

    def done(self, *words: str) -> str:
        """One call of git that ends with status 0: what it printed."""
        ended = self.git(*words)
        assert ended.returncode == 0, (words, ended.stdout, ended.stderr)
        return ended.stdout

    def shell(self, lines: str) -> None:
        """Type lines into a shell."""
        subprocess.run(["sh", "-e"], input=lines, cwd=self.folder, text=True, timeout=60, check=True)

    def record(self, *words: str, commit: bool = True) -> None:
        """One call of `record` on this laptop, committed unless said otherwise."""
        self._shop.done("record", self.job, *words, "--by", self.who)
        if commit:
            self.commit()

    def commit(self) -> None:
        self.done("commit", "-a", "-q", "-m", f"From {self.who}")

    def share(self, *how: str) -> None:
        """Pull, by a merge unless said otherwise, and push."""
        self.done("pull", "-q", *(how or ("--no-rebase", "--no-edit")))
        self.done("push", "-q")

    def committed(self) -> bytes:
        """The job file as it stands in this laptop's repository."""
        return subprocess.run(
            ["git", "cat-file", "blob", f"HEAD:{NAME}"], cwd=self.folder, capture_output=True, check=True
        ).stdout

    def notes(self) -> set[str]:
        return {act["note"] for entry in entries(self.job) for act in entry["did"] if "note" in act}


@pytest.fixture
def own_git(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody's configuration of git is read, and `jobtrack` on the PATH is the one under test."""
    for name in [name for name in os.environ if name.startswith("GIT_")]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    monkeypatch.setenv("LC_ALL", "C")
    programs = tmp_path / "programs"
    programs.mkdir()
    program = programs / "jobtrack"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m jobtrack "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    root = Path(jobtrack.__file__).parents[1]
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join([str(root), os.environ.get("PYTHONPATH", "")]))
    monkeypatch.setenv("PATH", os.pathsep.join([str(programs), os.environ["PATH"]]))


@pytest.fixture
def laptops(own_git: None, empty_shop: Shop, tmp_path: Path) -> list[Clone]:
    """Three clones of one repository with one job in it, each set up by what `merge --git` prints."""
    subprocess.run(["git", "init", "-q", "--bare", "origin"], cwd=tmp_path, check=True)
    clones = []
    for who in WHO:
        subprocess.run(
            ["git", "clone", "-q", "origin", who], cwd=tmp_path, check=True, stderr=subprocess.PIPE
        )
        clones.append(Clone(tmp_path / who, who, empty_shop))
    for number, clone in enumerate(clones):
        clone.done("config", "user.name", clone.who)
        clone.done("config", "user.email", f"{clone.who.lower()}@shop.example")
        if number == 0:
            clone.shell(FOR_GIT)
            empty_shop.done("begin", TEMPLATE, "--out", clone.job, "--by", clone.who)
            clone.done("add", ".")
            clone.commit()
            clone.done("push", "-q", "-u", "origin", "HEAD")
        else:
            clone.shell("".join(line for line in FOR_GIT.splitlines(True) if line.startswith("git config")))
            clone.done("pull", "-q")
    return clones


def record_apart(laptops: list[Clone]) -> None:
    """Each measures the same on its own, and writes a note."""
    for clone, holes in zip(laptops, ("1012", "1013", "1014"), strict=False):
        clone.record("spacing.donor", "--reading", f"holes={holes}")
        clone.record("spacing.donor", "--note", f"From {clone.who}.")


def share_all(laptops: list[Clone], *how: str) -> None:
    """Each in turn until each has all."""
    for clone in (*laptops, *laptops):
        clone.share(*how)


def assert_all_have_all(laptops: list[Clone]) -> None:
    """The same bytes in each repository, everybody's entries in them, and nothing but entries."""
    assert len({clone.committed() for clone in laptops}) == 1
    for clone in laptops:
        assert clone.notes() == {f"From {who}." for who in WHO}
        assert len(entries(clone.job)) == 7
        assert b"\r" not in clone.committed()
        assert b"<<<<<<<" not in clone.job.read_bytes()
        assert [one for one in intact(clone.job) if not one.remark] == []
        assert clone.done("status", "--porcelain") == ""


def test_what_is_printed_for_git(own_git: None) -> None:
    """`merge --git` wants no job file, changes nothing, and prints what the other tests type."""
    ended = subprocess.run(["jobtrack", "merge", "--git"], capture_output=True, text=True, check=True)
    assert (ended.stdout, ended.stderr) == (FOR_GIT, "")
    assert 'merge.jobtrack.driver "jobtrack merge %A %B %O --in-place"' in ended.stdout
    assert "*.job.toml merge=jobtrack -text" in ended.stdout


def test_three_laptops_come_to_the_same_bytes(laptops: list[Clone]) -> None:
    """Recorded apart, pulled and pushed in turn: everybody has everything, and no conflict."""
    record_apart(laptops)
    share_all(laptops)
    assert_all_have_all(laptops)
    assert len({clone.job.read_bytes() for clone in laptops}) == 1


def test_three_laptops_that_rebase(laptops: list[Clone]) -> None:
    """Pulled with a rebase, entry upon entry: the same."""
    record_apart(laptops)
    share_all(laptops, "--rebase")
    assert_all_have_all(laptops)


def test_line_endings_converted_on_one_laptop(laptops: list[Clone]) -> None:
    """One has CRLF in its files: the same bytes in the repository, and every entry in its file too."""
    converts = laptops[1]
    converts.done("config", "core.autocrlf", "true")
    (converts.folder / ".git" / "info" / "attributes").write_text(CONVERTED, encoding="utf-8")
    converts.job.unlink()
    converts.done("checkout", "-q", "--", NAME)
    assert b"\r\n" in converts.job.read_bytes()
    record_apart(laptops)
    share_all(laptops)
    assert_all_have_all(laptops)
    assert converts.job.read_bytes().replace(b"\r\n", b"\n") == laptops[0].job.read_bytes()


def test_line_endings_converted_in_the_repository(laptops: list[Clone]) -> None:
    """An editor's CRLF, committed as it is, is gone after the next merge."""
    first, second = laptops[:2]
    first.record("--note", "From Wim.")
    second.record("--note", "From Ada.")
    second.job.write_bytes(second.job.read_bytes().replace(b"\n", b"\r\n"))
    second.commit()
    assert b"\r\n" in second.committed()
    first.share()
    second.share()
    assert second.notes() == {"From Wim.", "From Ada."}
    assert b"\r" not in second.job.read_bytes()
    assert intact(second.job) == []


def test_a_cherry_picked_entry_counts_once(laptops: list[Clone]) -> None:
    """Taken over by itself, then merged with the rest: every entry once."""
    first, second = laptops[:2]
    first.record("--note", "left out")
    first.record("--note", "picked")
    second.record("--note", "own")
    first.done("push", "-q")
    second.done("fetch", "-q")
    second.done("cherry-pick", "@{upstream}")
    assert {"picked", "own"} <= second.notes()
    second.share()
    first.share()
    assert first.job.read_bytes() == second.job.read_bytes()
    assert first.notes() == {"left out", "picked", "own"}
    assert len(entries(first.job)) == 4
    assert intact(first.job) == []


def test_crossing_merges_come_to_the_same(laptops: list[Clone]) -> None:
    """Two that have each merged the other's branch, and merge again, have the same bytes."""
    first, second = laptops[:2]
    for clone in (first, second):
        clone.record("--note", f"one of {clone.who}")
        clone.done("push", "-q", "origin", f"HEAD:{clone.who}")
    for clone, other in ((first, second), (second, first)):
        clone.done("fetch", "-q")
        clone.done("merge", "-q", "--no-edit", f"origin/{other.who}")
        clone.record("--note", f"two of {clone.who}")
        clone.done("push", "-q", "-f", "origin", f"HEAD:{clone.who}")
    for clone, other in ((first, second), (second, first)):
        clone.done("fetch", "-q")
        clone.done("merge", "-q", "--no-edit", f"origin/{other.who}")
    assert first.job.read_bytes() == second.job.read_bytes()
    assert first.notes() == {f"{number} of {who}" for number in ("one", "two") for who in ("Wim", "Ada")}
    assert intact(first.job) == []


def test_a_job_that_both_add(laptops: list[Clone], empty_shop: Shop) -> None:
    """Begun here, brought there on a stick and added on both: git knows no older copy, and they join."""
    first, second = laptops[:2]
    begun = first.folder / "new.job.toml"
    empty_shop.done("begin", TEMPLATE, "--out", begun, "--by", "Wim")
    shutil.copy(begun, second.folder)
    for clone in (first, second):
        clone.job = clone.folder / begun.name
        empty_shop.done("record", clone.job, "--note", clone.who, "--by", clone.who)
        clone.done("add", ".")
        clone.commit()
        clone.share()
    first.share()
    assert first.job.read_bytes() == second.job.read_bytes()
    assert first.notes() == {"Wim", "Ada"}


def test_an_entry_lost_on_both_sides_comes_back(laptops: list[Clone]) -> None:
    """What both have lost since the copy that they share is in that copy, and returns with the merge."""
    first, second = laptops[:2]
    first.record("--note", "to be lost")
    whole = first.job.read_bytes()
    first.share()
    second.share()
    for clone in (first, second):
        clone.job.write_bytes(whole[: whole.rindex(b"\n[[entry]]")])
        clone.record("--note", f"From {clone.who}.")
    first.done("push", "-q")
    second.share()
    assert second.notes() == {"to be lost", "From Wim.", "From Ada."}


def test_what_is_not_committed_stops_a_pull(laptops: list[Clone]) -> None:
    """A reading recorded and not yet committed: git pulls nothing over it, and it is still there."""
    first, second = laptops[:2]
    first.record("--note", "From Wim.")
    first.done("push", "-q")
    second.record("--note", "From Ada.", commit=False)
    before = second.job.read_bytes()
    assert second.git("pull", "--no-rebase", "--no-edit").returncode != 0
    assert second.job.read_bytes() == before
    second.commit()
    second.share()
    assert second.notes() == {"From Wim.", "From Ada."}


def test_a_reading_that_git_throws_away_is_noticed(laptops: list[Clone]) -> None:
    """Put back to what was committed, the file lacks an entry that this machine has seen."""
    first = laptops[0]
    first.record("--note", "not committed", commit=False)
    first.done("checkout", "-q", "--", NAME)
    [end] = JobFile(first.job).gone
    assert (end.by, end.file) == ("Wim", str(first.job))


def test_a_reverted_entry_stays(laptops: list[Clone]) -> None:
    """Nothing is taken out of a job by git: to revert a commit leaves its entries where they are."""
    first = laptops[0]
    first.record("--note", "stays")
    first.record("--note", "last")
    before = first.job.read_bytes()
    first.git("revert", "--no-edit", "HEAD~1")
    assert first.done("status", "--porcelain") == ""
    assert first.job.read_bytes() == before


def alter(clone: Clone) -> None:
    """A word of this laptop's last note changed by hand."""
    clone.job.write_bytes(clone.job.read_bytes().replace(b'"From ', b'"Fron '))
    clone.commit()


def change_header(clone: Clone) -> None:
    """The header changed by hand."""
    clone.job.write_bytes(clone.job.read_bytes().replace(b"Tow hook moved", b"Tow hook mowed"))
    clone.commit()


@pytest.mark.parametrize("damage", [alter, change_header])
@pytest.mark.parametrize("here", [True, False], ids=["here", "there"])
def test_damage_stops_git(laptops: list[Clone], damage: Callable[[Clone], None], here: bool) -> None:
    """An entry or a header that no copy holds sound: git reports a conflict, and ours is left as it was."""
    first, second = laptops[:2]
    record_apart(laptops)
    damage(second if here else first)
    first.share()
    ours = second.job.read_bytes()
    ended = second.git("pull", "--no-rebase", "--no-edit")
    assert ended.returncode != 0
    assert f"CONFLICT (content): Merge conflict in {NAME}" in ended.stdout
    assert second.done("status", "--porcelain", "--", NAME) == f"UU {NAME}\n"
    assert second.job.read_bytes() == ours
    second.done("merge", "--abort")
    assert second.job.read_bytes() == ours


def test_going_on_after_a_conflict(laptops: list[Clone], empty_shop: Shop) -> None:
    """Theirs is taken out of git, joined without the damaged entry by somebody's name, and committed."""
    first, second, third = laptops
    record_apart(laptops[:2])
    alter(first)
    first.share()
    third.done("pull", "-q")
    third.record("--note", "From Teo.")
    stopped = second.git("pull", "--no-rebase", "--no-edit")
    found = re.search(r"go on with --without ([0-9a-f]{32}) --by NAME", stopped.stderr)
    assert found
    second.shell(f"git show MERGE_HEAD:{NAME} > theirs.job.toml\n")
    without = ("--without", found[1], "--by", second.who)
    empty_shop.done("merge", second.job, second.folder / "theirs.job.toml", "--in-place", *without)
    (second.folder / "theirs.job.toml").unlink()
    second.commit()
    second.done("push", "-q")
    assert second.notes() == {"From Ada."}
    assert {act["value"] for entry in entries(second.job) for act in entry["did"] if "reading" in act} == {
        1012,
        1013,
    }
    assert "an entry that can't be read was set aside" in empty_shop.done("show", second.job).out
    third.share()  # somebody has answered for the damaged entry, so it stops nobody again
    assert third.notes() == {"From Ada.", "From Teo."}
    first.share()
    assert first.job.read_bytes() == third.job.read_bytes()
    assert "an entry that can't be read was set aside" in empty_shop.done("show", first.job).out


def test_without_the_driver_git_leaves_markers_that_are_told_apart(laptops: list[Clone]) -> None:
    """On a laptop that was never set up git's own markers stand in the file, and `intact` names them."""
    first, second = laptops[:2]
    second.done("config", "--remove-section", "merge.jobtrack")
    record_apart(laptops)
    first.share()
    assert second.git("pull", "--no-rebase", "--no-edit").returncode != 0
    assert b"<<<<<<<" in second.job.read_bytes()
    assert "stray" in {one.what for one in intact(second.job)}
