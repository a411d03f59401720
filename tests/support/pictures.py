"""Pictures as a phone or a camera writes them, small, and a folder in which they arrive."""

from __future__ import annotations

import os
from pathlib import Path

HEAD, END = b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01\x02", b"\xff\xd9"
"""How a JPEG begins (JFIF 1.02) and ends (ITU-T T.81, B.1.1.3)."""


def jpeg(what: str, size: int = 400) -> bytes:
    """A file that begins and ends as a JPEG does; `what` tells it from another."""
    return HEAD + what.encode().ljust(size, b"\0") + END


def put(path: Path, data: bytes, at: float) -> Path:
    """A file with these bytes, written last at this time, in seconds since 1970."""
    path.write_bytes(data)
    os.utime(path, (at, at))
    return path
