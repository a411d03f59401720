"""Laws that hold whatever is typed."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from jobtrack.units import (
    Typed,
    UnitError,
    both,
    convert,
    exact,
    kind,
    question,
    read,
    show,
    spellings,
)

KINDS = (
    "length",
    "mass",
    "force",
    "torque",
    "pressure",
    "speed",
    "time",
    "volume",
    "temperature",
    "heat input",
)
LINEAR = [unit for k in KINDS for unit in spellings(k)]
ALL_UNITS = [*LINEAR, *spellings("angle"), *spellings("rate"), "%", "ratio", "count"]
decimals = st.decimals(min_value=-(10**6), max_value=10**6, places=4).map(Fraction)
PIECES = [
    "~",
    ">",
    "<",
    "-",
    "–",
    "..",
    "…",
    " ",
    "\u00a0",
    ",",
    ".",
    "/",
    ":",
    "½",
    "'",
    '"',
    "″",
    "e",
    "(",
    "−",
]
jumble = st.lists(
    st.sampled_from([*PIECES, *ALL_UNITS, *"0123456789"]) | st.text(max_size=2), max_size=14
).map(lambda parts: "".join(parts)[:40])
numbers = st.one_of(
    st.integers(0, 2000).map(str),
    st.decimals(0, 2000, places=2).map(str),
    st.sampled_from(
        ["37 15/16", "1-3/4", "½", "2½", ".5", "38,5", "1,012", "3/0", "17/16", "1:30", "1e5", "1112-100"]
    ),
)
signs = st.sampled_from(["", "", "", "-", "~", ">", "<", "−", "+"])


@st.composite
def boxes_and_texts(draw: st.DrawFn) -> tuple[str, str | None]:
    """What a person might type for a box: two in three are nearly right, one is a jumble."""
    box = draw(st.sampled_from([None, *ALL_UNITS]))
    if draw(st.integers(0, 2)) == 0:
        return draw(jumble | st.text(max_size=40)), box
    unit = st.sampled_from(
        ["", *spellings(kind(box)), *spellings(kind(box)), draw(st.sampled_from(ALL_UNITS))]
    )
    amount = st.tuples(signs, numbers, st.sampled_from(["", " "]), unit).map("".join)
    joined = draw(st.sampled_from(["", "", "", "..", " ", ", "]))
    return (draw(amount) + (joined + draw(amount) if joined else ""))[:40], box


@given(boxes_and_texts())
@example(("1" * 40, "mm"))
@example(("1-" * 20, "mm"))
@example(("1 " * 20, "mm"))
@example(("1/" * 20, "in"))
@example(("½" * 40, "in"))
@example(("5\x00mm", "mm"))
def test_any_text_is_read_or_refused(typed: tuple[str, str | None]) -> None:
    """Any text is read or refused with a UnitError of one line, in less than a tenth of a second."""
    text, unit = typed
    began = time.process_time()
    got = _read_or_refusal(text, unit)
    assert time.process_time() - began < 0.1
    if isinstance(got, Typed):
        assert got.typed == text.strip()
        assert _filled(got) in FILLED[got.bound]
    else:
        assert got
        assert got.isprintable()


# Which of value, low, high and word are there, by bound.
FILLED = {
    "none": {"value", "word"},
    "about": {"value"},
    "over": {"low"},
    "under": {"high"},
    "range": {"low high"},
}


def _filled(got: Typed) -> str:
    return " ".join(key for key in ("value", "low", "high", "word") if getattr(got, key) is not None)


def _read_or_refusal(text: str, unit: str | None) -> Typed | str:
    try:
        return read(text, unit)
    except UnitError as error:
        return str(error)


@given(boxes_and_texts(), decimals, st.none() | decimals.map(abs))
@example(("40 lb", "N"), Fraction(40), None)
@example(("5\n1/2", "mm"), Fraction(1), None)
@example(("100000000000000 mm/m", "deg"), Fraction(1), None)
def test_a_question_is_one_line_or_none(
    typed: tuple[str, str | None], expected: Fraction, doubt: Fraction | None
) -> None:
    """Whatever is typed and expected, a question is one printable line that ends in a question mark."""
    got = _read_or_refusal(*typed)
    if isinstance(got, Typed):
        for wanted in (expected, expected / 1000, None):
            asked = question(got, wanted, doubt)
            assert asked is None or (asked.isprintable() and asked.endswith("?"))


@given(decimals, st.sampled_from(ALL_UNITS))
def test_what_is_expected_is_never_questioned(value: Fraction, unit: str) -> None:
    """The expected value itself is never questioned."""
    assert question(Typed(show(value, unit), value, unit), value) is None


@given(decimals, st.sampled_from(ALL_UNITS))
def test_what_is_shown_reads_back(value: Fraction, unit: str) -> None:
    """A value with few decimals, shown with its unit and read again, is the same value."""
    if kind(unit) == "temperature":
        value = abs(value)
    elif unit == "count":
        value = Fraction(round(value))
    assert read(show(value, unit), unit).value == value


@given(decimals, st.data())
def test_conversion_there_and_back_is_exact(value: Fraction, data: st.DataObject) -> None:
    """Between two units of a kind (angles left out) there and back changes nothing."""
    one = data.draw(st.sampled_from(LINEAR))
    other = data.draw(st.sampled_from(spellings(kind(one))))
    assert convert(convert(value, one, other), other, one) == value


@given(st.floats(min_value=-1.5, max_value=1.5), st.sampled_from(["deg", "mm/m"]))
def test_angles_there_and_back_are_near(value: float, other: str) -> None:
    """An angle comes back from another unit to float precision."""
    assert float(convert(convert(value, "rad", other), other, "rad")) == pytest.approx(
        value, rel=1e-9, abs=1e-12
    )


@given(decimals, st.data())
def test_value_does_not_depend_on_the_unit_typed(value: Fraction, data: st.DataObject) -> None:
    """The same quantity typed in any unit of its kind is the same value in the box."""
    box = data.draw(st.sampled_from(LINEAR))
    unit = data.draw(st.sampled_from(spellings(kind(box))))
    shown_in_unit = show(abs(value), unit)
    assert read(shown_in_unit, box).value == convert(abs(value), unit, box)


@given(st.integers(0, 500), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_mixed_numbers_are_exact(whole: int, over: int, under: int) -> None:
    """A whole number with a fraction is their sum, with a space or a hyphen between; not below 1: refused."""
    for text in (f"{whole} {over}/{under}", f"{whole}-{over}/{under}"):
        if over < under:
            assert read(f"{text} in", "in").value == whole + Fraction(over, under)
        else:
            with pytest.raises(UnitError):
                read(text, "in")


@given(st.integers(1, 20), st.integers(0, 11), st.integers(0, 15))
def test_feet_and_inches_add_up(feet: int, inches: int, sixteenths: int) -> None:
    """Feet, inches and sixteenths add up to inches; the sign counts for the whole."""
    text = f"{feet}' {inches} {sixteenths}/16\""
    total = 12 * feet + inches + Fraction(sixteenths, 16)
    assert read(text, "in").value == total
    assert read(f"-{text}", "in").value == -total


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(ALL_UNITS))
def test_anything_finite_can_be_shown(value: float, unit: str) -> None:
    """Any finite number is shown in both systems on one line, without an exponent."""
    text = both(value, unit)
    assert "\n" not in text
    assert not text.split(" ")[0].strip("-0123456789.")


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_exact_gives_the_same_float(value: float) -> None:
    """The fraction of a float is so near that it gives the same float again."""
    assert float(exact(value)) == value
