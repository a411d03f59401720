"""Templates that hypothesis makes: few names, so that orders cross, conditions meet and values feed each other."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

Data = dict[str, Any]

SETS: dict[str, list[str]] = {
    "side": ["left", "right"],
    "end": ["front", "left"],
    "vehicle": ["van", "spare"],
}
STAGES, STEPS = [f"stage-{n}" for n in range(4)], [f"step-{n}" for n in range(7)]
CONDITIONS = ["wet", "loose", "hot"]
ANSWERS: dict[str, list[list[Any]]] = {
    "way": [["weld"], ["bolt"], ["weld", "glue"]],
    "wide": [[True], [False]],
    "van.old": [[True]],
}
some = st.booleans()


def _few(names: list[str], most: int = 2) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(names), max_size=most)


def _only_when() -> st.SearchStrategy[Data]:
    one = st.sampled_from(sorted(ANSWERS)).flatmap(
        lambda name: st.tuples(st.just(name), st.sampled_from(ANSWERS[name]))
    )
    return st.lists(one, max_size=2).map(dict)


for_each = st.sampled_from(sorted(SETS))


def _stage(number: int) -> st.SearchStrategy[Data]:
    after = st.one_of(_few(STAGES[:number]), _few(STAGES[:number]), _few(STAGES)) if number else st.just([])
    return st.fixed_dictionaries(
        {"title": st.just("Stage")},
        optional={"after": after, "for_each": for_each, "one_by_one": some, "only_when": _only_when()},
    )


def _names(number: int) -> list[str]:
    """What a step may name: its own, a given, and what other steps have, mostly those before it."""
    earlier = [f"{step}{member}.r" for step in STEPS[:number] for member in ("", ".left")]
    earlier += [f"{step}.w.difference" for step in STEPS[:number]]
    return ["r", "w.difference", "gap", *earlier, *earlier, f"{STEPS[-1]}.r"]


def _reading(names: list[str]) -> st.SearchStrategy[Data]:
    one = st.one_of(st.sampled_from(names), st.integers(0, 9))
    limit = st.one_of(one, one, st.fixed_dictionaries({"left": one}))
    unit = st.sampled_from(["deg", "deg", "deg", "mm"])
    limited = st.fixed_dictionaries({"unit": unit, "at_most": limit})
    return st.one_of(limited, st.fixed_dictionaries({"unit": unit, "record_only": st.just(True)}))


def _work_out(names: list[str]) -> st.SearchStrategy[Data]:
    inputs = {key: st.one_of(st.sampled_from(names), st.integers(1, 9)) for key in ("reference", "face")}
    return st.fixed_dictionaries({"use": st.just("relative-level"), **inputs})


def _step(number: int, stages: st.SearchStrategy[str]) -> st.SearchStrategy[Data]:
    earlier, names = _few(STEPS[:number] or STEPS), _names(number)
    return st.fixed_dictionaries(
        {
            "stage": stages, "title": st.just("Step"),
            "reading": st.fixed_dictionaries({"r": _reading(names)}),
            "work_out": st.fixed_dictionaries({}, optional={"w": _work_out(names)}),
        },
        optional={
            "for_each": for_each,
            "after": st.one_of(earlier, earlier, earlier, _few([*STEPS, "step-1.left", "step-9"])),
            "only_when": _only_when(),
            "opens": _few(CONDITIONS),
            "closes": _few(CONDITIONS),
            "not_while": st.one_of(_few(CONDITIONS), _few(CONDITIONS), _few(["wet.left", "loose.van"])),
        },
    )  # fmt: skip


@st.composite
def templates(draw: st.DrawFn) -> Data:
    """A template that can be read; what its names and its order come to is left to chance."""
    count = draw(st.integers(1, len(STAGES)))
    some_stages = st.sampled_from(STAGES[:count])
    number_of_steps = draw(st.integers(1, len(STEPS)))
    steps = {name: draw(_step(number, some_stages)) for number, name in enumerate(STEPS[:number_of_steps])}
    stages = {name: draw(_stage(number)) for number, name in enumerate(STAGES[:count])}
    opened = {name for step in steps.values() for name in step.get("opens", [])}
    passing = draw(st.sampled_from([*CONDITIONS, ""]))
    steps[STEPS[0]] |= {"opens": sorted({*CONDITIONS} - opened) + steps[STEPS[0]].get("opens", [])}
    if draw(st.integers(0, 3)):
        steps[STEPS[number_of_steps - 1]] |= {"closes": CONDITIONS}
    conditions: Data = {
        name: {"text": name} | ({"passes_to": "look"} if name == passing else {}) for name in CONDITIONS
    }
    given = {
        "gap": {"ask": "Gap?", "unit": "deg"}, "way": {"ask": "Which?", "choose": ["weld", "bolt", "glue"]},
        "wide": {"ask": "Wide?", "kind": "yes/no"}, "van": {"old": {"ask": "Old?", "kind": "yes/no"}},
    }  # fmt: skip
    return {
        "format": 1, "id": "made", "title": "Made", "vehicle": {"van": "The van", "spare": "The other"},
        "given": given, "set": {name: those for name, those in SETS.items() if name != "vehicle"},
        "condition": conditions, "due_afterwards": {"look": {"after": "80 km"}}, "stage": stages, "step": steps,
    }  # fmt: skip
