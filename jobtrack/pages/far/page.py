"""The step to be read from two metres: what is asked now, what is being typed, and where the last reading lies."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from jobtrack.pages.far.large import LARGEST, SMALL, in_rows, wide
from jobtrack.pages.far.last_recorded import Recorded
from jobtrack.pages.far.typed_large import UNIT_WORDS, mixed, mixed_wide, typed_sizes
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap
from jobtrack.pages.wording import headed

_AMOUNT = re.compile(rf"\d ?(?:{'|'.join(map(re.escape, UNIT_WORDS))})(?!\w)")


class Far(Struct, frozen=True):
    """What the far view shows."""

    title: str
    """The step, and how it stands."""
    what: str
    """What is asked now."""
    wanted: str = ""
    """What is wanted of it."""
    more: tuple[str, ...] = ()
    """More about it, or which key does it."""
    typed: str | None = None
    """What is being typed for it; None while nothing is."""
    unit: str | None = None
    """The unit that a number alone is taken in."""
    recorded: Recorded | None = None
    tags: tuple[str, ...] = ()
    """What is open, the worst first."""


class Part(Struct, frozen=True):
    """One part of the page."""

    sizes: Sequence[list[Line]]
    """The largest first."""
    yields: int = 0
    """Parts with a higher number give way before others."""
    kept: int = 100
    """The number of a size that is given up only where no part can give way otherwise."""


def far_lines(shown: Far, width: int, rows: int) -> list[Line]:
    """The page, what is asked at its bottom: as large as fits into so many rows."""
    above = [_title(shown.title, width), _tags(shown.tags, width)]
    if shown.recorded is not None and shown.typed is None:
        above.append(_recorded(shown.recorded, width))
    asked = [_name(shown.what, width)]
    if shown.typed is not None:
        sizes = typed_sizes(shown.typed, shown.unit, width)
        asked.append(Part(sizes, kept=max(len(sizes) - 2, 0)))
    asked.append(_about(shown.wanted, shown.more, width))
    top, bottom = _fitted(above, asked, rows)
    gap = max(rows - len(top) - len(bottom), bool(top))
    return [*top, *([line()] * gap), *bottom]


def _fitted(above: Sequence[Part], below: Sequence[Part], rows: int) -> tuple[list[Line], list[Line]]:
    """Both in the largest sizes that fit together."""
    parts = [*above, *below]
    chosen = _sizes(parts, rows, len(above))
    now = _now(parts, chosen)
    return _joined(now[: len(above)]), _joined(now[len(above) :])


def _sizes(parts: Sequence[Part], rows: int, above: int) -> list[int]:
    """The size of each: what yields gives way first, and of that the highest; what room is left goes back to them."""
    chosen = [0] * len(parts)
    while not _fits(parts, chosen, rows, above):
        gives = [at for at, part in enumerate(parts) if chosen[at] + 1 < len(part.sizes)]
        if not gives:
            break
        chosen[max(gives, key=lambda at: _gives_way(parts[at], chosen[at]))] += 1
    for at in sorted(range(len(parts)), key=lambda at: parts[at].yields):
        for size in range(chosen[at]):
            larger = [*chosen[:at], size, *chosen[at + 1 :]]
            if _fits(parts, larger, rows, above):
                chosen = larger
                break
    return chosen


def _gives_way(part: Part, size: int) -> tuple[bool, int, int]:
    return size != part.kept, part.yields, len(part.sizes[size])


def _now(parts: Sequence[Part], chosen: Sequence[int]) -> list[list[Line]]:
    return [list(part.sizes[size]) for part, size in zip(parts, chosen, strict=True)]


def _fits(parts: Sequence[Part], chosen: Sequence[int], rows: int, above: int) -> bool:
    now = _now(parts, chosen)
    top, bottom = _joined(now[:above]), _joined(now[above:])
    return len(top) + bool(top) + len(bottom) <= rows


def _joined(parts: Sequence[list[Line]]) -> list[Line]:
    """The parts with an empty row between two, if either takes more than a row."""
    found: list[Line] = []
    last = 0
    for part in parts:
        found += [line(), *part] if found and max(last, len(part)) > 1 and part else part
        last = len(part) or last
    return found


def _strong(rows: Sequence[str]) -> list[Line]:
    return [line(row, "strong") for row in rows]


def _title(title: str, width: int) -> Part:
    drawn = in_rows(title, SMALL, width)
    sizes = [*([_strong(drawn)] if drawn else []), wrap(title, width, "strong"), []]
    return Part(sizes, yields=3, kept=len(sizes) - 2)


def _tags(tags: Sequence[str], width: int) -> Part:
    """What is open, as much of it as goes into one row of large letters; the head of the screen has it anyway."""
    for shown in range(len(tags), 0, -1):
        more = f" and {len(tags) - shown} more" if shown < len(tags) else ""
        text = f"Open: {', '.join(tags[:shown])}{more}"
        drawn = in_rows(text, SMALL, width)
        if drawn and wide(text, SMALL) <= width:
            return Part([_strong(drawn), []], yields=4)
    return Part([[]])


def _about(wanted: str, more: Sequence[str], width: int) -> Part:
    """What is wanted, its figures large where there is room; and more about what is asked."""
    rest = [row for text in more for row in wrap(text, width, "strong", 2)]
    joined = wrap("; ".join(filter(None, (wanted, *more))), width, "strong", 2)
    drawn = [
        [*_strong(mixed(wanted, size)), *rest] for size in (1, SMALL) if 0 < mixed_wide(wanted, size) <= width
    ]
    return Part([*drawn, joined, []], yields=1, kept=len(drawn))


def _name(what: str, width: int) -> Part:
    """What is asked: in large letters, in spaced capitals, or as it is where that takes fewer rows.

    With an amount in it as it is: a unit isn't written in capitals.
    """
    if _AMOUNT.search(what):
        return Part([wrap(what, width, "strong")])
    sizes = [in_rows(what, size, width) for size in range(LARGEST - 2, SMALL - 1, -1)]
    drawn = [_strong(one) for one in sizes if one is not None]
    return Part([*drawn, _strong(spaced_rows(what, width)), wrap(what, width, "strong")])


def _recorded(one: Recorded, width: int) -> Part:
    """What was recorded last, headed as such; where it lies is large, above all where it doesn't lie as it should."""
    head = f"Recorded last: {one.words}"
    small = wrap(headed(head, one.lies.upper()) if one.lies else head, width, "", 2)
    drawn = [rows for size in (2, 1, SMALL) if one.lies and (rows := in_rows(one.lies, size, width))]
    words, rule = wrap(head, width, "", 2), [line(one.rule)] if one.rule else []
    sizes = [[*words, *rule, *_strong(rows)] for rows in drawn]
    shortest = [[*words, *_strong(drawn[-1])]] if drawn else []
    well = one.well or not drawn
    return Part([*sizes, *shortest, small], yields=2 if well else 0, kept=100 if well else len(sizes))
