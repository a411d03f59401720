"""What is refused before it is parsed, and templates that ask for more than a machine holds."""

from __future__ import annotations

import json
import time
from itertools import product
from pathlib import Path
from string import ascii_lowercase

import pytest

from jobtrack.schema.bounds import FILE_LIMIT, beyond_bounds
from jobtrack.template.guard import MOST_BELOW, MOST_FEEDING, check_feeding
from jobtrack.template.load import TemplateError, load
from jobtrack.template.plan import plan
from jobtrack.template.proofread import check

HEAD = 'format = 1\nid = "a"\ntitle = "A"\n[stage.s]\ntitle = "S"\n'
MEMBERS = ["".join(letters) for letters in product(ascii_lowercase, repeat=3)]
SET, SMALL_SET = (
    f"set.m = {json.dumps(MEMBERS[:count], separators=(',', ':'))}\n" for count in (10_100, 500)
)
READINGS = "".join(f'reading.r{number} = {{ unit = "mm" }}\n' for number in range(600))
ADD = 'work_out.w = {{ use = "relative-level", reference = {0}, face = {0} }}\n'
CHAIN = "".join(
    f'[step.s{number}]\nstage = "s"\ntitle = "T"\n'
    + ADD.format(f'"s{number - 1}.w.difference"' if number else "1")
    for number in range(400)
)
BOMBS = {
    "a dotted key": ("a." * 9 + "a = 1\n", 1, "a key with too many parts"),
    "a table's name": ("\n[" + "a." * 9 + "a]\n", 2, "a key with too many parts"),
    "quoted parts": ("a = 1\n" + '"x y" . ' * 9 + "a = 1\n", 2, "a key with too many parts"),
    "lists": ("a = 1\nb = " + "[" * 9 + "]" * 9, 2, "lists or tables too deep in one another"),
    "tables": ("a = " + "{ a = " * 9 + "1" + " }" * 9, 1, "lists or tables too deep in one another"),
    "a number": ("a = 1\nb = " + "9" * 100_000, 2, "a line longer than 64 KiB"),
    "a shorter number": ("a = 1\nb = 0x" + "f" * 5000, 2, "a number too long"),
    "a line": ("a = 1\nb = '" + "x" * 70_000 + "'", 2, "a line longer than 64 KiB"),
    "a million tables": (
        "".join(f"[t{n}]\n" for n in range(1_000_000)),
        1,
        "more than 60000 times the sign [",
    ),
    "a million lists": ("a = [\n" + "[],\n" * 1_000_000 + "]", 1, "more than 60000 times the sign ["),
    "a file": ("#\n" * (FILE_LIMIT // 2 + 1), 1, "larger than 16 MiB"),
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_what_is_beyond_a_bound_is_refused_unread(tmp_path: Path, bomb: str) -> None:
    """Named with file and line on one line, within two seconds of work."""
    text, line, why = BOMBS[bomb]
    path = tmp_path / "a.toml"
    path.write_text(text, "utf-8")
    began = time.process_time()
    with pytest.raises(TemplateError) as caught:
        load(path)
    assert why in str(caught.value)
    assert str(caught.value).startswith(f"{path}:{line}: " if bomb != "a file" else f"{path}: ")
    assert "\n" not in str(caught.value)
    [found] = check(path)
    assert found.line == line
    assert time.process_time() - began < 2


@pytest.mark.parametrize(
    "text",
    ["a.b.c.d.e.f.g.h = 1", "# " + "a." * 30, "a = '" + "[" * 30 + "'", 'a = """\n' + "[{\n" * 30 + '"""',
     "a = [[[[[[[[]]]]]]]]", "[[a]]\n" * 100, "a = 1 # ' and \" and [[[[[[[[[[", "a = '''\n'[[[[[[[[[''[' '''"],
)  # fmt: skip
def test_what_is_within_the_bounds_is_read(text: str) -> None:
    """Texts and comments may hold what they like."""
    assert beyond_bounds(text.encode()) is None


ONE_STEP = '[step.{}]\nstage = "s"\ntitle = "T"\nfor_each = "m"\n'
TWO_STEPS = ONE_STEP.format("x") + ONE_STEP.format("y") + 'after = ["x"]\n'
TOO_LARGE = [
    (SET + HEAD + ONE_STEP.format("x"), 7, "more than 10000 steps"),
    (SMALL_SET + HEAD + ONE_STEP.format("x") + READINGS, 7, "more than 100000 readings"),
    (HEAD + ONE_STEP.format("x") + 'do = """\n' + "word \n" * 2000 + '"""\n', 10, "a text longer than"),
    (HEAD + "[condition.c]\ntext = inf\n", 7, "here stands a number"),
    (HEAD + "[condition.c]\ntext = 2031-04-02\n", 7, "here stands a date"),
    (SMALL_SET + HEAD + TWO_STEPS, 15, "more than 200000 steps are named"),
]


@pytest.mark.parametrize(
    ("text", "where", "why"), TOO_LARGE, ids=["steps", "readings", "text", "inf", "date", "order"]
)
def test_a_template_too_large_once_it_is_spread_out(tmp_path: Path, text: str, where: int, why: str) -> None:
    """A few kilobytes may ask for a million readings: refused with the line, by the checker too."""
    path = tmp_path / "a.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(TemplateError, match=why) as caught:
        load(path)
    assert str(caught.value).startswith(f"{path}:{where}: ")
    assert check(path)[0].line == where


def test_figures_too_deep_on_one_another(tmp_path: Path) -> None:
    """Four hundred workings-out, each fed by the one before, are a problem with its step."""
    path = tmp_path / "a.toml"
    path.write_text(HEAD + CHAIN, "utf-8")
    [problem] = check_feeding(plan(load(path)[0]))
    assert problem.key == ("step", f"s{MOST_BELOW}")
    assert "stands on too many other figures" in problem.why


def test_figures_not_deep_but_many(tmp_path: Path) -> None:
    """Nine groups of forty, each fed by the one before, may stand; the tenth is one too many."""
    path = tmp_path / "a.toml"
    deep, groups = 40, CHAIN
    for number in range(deep, 400, deep):
        groups = groups.replace(f'"s{number - 1}.w.difference"', "1")
    path.write_text(HEAD + groups, "utf-8")
    [problem] = check_feeding(plan(load(path)[0]))
    of_a_group = sum(count * count for count in range(1, deep + 1))
    assert MOST_FEEDING // of_a_group == 9
    assert problem.key[1] in {f"s{number}" for number in range(9 * deep, 10 * deep)}


def test_thousands_of_unknown_keys_are_found_soon(tmp_path: Path) -> None:
    """No more problems are kept than anybody reads."""
    path = tmp_path / "a.toml"
    path.write_text("".join(f"k{number} = 1\n" for number in range(90_000)), "utf-8")
    began = time.process_time()
    assert 0 < len(check(path)) <= 1001
    assert time.process_time() - began < 5
