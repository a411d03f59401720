"""What is taken as a photo: a regular file of bounded size that begins like a picture; anything else in one line."""

from __future__ import annotations

import os
import socket
import struct
import zlib
from pathlib import Path

import pytest

from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine import photos
from jobtrack.store.machine.picture_kinds import picture_kind


def chunk(kind: bytes, data: bytes) -> bytes:
    """A chunk of a PNG: length, kind, data, CRC (W3C Portable Network Graphics, 5.3)."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


PNG = (
    b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    + chunk(b"IDAT", zlib.compress(b"\0\xff")) + chunk(b"IEND", b"")
)  # fmt: skip
"""One grey point."""
PICTURES = [
    (PNG, ".png"),
    # JFIF 1.02, "JPEG File Interchange Format": SOI, APP0; and Exif 2.3, 4.5.4: SOI, APP1
    (b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01\x02", ".jpg"),
    (b"\xff\xd8\xff\xe1\x00\x10Exif\x00\x00MM\x00*", ".jpg"),
    # GIF specification, versions 87a and 89a, logical screen of one point
    (b"GIF87a\x01\x00\x01\x00\x00\x00\x00;", ".gif"),
    (b"GIF89a\x01\x00\x01\x00\x00\x00\x00;", ".gif"),
    # RFC 9649, 2.5, 2.6 and 2.7: simple lossy, simple lossless, extended
    (b"RIFF\x1a\x00\x00\x00WEBPVP8 ", ".webp"),
    (b"RIFF\x0a\x0d\x00\x00WEBPVP8L", ".webp"),
    (b"RIFF\x1a\x00\x00\x00WEBPVP8X", ".webp"),
    # ISO/IEC 23008-12, brands of still pictures and sequences; AV1 Image File Format, 6
    (b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic", ".heic"),
    (b"\x00\x00\x00\x20ftypmif1\x00\x00\x00\x00mif1heic", ".heic"),
    (b"\x00\x00\x00\x20ftypavif\x00\x00\x00\x00avifmif1", ".avif"),
    # TIFF 6.0, 2, both orders of bytes
    (b"II*\x00\x08\x00\x00\x00", ".tif"),
    (b"MM\x00*\x00\x00\x00\x08", ".tif"),
    # BITMAPFILEHEADER and BITMAPINFOHEADER of one point
    (b"BM:\x00\x00\x00\x00\x00\x00\x006\x00\x00\x00(\x00\x00\x00\x01\x00\x00\x00", ".bmp"),
]
OTHER = {
    "nothing": b"",
    "a host's name": b"shop-laptop\n",
    "words that begin like a bitmap": b"BMW has no bolt like this one, look in the other box\n",
    "a page": b"<html><img src=x></html>",
    "a drawing that could hold a script": b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    "a PDF": b"%PDF-1.7\n",
    "a sound": b"RIFF\x24\x00\x00\x00WAVEfmt ",
    "a film": b"\x00\x00\x00\x18ftypisom\x00\x00\x00\x00isomavc1",
    "a picture's name alone": b"PNG",
    "only the start of an image": b"\xff\xd8",
    "a program": b"\x7fELF\x02\x01\x01",
    "a picture behind a line": b"\n" + PNG,
}


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return tmp_path / "bay.job.toml"


def refusal(photo: Path, job: Path) -> str:
    """The one line that refuses it; nothing was copied."""
    with pytest.raises(JobFileError) as caught:
        photos.take(photo, job)
    assert not list(photos.folder_of(job).glob("*")) or not photos.folder_of(job).is_dir()
    assert "\n" not in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize(("data", "ending"), PICTURES)
def test_a_picture_is_known_by_its_first_bytes(tmp_path: Path, job: Path, data: bytes, ending: str) -> None:
    """Whatever it is called, its copy has the name of what it holds."""
    photo = tmp_path / "weld.exe"
    photo.write_bytes(data)
    act = photos.take(photo, job)
    assert act.photo == f"{act.hash}{ending}"
    assert (photos.folder_of(job) / act.photo).read_bytes() == data


@pytest.mark.parametrize("data", OTHER.values(), ids=OTHER)
def test_what_is_no_picture_is_refused(tmp_path: Path, job: Path, data: bytes) -> None:
    """By one line that says what can be taken, whatever the file is called."""
    photo = tmp_path / "weld.jpg"
    photo.write_bytes(data)
    assert refusal(photo, job).endswith("; name a photo: JPEG, PNG, GIF, WebP, AVIF, HEIC, TIFF or BMP")


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/urandom", "/dev/null"])
def test_a_device_is_refused(job: Path, device: str) -> None:
    """What never ends isn't read, nor what is nothing at all."""
    if not os.path.exists(device):
        pytest.skip(f"{device} isn't here")
    assert refusal(Path(device), job).startswith(f"{device}: isn't a file of its own")


def test_a_pipe_is_refused_without_waiting(tmp_path: Path, job: Path) -> None:
    """A pipe that nobody writes to is said to be one, at once."""
    pipe = tmp_path / "weld.jpg"
    os.mkfifo(pipe)
    assert refusal(pipe, job).startswith(f"{pipe}: isn't a file of its own")


def test_a_socket_a_folder_and_nothing_are_refused(tmp_path: Path, job: Path) -> None:
    """Each with its name and the system's reason, or ours."""
    with socket.socket(socket.AF_UNIX) as one:
        one.bind(str(tmp_path / "socket"))
        for photo in (tmp_path / "socket", tmp_path, tmp_path / "no.jpg"):
            assert refusal(photo, job).startswith(f"{photo}: ")


def test_a_link_to_a_picture_is_a_picture(tmp_path: Path, job: Path) -> None:
    """What counts is what stands at its end."""
    (tmp_path / "weld.png").write_bytes(PNG)
    (tmp_path / "link.png").symlink_to(tmp_path / "weld.png")
    (tmp_path / "device.png").symlink_to("/dev/zero")
    assert photos.take(tmp_path / "link.png", job).photo.endswith(".png")
    with pytest.raises(JobFileError, match="isn't a file of its own"):
        photos.take(tmp_path / "device.png", job)


def test_a_picture_is_bounded(tmp_path: Path, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The largest is taken, one byte more is not, and no more than that is ever read."""
    monkeypatch.setattr(photos, "LARGEST", len(PNG))
    photo = tmp_path / "weld.png"
    photo.write_bytes(PNG + b"\0")
    assert "larger than" in refusal(photo, job)
    photo.write_bytes(PNG)
    assert photos.take(photo, job).photo.endswith(".png")


def test_a_file_in_the_folders_place_is_named(tmp_path: Path, job: Path) -> None:
    """Where a file stands in the place of the folder, the line names the folder, not the photo."""
    (tmp_path / "weld.png").write_bytes(PNG)
    folder = photos.folder_of(job)
    folder.write_bytes(b"")
    assert refusal(tmp_path / "weld.png", job).startswith(f"{folder}: is no folder")


def test_a_folder_that_takes_nothing_is_named(
    tmp_path: Path, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the disk is full, the line names the folder too."""

    def full(path: Path, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    (tmp_path / "weld.png").write_bytes(PNG)
    monkeypatch.setattr("jobtrack.store.file.disk.write_new", full)
    assert refusal(tmp_path / "weld.png", job).startswith(
        f"{photos.folder_of(job)}: takes no photo: No space"
    )


def test_no_kind_is_taken_for_another() -> None:
    """Each beginning is of one kind alone, and cut short is of none before its signature is whole."""
    for data, ending in PICTURES:
        assert picture_kind(data) == ending
        kinds = [picture_kind(data[:length]) for length in range(len(data))]
        assert set(kinds) <= {None, ending}
        assert kinds[0] is None
