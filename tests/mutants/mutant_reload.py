"""The modules of the shop mathematics as they are loaded, which tests come by a line, and reloading in place.

Tests hold references to the functions they imported, so a change is put under them: functions keep their
identity and get the changed code, constants are set anew wherever they were imported.
"""

from __future__ import annotations

import ast
import inspect
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from types import FunctionType, ModuleType

import pytest
from coverage import CoverageData

from tests.mutants.mutant_changes import Change

PACKAGE = "jobtrack.shopmath"


class Room:
    """The modules of one folder, and the tests that come by their lines."""

    def __init__(self, folder: Path, data: CoverageData, items: Sequence[pytest.Item]) -> None:
        self.items = items
        self._paths = {
            ".".join(path.relative_to(folder).with_suffix("").parts): path
            for path in sorted(folder.rglob("*.py"))
            if path.stem != "__init__"
        }
        texts = {name: path.read_text(encoding="utf-8") for name, path in self._paths.items()}
        self._lines = {name: text.splitlines() for name, text in texts.items()}
        self._trees = {name: ast.parse(text) for name, text in texts.items()}
        self._contexts = {name: data.contexts_by_lineno(str(path)) for name, path in self._paths.items()}
        self._codes = {
            name: compile(tree, str(self._paths[name]), "exec") for name, tree in self._trees.items()
        }
        self._imports = {name: set(_imports(tree)) for name, tree in self._trees.items()}
        self._names = [
            (name, statement, {node.id for node in ast.walk(statement) if isinstance(node, ast.Name)})
            for name, tree in self._trees.items()
            for statement in _statements(tree)
        ]
        self._found: dict[str, set[str]] = {}
        self._order = [
            key.removeprefix(f"{PACKAGE}.")
            for key in sys.modules
            if key.removeprefix(f"{PACKAGE}.") in self._paths
        ]

    def names(self) -> list[str]:
        """All modules."""
        return list(self._paths)

    def source(self, name: str) -> tuple[ast.Module, list[str]]:
        """A module's tree, in which changes are planted, and its lines."""
        return self._trees[name], self._lines[name]

    def tests_of_module(self, name: str) -> set[str]:
        """The tests that come by any line of a module while they run, or of those that import it."""
        return {test for each in self._above(name) for test in self._by_lines(each)}

    def _by_lines(self, name: str) -> set[str]:
        return {test for tests in self._contexts[name].values() for test in tests if test}

    def tests(self, name: str, change: Change) -> set[str]:
        """The tests that can see a change: those that come by its function, or that use its constant.

        What is said at the head of a function is seen through the catalogue, too.
        """
        owner = change.owner
        if isinstance(owner, ast.FunctionDef):
            at_import, tests = self._by(name, owner)
            if change.line < owner.body[0].lineno:
                tests |= self._by_lines("catalogue")
            if at_import:
                tests |= self._users(owner.name) | self.tests_of_module(name)
            return tests
        return self._users(*_targets(owner)) or self.tests_of_module(name)

    def _by(self, name: str, function: ast.FunctionDef) -> tuple[bool, set[str]]:
        """Whether a function's body ran while modules were imported, and the tests that came by it."""
        lines = range(function.body[0].lineno, (function.end_lineno or function.lineno) + 1)
        tests = {test for line in lines for test in self._contexts[name].get(line, [])}
        return "" in tests, tests - {""}

    def _users(self, *names: str) -> set[str]:
        key = " ".join(names)
        if key not in self._found:
            self._found[key] = self._search(set(names))
        return self._found[key]

    def _search(self, names: set[str]) -> set[str]:
        tests: set[str] = set()
        grown = True
        while grown:
            before = len(names)
            for module, statement, used in self._names:
                if used.isdisjoint(names):
                    continue
                if isinstance(statement, ast.FunctionDef):
                    at_import, by = self._by(module, statement)
                    tests |= by
                    names |= {statement.name} if at_import else set()
                else:
                    names |= set(_targets(statement))
            grown = len(names) > before
        return tests | {item.nodeid for item in self.items if _mentions(item, names)}

    def _above(self, name: str) -> list[str]:
        """The module and those that import it, at first or second hand, in the order they were imported."""
        above = {name}
        for each in self._order * 2:
            if not above.isdisjoint(self._imports[each]):
                above.add(each)
        return [each for each in self._order if each in above]

    def reload(self, name: str, tree: ast.Module) -> None:
        """Put the code of this tree under the loaded module, and make what was derived from it anew."""
        for each in self._above(name):
            module = sys.modules[f"{PACKAGE}.{each}"]
            code = compile(tree, str(self._paths[each]), "exec") if each == name else self._codes[each]
            fresh = ModuleType(module.__name__)
            exec(code, vars(fresh))
            _take_over(module, fresh, self._trees[each])


def _imports(tree: ast.Module) -> Iterator[str]:
    for statement in tree.body:
        if isinstance(statement, ast.ImportFrom) and statement.module:
            yield statement.module.removeprefix(f"{PACKAGE}.")


def _statements(tree: ast.Module) -> Iterator[ast.stmt]:
    for statement in tree.body:
        if isinstance(statement, ast.ClassDef):
            yield from (each for each in statement.body if isinstance(each, ast.FunctionDef))
        else:
            yield statement


def _targets(statement: ast.stmt) -> Iterator[str]:
    if isinstance(statement, ast.Assign | ast.AnnAssign):
        targets = statement.targets if isinstance(statement, ast.Assign) else [statement.target]
        for target in targets:
            yield from (node.id for node in ast.walk(target) if isinstance(node, ast.Name))


def _mentions(item: pytest.Item, names: set[str]) -> bool:
    module = inspect.getmodule(getattr(item, "obj", None))
    return module is not None and not names.isdisjoint(vars(module))


def _take_over(module: ModuleType, fresh: ModuleType, tree: ast.Module) -> None:
    constants = {name for statement in tree.body for name in _targets(statement)}
    for key, new in vars(fresh).items():
        old = vars(module).get(key)
        if isinstance(new, FunctionType | type) and new.__module__ == module.__name__:
            _take_code(old, new)
        elif key in constants and (new or new == 0):
            _rebind(key, old, new)
    _keep_functions(module)


def _take_code(old: object, new: object) -> None:
    if isinstance(old, FunctionType) and isinstance(new, FunctionType):
        old.__code__, old.__defaults__ = new.__code__, new.__defaults__
        old.__kwdefaults__ = new.__kwdefaults__
    elif isinstance(old, property) and isinstance(new, property):
        _take_code(old.fget, new.fget)
    elif isinstance(old, type) and isinstance(new, type):
        for key, member in vars(new).items():
            if getattr(member, "__module__", None) == new.__module__ or isinstance(member, property):
                _take_code(vars(old).get(key), member)


def _rebind(key: str, old: object, new: object) -> None:
    for module in list(sys.modules.values()):
        if isinstance(module, ModuleType) and vars(module).get(key) is old:
            setattr(module, key, new)


def _keep_functions(module: ModuleType) -> None:
    """The catalogue keeps the functions that the tests know."""
    catalogue = vars(sys.modules[f"{PACKAGE}.catalogue"])["_CATALOGUE"]
    for name, work in catalogue.items():
        if work.function.__module__ == module.__name__:
            catalogue[name] = replace(work, function=vars(module)[work.function.__name__])
