"""Reading templates into the classes of the model."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from msgspec import Struct

from jobtrack.schema.fields import fields_of
from jobtrack.schema.reader import reader_of
from jobtrack.template import load as loading
from jobtrack.template import model
from jobtrack.template.load import TemplateError, build, load
from jobtrack.template.model import ASK_FIRST

BARE: dict[str, Any] = {"format": 1, "id": "bench", "title": "A bench test"}


def _step(**keys: Any) -> dict[str, Any]:
    return {**BARE, "step": {"cut": {"stage": "work", "title": "Cut", **keys}}}


def test_the_least_template_has_the_defaults() -> None:
    """Three keys are enough; all else is as the classes say."""
    assert build(BARE) == model.Template(format=1, id="bench", title="A bench test")


def test_python_keywords_lose_their_underscore_in_the_file() -> None:
    """`for`, `from` and `with` are written without the underscore that Python needs."""
    template = build({**_step(reading={"gap": {"from": "a.b", "with": "rule"}}), "for": "a trailer"})
    assert template.for_ == "a trailer"
    reading = template.step["cut"].reading["gap"]
    assert (reading.from_, reading.with_) == ("a.b", "rule")


def test_givens_of_a_vehicle_get_a_flat_name() -> None:
    """A given under a vehicle is named VEHICLE.NAME."""
    givens = {"donor": {"gap": {"ask": "?", "unit": "mm"}}, "way": {"ask": "?", "choose": ["a"]}}
    template = build({**BARE, "vehicle": {"donor": "The giver"}, "given": givens})
    assert template.given == {
        "donor.gap": model.Given("?", unit="mm"), "way": model.Given("?", choose=("a",)),
    }  # fmt: skip


def test_what_was_not_asked_yet_has_its_question() -> None:
    """`ask_first = true` stands for the question whether anybody has to be asked."""
    assert build({**BARE, "ask_first": True}).ask_first == ASK_FIRST


def test_the_old_name_of_what_follows_is_read() -> None:
    """`follows` in a comparison, as older templates and the headers of older jobs have it, is `then`."""
    rows = [{"of": "a.r", "say": "Gap", key: "way"} for key in ("follows", "then")]
    old, new = (build(_step(compare={"gap": row})) for row in rows)
    assert old == new
    assert new.step["cut"].compare["gap"].then == "way"


def test_one_text_stands_for_a_list_of_one() -> None:
    """`after` and the answers of `only_when` take one value or a list; a missing list isn't an empty one."""
    step = build(_step(after="saw", only_when={"way": "a", "donor.loose": [True]})).step["cut"]
    assert step.after == ("saw",)
    assert step.only_when == {"way": ("a",), "donor.loose": (True,)}
    assert build(_step()).step["cut"].after is None
    assert build(_step(after=[])).step["cut"].after == ()


def test_hazards_limits_and_workings_out_become_their_classes() -> None:
    """Nested tables and lists become tuples, hazards and workings-out."""
    step = build(_step(
        hazard=[["WARNING", "Sparks", "burn", "screen"]],
        work_out={"shift": {"use": "perch-shift", "spacing_now": 1012}},
        reading={"gap": {"target": {"left": "shift.left_inboard", "right": 2.5}}},
    )).step["cut"]  # fmt: skip
    assert step.hazard == (model.Hazard("WARNING", "Sparks", "burn", "screen"),)
    assert step.work_out["shift"] == model.WorkOut("perch-shift", {"spacing_now": 1012})
    assert step.reading["gap"].target == {"left": "shift.left_inboard", "right": 2.5}


def test_a_wrong_shape_names_its_key() -> None:
    """The error is one line with the dotted key, what stands there, and how to mend it."""
    with pytest.raises(TemplateError) as error:
        build(_step(reading={"gap": {"doubt": "0,6"}}))
    assert str(error.value) == (
        "step.cut.reading.gap.doubt: here stands a text (0,6), wanted is a number; Write 0.6, without quotes"
    )


def test_a_file_error_names_its_line(tmp_path: Path) -> None:
    """Read from a file, the error names file and line."""
    file = tmp_path / "a.toml"
    file.write_text('format = 1\nid = "a"\ntitle = 5\n', "utf-8")
    with pytest.raises(TemplateError, match=r"a\.toml:3: title: here stands a number \(5\)"):
        load(file)
    file.write_text('format = 1\nid = a"\n', "utf-8")
    with pytest.raises(TemplateError, match=r"a\.toml:2: Invalid value"):
        load(file)


@pytest.mark.parametrize("value", [True, float("nan"), float("inf"), "5", [5], {"a": 5}, None])
def test_what_is_no_number_is_refused(value: object) -> None:
    """Yes and no, NaN, infinities and numbers beyond all measure aren't numbers."""
    with pytest.raises(TemplateError, match=r"^step\.cut\.reading\.gap\.doubt: here stands "):
        build(_step(reading={"gap": {"doubt": value}}))


def test_too_large_a_file_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file above the bound isn't parsed."""
    monkeypatch.setattr(loading, "LARGEST", 10)
    file = tmp_path / "a.toml"
    file.write_text("# eleven ch\n", "utf-8")
    with pytest.raises(TemplateError, match="larger than"):
        load(file)


def test_too_deep_a_file_is_refused(tmp_path: Path) -> None:
    """Tables five thousand deep in one another give the one line too."""
    file = tmp_path / "a.toml"
    file.write_text("a = " + "[" * 5000 + "]" * 5000, "utf-8")
    with pytest.raises(TemplateError, match="too deep"):
        load(file)


def test_line_ends_and_byte_order_mark_are_forgiven(tmp_path: Path) -> None:
    """A file from another system, with CRLF and a byte order mark, is read as any other."""
    file = tmp_path / "a.toml"
    file.write_bytes(b'\xef\xbb\xbfformat = 1\r\nid = "a"\r\ntitle = """x\r\ny"""\r\n')
    assert load(file)[0] == model.Template(1, "a", "x\ny")


def test_every_field_of_the_model_can_be_read() -> None:
    """No class of the model has a field whose annotation the reader doesn't know."""
    classes = [each for each in vars(model).values() if isinstance(each, type) and issubclass(each, Struct)]
    read = [
        reader_of(field.kind)
        for each in classes for field in fields_of(each)
    ]  # fmt: skip
    assert len(read) > 80
    assert all(callable(each) for each in read)


def test_opening_a_template_needs_no_checker() -> None:
    """Reading a template imports neither the checks nor the units nor pydantic."""
    code = [sys.executable, "-c", "import sys, jobtrack.template.load; print(*sys.modules)"]
    modules = set(subprocess.run(code, capture_output=True, text=True, check=True).stdout.split())
    assert "jobtrack.template.model" in modules
    assert not {"pydantic", "jobtrack.units", "jobtrack.shopmath", "jobtrack.template.proofread"} & modules


def test_a_number_too_long_to_print_is_refused() -> None:
    """A whole number of five thousand digits, which Python won't print, is named without its digits."""
    with pytest.raises(TemplateError, match="a number beyond all measure"):
        build(_step(reading={"gap": {"doubt": 10**5000}}))
