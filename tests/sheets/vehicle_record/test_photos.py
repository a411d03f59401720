"""Photos on the record: nothing but the picture, upright and small; what can't be shown is said in one line."""

from __future__ import annotations

import io
import os
import zlib
from base64 import b64decode, b64encode
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image, ImageDraw, PngImagePlugin

from jobtrack.job.acts.doing import PhotoAct
from jobtrack.sheets.paper.blocks import Photo
from jobtrack.sheets.vehicle_record.photo_files import LONGEST_SIDE, photos_of
from jobtrack.store.machine.photos import folder_of
from tests.sheets.vehicle_record.made import exchange, forms, put, record

SECRET = b"SECRET-PLACE"
XMP = b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file's name, with an empty folder of photos beside it."""
    path = tmp_path / "bay.job.toml"
    folder_of(path).mkdir()
    return path


def kept(job: Path, name: str, data: bytes) -> Photo | str:
    (folder_of(job) / name).write_bytes(data)
    return photos_of(job, [name])[name]


def picture(width: int = 40, height: int = 20) -> Image.Image:
    """Red on the left, blue on the right."""
    made = Image.new("RGB", (width, height), "red")
    ImageDraw.Draw(made).rectangle((width // 2, 0, width, height), "blue")
    return made


def bytes_of(made: Image.Image, kind: str, **more: object) -> bytes:
    out = io.BytesIO()
    made.save(out, kind, **more)
    return out.getvalue()


def exif(orientation: int = 1) -> Image.Exif:
    """Orientation, a camera's name, a comment, a place on earth."""
    tags = Image.Exif()
    tags[0x0112], tags[0x010F], tags[0x9286] = orientation, SECRET.decode(), SECRET
    tags.get_ifd(0x8825)[1], tags.get_ifd(0x8825)[29] = "N", SECRET.decode()
    return tags


def jpeg() -> bytes:
    """With EXIF, a place, a comment, XMP, a profile of colours, and a thumbnail behind the picture."""
    data = bytes_of(picture(), "JPEG", exif=exif(), comment=SECRET, icc_profile=SECRET * 20)
    segment = b"\xff\xe1" + (len(XMP) + 2).to_bytes(2, "big") + XMP
    return data[:2] + segment + data[2:] + SECRET + bytes_of(picture(8, 8), "JPEG", comment=SECRET)


def png() -> bytes:
    """With words in it, packed and plain, a time, and EXIF."""
    info = PngImagePlugin.PngInfo()
    info.add_text("Comment", SECRET.decode())
    info.add_itxt("XML:com.adobe.xmp", SECRET.decode(), zip=True)
    return bytes_of(picture(), "PNG", pnginfo=info, exif=exif()) + SECRET


@pytest.mark.parametrize("made", [jpeg, png])
def test_nothing_but_the_picture_is_left(made: Callable[[], bytes], job: Path) -> None:
    """No place, time, camera, comment, profile or thumbnail, in the bytes or in any form of the sheet."""
    data = made()
    assert SECRET in data
    photo = kept(job, "a1.jpg", data)
    assert isinstance(photo, Photo)
    again = Image.open(io.BytesIO(photo.data))
    assert (again.format, again.size, dict(again.getexif())) == ("JPEG", (40, 20), {})
    assert set(again.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert SECRET not in photo.data
    copy = exchange()
    put(copy, "height", PhotoAct("a1.jpg"))
    for text in forms(record(copy.job, photos={"a1.jpg": photo})):
        assert SECRET.decode() not in text
        assert b64encode(SECRET)[:12].decode() not in text
    html = next(forms(record(copy.job, photos={"a1.jpg": photo})))
    assert b64decode(html.partition("base64,")[2].partition('"')[0]) == photo.data


def test_it_stands_upright_and_small(job: Path) -> None:
    """Turned as the camera was held; no side longer than is printed."""
    photo = kept(job, "a1.jpg", bytes_of(picture(4000, 2000), "JPEG", exif=exif(6)))
    assert isinstance(photo, Photo)
    made = Image.open(io.BytesIO(photo.data))
    assert made.size == (LONGEST_SIDE // 2, LONGEST_SIDE)
    red, blue = made.getpixel((100, 100)), made.getpixel((100, 1300))
    assert isinstance(red, tuple)
    assert isinstance(blue, tuple)
    assert red[0] > 200 > 60 > red[2]
    assert blue[2] > 200 > 60 > blue[0]


def test_what_is_transparent_is_paper(job: Path) -> None:
    """White, not black."""
    photo = kept(job, "a1.png", bytes_of(Image.new("RGBA", (9, 9), (0, 0, 0, 0)), "PNG"))
    assert isinstance(photo, Photo)
    assert Image.open(io.BytesIO(photo.data)).getpixel((4, 4)) == (255, 255, 255)


def bomb() -> bytes:
    """A PNG of a few bytes that says it is 60,000 pixels wide and high."""
    head = b"IHDR" + (60000).to_bytes(4, "big") * 2 + b"\x08\x02\0\0\0"
    chunk = (13).to_bytes(4, "big") + head + zlib.crc32(head).to_bytes(4, "big")
    return b"\x89PNG\r\n\x1a\n" + chunk + bytes_of(picture(), "PNG")[33:]


HEIC = b"\0\0\0\x18ftypheic" + bytes(40)
BAD: dict[str, tuple[Callable[[], bytes], str]] = {
    "broken": (lambda: jpeg()[:300], "its file is broken"),
    "empty": (lambda: b"", "its file is broken"),
    "no picture": (lambda: b"PK\x03\x04" + bytes(90), "its file is broken"),
    "bomb": (bomb, "it has more than 120 million pixels"),
    "another kind": (lambda: HEIC, "its kind (HEIC) isn't read here"),
}


@pytest.mark.parametrize("name", BAD)
def test_what_cant_be_shown_is_said_in_one_line(name: str, job: Path) -> None:
    """Why, with the photo's name, in each form; and it is no error."""
    made, why = BAD[name]
    found = kept(job, "x.jpg", made())
    assert found == why
    copy = exchange()
    put(copy, "height", PhotoAct("x.jpg"))
    for text in forms(record(copy.job, photos={"x.jpg": found})):
        assert f"photo x.jpg can't be shown: {why}." in " ".join(
            text.replace("\\", "").replace("&#39;", "'").split()
        )


@pytest.mark.parametrize("name", ["none.jpg", "../bay.job.toml", "/etc/passwd", "a\\b.jpg", "sub", "pipe"])
def test_only_a_file_in_the_jobs_own_folder_is_read(name: str, job: Path) -> None:
    """Whatever else the job file names."""
    job.write_bytes(jpeg())
    (folder_of(job) / "sub").mkdir()
    os.mkfifo(folder_of(job) / "pipe")
    assert isinstance(photos_of(job, [name])[name], str)


def test_a_link_out_of_the_folder_is_not_followed(job: Path) -> None:
    """Nor is the folder itself, where it is one."""
    (job.parent / "other.jpg").write_bytes(jpeg())
    (folder_of(job) / "l.jpg").symlink_to(job.parent / "other.jpg")
    assert photos_of(job, ["l.jpg"])["l.jpg"] == "it isn't in the job's folder of photos"
