"""`schema`: what `--json` prints is as its published model and its JSON Schema say."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from pydantic import TypeAdapter

from jobtrack.cli.schema import NAMES, schema_of, shape_of
from jobtrack.shopmath import catalogue
from tests.cli.test_cli_every_act import CASES
from tests.support.cli_calls import Shop, one_line
from tests.support.exchange import SAMPLES
from tests.support.mistakes import MISTAKES

ALL_NAMES = [name for names in catalogue.by_topic().values() for name in names]
PER = ["step", "stage", "person", "vehicle", "job", "template", "month"]


@cache
def validator(name: str) -> Draft202012Validator:
    return Draft202012Validator(schema_of(name))


@cache
def adapter(name: str) -> TypeAdapter[Any]:
    return TypeAdapter(shape_of(name))


def holds(name: str, text: str) -> Any:
    """What was printed, taken by the model and by the JSON Schema of that name."""
    adapter(name).validate_json(text, strict=True)
    data = json.loads(text)
    assert [error.message for error in validator(name).iter_errors(data)] == []
    return data


@pytest.mark.parametrize("name", NAMES)
def test_each_schema_is_sound_and_printed(empty_shop: Shop, name: str) -> None:
    """Draft 2020-12, closed at the top where it is a table of fixed keys, plain ASCII on stdout."""
    out = empty_shop.done("schema", name).out
    schema = json.loads(out)
    assert out.isascii()
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["title"] == f"jobtrack {name}"
    Draft202012Validator.check_schema(schema)
    assert schema == schema_of(name)


def test_without_a_name_the_schemas_are_listed(empty_shop: Shop) -> None:
    """One line each: its name and what it is for."""
    lines = empty_shop.done("schema").out.splitlines()
    assert [line.partition(": ")[0] for line in lines] == list(NAMES)


def test_an_unknown_name_gives_the_nearest(empty_shop: Shop) -> None:
    """One line on stderr, status 2; all names where none is near."""
    near = empty_shop.run("schema", "shwo")
    assert (near.status, near.out) == (2, "")
    assert one_line(near.err) == "'shwo': no such schema; did you mean show?"
    assert one_line(empty_shop.run("schema", "zzz").err).endswith(", ".join(NAMES))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_show_and_hours_of_the_samples(empty_shop: Shop, path: Path) -> None:
    """The half-done job and the finished one."""
    state = holds("show", empty_shop.done("show", path, "--json").out)
    assert state["steps"]
    for per in PER:
        assert holds("hours", empty_shop.done("hours", path, "--per", per, "--json").out)["groups"]


@pytest.mark.parametrize("name", ALL_NAMES)
def test_every_working_out(empty_shop: Shop, name: str) -> None:
    """With the catalogue's own example."""
    work = catalogue.find(name)
    typed = [f"{key}={text}" for key, text in work.example.items()]
    found = holds("work-out", empty_shop.done("work-out", name, *typed, "--json").out)
    assert found["name"] == name


def test_show_with_every_kind_of_act(shop: Shop) -> None:
    """Each kind of act, recorded by its option; then the job is copied back as it was, and entries are gone."""
    (shop.folder / "weld.jpg").write_bytes(b"\xff\xd8\xff")
    before = shop.job.read_bytes()
    for case in CASES:
        for call in (*case.before, case.call):
            shop.run("record", shop.job, *call, "--by", "Wim")
        holds("show", shop.done("show", shop.job, "--json").out)
    state = holds("show", shop.done("show", shop.job, "--json").out)
    assert state["buying"]
    assert state["agreed"]
    shop.job.write_bytes(before)
    assert holds("show", shop.done("show", shop.job, "--json").out)["gone"]


def test_the_lists(empty_shop: Shop) -> None:
    """All workings-out by topic, and the templates."""
    topics = holds("workings-out", empty_shop.done("work-out", "--json").out)
    assert sorted(name for names in topics.values() for name in names) == sorted(ALL_NAMES)
    assert holds("templates", empty_shop.done("templates", "--json").out)


def test_proofreading_the_mistakes(empty_shop: Shop) -> None:
    """Every template with one mistake, in one call."""
    files = [mistake.written(empty_shop.folder) for mistake in MISTAKES]
    found = holds("proofread", empty_shop.run("proofread", *files, "--json").out)
    assert len(found) == len(files)
    assert {one["kind"] for one in found} == {"mistake", "remark"}


@pytest.mark.parametrize("name", ["show", "hours", "work-out", "proofread"])
def test_the_schemas_are_closed(name: str) -> None:
    """A key that nobody knows is refused by model and schema, so what is held above says something."""
    assert "additionalProperties" in json.dumps(schema_of(name))
    odd: Any = {"odd": 1} if name != "proofread" else [{"odd": 1}]
    assert list(validator(name).iter_errors(odd))
    with pytest.raises(ValueError, match="odd"):
        adapter(name).validate_python(odd)
