"""Which files of a watched folder are new pictures that have arrived whole; in a real folder, byte by byte."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest

from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine.photos import LARGEST
from jobtrack.store.machine.picture_kinds import looks_whole
from jobtrack.store.machine.watched import SLOW, WatchedFolder, picture_at
from jobtrack.store.text.blocks import digest
from tests.store.machine.test_photos import OTHER, PNG
from tests.support.pictures import END, HEAD, jpeg, put

SINCE = 1_900_000_000.0
LATER = SINCE + 60


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    folder = tmp_path / "phone"
    folder.mkdir()
    return folder


@pytest.fixture
def watched(phone: Path) -> WatchedFolder:
    return WatchedFolder(phone, SINCE)


def names(watched: WatchedFolder) -> list[str]:
    return [one.path.name for one in watched.look().pictures]


def test_new_at_the_second_look_and_until_it_is_done_with(phone: Path, watched: WatchedFolder) -> None:
    """Its size must have stayed; it is given again until it is taken, then never."""
    put(phone / "a.jpg", jpeg("a"), LATER)
    assert names(watched) == []
    (picture,) = watched.look().pictures
    assert (picture.size, picture.changed) == (len(jpeg("a")), LATER)
    assert names(watched) == ["a.jpg"]
    watched.done_with(picture)
    assert names(watched) == names(watched) == []
    watched.again(picture)
    assert names(watched) == ["a.jpg"]


def test_the_oldest_first(phone: Path, watched: WatchedFolder) -> None:
    for number in (3, 1, 2):
        put(phone / f"{number}.jpg", jpeg(str(number)), LATER + number)
    watched.look()
    assert names(watched) == ["1.jpg", "2.jpg", "3.jpg"]


def test_a_picture_that_arrives_in_pieces(phone: Path, watched: WatchedFolder) -> None:
    """As long as it grows, and where it stops in the middle, it isn't taken; with its end it is."""
    whole = jpeg("gasket", 3000)
    for length in range(0, len(whole), 500):
        put(phone / "a.jpg", whole[:length], LATER + length / 1000)
        assert names(watched) == []
    for _ in range(3):
        assert names(watched) == [], "half of it has stayed so, and has no end"
    put(phone / "a.jpg", whole, LATER + 9)
    assert names(watched) == []
    assert names(watched) == ["a.jpg"]


def test_a_picture_with_something_behind_its_end_is_taken_in_time(
    phone: Path, watched: WatchedFolder
) -> None:
    """Some cameras put words of their own there; after a while of stillness it is taken as it is."""
    put(phone / "a.jpg", jpeg("a") + b"camera's own", LATER)
    looks = [names(watched) for _ in range(SLOW + 1)]
    assert looks == [[]] * SLOW + [["a.jpg"]]


def test_a_file_that_changes_after_it_was_taken_is_another_picture(
    phone: Path, watched: WatchedFolder
) -> None:
    put(phone / "a.jpg", jpeg("a"), LATER)
    watched.look()
    (picture,) = watched.look().pictures
    put(phone / "a.jpg", jpeg("a, turned"), LATER + 1)
    watched.look()
    watched.done_with(picture)
    assert names(watched) == ["a.jpg"]


def test_what_was_there_before_stays_where_it_is(phone: Path, watched: WatchedFolder) -> None:
    put(phone / "old.jpg", jpeg("old"), SINCE - 1)
    put(phone / "new.jpg", jpeg("new"), SINCE)
    watched.look()
    assert names(watched) == ["new.jpg"]


@pytest.mark.parametrize("data", OTHER.values(), ids=OTHER)
def test_no_picture_is_ever_given(phone: Path, watched: WatchedFolder, data: bytes) -> None:
    put(phone / "a.jpg", data, LATER)
    assert [names(watched) for _ in range(SLOW + 2)] == [[]] * (SLOW + 2)


@pytest.mark.skipif(os.name != "posix", reason="pipes, sockets and links as POSIX has them")
def test_a_pipe_a_socket_a_link_and_a_folder_are_left_alone(
    phone: Path, watched: WatchedFolder, tmp_path: Path
) -> None:
    """None is opened: a pipe without a writer would be waited for without end."""
    os.mkfifo(phone / "pipe.jpg")
    (phone / "folder.jpg").mkdir()
    real = put(tmp_path / "elsewhere.jpg", jpeg("x"), LATER)
    (phone / "link.jpg").symlink_to(real)
    put(phone / ".hidden.jpg", jpeg("y"), LATER)
    with socket.socket(socket.AF_UNIX) as one:
        one.bind(os.fspath(phone / "s.jpg"))
        assert [names(watched) for _ in range(3)] == [[]] * 3
    assert watched.newest(()) is None


def test_a_huge_file_is_refused_once(phone: Path, watched: WatchedFolder) -> None:
    """More than a photo holds: said in one line, once, and never read."""
    path = put(phone / "film.jpg", HEAD, LATER)
    os.truncate(path, LARGEST + 1)
    os.utime(path, (LATER, LATER))
    said = [watched.look().trouble for _ in range(4)]
    assert [bool(one) for one in said] == [False, True, False, False]
    assert "film.jpg: larger than 64 MiB, not taken; make it smaller" in said[1]
    assert watched.newest(()) is None
    with pytest.raises(JobFileError, match="larger than 64 MiB"):
        picture_at(path)


def test_a_folder_that_is_not_there_is_said_once_and_found_when_it_comes(tmp_path: Path) -> None:
    watched = WatchedFolder(tmp_path / "card", SINCE)
    said = [watched.look().trouble for _ in range(2)]
    assert said[0].endswith(
        "card: no photos arrive: No such file or directory; mend it, or `photos` in the settings"
    )
    assert said[1] == ""
    (tmp_path / "card").mkdir()
    put(tmp_path / "card" / "a.jpg", jpeg("a"), LATER)
    watched.look()
    assert names(watched) == ["a.jpg"]


def test_odd_names_are_names(phone: Path, watched: WatchedFolder) -> None:
    """Line breaks, brackets, and bytes that are no text."""
    odd = os.fsencode(phone) + b"/\xff\n[b] \x1b.jpg"
    Path(os.fsdecode(odd)).write_bytes(jpeg("x"))
    os.utime(odd, (LATER, LATER))
    watched.look()
    assert [os.fsencode(name) for name in names(watched)] == [b"\xff\n[b] \x1b.jpg"]


def test_the_newest_that_is_not_known(phone: Path, watched: WatchedFolder) -> None:
    """By its bytes, whatever it is called; older than the app too."""
    put(phone / "a.jpg", jpeg("a"), SINCE - 200)
    put(phone / "b.jpg", jpeg("b"), SINCE - 100)
    put(phone / "b, again.jpg", jpeg("b"), SINCE - 50)
    put(phone / "note.txt", b"seal at Ilse's", SINCE)
    newest = watched.newest(())
    assert newest is not None
    assert newest.path.name == "b, again.jpg"
    older = watched.newest({digest(jpeg("b"))})
    assert older is not None
    assert older.path.name == "a.jpg"
    assert watched.newest({digest(jpeg("b")), digest(jpeg("a"))}) is None


@pytest.mark.parametrize(
    ("data", "whole"),
    [
        (PNG, True), (PNG[:-1], False), (jpeg("a"), True), (HEAD, False), (HEAD + END, True),
        (b"GIF89a\x01\x00\x01\x00\x00\x00\x00;", True), (b"GIF89a\x01\x00\x01\x00\x00\x00\x00", False),
        (b"RIFF\x0a\x00\x00\x00WEBPVP8 ab", True), (b"RIFF\x1a\x00\x00\x00WEBPVP8 ", False),
        (b"BM\x1a\x00\x00\x00\x00\x00\x00\x00\x1a\x00\x00\x00\x0c\x00\x00\x00abcdefgh", True),
        (b"BM\x3a\x00\x00\x00\x00\x00\x00\x00\x1a\x00\x00\x00\x0c\x00\x00\x00abcdefgh", False),
        (b"II*\x00\x08\x00\x00\x00", True),
    ],
)  # fmt: skip
def test_how_a_picture_ends(data: bytes, whole: bool) -> None:
    """Sources beside `ENDS` and in `looks_whole`; of a TIFF or HEIC nothing is said."""
    assert looks_whole(data[:64], data[-64:], len(data)) is whole
