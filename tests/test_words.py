"""Words that would promise something stand only in the sentences that take the promise back."""

from __future__ import annotations

import ast
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from textual.binding import Binding

import jobtrack
from jobtrack.app.screens.step.step_keys import ELSE
from jobtrack.cli.commands import COMMANDS
from jobtrack.cli.main import main
from jobtrack.job.acts.registry import KINDS, OPTIONS
from jobtrack.shopmath import catalogue
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.findings import NOTHING_FOUND
from tests.app.everywhere.test_app_fields import all_screens
from tests.support.exchange import EXCHANGE
from tests.support.handed import handed
from tests.support.vocabulary import LABELS, SENTENCES, TITLES, promises

PACKAGE = Path(jobtrack.__file__).parent
INTERNAL = {
    "template/checks/words.py": "the list of such words itself, which `proofread` looks for in templates",
}
"""Modules whose strings nobody sees, with the reason."""

OF_A_LIBRARY = {
    ("schema/published.py", "allow"): "pydantic's own word for a table that takes keys of any name",
    ("cli/main.py", "not allowed with argument"): "argparse's own words, which are replaced by ours there",
}
"""Single strings that a library wants so, by module, with the reason."""


def literals(path: Path) -> Iterator[tuple[int, str]]:
    """The strings of a module that aren't docstrings; the parts of a formatted one joined as they stand."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = list(ast.walk(tree))
    silent = {id(node.value) for node in nodes if isinstance(node, ast.Expr)}
    silent |= {id(part) for node in nodes if isinstance(node, ast.JoinedStr) for part in node.values}
    for node in nodes:
        if isinstance(node, ast.JoinedStr):
            parts = (str(part.value) if isinstance(part, ast.Constant) else "…" for part in node.values)
            yield node.lineno, "".join(parts)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in silent:
            yield node.lineno, node.value


def texts(value: Any) -> Iterator[str]:
    """Every string in a TOML value."""
    if isinstance(value, dict):
        for one in value.values():
            yield from texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from texts(one)
    elif isinstance(value, str):
        yield value


MODULES = sorted(path for path in PACKAGE.rglob("*.py") if str(path.relative_to(PACKAGE)) not in INTERNAL)
TEMPLATES = sorted(shipped("job_templates").glob("*.toml"))
SAMPLES = sorted(shipped("sample_jobs").glob("*.job.toml"))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_no_string_of_ours_promises(path: Path) -> None:
    """No literal that could reach a screen, a sheet or the command line holds such a word by itself."""
    module = str(path.relative_to(PACKAGE))
    found = [
        (line, promises(text), text) for line, text in literals(path) if (module, text) not in OF_A_LIBRARY
    ]
    assert [one for one in found if one[1]] == []


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_no_shipped_template_promises(path: Path) -> None:
    """What a template asks, warns and says doesn't either."""
    found = [(promises(text), text) for text in texts(tomllib.loads(path.read_text(encoding="utf-8")))]
    assert [one for one in found if one[0]] == []


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_nothing_rendered_promises(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The job in words, as JSON and as a handover sheet, put together from all these strings."""
    rendered = []
    for more in ([], ["--json"]):
        assert main(["show", str(path), *more]) == 0
        rendered.append(capsys.readouterr().out)
    rendered.append(handed(JobFile(path).job, "Teo Banfield", "Ada Prosser").replace("\\", ""))
    assert all(len(text) > 1000 for text in rendered)
    assert [promises(text) for text in rendered] == [[], [], []]


def test_no_help_promises(capsys: pytest.CaptureFixture[str]) -> None:
    """The help of the program and of each command."""
    for command in ([], *([one.name] for one in COMMANDS)):
        if command == ["work-out"]:
            continue  # its help is that of a working-out, whose strings are read above
        with pytest.raises(SystemExit):
            main([*command, "--help"])
        shown = capsys.readouterr().out
        assert shown.startswith("usage: ")
        assert promises(shown) == []


def test_the_honest_sentences_are_said() -> None:
    """Each sentence listed stands somewhere, so that the list doesn't outlive what it excuses."""
    ours = [" ".join(text.split()) for path in MODULES for _, text in literals(path)]
    ours += [
        text
        for path in (*TEMPLATES, EXCHANGE)
        for text in texts(tomllib.loads(path.read_text(encoding="utf-8")))
    ]
    unused = [one for one in (*SENTENCES, *TITLES) if not any(one in text for text in ours)]
    assert unused == []
    assert any(NOTHING_FOUND in text for text in ours)


def test_the_words_are_found() -> None:
    """The reader of these tests sees such a word beside a listed sentence, and in a formatted string."""
    honest = next(iter(SENTENCES))
    assert promises(honest) == []
    assert promises(f"{honest} The weld is safe.") == ["safe"]
    assert promises("All clear: this passed, it is\nfit for the road") == ["All clear", "passed", "fit for"]
    assert promises("compass, password, unsafe, book") == []


def labels() -> Iterator[str]:
    """What keys, rows, commands, options, kinds of acts and the heads of the reckoner's topics are called."""
    for screen in all_screens():
        for one in screen.BINDINGS:
            if isinstance(one, Binding):
                yield one.description
                yield (one.id or "").replace("-", " ")
    for row in ELSE:
        yield row.name
    for command in COMMANDS:
        yield command.name
    for name in OPTIONS:
        yield name.replace("-", " ")
    yield from (kind.replace("_", " ") for kind in KINDS)
    yield from catalogue.by_topic()


def test_no_label_is_another_programs() -> None:
    """None of them is a word of a known family of programs."""
    found = {*labels()} - {""}
    assert len(found) > 150
    assert [one for one in found if LABELS.search(one)] == []
    assert LABELS.search("Sign-off")
