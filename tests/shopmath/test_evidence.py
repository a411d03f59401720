"""What holds each working-out from outside: figures that somebody published, or a second way to the answer."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import pytest
import tomli

from jobtrack.shopmath.catalogue import by_topic, find

HERE = Path(__file__).parent
NAMES = [name for names in by_topic().values() for name in names]

TABLES = {
    "drill": "drill-name",
    "beside-drill": "drill-name",
    "fraction": "clearance-hole",
    "loose": "clearance-hole",
    "tap-inch": "tap-drill",
    "tap-formula": "tap-drill",
    "residual": "joint-pair",
    "area": "stress-area",
    "proof": "proof-load",
}
"""Tables of a key and its figures a row, by the working-out that they hold."""

NEITHER = ("u-bolt-leg", "ride-height-change", "torque-stages", "team-lift")
"""Sums and shares, which have one way only and fewer than two published figures; the docstring says why."""
BECAUSE = "No second way: "
"""How a docstring begins to say why not."""


def found() -> Counter[str]:
    """How many published figures, read where they stand, hold each working-out."""
    count: Counter[str] = Counter()
    for file in sorted(HERE.glob("published*.toml")):
        for table, groups in tomli.loads(file.read_text(encoding="utf-8")).items():
            for group in groups:
                if group.get("kind") == "found" and table == "set":
                    count[group["work"]] += len(group["rows"]) * len(group["expect"])
                elif group.get("kind") == "found" and table in TABLES:
                    count[TABLES[table]] += sum(len(row) - 1 for row in group["rows"])
    return count


def marked(file: Path) -> list[str]:
    """The workings-out that a file's tests reach by a second way, as they are marked."""
    calls = [
        call
        for function in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(function, ast.FunctionDef) and function.name.startswith("test_")
        for call in function.decorator_list
        if isinstance(call, ast.Call) and ast.unparse(call.func) == "pytest.mark.independent"
    ]
    return [str(ast.literal_eval(argument)) for call in calls for argument in call.args]


FOUND = found()
MARKED = {name for file in sorted(HERE.glob("test_*.py")) for name in marked(file)}


@pytest.mark.parametrize("name", NAMES)
def test_somebody_else_holds_each_working_out(name: str) -> None:
    """Two published figures or a second way hold it, else its docstring says why not."""
    held = FOUND[name] >= 2 or name in MARKED
    assert held != (name in NEITHER)
    assert (BECAUSE in (find(name).function.__doc__ or "")) == (name in NEITHER)


def test_what_holds_them_is_counted(capsys: pytest.CaptureFixture[str]) -> None:
    """How many are held by figures, by a second way, by both and by neither; at most eight by neither."""
    by_figures = {name for name in NAMES if FOUND[name] >= 2}
    with capsys.disabled():
        print(
            f"\nworkings-out: {len(NAMES)}; two figures or more: {len(by_figures)}; a second way: {len(MARKED)}; "
            f"both: {len(by_figures & MARKED)}; neither: {len(NEITHER)}"
        )
    assert set(NAMES) >= MARKED
    assert len(set(NEITHER)) <= 8
