"""What the class of an act says of its kind: each key, its options, the table of the contributors' guide."""

from __future__ import annotations

import re
from inspect import getdoc, signature
from itertools import permutations
from pathlib import Path

import pytest

from jobtrack.cli.record.act_from_option import composer
from jobtrack.job.acts.base import Act, keys
from jobtrack.job.acts.registry import KINDS, OPTIONS

GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"
each_kind = pytest.mark.parametrize("kind", [*KINDS.values()], ids=lambda kind: kind.kind)


def described(kind: type[Act]) -> list[str]:
    """The keys that the docstring of a kind describes, in its order."""
    return re.findall(r"^(\w+): ", getdoc(kind) or "", re.MULTILINE)


@each_kind
def test_each_key_is_described(kind: type[Act]) -> None:
    """Whoever reads a job file finds each key of it in the class, in the order in which it is written."""
    assert described(kind) == list(keys(kind))
    assert kind.kind in keys(kind)


def test_no_table_is_of_two_kinds() -> None:
    """Of two kinds one at least doesn't know the other's key, so that no order decides what a table is."""
    both = [(one.kind, other.kind) for one, other in permutations(KINDS.values(), 2)
            if one.kind in keys(other) and other.kind in keys(one)]  # fmt: skip
    assert both == []


@pytest.mark.parametrize("name", sorted({*OPTIONS} - {"photo"}))
def test_each_option_has_its_function(name: str) -> None:
    """It takes the draft, what is typed behind the option, and each key that may be added; a photo the disk makes."""
    option, kind = OPTIONS[name]
    known = signature(composer(name)).parameters
    assert set(option.also) <= set(keys(kind))
    assert {keys(kind)[key].attribute for key in option.also} <= set(known)
    assert next(iter(known)) == "draft"


def test_each_list_of_the_json_is_one_kind_s() -> None:
    """No two kinds stand in one list."""
    lists = [kind.listed for kind in KINDS.values() if kind.listed]
    assert len(set(lists)) == len(lists)


def row(kind: type[Act]) -> str:
    """An act in the contributors' guide."""
    what = re.split(r"(?<=\.)\s", getdoc(kind) or "")[0]
    typed = ", ".join(f"`--{option.name}`" for option in kind.options)
    return f"| {kind.kind} | {what} | {', '.join(f'`{key}`' for key in keys(kind))} | {typed} |"


def test_the_guide_has_them_all() -> None:
    """The table of acts in the contributors' guide is what the classes say."""
    table = "\n".join(
        ["| act | what it says | keys | `record` |", "|---|---|---|---|", *map(row, KINDS.values())]
    )
    assert table in GUIDE.read_text(encoding="utf-8"), f"the table of acts is now:\n{table}"
