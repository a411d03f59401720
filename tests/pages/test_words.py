"""What the screens say, decided without a terminal."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.job.values.limits import Limits
from jobtrack.literal import visible
from jobtrack.pages.job.conditions import top_lines
from jobtrack.pages.job.last_line import last_line, where_to_open
from jobtrack.pages.job.outline import ordered_steps
from jobtrack.pages.step.hazards import seen_today
from jobtrack.pages.step.scale import MARK, THICK, rule
from jobtrack.pages.typeset import rows, shortened, spaced, spaced_rows, wrap
from jobtrack.sheets.words.sentences import stage_sentence, worst_first
from jobtrack.sheets.words.values.readings import limit_words
from jobtrack.store.file.writer import JobFile
from tests.support.invented_jobs import NOW, ODD

Make = Callable[[str], JobFile]
SEVENTY = Fraction(23726814095799507, 250000000000000)
"""70 lbf ft in N·m."""
numbers = st.floats(-5000, 5000, allow_nan=False).map(lambda x: round(x, 3))


@given(numbers, st.floats(0.01, 500), st.floats(-3, 3), st.integers(9, 40))
def test_mark_stands_on_the_right_side(low: float, span: float, where: float, width: int) -> None:
    """The mark stands on the thick stretch exactly where the reading is within the limits."""
    high = low + span
    value = low + where * span
    drawn = rule(low, high, value, None, width)
    assert len(drawn) == width
    thick = [cell for cell, sign in enumerate(rule(low, high, None, None, width)) if sign == THICK]
    if low <= value <= high:
        assert thick[0] <= drawn.index(MARK) <= thick[-1]
    elif MARK in drawn:
        assert not thick[0] <= drawn.index(MARK) <= thick[-1]
    else:
        assert drawn[0] == "<" if value < low else drawn[-1] == ">"


def test_rule_shows_the_uncertainty_as_a_width() -> None:
    """A doubt of half the tolerance stands in brackets on both sides of the mark."""
    drawn = rule(0, 10, 5, 2.5, 20)
    assert drawn.index("(") < drawn.index(MARK) < drawn.index(")")
    assert drawn.index(")") - drawn.index("(") == 4


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        (Limits(), "recorded only"),
        (Limits(wanted=True), "not known yet"),
        (Limits(Fraction(47, 2), Fraction(45, 2), Fraction(49, 2), Fraction(1), wanted=True), "23.5 ± 1 mm"),
        (Limits(low=Fraction(54), high=Fraction(56), wanted=True), "54 to 56 mm"),
        (Limits(low=Fraction(25), wanted=True), "at least 25 mm"),
        (Limits(high=Fraction(1, 2), wanted=True), "at most 0.5 mm"),
        (Limits(target=Fraction(3), low=Fraction(3), high=Fraction(3), wanted=True), "3 mm"),
    ],
)
def test_limits_in_words(limits: Limits, words: str) -> None:
    """What is wanted stands in as few words as its limits need."""
    assert limit_words(limits, "mm") == words


@pytest.mark.parametrize(
    ("limits", "unit", "value", "words"),
    [
        (Limits(low=Fraction(29947271234, 10**7), wanted=True), "rpm", 4540, "at least 3000 rpm"),
        (Limits(low=Fraction(29947271234, 10**7), wanted=True), "rpm", 2996, "at least 2995 rpm"),
        (Limits(high=Fraction(17009714567, 10**7), wanted=True), "kg", None, "at most 1700 kg"),
        (Limits(low=Fraction(1, 16), wanted=True), "in", None, "at least 0.0625 in"),
        (Limits(high=Fraction(290376, 10**4), wanted=True), "%", None, "at most 29 %"),
        (Limits(high=Fraction(1234567, 10**8), wanted=True), "%", None, "at most 0.012 %"),
        # 12 lbf in, and 0.5 N·m more
        (
            Limits(low=Fraction(13558, 10**4), high=Fraction(18558, 10**4), wanted=True),
            "N*m",
            None,
            "1.36 to 1.85 N·m",
        ),
        (
            Limits(low=Fraction(170195, 10**3), high=Fraction(188195, 10**3), wanted=True),
            "mm",
            None,
            "170.2 to 188.1 mm",
        ),
        (
            Limits(low=Fraction(254, 10**4), high=Fraction(127, 10**3), wanted=True),
            "mm",
            None,
            "0.0254 to 0.127 mm",
        ),
        # 70 lbf ft, measured just as it was wanted at most
        (Limits(low=SEVENTY - 4, high=SEVENTY, wanted=True), "N*m", SEVENTY, "91 to 94.9 N·m"),
    ],
)
def test_a_limit_that_was_worked_out_is_rounded_to_the_cautious_side(
    limits: Limits, unit: str, value: float | None, words: str
) -> None:
    """Up where it is the least and down where it is the most, as far as the value stays on its side."""
    assert limit_words(limits, unit, value) == words


def test_a_tolerance_in_percent_is_rounded_down() -> None:
    """30 % of 118.11 A is 35.433 A: nobody typed that."""
    target, off = Fraction(11811, 100), Fraction(354331, 10000) + Fraction(1, 30000)
    around = Limits(target=target, low=target - off, high=target + off, off_by=off, wanted=True)
    assert limit_words(around, "A", 125) == "118 ± 35 A"


@pytest.mark.parametrize(
    ("target", "off_by", "words"),
    [
        (Fraction(1050925, 1000), Fraction(4), "1050.9 ± 4 mm"),  # 41 3/8 in, measured on another vehicle
        (Fraction(2355, 100), Fraction(2), "23.55 ± 2 mm"),  # a person can have typed that
        (Fraction(2039), Fraction(127, 40), "2039 ± 3.175 mm"),  # 1/8 in, as published
        (Fraction(6286, 10), Fraction(12572, 1000), "629 ± 12 mm"),  # 2 % of it
        (Fraction(44, 10), Fraction(44, 1000), "4.4 ± 0.044 mm"),
    ],
)
def test_a_target_that_nobody_typed_is_no_finer_than_a_tenth_of_its_tolerance(
    target: Fraction, off_by: Fraction, words: str
) -> None:
    """What can have been typed for it stays as it is; a tolerance that was worked out is drawn in."""
    around = Limits(target=target, low=target - off_by, high=target + off_by, off_by=off_by, wanted=True)
    assert limit_words(around, "mm") == words


@given(st.text(max_size=120), st.integers(8, 60))
def test_rows_fit_and_keep_every_word(text: str, width: int) -> None:
    """Text broken to a width keeps its words in order and never runs over."""
    broken = rows(text, width)
    assert all(cell_len(row) <= width or len(row) == 1 for row in broken)
    assert "".join("".join(broken).split(" ")) == "".join(visible(text).split(" "))
    assert cell_len(shortened(text, width)) <= width


def test_odd_text_is_made_visible() -> None:
    """No control character is left in a broken text."""
    assert "\x1b" not in "".join(line.plain for line in wrap(ODD, 12))


def test_spaced_capitals() -> None:
    """Capitals stand a space apart and words three, broken between words."""
    assert spaced("New edge") == "N E W   E D G E"
    assert spaced_rows("left: New edge", 16) == ["L E F T :", "N E W   E D G E"]


def test_conditions_take_four_lines_and_say_how_many_more(make: Make) -> None:
    """Nine conditions take four lines, of which the last counts the rest and gives their tags."""
    job = make("half-done").job
    lines = [line.plain for line in top_lines(job, 120)]
    assert len(lines) == 4
    assert lines[0].startswith("Open: KEEP THE MARKS: Marks on the tube not finished")
    assert lines[3].startswith(f"and {len(job.open_conditions) - 3} more open: ")
    assert lines[3].endswith("ON STANDS, BATTERY OFF")


def test_what_was_opened_last_stands_before_what_has_been_open_for_long(make: Make) -> None:
    """Of one rank; what is opened once more comes to the front, before older ones."""
    file = make("half-done")
    order = [one.last for one in worst_first(file.job) if one.id != ASK_FIRST and one.last]
    assert order == sorted(order, reverse=True)
    assert len(set(order)) > 3
    assert worst_first(file.job)[0].id != "on-stands"
    draft = Draft(file.job, "Hob Tansley", NOW, None)
    draft.add(OpensAct("on-stands"))
    file.append(draft.done(), draft.by, draft.at, id=draft.id, step=None)
    first = worst_first(file.job)[0]
    assert (first.id, first.last) == ("on-stands", file.job.view.entries[-1].order)
    assert first.since is not None
    assert first.since < NOW


def test_no_tag_is_cut_and_what_forbids_the_step_stands_in_words(make: Make) -> None:
    """At 78 cells every open condition is named whole, the one that forbids the step at hand in words on top."""
    job = make("half-done").job
    cut = job.steps["cut.right"]
    lines = [line.plain for line in top_lines(job, 78, here=cut)]
    assert len(lines) <= 4
    assert lines[0].startswith("Open: KEEP THE MARKS: Marks on the tube not finished")
    text = " ".join(line.strip() for line in lines)
    assert "grind nothing, cut nothing" in text
    assert all(str(one.tag) in text for one in job.open_conditions)


def test_what_cannot_be_read_comes_first(make: Make) -> None:
    """An entry that can't be read stands above every condition with a tag, and untagged ones stand last."""
    file = make("half-done")
    data = file.path.read_bytes()
    file.path.write_bytes(data.replace(b'note = "Scriber', b'note = "Scraper'))
    job = JobFile(file.path).job
    first = worst_first(job)[0]
    assert first.since is None
    assert "can't be read" in first.text
    assert [bool(one.tag) for one in worst_first(job)[1:]] == [True] * 9


def test_honest_sentences_stand_whole(make: Make) -> None:
    """An empty list says to look, and a next step says what that doesn't mean, at any width."""
    job = make("surveyed").job
    for width in (30, 78, 150):
        assert " ".join(line.plain for line in top_lines(job, width, 2)) == (
            "No open condition is recorded. That does not say that the vehicle is safe: look."
        )
    assert last_line(job, job.steps["donor-axle"]) == (
        "Clock on: Hob Tansley. This step is next. Nothing in the order of steps or in what is recorded as "
        "open stops “Is the donor axle worth the money?”. Look at the vehicle before you begin."
    )


def test_stage_is_a_sentence(make: Make) -> None:
    """A stage is counted in one sentence."""
    job = make("half-done").job
    assert stage_sentence(job, job.steps["mark.right"]) == (
        "Stage 5 of 8, prepare the axle: the perches: 5 of 10 steps finished."
    )


def test_hazards_are_shown_whole_once_a_day(make: Make) -> None:
    """Somebody who has recorded in a step on this day has been shown its messages whole."""
    job = make("half-done").job
    first = job.view.in_step("mark.right")[0].entry
    assert seen_today(job, job.steps["mark.right"], "hob tansley", first.at)
    assert not seen_today(job, job.steps["mark.right"], "Hob Tansley", NOW)
    assert not seen_today(job, job.steps["mark.right"], "Mara Quill", first.at)


def test_job_opens_where_somebody_is(make: Make) -> None:
    """A job opens at the step in hand, else at the one that is next."""
    assert where_to_open(make("half-done").job) == "mark.right"
    assert where_to_open(make("surveyed").job) == "donor-axle"


def test_sides_stand_together_where_one_is_done_to_its_end(make: Make) -> None:
    """In a stage done one by one the outline lists one side to its end, then the other; no step is lost."""
    job = make("surveyed").job
    steps = ordered_steps(job)
    assert sorted(steps) == sorted(job.steps)
    assert steps.index("cold.left") + 1 == steps.index("mark.right")
