"""Which kind of picture a file's bytes are, by how they begin; each signature with its published source."""

from __future__ import annotations

import re

KINDS: tuple[tuple[str, re.Pattern[bytes]], ...] = (
    # WHATWG MIME Sniffing Standard, 6.1, table of image types; ITU-T T.81 (SOI, then another marker)
    (".jpg", re.compile(rb"\xff\xd8\xff")),
    # W3C Portable Network Graphics, 5.2, signature
    (".png", re.compile(rb"\x89PNG\r\n\x1a\n")),
    # CompuServe GIF89a specification, 17, header
    (".gif", re.compile(rb"GIF8[79]a")),
    # RFC 9649, 2.4, file header, and the chunk that follows it
    (".webp", re.compile(rb"RIFF....WEBPVP8", re.DOTALL)),
    # ISO/IEC 14496-12, 4.3, file type box; brands of ISO/IEC 23008-12, 10, and AV1 Image File Format, 6
    (".avif", re.compile(rb"\0\0..ftypavi[fs]", re.DOTALL)),
    (".heic", re.compile(rb"\0\0..ftyp(?:hei[cxms]|hev[cxms]|mif1|msf1)", re.DOTALL)),
    # TIFF 6.0, 2, image file header: either order of bytes
    (".tif", re.compile(rb"II\*\0|MM\0\*")),
    # Microsoft, BITMAPFILEHEADER (the reserved words are nought) and the sizes of the headers that follow it
    (".bmp", re.compile(rb"BM....\0\0\0\0....[\x0c\x28\x34\x38\x40\x6c\x7c]\0\0\0", re.DOTALL)),
)
NAMES = "JPEG, PNG, GIF, WebP, AVIF, HEIC, TIFF or BMP"


def picture_kind(data: bytes) -> str | None:
    """What such a picture's file name ends in, by the published signatures; None: no picture that is known here."""
    return next((ending for ending, begins in KINDS if begins.match(data)), None)


ENDS: tuple[tuple[str, bytes], ...] = (
    # ITU-T T.81, B.1.1.3, EOI; PNG 11.2.5, the last chunk, empty, with its CRC; GIF89a specification, 27, trailer
    (".jpg", b"\xff\xd9"),
    (".png", b"IEND\xaeB`\x82"),
    (".gif", b";"),
)


def looks_whole(head: bytes, tail: bytes, size: int) -> bool:
    """Whether a picture of `size` bytes ends as its kind does; True where its kind says nothing of its end.

    A camera may put something of its own behind the end of a JPEG: False is no proof that bytes are missing.
    """
    kind = picture_kind(head)
    if kind == ".webp":  # RFC 9649, 2.4: the size behind RIFF, of all that follows it
        return size >= 8 + int.from_bytes(head[4:8], "little")
    if kind == ".bmp":  # Microsoft, BITMAPFILEHEADER, bfSize
        return size >= int.from_bytes(head[2:6], "little")
    return all(tail.endswith(end) for ending, end in ENDS if ending == kind)
