"""Photos of a job as they stand in its record: read from the job's own folder, nothing but the picture kept of them."""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from jobtrack.sheets.paper.blocks import Photo
from jobtrack.sheets.vehicle_record.pictures import NOT_THERE
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.machine.photos import LARGEST, inside, regular
from jobtrack.store.machine.picture_kinds import picture_kind

if TYPE_CHECKING:
    from PIL import Image

LONGEST_SIDE = 1400
"""Pixels: as many as a page is printed with at 190 dots an inch."""
MOST_PIXELS = 120_000_000
"""Pixels of a photo that is still unpacked: 360 MB of memory; cameras of today have at most half as many."""
TOO_LARGE = f"it has more than {MOST_PIXELS // 1_000_000} million pixels"
QUALITY = 82
BROKEN = "its file is broken"
PILLOW = {".jpg": "JPEG", ".png": "PNG", ".gif": "GIF", ".webp": "WEBP", ".tif": "TIFF", ".bmp": "BMP"}
"""What each kind is called by the reader that is used; the others it can't read everywhere."""


class _NotShown(Exception):
    """Why a photo can't be shown."""


def photos_of(job: Path, names: Iterable[str]) -> dict[str, Photo | str]:
    """Each photo by its name in the job file: made small and upright, or why it can't be shown."""
    return {name: _photo(job, name) for name in dict.fromkeys(names)}


def _photo(job: Path, name: str) -> Photo | str:
    try:
        return Photo(_made_anew(_bytes(job, name)), "image/jpeg", name)
    except _NotShown as why:
        return str(why)


def _bytes(job: Path, name: str) -> bytes:
    path = inside(job, name)
    if path is None:
        raise _NotShown(NOT_THERE)
    try:
        with regular(path) as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise _NotShown(NOT_THERE) from None
    except (OSError, JobFileError):
        raise _NotShown("its file can't be read") from None
    if len(data) > LARGEST:
        raise _NotShown(f"it is larger than {LARGEST // 1024 // 1024} MiB")
    return data


def _made_anew(data: bytes) -> bytes:
    """The picture alone as a JPEG: what else stood in the file (place, time, camera, comments, thumbnail) is gone."""
    kind = picture_kind(data)
    if kind not in PILLOW:
        raise _NotShown(f"its kind ({kind.strip('.').upper()}) isn't read here" if kind else BROKEN)
    from PIL import Image, ImageOps

    try:
        with (
            warnings.catch_warnings(action="ignore"),
            Image.open(io.BytesIO(data), formats=[PILLOW[kind]]) as found,
        ):
            if found.width * found.height > MOST_PIXELS:
                raise _NotShown(TOO_LARGE)
            found.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            upright = ImageOps.exif_transpose(found)
            upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
            return _jpeg(upright.convert("RGBA"))
    except _NotShown:
        raise
    except Image.DecompressionBombError:
        raise _NotShown(TOO_LARGE) from None
    except Exception:  # noqa: BLE001  # a broken file raises whatever its decoder stumbles over
        raise _NotShown(BROKEN) from None


def _jpeg(picture: Image.Image) -> bytes:
    """Pixels on white paper, in a file that holds nothing else."""
    from PIL import Image

    paper = Image.new("RGB", picture.size, "white")
    paper.paste(picture, mask=picture.getchannel("A"))
    written = io.BytesIO()
    paper.save(written, "JPEG", quality=QUALITY)
    return written.getvalue()
