"""Reading a template from its file, or from the copy of it in a job file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import tomli

from jobtrack.schema.bounds import FILE_LIMIT, UnreadableText, as_text
from jobtrack.schema.fields import known_keys
from jobtrack.schema.problem import Key, Problem, in_words
from jobtrack.schema.reader import read_record
from jobtrack.schema.values import Shape
from jobtrack.template.guard import too_large
from jobtrack.template.model import FORMAT, Condition, Given, Reading, Stage, Step, Template, Torque

LARGEST = FILE_LIMIT
"""Bytes of the largest template that is read."""


class TemplateError(ValueError):
    """A template that can't be read: one line that says where, what, and how to mend it."""

    key: Key = ()
    """The key that it is about, where it is about one."""


class NoTemplateFileError(TemplateError):
    """There is no file to read, so nothing was found in one."""


def parse(path: Path) -> tuple[dict[str, Any], str]:
    """The TOML data and the text of a template file. Raises TemplateError, its cause the TOML error."""
    try:
        if path.exists() and not (path.is_file() or path.is_dir()):
            raise NoTemplateFileError(f"{path}: no file but a device or a pipe; name a template file")
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as error:
        raise NoTemplateFileError(
            f"{path}: can't be read: {error.strerror or error}; name a template file"
        ) from error
    if len(raw) > LARGEST:
        raise TemplateError(f"{path}: larger than {LARGEST // 1024 // 1024} MiB; name a template file")
    try:
        text = as_text(raw, "no template needs")
    except UnreadableText as error:
        raise TemplateError(f"{path}:{error}") from error
    return parse_text(text, str(path)), text


def parse_text(text: str, name: str) -> dict[str, Any]:
    """The TOML data of a text. Raises TemplateError."""
    try:
        return tomli.loads(text)
    except tomli.TOMLDecodeError as error:
        raise TemplateError(
            f"{name}:{error.lineno}: {error.msg}; mend this line, `proofread` says how"
        ) from error
    except ValueError as error:
        raise TemplateError(f"{name}:1: a value that can't be read ({error}); shorten it") from error


def read_template(data: dict[str, Any], shape: Shape) -> Template | None:
    """The template, or None; problems are in `shape`."""
    number = data.get("format")
    if type(number) is int and number != FORMAT and not (shape.newer and number > FORMAT):
        shape.add(("format",), "this format isn't known here", f"This program reads format = {FORMAT}")
        return None
    vehicles = data.get("vehicle")
    shape.groups = frozenset(vehicles if isinstance(vehicles, dict) else ())
    shape.elsewhere = {cls.__name__: known_keys(cls) for cls in _TABLES}
    template = read_record(Template, shape, (), data)
    if not isinstance(template, Template) or shape.problems:
        return None
    shape.problems += too_large(template)
    return None if shape.problems else template


_TABLES = (Template, Stage, Step, Reading, Given, Condition, Torque)
"""Whose keys are most often swallowed by another table's header."""


def build(data: dict[str, Any]) -> Template:
    """The template that this data describes. Raises TemplateError with the key of the first problem."""
    return build_as(data, Shape())


def build_as(data: dict[str, Any], shape: Shape) -> Template:
    """The template that this data describes, read with this shape. Raises TemplateError."""
    template = read_template(data, shape)
    if template is None:
        raise as_error(shape.problems[0])
    return template


def as_error(problem: Problem) -> TemplateError:
    """A problem as the error that is raised for it."""
    error = TemplateError(in_words(problem))
    error.key = problem.key
    return error


def load(path: Path) -> tuple[Template, dict[str, Any]]:
    """The template of a file, and its data as parsed. Raises TemplateError."""
    data, text = parse(path)
    shape = Shape()
    template = read_template(data, shape)
    if template is None:
        raise TemplateError(f"{path}:{_line(shape.problems[0], text)}: {in_words(shape.problems[0])}")
    return template, data


def _line(problem: Problem, text: str) -> int:
    from jobtrack.schema.key_lines import place_of, places

    return place_of(problem.key, places(text))[0]
