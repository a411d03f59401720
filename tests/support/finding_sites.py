"""Every place in the code that can give a finding of `proofread`, and which of them did for a set of templates."""

from __future__ import annotations

import ast
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any, NamedTuple

import jobtrack
from jobtrack.schema import bounds, stumble_tables

ROOT = Path(jobtrack.__file__).parent
BUILT_WITH = {"Problem", "UnitsDiffer"}
"""Classes: seen when the line that builds one is run."""
CALLED = {"remark": "schema/problem.py", "add": "schema/values.py"}
"""Functions, with their file: seen when they are called."""
MADE_WITH = BUILT_WITH | {"remark", "shape.add", "shape.wrong"}
NOT_OF_TEMPLATES = {"_matching", "_one_of", "read_matching", "read_one_of"}
"""Readers of what stands in settings only."""
SIEVES = {"_first_by_key", "_unanswered", "_meaning", "problems", "check"}
"""Functions that pass on what others found."""


class Site(NamedTuple):
    """A call, in the code, that gives a finding or asks a function for some."""

    file: str
    function: str
    first: int
    last: int
    builds: bool
    """Whether the finding is built here, by no function that could be seen."""

    def __str__(self) -> str:
        return f"{self.file}:{self.first} in {self.function}"


def trees() -> dict[str, ast.Module]:
    """The files that find something, parsed."""
    checks = [*(ROOT / "template" / "checks").rglob("*.py"), ROOT / "template" / "guard.py"]
    files = [*checks, ROOT / "template" / "proofread.py", ROOT / "template" / "one_unit.py"]
    files += [ROOT / "schema" / "reader.py", ROOT / "schema" / "values.py"]
    return {str(path.relative_to(ROOT)): _tree(path) for path in files}


def _tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"))


def _functions(tree: ast.AST) -> Iterator[ast.FunctionDef]:
    return (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


def _gives(function: ast.FunctionDef) -> bool:
    """By what it is declared to return."""
    return function.returns is not None and "Problem" in ast.unparse(function.returns)


def sites() -> list[Site]:
    """All of them; where several ask one function, each by itself."""
    found_in = trees()
    giving = {(name, one.name) for name, tree in found_in.items() for one in _functions(tree) if _gives(one)}
    found = [
        Site(name, function.name, node.lineno, node.end_lineno or node.lineno, called(node) in BUILT_WITH)
        for name, tree in found_in.items()
        for function in _functions(tree) if function.name not in {*NOT_OF_TEMPLATES, *MADE_WITH, *SIEVES, "wrong"}
        for node in ast.walk(function)
        if isinstance(node, ast.Call) and (called(node) in MADE_WITH or _asked(giving, name, called(node)))
    ]  # fmt: skip
    return sorted({(site.file, site.first, site.last): site for site in found}.values())


def _asked(giving: set[tuple[str, str]], file: str, called: str) -> bool:
    """Whether that function gives findings; one with a line before its name is its own file's."""
    if called.startswith("_"):
        return (file, called) in giving
    return any(called == name for _, name in giving)


def called(node: ast.AST) -> str:
    """The name under which a call calls something."""
    return ast.unparse(node.func) if isinstance(node, ast.Call) else ""


def reasons() -> set[str]:
    """Why a file is refused before its keys are looked at: the tables of stumbles, and the bounds."""
    found = {why for _, why, _ in (*stumble_tables.STUMBLES, *stumble_tables.BY_MESSAGE)}
    for function in _functions(_tree(Path(bounds.__file__))):
        if function.name in ("beyond_bounds", "_deep_or_long"):
            found |= {text for node in ast.walk(function) for text in _words(node)}
    return found


def _words(node: ast.AST) -> Iterator[str]:
    """A text of several words that is no docstring, without what is filled in."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and " " in node.value.strip():
        yield from [] if node.value.endswith(".") else [node.value.strip()]


class Watch:
    """Which lines of the code were on their way to a finding when one was made."""

    def __init__(self, all_: list[Site]) -> None:
        self._building: dict[str, set[int]] = {}
        for site in all_:
            lines = self._building.setdefault(str(ROOT / site.file), set())
            lines |= set(range(site.first, site.last + 1)) if site.builds else set()
        self._reached: set[tuple[str, int]] = set()

    def run(self, call: Callable[[], Any]) -> Any:
        """What a call gives, watched."""
        before = sys.gettrace()
        sys.settrace(self._enter)
        try:
            return call()
        finally:
            sys.settrace(before)

    def reached(self, site: Site) -> bool:
        """Whether a finding came from there."""
        return any(
            (str(ROOT / site.file), line) in self._reached for line in range(site.first, site.last + 1)
        )

    def _enter(self, frame: FrameType, event: str, arg: Any) -> Any:
        file = CALLED.get(frame.f_code.co_name)
        if file and frame.f_code.co_filename == str(ROOT / file):
            self._keep(frame)
        return self._line if frame.f_code.co_filename in self._building else None

    def _line(self, frame: FrameType, event: str, arg: Any) -> Any:
        if event == "line" and frame.f_lineno in self._building[frame.f_code.co_filename]:
            self._keep(frame)
        return self._line

    def _keep(self, frame: FrameType) -> None:
        """The lines of a call and of all that called it."""
        on_the_way: FrameType | None = frame
        while on_the_way is not None:
            self._reached.add((on_the_way.f_code.co_filename, on_the_way.f_lineno))
            on_the_way = on_the_way.f_back
