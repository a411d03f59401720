"""One working-out of the reckoner: what goes in, the answer, and what of it can be recorded."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from jobtrack import units
from jobtrack.pages.step.table import CHOSEN, OTHER, TABLE_FROM
from jobtrack.pages.typeset import Cell, Line, Span, line, ruled, ruled_head, wrap
from jobtrack.pictures import picture_rows
from jobtrack.sheets.words.hazards import WORST
from jobtrack.shopmath.catalogue import Quantity, WorkingOut, WorkingOutError
from jobtrack.template.values import NUMBER, known_unit, sort_of_unit
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from jobtrack.workings import answers as workings
from jobtrack.workings.answers import Answer
from jobtrack.workings.fineness import figures_of
from jobtrack.workings.words import given_words, key_words, left_out_words, list_as_read

HEAD = ("what goes in", "as typed", "takes", "example")


class Refusal(Struct, frozen=True):
    """Why there is no answer yet: the input that it is about, where it is about one, and one line."""

    key: str
    text: str
    wanted: bool
    """Whether the input is only not typed yet."""


def work_out(work: WorkingOut, typed: Mapping[str, str]) -> Answer | Refusal:
    """The answer to what is typed, or why there is none."""
    given = {key: text for key, text in typed.items() if text.strip()}
    try:
        return workings.answer(work.name, given)
    except WorkingOutError as error:
        named = str(error).partition(":")[0]
        kinds = {one.key: one for one in work.inputs}
        wanted = named in kinds and named not in given and not kinds[named].optional
        return Refusal(named if named in kinds else "", str(error), wanted)


def options(kind: Quantity) -> tuple[str, ...]:
    """The words that an input chooses from."""
    return ("yes", "no") if kind.unit == "yes/no" else kind.choices


def chosen_word(kind: Quantity, text: str) -> str:
    """The choice that a number or its first letters name; any other text as it is."""
    found, short = options(kind), text.strip().casefold()
    if short.isdecimal() and 1 <= int(short) <= len(found):
        return found[int(short) - 1]
    begun = [one for one in found if short and one.casefold().startswith(short)]
    return begun[0] if len(begun) == 1 else text


def takes_words(kind: Quantity) -> str:
    """What an input takes, in words, and whether it can be left out."""
    return _takes(kind) + left_out_words(kind)


def _takes(kind: Quantity) -> str:
    if options(kind):
        return ", ".join(f"{number} {one}" for number, one in enumerate(options(kind), 1))
    if kind.items:
        return f"a list: {_takes(kind.items)}"
    plain = {"count": "a whole number", "ratio": "a plain number", "number": "a number in any one unit",
             "text": "words", "date": "a date, 2031-04-02", "mass @ distance": "kg @ mm"}  # fmt: skip
    return plain.get(kind.unit) or units.shown(kind.unit)


def input_lines(
    work: WorkingOut, typed: Mapping[str, str], chosen: int, refused: Refusal | None, width: int
) -> list[list[Line]]:
    """What goes in, an input a row, a refusal in one line under the input that it is about."""
    found = []
    for number, kind in enumerate(work.inputs):
        rows = _row(work, kind, typed.get(kind.key, ""), number == chosen, width)
        if refused is not None and refused.key == kind.key and not refused.wanted:
            rows += wrap(f"    {refused.text}", width, "strong", 4)
        found.append(rows)
    return found


def input_head(width: int) -> list[Line]:
    """The heading of the table of inputs, where there is room for a table."""
    return ruled_head(HEAD, _widths(width)) if width >= TABLE_FROM else []


def _widths(width: int) -> tuple[int, int, int, int]:
    name, typed, example = (20, 16, 12) if width < 100 else (28, 24, 20)
    return name, typed, width - 6 - name - typed - example, example


def _row(work: WorkingOut, kind: Quantity, text: str, chosen: bool, width: int) -> list[Line]:
    label, look = f"{CHOSEN if chosen else OTHER}{key_words(kind.key)}", "strong" if chosen else ""
    example = work.example.get(kind.key, "")
    if width >= TABLE_FROM:
        cells = (Cell(label, look, 2), Cell(text, "strong"), Cell(takes_words(kind)), Cell(example))
        return ruled(cells, _widths(width))
    shown = f"; example {example}" if example else ""
    return [*wrap(f"{label}: {text}", width, look, 2), *wrap(f"    {takes_words(kind)}{shown}", width, "", 4)]


def so_far(
    work: WorkingOut,
    typed: Mapping[str, str],
    found: Answer | Refusal,
    width: int,
    shown: Chosen = METRIC_FIRST,
) -> list[Line]:
    """What stands under the inputs: the results, what is still wanted, or what can't be worked out."""
    if isinstance(found, Answer):
        said = "; ".join(f"{name} {figure}" for name, figure in found.results(shown))
        return wrap(f"Worked out: {said}.", width, "strong", 2)
    still = [key_words(one.key) for one in work.inputs
             if not one.optional and not typed.get(one.key, "").strip()]  # fmt: skip
    if still:
        return wrap(f"Still wanted: {', '.join(still)}.", width, "", 2)
    return wrap(found.text if not found.key else "Not worked out: see above.", width, "strong", 2)


def answer_lines(found: Answer, width: int, shown: Chosen = METRIC_FIRST) -> list[Line]:
    """The answer as the command gives it: results, sentence, source, hazards, remarks; what went in above it."""
    results, _, rest = found.as_text(shown).partition("\n\n")
    lines = [row for text in results.split("\n") for row in wrap(text, width, "strong", 2)]
    lines += [line(), *(row for text in rest.split("\n") for row in _beside(text, width))]
    return [*wrap(f"With {typed_words(found)}:", width, "small", 2), *lines]


def picture_lines(found: Answer, width: int, plain: bool, shown: Chosen = METRIC_FIRST) -> list[Line]:
    """The picture of an answer, where there is one, under an empty line; `plain` draws it with ASCII."""
    rows = picture_rows(found.work.name, found.outcome, width, plain=plain, shown=shown)
    return [line(row) for row in rows]


def _beside(text: str, width: int) -> list[Line]:
    """One line that belongs to an answer; a signal word in its own look."""
    first, *more = wrap(text, width, "", 2)
    word, colon, rest = first.plain.partition(":")
    if word in WORST and colon:
        first = Line((Span(f"{word}:", word), Span(rest)))
    return [first, *more]


def typed_words(found: Answer) -> str:
    """What went in, as typed, a list as it was read; and what counted for what was left out."""
    typed = [f"{key_words(one.key)} {_typed(found, one)}" for one in found.work.inputs
             if one.key in found.typed]  # fmt: skip
    left = [f"{key_words(one.key)} {given_words(one, one.default)} (left out)" for one in found.work.inputs
            if one.key not in found.typed and one.default is not None]  # fmt: skip
    return ", ".join((*typed, *left))


def _typed(found: Answer, one: Quantity) -> str:
    return list_as_read(one, found.outcome.inputs[one.key]) if one.items else found.typed[one.key]


def note_text(found: Answer) -> str:
    """The note that says how a figure was worked out: from what, with which result, by whose rule."""
    said = ", ".join(f"{name} {figure}" for name, figure in found.results())
    return f"Reckoner: {found.work.name} with {typed_words(found)}: {said}. Source: {found.outcome.source}."


def for_reading(found: Answer, unit: str | None) -> list[tuple[str, str]]:
    """The results that a reading in this unit can take: what each is called, and its text in that unit."""
    figures = figures_of(found.work, found.outcome, found.known())
    return [(key_words(one.key), figures[one.key].in_unit(unit).words()) for one in found.work.results
            if one.key in figures and _fits(one, unit)]  # fmt: skip


def _fits(kind: Quantity, unit: str | None) -> bool:
    sort = sort_of_unit(kind.unit)
    return sort.sort == NUMBER and known_unit(sort.unit) and units.same_kind(sort.unit, unit)
