"""A template that is begun: no mistake whatever was answered, its file the same data, and nothing open in silence."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.authoring.begun import TO_WRITE, begun, begun_text
from jobtrack.authoring.dangers import CONDITIONS, MINUTES
from jobtrack.authoring.questions import (
    ALL_THE_SAME,
    BEGIN,
    MOST,
    OVER,
    TRIES,
    Answers,
    StageAnswer,
    StepAnswer,
    TooManyTries,
    questions,
)
from jobtrack.job.compose.steps import id_of
from jobtrack.schema.problem import MISTAKE
from jobtrack.template.checks.meaning.kinds import HOT, KINDS
from jobtrack.template.checks.words import DOES, SIGNALS
from jobtrack.template.load import build
from jobtrack.template.proofread import check, problems
from jobtrack.template.usual import COMMON, USUAL
from tests.support.vocabulary import promises

ANSWERS = (
    "Water pump renewed", "", "y", "", "n", "y", "Take out", "Put in", "",
    "side", "Lift the front", "lifts", "Cut the clamp", "cuts, battery", "",
    "", "Lower it", "lowers", "Drive a round", "drives", "", "y",
)  # fmt: skip
"""What somebody might type, line by line."""


def answered(lines: Iterable[str]) -> tuple[Answers, list[str], list[str]]:
    """What comes of these lines, what was asked, and what was said."""
    left, asked, said = iter(lines), list[str](), list[str]()

    def ask(question: str) -> str:
        asked.append(question)
        return next(left)

    return questions(ask, said.append), asked, said


# The questions


def test_what_was_typed_is_what_was_answered() -> None:
    """Each line at its place; Enter alone takes what the question offers."""
    found, asked, said = answered(ANSWERS)
    assert found == Answers(
        "Water pump renewed", "water-pump-renewed", "", True, "", False, True,
        (
            StageAnswer("Take out", "side", (
                StepAnswer("Lift the front", ("lifts",)), StepAnswer("Cut the clamp", ("cuts", "battery")))),
            StageAnswer("Put in", "", (StepAnswer("Lower it", ("lowers",)), StepAnswer("Drive a round", ("drives",)))),
        ),
        True,
    )  # fmt: skip
    assert len(asked) == len(ANSWERS)
    assert said[0] == BEGIN
    assert "  Its id: water-pump-renewed" in said


@pytest.mark.parametrize(
    ("place", "wrong", "why"),
    [
        (0, "", "Type a few words."),
        (0, "?!", "A title has a letter or a digit in it."),
        (0, "x" * (MOST + 1), f"At most {MOST} characters: shorten it."),
        (2, "perhaps", "Type y or n."),
        (7, "take OUT", "It stands there already: call this one otherwise."),
        (9, "each", "Type once, side."),
        (10, "", "Type a few words."),
        (11, "lift", f"lift is none of them: {', '.join(DOES)}."),
        (12, "lift the front", "It stands there already: call this one otherwise."),
    ],
)
def test_a_wrong_answer_is_said_and_asked_again(place: int, wrong: str, why: str) -> None:
    """In one line; what comes after it is taken as if nothing had been."""
    found, asked, said = answered([*ANSWERS[:place], wrong, *ANSWERS[place:]])
    assert f"  {why}" in said
    assert asked[place] == asked[place + 1]
    assert found == answered(ANSWERS)[0]


def test_one_who_answers_the_same_for_ever_is_nobody() -> None:
    """A program that types y without an end isn't waited for."""
    with pytest.raises(TooManyTries):
        questions(lambda question: "y", lambda text: None)


def test_how_often_is_asked_only_where_there_is_a_choice() -> None:
    """Without sides and a second vehicle everything is done once."""
    _, asked, _ = answered(["A b", "", "n", "n", "n", "One", "", "First", "", "", "n"])
    assert not [one for one in asked if one.startswith("How often")]
    assert TRIES > 10


# What is begun


def test_hot_work_is_followed_by_a_look_an_hour_later() -> None:
    """OSHA asks for 30 min, NFPA 51B for an hour, as quoted; the look closes what the last hot step opened."""
    data = begun(answered(ANSWERS)[0])
    steps = data["step"]
    assert list(steps) == ["lift-the-front", "cut-the-clamp", "fire-watch", "lower-it", "drive-a-round"]
    assert steps["cut-the-clamp"]["opens"] == ["fire-watch"]
    assert steps["cut-the-clamp"]["not_while"] == ["ask-first"]
    assert steps["fire-watch"]["tick"]["cold"]["wait"] == {"minutes": MINUTES, "since": "cut-the-clamp"}
    assert MINUTES >= 60
    assert steps["lift-the-front"]["opens"] == ["on-stands"]
    assert steps["lower-it"]["closes"] == ["on-stands"]
    assert steps["drive-a-round"]["not_while"] == ["ask-first", "on-stands", "fire-watch"]
    assert data["ask_first"] is True


def test_who_says_that_nobody_is_asked_but_lifts_is_told_otherwise() -> None:
    """Work that may need an approval is asked about whatever was answered."""
    lines = ["Bench", "", "n", "n", "n", "One", "", "Lift", "lifts", "", "n"]
    found, _, said = answered(lines)
    assert begun(found)["ask_first"] is True
    assert ALL_THE_SAME in said
    found, _, said = answered([*lines[:8], "solvent", *lines[9:]])
    assert "ask_first" not in begun(found)
    assert ALL_THE_SAME not in said


TITLES = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), min_size=1, max_size=30
).filter(lambda text: any(sign.isalnum() for sign in text))
STEPS = st.builds(StepAnswer, TITLES, st.lists(st.sampled_from(DOES), max_size=4, unique=True).map(tuple))


@st.composite
def all_answers(draw: st.DrawFn) -> Answers:
    """Whatever somebody may answer."""
    two, sides = draw(st.booleans()), draw(st.booleans())
    over = ["", *(name for name, there in (("side", sides), ("vehicle", two)) if there)]
    stages = st.builds(
        StageAnswer, TITLES, st.sampled_from(over), st.lists(STEPS, min_size=1, max_size=4).map(tuple)
    )
    title, for_, ask_first = draw(TITLES), draw(TITLES | st.just("")), draw(TITLES | st.just(""))
    return Answers(
        title, id_of(title, ()), for_, draw(st.booleans()), ask_first, two, sides,
        draw(st.lists(stages, min_size=1, max_size=4).map(tuple)), draw(st.booleans()),
    )  # fmt: skip


def dots(data: Any) -> Iterator[str]:
    """Every text that is still to be written."""
    if isinstance(data, dict):
        for one in data.values():
            yield from dots(one)
    elif data == TO_WRITE:
        yield data


@settings(max_examples=150)
@given(all_answers())
def test_whatever_was_answered_there_is_no_mistake(given: Answers) -> None:
    """The file is the data; each text to come and each hazard message that nobody changed is remarked on."""
    data = begun(given)
    text = begun_text(given)
    assert json.dumps(tomli.loads(text)) == json.dumps(data)
    found = problems(data)
    assert [one for one in found if one.kind == MISTAKE] == []
    assert sum(one.why == "this is still to be written" for one in found) == len([*dots(data)])
    rows = sum(len(step.get("hazard", ())) for step in data["step"].values())
    assert sum("has the usual words" in one.why for one in found) == rows
    done = {kind for step in build(data).step.values() for kind in step.does}
    assert ("fire-watch" in data.get("condition", {})) == bool(done & {*HOT})


# The table of what is usual


def test_every_kind_of_work_has_its_usual_words() -> None:
    """Signal word, hazard, what it does, how to avoid it, and where that comes from; no promise in any of it."""
    assert set(USUAL) == set(DOES)
    for kind, one in USUAL.items():
        assert one.rows, kind
        assert one.source == COMMON or "as quoted" in one.source or "citation" in one.source, kind
        assert set(one.not_beside) <= set(DOES), kind
        for row in one.rows:
            assert row.signal in SIGNALS
            assert all(len(part) > 3 for part in (row.hazard, row.does, row.avoid))
            assert not promises(" ".join((row.hazard, row.does, row.avoid)))


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("lifts", "stands shaken chocked flat"),
        ("under", "stands chocks shaken"),
        ("welds", "arc light sparks fire shock fume zinc gloves clamp battery"),
        ("cuts", "disc sparks dust guard fire"),
        ("heats", "flame fire extinguisher"),
        ("bleeds", "fluid sealed glasses pedal"),
        ("opens-fuel", "fuel vapour spark extinguisher"),
        ("frees-spring", "spring load stands slack"),
        ("brake-dust", "dust asbestos wetted never blown"),
        ("battery", "gas acid earth cable glasses"),
        ("solvent", "cleaner arc poison gloves"),
    ],
)
def test_the_usual_words_say_what_the_references_do(kind: str, words: str) -> None:
    """From the cautions by job as quoted: OSHA 1910.252 and 1910.1001, 8 CCR 1537, service manuals, trade texts."""
    said = " ".join(f"{row.hazard} {row.does} {row.avoid}" for row in USUAL[kind].rows).casefold()
    assert [one for one in words.split() if one not in said] == []


def test_the_usual_words_speak_of_their_kind() -> None:
    """What `proofread` looks for in a step's hazard messages is in them."""
    for kind, one in USUAL.items():
        said = " ".join(f"{row.hazard} {row.does} {row.avoid}" for row in one.rows)
        assert KINDS[kind].covered_by(said), kind


@pytest.mark.parametrize("kind", DOES)
def test_a_step_of_one_kind_has_no_other_remark(kind: str) -> None:
    """Dots and usual words are all that is remarked on where somebody has answered plainly."""
    stage = StageAnswer("At the bench", "", (StepAnswer("First of all", (kind,)),))
    data = begun(Answers("A plain job", "a-plain-job", "", True, "", False, False, (stage,), False))
    whys = {one.why for one in problems(data)}
    assert {one for one in whys if "usual words" not in one and "still to be written" not in one} == set()


def test_the_conditions_have_a_tag() -> None:
    """A stranger at the wheel reads it."""
    assert all(one["tag"].isupper() for one in CONDITIONS.values())
    assert set(OVER) == {"side", "vehicle"}


def test_usual_words_can_be_answered(tmp_path: Path) -> None:
    """Somebody who has read them and finds them right says so, and the remark is gone."""
    data = begun(answered(ANSWERS)[0])
    step = data["step"]["lift-the-front"]
    before = [one for one in problems(data) if one.key == ("step", "lift-the-front", "hazard")]
    step["answered"] = {"hazard": "read; it is what can happen here"}
    after = [one for one in problems(data) if one.key == ("step", "lift-the-front", "hazard")]
    assert (len(before), len(after)) == (1, 0)
    file = tmp_path / "wp.toml"
    file.write_text(begun_text(answered(ANSWERS)[0]), encoding="utf-8")
    assert {one.kind for one in check(file)} == {"remark"}
