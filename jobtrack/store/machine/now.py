"""The one place that asks the machine for the time."""

from __future__ import annotations

from datetime import datetime


def local_now() -> datetime:
    """Now, with the offset of the local time zone, to the second."""
    return datetime.now().astimezone().replace(microsecond=0)
