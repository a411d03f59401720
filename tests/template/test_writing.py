"""The page that teaches the format: each block is typed and run, each key named, and what it builds can be begun."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import tomli
from jsonschema import Draft202012Validator
from msgspec import Struct

from jobtrack.cli.schema import schema_of
from jobtrack.schema.fields import fields_of, mark_of
from jobtrack.schema.marks import Rest
from jobtrack.store.machine.template_folders import shelf
from jobtrack.template import model
from jobtrack.template.checks.meaning.kinds import KINDS
from jobtrack.template.proofread import check
from tests.support.vocabulary import promises
from tests.support.written_page import Reader

PAGE = Path(__file__).parents[2] / "job_templates" / "WRITING.md"
TEXT = PAGE.read_text("utf-8")
TABLES: dict[str, type[Struct]] = {
    "The head of the file": model.Template, "What is exchanged": model.Exchanged, "A given": model.Given,
    "A condition": model.Condition,
    "A stage": model.Stage, "A step": model.Step, "A reading": model.Reading, "A check": model.Tick,
    "A wait": model.Wait, "A working-out": model.WorkOut, "A line of the comparison": model.CompareRow,
    "A part": model.Part, "A torque": model.Torque, "A weld": model.Weld, "A hold": model.Hold,
    "Due afterwards": model.DueAfterwards,
}  # fmt: skip
"""Which class the table under each heading is about."""
TIME = re.compile(r"\d{1,2} [A-Z][a-z]{2} \d\d:\d\d")


@pytest.fixture(scope="module")
def reader(tmp_path_factory: pytest.TempPathFactory) -> Reader:
    """Somebody who has typed the whole page."""
    return Reader(tmp_path_factory.mktemp("page"), "mudguard.toml").follow(TEXT)


def test_each_command_answers_what_the_page_says(reader: Reader) -> None:
    """To the letter, but for the time of day."""
    assert len(reader.answers) > 10
    for commands, said, answered in reader.answers:
        assert TIME.sub("then", answered) == TIME.sub("then", said), commands


def test_no_block_is_left_out(reader: Reader) -> None:
    """Blocks of TOML are typed, each block of commands has its answer, and there are no others."""
    kinds = re.findall(r"^```(\w+)$", TEXT, re.MULTILINE)
    assert set(kinds) == {"toml", "sh", "text"}
    assert kinds.count("sh") == kinds.count("text") == len(reader.answers)
    assert all(
        each in reader.text
        for each in ("step.measure", "step.drill", "step.weld", "step.watch", "step.bolt-on")
    )


def test_what_it_builds_has_no_finding_and_was_begun(reader: Reader) -> None:
    """Typed as written: nothing is found, the JSON Schema takes it, a job was begun; the line for editors is a note."""
    path = reader.folder / "mudguard.toml"
    assert check(path) == []
    assert (reader.folder / "trailer.job.toml").is_file()
    [line] = re.findall(r"^    (#:schema .*)$", TEXT, re.MULTILINE)
    path.write_text(f"{line}\n{reader.text}", "utf-8")
    assert check(path) == []
    assert (reader.folder / line.split()[1]).is_file()
    Draft202012Validator(schema_of("template")).validate(tomli.loads(reader.text))


def table(heading: str) -> list[tuple[str, str]]:
    """The rows under a heading: key and words."""
    section = TEXT.split(f"\n### {heading}\n")[1].split("\n#")[0]
    return re.findall(r"^\| `(\w+)` \| (.*) \|$", section, re.MULTILINE)


@pytest.mark.parametrize("heading", TABLES)
def test_each_key_of_a_class_has_its_row(heading: str) -> None:
    """And no other, in the order of the class; needed ones are marked."""
    keys = [one for one in fields_of(TABLES[heading]) if mark_of(one.kind, Rest) is None]
    rows = table(heading)
    assert [key for key, _ in rows] == [one.key for one in keys]
    assert [key for key, words in rows if words.startswith("needed")] == [
        one.key for one in keys if one.required
    ]


def test_each_class_has_its_table() -> None:
    """But hazard messages, which are written as lists."""
    classes = {each for each in vars(model).values() if isinstance(each, type) and issubclass(each, Struct)}
    assert classes - {Struct, model.Hazard} == set(TABLES.values())
    assert TEXT.count("\n### ") == len(TABLES)


def test_each_kind_of_work_is_named() -> None:
    """Those that may stand in `does`."""
    words = dict(table("A step"))["does"]
    assert re.findall(r"`([\w-]+)`", words) == list(KINDS)


def test_the_page_promises_nothing() -> None:
    """As nothing else does that a user reads."""
    assert promises(TEXT) == []


def test_the_page_is_no_template(tmp_path: Path) -> None:
    """It stands beside the templates, and nothing that looks for them finds it."""
    found = shelf(tmp_path)
    assert PAGE.stem not in {one.file.stem for one in found.templates}
    assert found.broken == ()
