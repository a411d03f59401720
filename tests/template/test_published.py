"""The strict reader and the models published of the same classes say yes and no to the same templates."""

from __future__ import annotations

import copy
import datetime
import json
import math
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import tomli
from jsonschema import Draft202012Validator
from pydantic import BaseModel, ValidationError

from jobtrack.cli.schema import schema_of
from jobtrack.schema.fields import known_keys
from jobtrack.schema.published import model_of
from jobtrack.schema.values import Shape
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template import model
from jobtrack.template.load import read_template
from tests.support.exchange import EXCHANGE
from tests.support.mistakes import MISTAKES

Data = dict[str, Any]
Path_ = tuple[str, ...]
MODEL: type[BaseModel] = model_of(model.Template)
SHIPPED = sorted(shipped("job_templates").glob("*.toml"))
LONG = "é" * 5000
"""Within 8192 characters, beyond 8192 bytes."""
VALUES: list[Any] = [
    5, 0, 1, 1.0, 2.5, -1, 10**12, 10**12 + 1, math.nan, math.inf, True, False, "x", "", "Not an id", "a.b", LONG,
    [], ["a"], ["a", "a"], ["A b"], [1, 2.5], [True], [[]], [["a", "b", "c", "d"]], [["a", "b", "c"]], [5, "a"],
    {}, {"a": "b"}, {"a": 1}, {"A b": "c"}, {"a": {}}, {"a": {"ask": "x"}}, {"use": "x"}, {"use": 1, "b": 2},
    {"use": "x", "b": [1]}, {"value": "1", "source": "s"}, {"value": "1"}, {"ask": "x"}, {"of": "a", "then": "b"},
    {"of": "a", "follows": "b"}, {"of": "a", "then": "b", "follows": "b"}, {"title": "x", "stage": "y"},
    datetime.date(2031, 4, 2),
]  # fmt: skip
"""What is put in the place of each value."""


@cache
def validator() -> Draft202012Validator:
    schema = schema_of("template")
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def reader_says(data: Data) -> bool:
    return read_template(data, Shape()) is not None


def model_says(data: Data) -> bool:
    try:
        MODEL.model_validate(data)
    except ValidationError:
        return False
    return True


def parsed(path: Path) -> Data:
    """The data of a template, or of the template in a job file."""
    data = tomli.loads(path.read_text("utf-8"))
    return data["template"] if path.name.endswith(".job.toml") else data


def with_a_table() -> Iterator[tuple[str, Data]]:
    """Each template with a mistake that has a table at all, by its name."""
    for mistake in MISTAKES:
        with suppress(tomli.TOMLDecodeError):
            yield mistake.name, tomli.loads(mistake.text)


JUDGED = dict(with_a_table())
"""Those of form and of meaning: where the mistake is one of grammar, there is no table to judge."""


@pytest.mark.parametrize(
    "path", [*SHIPPED, *sorted(shipped("sample_jobs").glob("*"))], ids=lambda path: path.name
)
def test_what_is_shipped_is_taken_by_all_three(path: Path) -> None:
    """Reader, model and JSON Schema say yes to the templates, and to those in the sample jobs."""
    data = parsed(path)
    assert (reader_says(data), model_says(data), validator().is_valid(data)) == (True, True, True)


@pytest.mark.parametrize("name", JUDGED)
def test_one_mistake_is_judged_alike(name: str) -> None:
    """Where the mistake is one of form both say no; where it is one of meaning both say yes."""
    data = JUDGED[name]
    assert model_says(data) == reader_says(data)
    if name != "not_a_number":  # JSON has no such number, so its schema can't speak of it
        assert validator().is_valid(data) == reader_says(data)


def test_some_mistakes_are_of_form() -> None:
    """The comparison above sees both answers."""
    said = [reader_says(data) for data in JUDGED.values()]
    assert said.count(False) > 15
    assert said.count(True) > 80


def shape_of(path: Path_) -> Path_:
    """A path without the ids in it, as far as that can be told: what is alike is tried once."""
    return path[:1] + path[2:3] + path[4:5]


def every_path(table: Data, path: Path_ = ()) -> Iterator[Path_]:
    for key, value in table.items():
        yield (*path, key)
        if isinstance(value, dict):
            yield from every_path(value, (*path, key))


def at(data: Data, path: Path_) -> Data:
    for part in path:
        data = data[part]
    return data


EVERY = {
    "target": 5,
    "over_by": 1,
    "under_by": 0.5,
    "strict": True,
    "times": 3,
    "source": "a book",
    "doubt": 0.1,
}
BOLT = {"thread": "M12", "grade": "8.8", "figure": "work out", "answered": "it is so"}
WAITED = {"ask": "Watched?", "wait": {"minutes": 60, "since": "weld"}, "answered": "it is so"}
GOES_OVER = {"vehicle": "donor", "own": "donor.plate", "gets": "recipient.plate", "say": "axle"}
"""Keys that the axle exchange has no use for, among others."""


@cache
def thinned() -> Data:
    """The axle exchange: of each kind of table those that show a key for the first time; and what none shows."""
    data = parsed(EXCHANGE)
    for depth in (2, 4):
        seen: set[Path_] = set()
        for path in [path for path in every_path(data) if len(path) == depth]:
            table = at(data, path[:-1])
            if isinstance(inner := table[path[-1]], dict):
                shapes = {shape_of((*path, *below)) for below in every_path(inner)}
                if shapes <= seen:
                    del table[path[-1]]
                seen |= shapes
    step = next(iter(data["step"].values()))
    step["reading"], step["torque"] = {"every": EVERY, **step.get("reading", {})}, {"every": BOLT}
    step["answered"], step["tick"] = {"does": "it is so"}, {"every": WAITED, **step.get("tick", {})}
    step["weld"] = {"every": {"process": "stick", "answered": "it is so"}}
    next(iter(data["condition"].values()))["answered"] = "it is so"
    data["about"] = step["about"] = "recipient"
    data["exchanged"] = {"axle": {**GOES_OVER, "only_when": {"donor.axle-is": ["under the donor"]}}}
    data["given"]["day"] = {"ask": "When?", "kind": "date"}
    return data


def paths() -> list[Path_]:
    return list({shape_of(path): path for path in every_path(thinned())}.values())


def with_value(path: Path_, value: Any) -> Data:
    data = copy.deepcopy(thinned())
    at(data, path[:-1])[path[-1]] = copy.deepcopy(value)
    return data


def test_the_thinned_template_shows_every_key() -> None:
    """So what follows tries each key of each class."""
    shown = {path[-1] for path in every_path(thinned())} | {"hazard"}
    for cls in (
        model.Template,
        model.Step,
        model.Stage,
        model.Reading,
        model.Given,
        model.Torque,
        model.Part,
        model.Tick,
        model.Wait,
        model.Condition,
        model.Exchanged,
    ):
        assert set(known_keys(cls)) - shown == set()


@pytest.mark.parametrize("path", paths(), ids=".".join)
def test_another_value_in_any_place_is_judged_alike(path: Path_) -> None:
    """Some forty values, right and wrong, in the place of each value of a template."""
    for value in VALUES:
        if not (
            path[0] == "given" and len(path) == 2 and value == {}
        ):  # whose table it is, only the reader knows
            data = with_value(path, value)
            assert model_says(data) == reader_says(data), (path, value)


@pytest.mark.parametrize("path", paths()[::8], ids=".".join)
def test_another_value_is_judged_alike_by_the_json_schema(path: Path_) -> None:
    """The same in every eighth place, which takes long enough."""
    for value in filter(is_json, VALUES):
        data = with_value(path, value)
        said = reader_says(data)
        if not said and (type(value) is float or value == LONG):
            continue  # JSON Schema counts 1.0 as a whole number, and characters where the reader counts bytes
        assert validator().is_valid(data) == said, (path, value)


@pytest.mark.parametrize("given", [{"donor": {}}, {"way": {}}, {"donor": {"ask": "Which?", "choose": ["a"]}}])
def test_only_the_reader_knows_which_names_are_vehicles(given: Data) -> None:
    """The one difference: whether a table of `given` is a given or a vehicle's own tables is said under `vehicle`.

    A model sees a table by itself, so it takes what would be right in the one case or in the other.
    """
    data = {"format": 1, "id": "a", "title": "A", "vehicle": {"donor": "The giver"}, "given": given}
    assert (model_says(data), validator().is_valid(data)) == (True, True)
    assert reader_says(data) is (given == {"donor": {}})


def is_json(value: Any) -> bool:
    try:
        json.dumps(value, allow_nan=False)
    except (TypeError, ValueError):
        return False
    return True


@pytest.mark.parametrize("path", paths(), ids=".".join)
def test_a_key_too_few_or_too_many_is_judged_alike(path: Path_) -> None:
    """Each key taken away, and a key that nobody knows beside it."""
    less = copy.deepcopy(thinned())
    del at(less, path[:-1])[path[-1]]
    for data in (
        less,
        with_value((*path[:-1], "odd-key"), "x"),
        with_value((*path[:-1], "odd-key"), {"ask": "x"}),
    ):
        said = reader_says(data)
        assert (model_says(data), validator().is_valid(data)) == (said, said)


def test_the_words_of_the_classes_stand_in_the_schema() -> None:
    """An editor that knows the schema shows what a key means."""
    found = schema_of("template")["$defs"]["Reading"]["properties"]
    assert found["doubt"]["description"] == "Expanded uncertainty (k = 2), half-width, in `unit`."
    assert "with" in found
    assert "with_" not in found
