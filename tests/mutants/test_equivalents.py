"""The list of changes that no test can see, against the modules as they are."""

from __future__ import annotations

import ast
from collections import Counter

from tests.mutants.mutant_changes import changes
from tests.mutants.plant import ROOT, Known, equivalents, known_as

FOLDER = ROOT / "jobtrack" / "shopmath"


def planted() -> Counter[Known]:
    """Every change that is planted, by how it is written in the list."""
    count: Counter[Known] = Counter()
    for path in sorted(FOLDER.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        lines = text.splitlines()
        count.update(
            known_as(path.relative_to(FOLDER).as_posix(), lines, change)
            for change in changes(ast.parse(text))
        )
    return count


def test_the_list_of_equivalents_is_short_and_of_today() -> None:
    """Each listed change is still planted and has its reason, and they are at most 2 in 100 of all."""
    all_planted, listed = planted(), equivalents()
    assert [known for known in listed if known not in all_planted] == []
    assert all(listed.values())
    assert len(listed) * 50 <= all_planted.total()


def test_a_change_is_more_than_a_rounding() -> None:
    """Numbers move by a hundredth and at least by one in their last digit, texts of numbers alike."""
    told = [change.what for change in changes(ast.parse('a = (2, 580, 0.5, "1.25", "7/16", "#7", "K")'))]
    assert told == [
        "2 -> 3",
        "580 -> 586",
        "0.5 -> 0.6",
        "'1.25' -> '1.27'",
        "'7/16' -> '8/16'",
        "'#7' -> '#8'",
        "'K' -> 'L'",
    ]


def test_each_operator_of_a_formula_is_changed_alone() -> None:
    """A formula has a change for each operator, sign, function, order of arguments and number."""
    told = [change.what for change in changes(ast.parse("b = -a / math.sin(c) ** 2 if f(a, c) < 1 else a"))]
    assert told == [
        "branches of -a / math.sin(c) ** 2 if f(a, c) < 1 else a swapped",
        "f(a, c) < 1: <=",
        "f: a, c the other way round",
        "1 -> 2",
        "-a / math.sin(c) ** 2: *",
        "-a -> a",
        "math.sin(c) ** 2: *",
        "math.sin -> math.cos",
        "2 -> 3",
    ]
