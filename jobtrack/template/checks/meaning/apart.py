"""Checks: what is open or done beside a step and would hurt somebody is named in `not_while` and `not_beside`."""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heapify, heappop, heappush

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.in_order.sequence import Waiting
from jobtrack.template.checks.meaning.hazards import hot, on_stands
from jobtrack.template.checks.meaning.kinds import KINDS, pattern
from jobtrack.template.checks.names import ASK_FIRST_CONDITION
from jobtrack.template.model import Condition, Step
from jobtrack.template.plan import Plan

_OVERHEAD = ("lifts", "lowers", "drives", "welds", "cuts", "grinds", "heats", "opens-fuel")
_BESIDE = {"lifts": ("under",), "lowers": ("under",), "drives": ("under",), "under": _OVERHEAD}
_BESIDE_HOT = ("solvent", "opens-fuel", "near-fuel")

_FUEL_OPEN = (r"(?:fuel|petrol|diesel|gas)\b.*\b(?:open\w*|vapours?|leak\w*|drip\w*)",)
_NOT_CARRIED = (
    r"no (?:\w+ )?axle", "axle (?:is )?(?:out|off|loose)", "tacked", "holds? the wheels?", "wheels? not held",
    "U-bolts? (?:only )?(?:finger|loose|off|out|undone|by hand)",
)  # fmt: skip
_MATTERS = {
    "lowers": _NOT_CARRIED,
    "heats": _FUEL_OPEN,
    "welds": _FUEL_OPEN,
    "cuts": _FUEL_OPEN,
    "grinds": _FUEL_OPEN,
    "opens-fuel": ("fire",),
}
"""What a condition speaks of that matters to a kind of work; to driving each matters."""
_ASKED_FOR = (
    "axles?", "frame", "chassis", "steering", "brakes?", "suspension", "springs?", "fuel", "petrol",
    "gas (?:line|bottle|tank)s?",
)  # fmt: skip


def check_not_beside(plan: Plan) -> Iterator[Problem]:
    """What nobody does beside a step stands in `not_beside`, as far as another step of the template does it."""
    doing = _doing(plan)
    for base, step in plan.template.step.items():
        wanted = {kind: name for name in step.does for kind in _BESIDE.get(name, ())}
        wanted |= dict.fromkeys(_BESIDE_HOT, hot(step)[0]) if hot(step) else {}
        others = {kind: name for kind, name in wanted.items() if _by_another(plan, doing, base, kind)}
        missing = [kind for kind in others if kind not in step.not_beside and kind not in step.does]
        if missing:
            yield remark(
                ("step", base, "not_beside"),
                f"it {KINDS[others[missing[0]]].phrase}, and a step that {_phrases(missing)} may be done beside it",
                f"Add {_quoted(missing)} to not_beside",
            )


def _doing(plan: Plan) -> dict[str, list[str]]:
    """Which steps do each kind of work."""
    found: dict[str, list[str]] = {}
    for base, step in plan.template.step.items():
        for kind in step.does:
            found.setdefault(kind, []).append(base)
    return found


def _by_another(plan: Plan, doing: dict[str, list[str]], base: str, kind: str) -> bool:
    """Whether another step does this, or the same one for another member."""
    steps, own = doing.get(kind, []), plan.by_base[base]
    return bool(steps) and (steps != [base] or (len(own) > 1 and not own[0].stage.one_by_one))


def check_not_while(plan: Plan) -> Iterator[Problem]:
    """A step waits for what a step before it may have left open and what matters to its kind of work."""
    may_be_open: dict[str, Condition] = {}
    tried = _last_tried(plan)
    for place, base in enumerate(_in_order(plan)):
        step = plan.template.step[base]
        named = {name.partition(".")[0] for name in (*step.not_while, *step.opens, *step.closes)}
        for kind in step.does:
            missing = [
                name for name in _that_matter(plan, may_be_open, step, kind)
                if name not in named and tried.get(name, -1) <= place
            ]  # fmt: skip
            named |= set(missing)
            if missing:
                yield remark(
                    ("step", base, "not_while"),
                    f"it {KINDS[kind].phrase}, and {_and(missing)} can still be open then",
                    f"Add {_quoted(missing)} to not_while",
                )
        may_be_open |= {name: one for name in step.opens if (one := plan.template.condition.get(name))}


def _last_tried(plan: Plan) -> dict[str, int]:
    """Conditions that driving itself closes, as a brake that is tried, and the place of the last such step."""
    return {
        name: place
        for place, step in enumerate(plan.template.step[base] for base in _in_order(plan))
        for name in (step.closes if "drives" in step.does else ())
    }


def _in_order(plan: Plan) -> list[str]:
    """The steps as they are taken: one after all that come before it, where that leaves it open as in the file."""
    place, names = {name: number for number, name in enumerate(plan.steps)}, list(plan.steps)
    waiting = Waiting(plan)
    turn = [place[name] for name in waiting.first()]
    heapify(turn)
    taken: dict[str, None] = {}
    while turn:
        name = names[heappop(turn)]
        taken[plan.steps[name].base] = None
        for later in waiting.settle(name):
            heappush(turn, place[later])
    return [*taken, *(base for base in plan.template.step if base not in taken)]


def _that_matter(plan: Plan, may_be_open: dict[str, Condition], step: Step, kind: str) -> Iterator[str]:
    if kind == "drives":
        yield from (name for name, one in may_be_open.items() if one.passes_to is None)
        yield from [ASK_FIRST_CONDITION] if may_be_open and plan.template.ask_first is not None else ()
    elif kind in _MATTERS and (kind != "lowers" or on_stands(plan) & set(step.closes)):
        words = pattern(_MATTERS[kind])
        yield from (
            name for name, one in may_be_open.items() if one.passes_to is None and words.search(one.text)
        )


def check_asked(plan: Plan) -> Iterator[Problem]:
    """Work on axle, frame, steering, brakes, springs, fuel or gas asks others first: else a remark."""
    for step in plan.template.step.values() if plan.template.ask_first is None else ():
        works = step.torque or step.weld or step.part or set(step.does) - {"under", "drives", "solvent"}
        if works and (found := pattern(_ASKED_FOR).search(step.title)):
            yield remark(
                ("id",), f"“{step.title}” works on what others may have to be asked about ({found[0]})",
                'Add ask_first = "…", the question to those who decide, or ask_first = true',
            )  # fmt: skip
            return


def _phrases(kinds: list[str]) -> str:
    return _and([KINDS[kind].phrase for kind in kinds])


def _and(kinds: list[str]) -> str:
    return " and ".join(filter(None, [", ".join(kinds[:-1]), kinds[-1]]))


def _quoted(names: list[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)
