"""Templates of any number of steps, in the shapes that a checker may be slow at."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import tomli

STAGE = 20
"""Steps of a stage, where there are many stages."""
MEMBERS = 25
LIMIT = 'at_most = "work-{}.read"'
DEEP = 6
"""Figures that are worked out one from the other before it begins anew."""
ID = re.compile(r"[\w-]+")
NUMBERED = ("stage", "step")
NAMING = ("part", "due_afterwards")
BARE = ("stage", "step", "after", "before", "since")
HEAD = 'format = 1\nid = "long"\ntitle = "A long job"\nask_first = "Has the maker been asked?"\n'
SHIPPED = Path(__file__).parents[2] / "job_templates" / "axle-exchange.toml"


def _written(*parts: str | Iterator[str]) -> str:
    return HEAD + "\n".join(part if isinstance(part, str) else "\n".join(part) for part in parts) + "\n"


def _stages(count: int, more: str = "") -> Iterator[str]:
    for number in range((count + STAGE - 1) // STAGE):
        yield f'[stage.part-{number}]\ntitle = "Part {number}"\n{more}'


def _step(number: int, *more: str, stage: str | None = None, name: str = "work") -> str:
    where = stage or f"part-{number // STAGE}"
    return "\n".join([f"[step.{name}-{number}]", f'stage = "{where}"', f'title = "Work {number}"', *more])


def stages(count: int) -> str:
    """Many stages, each for two sides, with all that a step may have."""
    half = count // 2
    return _written(
        'given.way = { ask = "Which way?", choose = ["weld", "bolt"] }\nset.side = ["left", "right"]',
        (f'condition.loose-{n} = {{ text = "Part {n} loose" }}' for n in range((half + STAGE - 1) // STAGE)),
        _stages(half, 'for_each = "side"\none_by_one = true\n'),
        (_one_of_all(number, half) for number in range(half)),
    )


def _one_of_all(number: int, count: int) -> str:
    place, stage = number % STAGE, number // STAGE
    before = f'"work-{number - 1}.read"' if number else "96"
    last = place == STAGE - 1 or number == count - 1
    return _step(
        number, 'do = "Take it off. Clean it. Measure it on three places."', "minutes = [5, 10, 20]",
        'does = ["lifts"]', 'hazard = [["WARNING", "It falls", "crushes hands", "stands under it"]]',
        f'opens = ["loose-{stage}"]' if place == 0 else "",
        f'closes = ["loose-{stage}"]' if last else "",
        f'not_while = ["loose-{stage - 1}"]' if stage else "",
        'only_when = { way = ["weld"] }' if place == 5 else "",
        f'reading.read = {{ unit = "mm", with = "steel rule", doubt = 0.4, target = {before}, off_by = 1.0 }}',
        'work_out.tilt = { use = "level", gap = "read", length = 600 }',
        'reading.angle = { unit = "deg", from = "tilt.angle", at_most = 4 }',
        'tick.looked = { ask = "Clean all round?" }',
        'torque.bolts = { thread = "M10", grade = "8.8", bolts = 4, figure = "ask the maker" }',
    )  # fmt: skip


def shipped(count: int) -> str:
    """The shipped template again and again, its ids numbered; steps as many as that comes to; a remark at least."""
    data = tomli.loads(SHIPPED.read_text("utf-8"))
    data["condition"]["never-opened"] = {"text": "Nobody opens this"}
    first = {name: f"{name}-0" for table in NUMBERED for name in data[table]}
    lines = [f"{table} = {_inline(one)}" for table, one in data.items() if table not in (*NUMBERED, *NAMING)]
    lines += [f"{table} = {_inline(_renamed(data.get(table, {}), first))}" for table in NAMING]
    for number in range(max(1, round(count / _spread(data)))):
        names = {name: f"{name}-{number}" for table in NUMBERED for name in data[table]}
        for table in NUMBERED:
            tables = {names[name]: _renamed(one, names) for name, one in data[table].items()}
            lines += [f"{table}.{name} = {_inline(one)}" for name, one in tables.items()]
    return "\n".join(lines) + "\n"


def _spread(data: dict[str, Any]) -> int:
    sizes = {"vehicle": len(data["vehicle"]), **{name: len(those) for name, those in data["set"].items()}}
    each = [
        one.get("for_each") or data["stage"][one["stage"]].get("for_each") for one in data["step"].values()
    ]
    return sum(sizes.get(name, 1) for name in each)


def _renamed(value: Any, names: dict[str, str], under: str = "") -> Any:
    """Names of a stage or a step, and texts that begin with one and go on, become the numbered name."""
    if isinstance(value, dict):
        return {key: _renamed(each, names, key) for key, each in value.items()}
    if isinstance(value, list):
        return [_renamed(each, names, under) for each in value]
    if not isinstance(value, str) or not ("." in value or under in BARE):
        return value
    first, dot, rest = value.partition(".")
    return names.get(first, first) + dot + rest


def _inline(value: Any) -> str:
    """On one line: a header for each table would be more brackets than are read."""
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{_key(key)} = {_inline(one)}' for key, one in value.items())} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_inline, value))}]"
    return json.dumps(value)


def _key(key: str) -> str:
    return key if ID.fullmatch(key) else json.dumps(key)


def one_stage(count: int) -> str:
    """One stage of all the steps, each behind the one before it."""
    return _written('[stage.all]\ntitle = "All"', (_step(n, stage="all") for n in range(count)))


def chain_back(count: int) -> str:
    """Each step is after the one below it in the file: a remark for each."""
    steps = (
        _step(n, f'after = "work-{n + 1}"' if n < count - 1 else "after = []", stage="all")
        for n in range(count)
    )
    return _written('[stage.all]\ntitle = "All"', steps)


def feeding(count: int) -> str:
    """Each reading's limit is the reading before it; workings-out stand on one another, so many deep."""
    return _written('[stage.all]\ntitle = "All"', (_fed(number) for number in range(count)))


def _fed(number: int) -> str:
    before = f'"work-{number - 1}.read"' if number else "1000"
    below = f'"work-{number - 1}.off.difference"' if number % DEEP else "3"
    return _step(
        number, f'reading.read = {{ unit = "mm", at_most = {before} }}',
        f'work_out.off = {{ use = "relative-level", reference = 1, face = {below} }}', stage="all",
    )  # fmt: skip


def conditions(count: int) -> str:
    """One condition opened and closed again and again, a second one waited for by all, a third of each own."""
    return _written(
        'condition.loose = { text = "Loose" }\ncondition.wet = { text = "Wet" }',
        (f'condition.own-{n} = {{ text = "Own {n}" }}' for n in range(count)),
        '[stage.all]\ntitle = "All"',
        (_opening(number, count) for number in range(count)),
    )


def _opening(number: int, count: int) -> str:
    last = number == count - 1
    opens = [
        f'"own-{number}"',
        *(['"wet"'] if last else []),
        *(['"loose"'] if number % 3 == 0 and not last else []),
    ]
    closes = [f'"own-{number - 1}"'] if number else []
    closes += [f'"own-{number}"', '"wet"', '"loose"'] if last else ['"loose"'] if number % 3 == 1 else []
    waits = ['"wet"'] if number < 3 else []
    waits += ['"loose"'] if number % 3 == 2 else []
    lists = {"opens": opens, "closes": closes, "not_while": waits}
    return _step(number, *(f"{key} = [{', '.join(names)}]" for key, names in lists.items()), stage="all")


def members(count: int) -> str:
    """Steps over a set of twenty-five, taken one by one."""
    names = ", ".join(f'"m{n}"' for n in range(MEMBERS))
    steps = (
        _step(
            n,
            f'reading.read = {{ unit = "mm", {LIMIT.format(n - 1) if n else "record_only = true"} }}',
            stage="all",
        )
        for n in range(count // MEMBERS)
    )
    stage = '[stage.all]\ntitle = "All"\nfor_each = "place"\none_by_one = true'
    return _written(f"set.place = [{names}]", stage, steps)


def waiting(count: int) -> str:
    """What the first step opens and the last one closes; all between wait for it, and none for another."""
    steps = (
        _step(n, "after = []", 'not_while = ["loose"]' if 0 < n < count - 1 else "", stage="all")
        for n in range(count)
    )
    return (
        _written('condition.loose = { text = "Loose" }', '[stage.all]\ntitle = "All"', steps)
        .replace('title = "Work 0"\n', 'title = "Work 0"\nopens = ["loose"]\n', 1)
        .replace(f'title = "Work {count - 1}"\n', f'title = "Work {count - 1}"\ncloses = ["loose"]\n', 1)
    )


def slips(count: int) -> str:
    """A slip in each step: a doubt too large, of which there is a remark."""
    slip = 'reading.read = { unit = "mm", target = 5, off_by = 1, doubt = 0.9 }'
    return _written(_stages(count), (_step(number, slip) for number in range(count)))


def misspelt(count: int) -> str:
    """In every tenth step a name that stands for nothing."""

    def reading(number: int) -> str:
        limit = f'"work-{number}.raed"' if number % 10 == 0 else 5
        return f'reading.read = {{ unit = "mm", at_most = {limit} }}'

    return _written(_stages(count), (_step(number, reading(number)) for number in range(count)))


SHAPES: dict[str, Callable[[int], str]] = {
    "stages for two sides": stages,
    "the shipped template again and again": shipped,
    "one long stage": one_stage,
    "a chain up the file": chain_back,
    "readings that feed each other": feeding,
    "conditions": conditions,
    "a set of twenty-five": members,
    "all wait for one": waiting,
    "a slip in each step": slips,
    "a misspelt name in every tenth": misspelt,
}
