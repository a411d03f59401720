"""A typed list taken apart: by commas or by `;`, never by both, and never at what may be a decimal comma."""

from __future__ import annotations

import re

from jobtrack.units.names import UnitError, printable
from jobtrack.units.typed.plain import plain_characters
from jobtrack.units.typed.reading import typed_unit

LONGEST_LIST = 4000
"""Characters that a list may have."""

_RUN = re.compile(r"(?<![\d./:])\d+(?:,\d+)+(?!,?\d|[./:])", re.ASCII)
"""Whole numbers with nothing but commas between them: 2,5 or 30,60,100."""
_GROUPED = re.compile(r"(?<![\d./:,])\d{1,3}(?:,\d{3})+(?:\.\d+)?(?!,?\d|[./:])", re.ASCII)
"""A number with its thousands parted by commas: 1,012 or 1,012.5."""
_LONGEST_SHOWN = 80


def list_items(text: str) -> tuple[str, ...]:
    """The items of a list as typed, stripped; an empty one stays empty. Raises UnitError.

    Refused, with every reading: `;` beside a comma, and a comma that may be that of a decimal or of thousands
    (`20,5 kg, 18 kg`). Three whole numbers in a row (`30,60,90`) are no decimals.
    """
    if len(text) > LONGEST_LIST:
        raise UnitError(f"longer than {LONGEST_LIST} characters")
    meant = {_RUN.sub(_with_dots, text), _GROUPED.sub(_in_one, text)} - {text}
    if meant:
        readings = " or ".join(map(_counted, (*sorted(meant), text)))
        raise _refused(text, f"has more than one meaning: write {readings}")
    if ";" in text and "," in text:
        raise _refused(text, f"has two signs between its items: write {_shown(_items(text))}")
    return tuple(_items(text))


def _items(text: str) -> list[str]:
    return [part.strip() for part in re.split("[,;]", text)]


def _with_dots(run: re.Match[str]) -> str:
    """The numbers of a run taken two and two, as whoever types decimal commas means them."""
    numbers = run[0].split(",")
    if len(numbers) % 2:
        return run[0]
    return "; ".join(".".join(pair) for pair in zip(numbers[::2], numbers[1::2], strict=True))


def _in_one(grouped: re.Match[str]) -> str:
    return grouped[0].replace(",", "")


def _counted(meant: str) -> str:
    items = _items(meant)
    return f"{_shown(items)} ({len(items)} item{'' if len(items) == 1 else 's'})"


def _shown(items: list[str]) -> str:
    return printable("; ".join(items), _LONGEST_SHOWN)


def _refused(text: str, why: str) -> UnitError:
    return UnitError(f'"{printable(text)}" {why}; in a list a decimal has its dot')


def unit_is_missing(texts: tuple[str, ...]) -> str | None:
    """Why numbers that stand together can't be read: one has a unit and another none; None where they can."""
    bare = [text for text in texts if not _has_unit(text)]
    named = [text for text in texts if _has_unit(text)]
    if not bare or not named:
        return None
    return f"{printable(bare[0])} has no unit beside {printable(named[0])}; give each item its unit"


def _has_unit(text: str) -> bool:
    """Whether a unit stands in a number; hours and minutes (1:30) are a unit too."""
    return typed_unit(text) is not None or ":" in plain_characters(text)
