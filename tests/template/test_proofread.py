"""The whole of proofreading: what it prints, what answers a remark, and that it never breaks."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.schema.fields import known_keys
from jobtrack.template.findings import NOTHING_FOUND, as_json, as_lines
from jobtrack.template.load import NoTemplateFileError
from jobtrack.template.model import Reading, Step, Template
from jobtrack.template.proofread import Finding, check, problems
from tests.support.exchange import EXCHANGE

SOUND: dict[str, Any] = {
    "format": 1,
    "id": "bench",
    "title": "A bench test",
    "stage": {"look": {"title": "Look"}},
    "step": {"measure": {"stage": "look", "title": "Measure"}},
}


def _with_reading(**keys: Any) -> dict[str, Any]:
    measure = {**SOUND["step"]["measure"], "reading": {"gap": {"unit": "mm", **keys}}}
    return {**SOUND, "step": {"measure": measure}}


def test_where_nothing_is_found_it_is_said_what_was_not_examined() -> None:
    assert as_lines([]) == [NOTHING_FOUND]


def test_json_has_the_documented_keys() -> None:
    """A finding as JSON has file, line, column, kind, key, why and mend."""
    finding = Finding("a.toml", 3, 7, "mistake", "step.cut", "why", "mend")
    place = {"file": "a.toml", "line": 3, "column": 7}
    text = {"kind": "mistake", "key": "step.cut", "why": "why", "mend": "mend"}
    assert json.loads(as_json([finding])) == [{**place, **text}]


def test_control_characters_are_shown_as_a_stand_in() -> None:
    """A finding stays on one line and sends no control character to the terminal."""
    finding = Finding("a.toml", 3, 7, "mistake", "", "\x1b[31mred\nline", "Mend it")
    assert as_lines([finding]) == ["a.toml:3: mistake: \ufffd[31mred\ufffdline. Mend it."]


def test_a_readings_answer_answers_its_remark() -> None:
    """The remark about a doubt that leaves less than half goes away when it is answered, and only then."""
    bare = problems(_with_reading(target=5, off_by=1, doubt=0.6))
    assert [(each.kind, each.key[-1]) for each in bare] == [("remark", "doubt")]
    assert not problems(_with_reading(target=5, off_by=1, doubt=0.6, answered="read by two people"))


def test_the_top_answers_only_what_is_of_no_step() -> None:
    """`answered` at the top answers remarks on givens and the like, not those of steps and readings."""
    spare = {"colour": {"ask": "Which colour?", "choose": ["red", "blue"]}}
    assert [each.kind for each in problems({**SOUND, "given": spare})] == ["remark"]
    assert not problems({**SOUND, "given": spare, "answered": "asked for the papers"})
    doubtful = {**_with_reading(target=5, off_by=1, doubt=0.6), "answered": "it is so"}
    assert [each.key[-1] for each in problems(doubtful)] == ["doubt", "answered"]


def _under(**step: Any) -> dict[str, Any]:
    return {**SOUND, "step": {"measure": {**SOUND["step"]["measure"], **step}}}


def test_a_step_answers_each_of_its_keys_by_itself() -> None:
    """An answer of a step silences the remark on the key that it names, and no other."""
    promised = {"title": "Make it safe", "do": "Until it is safe."}
    assert [each.key[-1] for each in problems(_under(**promised))] == ["title", "do"]
    one = {**promised, "answered": {"do": "the maker's own words"}}
    assert [each.key[-1] for each in problems(_under(**one))] == ["title"]
    assert not problems(_under(**promised, answered={"do": "as the maker says", "title": "its name"}))


@pytest.mark.parametrize(
    ("name", "key", "words"),
    [("tick", "ask", "Is it safe?"), ("torque", "finish", "safe"), ("weld", "order", "as is safe")],
)
def test_checks_torques_and_welds_answer_their_own(name: str, key: str, words: str) -> None:
    """A remark inside one of these tables is answered in it; the step's own answer doesn't reach it."""
    answered = {key: words, "answered": "the maker's words"}
    assert _keys_found(**{name: {"own": {key: words}}}) == [key]
    assert not _keys_found(**{name: {"own": answered}})
    assert _keys_found(**{name: {"own": {key: words}}}, answered={name: "the maker's words"}) == [key, name]


def _keys_found(**step: Any) -> list[str]:
    """The last parts of the keys of what is found in a step, but for what it does."""
    return [each.key[-1] for each in problems(_under(**step)) if each.key[2] != "does"]


def test_a_condition_answers_its_own() -> None:
    """The answer of a condition goes before the one at the top, which then answers nothing."""
    spare = {**SOUND, "condition": {"wet": {"text": "Paint wet", "answered": "opened by hand"}}}
    assert not problems(spare)
    assert [each.key for each in problems({**spare, "answered": "by hand"})] == [("answered",)]


def test_half_of_the_tolerance_is_the_border() -> None:
    """A doubt that leaves just half of the tolerance gives no remark; a tape's 1 on 1.5 leaves a third."""
    assert not problems(_with_reading(target=5, off_by=1, doubt=0.5))
    (found,) = problems(_with_reading(target=965, off_by=1.5, doubt=1.0))
    assert found.why == "the instrument's doubt leaves 33 % of the tolerance"


def test_members_may_be_left_out_of_a_limit() -> None:
    """A limit for one member only is no mistake."""
    data = {**_with_reading(at_most={"left": 3}), "set": {"side": ["left", "right"]}}
    data["step"]["measure"]["for_each"] = "side"
    assert not problems(data)


def test_closings_that_take_turns_cover_an_opening() -> None:
    """Two closing steps, each for one answer to the same question, close what an unconditional step opens."""
    steps: dict[str, dict[str, Any]] = {
        "open": {"stage": "look", "title": "Open it", "opens": ["gap"]},
        "weld": {"stage": "look", "title": "Join it", "closes": ["gap"], "only_when": {"way": "weld"}},
        "bolt": {"stage": "look", "title": "Bolt it", "closes": ["gap"], "only_when": {"way": "bolt"}},
    }
    data = {
        **SOUND,
        "step": steps,
        "condition": {"gap": {"text": "Gap open"}},
        "given": {"way": {"ask": "Which way?", "choose": ["weld", "bolt"]}},
    }
    assert not problems(data)
    del steps["bolt"]["only_when"], steps["bolt"]["closes"]
    assert [each.key for each in problems(data)] == [("condition", "gap")]


def test_inputs_that_go_together_are_all_asked_for() -> None:
    """One of two inputs that describe one thing isn't enough."""
    loads = {"use": "axle-loads", "wheelbase": 3000, "items": "gap", "front_now": 800}
    data = _with_reading(record_only=True)
    data["step"]["measure"]["work_out"] = {"loads": loads}
    assert "front_now and rear_now go together" in [each.why for each in problems(data)]
    loads["rear_now"] = 700
    assert "front_now and rear_now go together" not in [each.why for each in problems(data)]


def test_an_input_that_counts_for_nothing_alone_is_found() -> None:
    """How many tyres is of no use without what one of them carries."""
    rating = {"use": "axle-limit", "plate": 1720, "tyres": 4}
    data = _with_reading(record_only=True)
    data["step"]["measure"]["work_out"] = {"rating": rating}
    assert "tyres counts for nothing without tyre_each" in [each.why for each in problems(data)]
    rating["tyre_each"] = 900
    assert "tyres counts for nothing without tyre_each" not in [each.why for each in problems(data)]


def test_a_file_that_is_missing_is_no_finding(tmp_path: Path) -> None:
    """A file that can't be opened is bad input; one that isn't text is found to be so, at its line."""
    with pytest.raises(NoTemplateFileError, match=r"none\.toml: can't be read: .*; name a template file"):
        check(tmp_path / "none.toml")
    broken = tmp_path / "broken.toml"
    broken.write_bytes(b'format = 1\nid = "a\xff"\n')
    (found,) = check(broken)
    assert (found.line, found.why, found.mend) == (2, "not UTF-8 text", "save the file as UTF-8")


KEYS = st.sampled_from(
    sorted({*known_keys(Template), *known_keys(Step), *known_keys(Reading), "left", "a", "b.c", "ü x"})
)
VALUES = st.recursive(
    st.none().map(lambda _: "x")
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.sampled_from(["a", "left", "a.b", "mm", "perch-shift", "", "1 %", "vehicle", "work out", "\x1b"])
    | st.dates(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=12,
)


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(KEYS, VALUES, max_size=6))
def test_any_data_gives_findings(data: dict[str, Any]) -> None:
    """Whatever tables and values stand in a file, proofreading ends with findings and with no exception."""
    merged = {**data, "format": 1, "id": "a", "title": "A"}
    assert isinstance(as_lines(_checked(tomli_w.dumps(merged).encode())), list)


NAMES = st.sampled_from(
    ["a", "b", "left", "a.left", "a.b", "b.r", "w.left_inboard", "g", "vehicle", "side", "s", "c"]
)
READING = st.fixed_dictionaries(
    {},
    optional={
        "unit": st.sampled_from(["mm", "deg"]),
        "target": NAMES,
        "off_by": st.just(1),
        "at_most": st.dictionaries(NAMES, st.floats(), max_size=2),
        "from": NAMES,
    },
)
STEPS = st.fixed_dictionaries(
    {"stage": st.sampled_from(["a", "b"]), "title": st.just("T")},
    optional={
        "after": st.lists(st.sampled_from(["a", "b", "s", "a.left"]), max_size=1),
        "for_each": st.sampled_from(["side", "vehicle"]),
        "opens": st.lists(st.sampled_from(["c", "b"]), max_size=2, unique=True),
        "closes": st.lists(st.sampled_from(["c", "b"]), max_size=2, unique=True),
        "not_while": st.lists(st.sampled_from(["c", "b"]), max_size=2, unique=True),
        "only_when": st.dictionaries(NAMES, st.sampled_from(["x", "y", "z", True]), max_size=1),
        "reading": st.dictionaries(st.sampled_from(["r", "q"]), READING, max_size=2),
        "work_out": st.just({"w": {"use": "perch-shift", "spacing_now": "r", "spacing_wanted": "b.r"}}),
        "compare": st.just({"row": {"of": "a.r", "by": "w.left_inboard", "then": "g"}}),
    },
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(st.sampled_from(["a", "b", "s", "d"]), STEPS, max_size=4), st.booleans())
def test_any_steps_give_findings(steps: dict[str, Any], one_by_one: bool) -> None:
    """However steps, names, sets and orders are tangled, proofreading ends with findings."""
    data = {
        **SOUND,
        "vehicle": {"left": "One", "right": "Other"},
        "given": {"g": {"ask": "?", "choose": ["x", "y"]}, "left": {"b": {"ask": "?", "unit": "mm"}}},
        "set": {"side": ["left", "right"]},
        "condition": {"c": {"text": "Open"}, "b": {"text": "Loose"}},
        "stage": {"a": {"title": "A", "for_each": "side", "one_by_one": one_by_one}, "b": {"title": "B"}},
        "step": steps,
    }
    assert isinstance(problems(data), list)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=200) | st.text(max_size=100).map(str.encode))
def test_any_bytes_give_findings(raw: bytes) -> None:
    """Any bytes at all give at least one finding: a template needs a format, an id and a title."""
    assert _checked(raw)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from(list("\"[{=.\n,'#} é")), st.booleans())
def test_one_character_amiss_gives_findings(at: int, sign: str, replace: bool) -> None:
    """One character put into a large template, or in place of another, never breaks proofreading."""
    text = EXCHANGE.read_text("utf-8")
    at %= len(text)
    changed = text[:at] + sign + text[at + replace :]
    assert isinstance(as_lines(_checked(changed.encode())), list)


def _checked(raw: bytes) -> list[Finding]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "any.toml"
        file.write_bytes(raw)
        return check(file)
