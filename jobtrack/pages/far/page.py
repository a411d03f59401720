"""The step to be read from two metres: what was recorded last; under a rule what is asked now, and what is typed."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from jobtrack.pages.far.large import LARGEST, SMALL, high, in_rows, large, wide
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
    large: int = 0
    """How many of the sizes are in large characters; but for the last of them they give way before all else."""


def far_lines(shown: Far, width: int, rows: int) -> list[Line]:
    """The page, what is asked at its bottom: as large as fits into so many rows.

    The step and what is open are large only where what is asked is, and takes nothing from the rest.
    """
    asked = _asked(shown, width)
    above, chosen = _sized(shown, asked, width, rows, loud=False)
    if shown.typed is not None or chosen[len(above)] < asked[0].large:
        louder, larger = _sized(shown, asked, width, rows, loud=True)
        above, chosen = (louder, larger) if larger[2:] == chosen[2:] else (above, chosen)
    now = _now([*above, *asked], chosen)
    top, bottom = _joined(now[: len(above)]), _joined(now[len(above) :])
    gap = max(rows - len(top) - len(bottom), bool(top))
    return [*top, *([line()] * gap), *bottom]


def _sized(
    shown: Far, asked: Sequence[Part], width: int, rows: int, loud: bool
) -> tuple[list[Part], list[int]]:
    """The parts above what is asked, and the size of each part of the page."""
    above = _above(shown, width, loud)
    return above, _sizes([*above, *asked], rows, len(above))


def _above(shown: Far, width: int, loud: bool) -> list[Part]:
    """The step, what is open, and what was recorded last, unless something is being typed.

    `loud`: the first two may be drawn in large characters.
    """
    heading = [_title(shown.title, width, loud), _tags(shown.tags if loud else (), width)]
    recorded = shown.recorded if shown.typed is None else None
    return [*heading, *([_recorded(recorded, width)] if recorded is not None else [])]


def _asked(shown: Far, width: int) -> list[Part]:
    """What is asked, what is being typed for it, and what is wanted."""
    sizes = typed_sizes(shown.typed, shown.unit, width) if shown.typed is not None else []
    typed = [Part(sizes, kept=max(len(sizes) - 2, 0))] if sizes else []
    return [_name(shown.what, width), *typed, _about(shown.wanted, shown.more, width)]


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


def _gives_way(part: Part, size: int) -> tuple[bool, bool, int, int]:
    return size < part.large - 1, size != part.kept, part.yields, len(part.sizes[size])


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


def _title(title: str, width: int, loud: bool) -> Part:
    drawn = in_rows(title, SMALL, width) if loud else None
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
    if not wanted and not any(more):
        return Part([[]])
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
    smaller = [_strong(spaced_rows(what, width)), wrap(what, width, "strong")]
    return Part([*drawn, *smaller], large=len(drawn))


def _recorded(one: Recorded, width: int) -> Part:
    """What was recorded last, the word beside its value, and a rule across; the first part to shrink."""
    across = line("─" * width, "strong")
    wanted = f", wanted {one.wanted}" if one.wanted else ""
    said = " ".join(filter(None, (one.value, one.lies.upper())))
    small = [*wrap(f"Recorded last: {headed(one.name, said)}{wanted}", width, "", 2), across]
    drawn = _beside(one.value, one.lies) if one.lies else []
    if not drawn or max(map(len, drawn)) > width:
        return Part([small, []], yields=5, kept=0)
    head = [*wrap(f"Recorded last: {one.name}{wanted}", width, "", 2), *_strong(drawn)]
    sizes = [*([[*head, line(one.rule), across]] if one.rule else []), [*head, across], small]
    return Part([*sizes, []], yields=5, kept=len(sizes) - 1)


def _beside(value: str, lies: str) -> list[str]:
    """A value and the word for where it lies, in one row of large characters."""
    left = mixed(value, SMALL) if value else [""] * high(SMALL)
    right = large(lies, SMALL) if lies else [""] * high(SMALL)
    return [f"{one}   {other}".rstrip() if value else other for one, other in zip(left, right, strict=True)]
