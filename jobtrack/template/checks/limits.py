"""Checks on figures: limits that can't all hold, tolerances and doubts, times, torques, distances."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from jobtrack import units
from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.template.checks.names import unknown
from jobtrack.template.model import MOST_BOLTS, Reading, Torque
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.tolerance import LEFT_AT_LEAST, share_left
from jobtrack.template.values import holds_a_count, is_count, readings, same_kind, step_key

_SHARE = re.compile(r"(\d+(?:\.\d+)?) ?%")
_DAYS = re.compile(r"[1-9]\d{0,4} days?")
_ASKED = ("ask the supplier", "ask the maker", "work out")
_NEVER_COMPUTED = re.compile(r"u-?bolts?\b|wheel-?nuts?|wheel-?studs?|wheel-?bolts?|pinion-?nut|lock")


def check_limits_fit(plan: Plan) -> Iterator[Problem]:
    """What a reading says about its limits must not contradict itself."""
    for _, _, reading, key in readings(plan):
        tolerances = _given(reading, "off_by", "over_by", "under_by")
        if (problem := _unfit(reading, key, tolerances)) is not None:
            yield problem
        if "off_by" in tolerances and len(tolerances) > 1:
            why = "off_by is the same both ways"
            yield Problem((*key, "off_by"), why, "Write off_by, or over_by and under_by")


def _given(reading: Reading, *names: str) -> list[str]:
    """Those of its keys that it has."""
    return [name for name in names if getattr(reading, name) is not None]


def _unfit(reading: Reading, key: Key, tolerances: list[str]) -> Problem | None:
    """A limit that is missing, or that nothing goes with."""
    limits = _given(reading, "target", "at_least", "at_most")
    if reading.record_only and (limits or tolerances):
        why = "a reading that is only recorded has no limits"
        return Problem((*key, "record_only"), why, "Remove one or the other")
    if not reading.record_only and not limits:
        mend = "Add target and off_by, at_least, at_most, or record_only = true"
        return Problem(key, "it has neither limits nor record_only", mend)
    if reading.target is not None and not tolerances:
        mend = "Add off_by, or over_by and under_by"
        return Problem((*key, "target"), "a target without a tolerance", mend)
    if tolerances and reading.target is None:
        mend = "Add target, or write at_least and at_most"
        return Problem((*key, tolerances[0]), "a tolerance without a target", mend)
    return None


def check_strict(plan: Plan) -> Iterator[Problem]:
    """The strict rule needs limits to decide about, and a doubt to decide by."""
    for _, _, reading, key in readings(plan):
        if reading.strict and reading.record_only:
            yield Problem(
                (*key, "strict"), "strict decides about limits, and there are none", "Remove strict"
            )
        elif reading.strict and reading.doubt is None and reading.from_ is None:
            yield Problem(
                (*key, "strict"), "strict needs the instrument's doubt", "Add doubt = …, in the unit"
            )


def check_typed_or_shown(plan: Plan) -> Iterator[Problem]:
    """A reading that shows a result isn't typed, so it has neither instrument nor repeats."""
    for _, _, reading, key in readings(plan):
        for name, value in (("with", reading.with_), ("times", reading.times)):
            if reading.from_ is not None and value is not None:
                yield Problem(
                    (*key, name),
                    "nothing is typed here: the value comes from a working-out",
                    f"Remove {name}",
                )
        if reading.times is not None and reading.times < 2:
            yield Problem((*key, "times"), f"{reading.times} repeats", "Write 2 or more, or remove it")


def check_tolerances(plan: Plan) -> Iterator[Problem]:
    """Tolerances and doubts are above zero; lower limits lie below upper ones."""
    for planned, _, reading, key in readings(plan):
        for name in ("off_by", "over_by", "under_by", "doubt"):
            value = getattr(reading, name)
            if isinstance(value, str) and not _share(value):
                yield Problem((*key, name), f"{value} is no share", 'Write a number, or "1 %"')
            elif isinstance(value, (int, float)) and (
                value < 0 or (value == 0 and reading.unit and name in {"off_by", "doubt"})
            ):
                yield Problem((*key, name), f"{name} is {value}", "Write a number above zero")
        if (
            not reading.over_by
            and not reading.under_by
            and (reading.over_by, reading.under_by) != (None, None)
        ):
            yield Problem(key, "over_by and under_by are both zero", "Give one of them a number above zero")
        low, high = (_number(planned, getattr(reading, name)) for name in ("at_least", "at_most"))
        aim = _number(planned, reading.target)
        if low is not None and high is not None and low > high:
            yield Problem((*key, "at_least"), "at_least lies above at_most", "Swap or mend them")
        elif aim is not None and ((low is not None and aim < low) or (high is not None and aim > high)):
            yield Problem(
                (*key, "target"), "the target lies outside at_least and at_most", "Mend one of them"
            )


def _share(text: str) -> Fraction | None:
    found = _SHARE.fullmatch(text.strip())
    share = Fraction(found[1]) / 100 if found else None
    return share if share and share < 1 else None


def _number(planned: PlannedStep, limit: object) -> Fraction | None:
    value = limit.get(planned.member or "") if isinstance(limit, dict) else limit
    return Fraction(str(value)) if isinstance(value, (int, float)) else None


def check_doubt(plan: Plan) -> Iterator[Problem]:
    """Less than half of a tolerance left by the instrument's doubt: a remark."""
    for planned, _, reading, key in readings(plan):
        width = _width(planned, reading)
        if not width or width < 0 or not reading.doubt or reading.doubt < 0:
            continue
        left = share_left(width, Fraction(str(reading.doubt)))
        if left < LEFT_AT_LEAST:
            share = (
                f"{max(round(100 * left), 0)} % of the tolerance" if left > 0 else "nothing of the tolerance"
            )
            yield remark(
                (*key, "doubt"), f"the instrument's doubt leaves {share}",
                "Take a finer instrument or a wider tolerance, or say why it stands under answered",
            )  # fmt: skip


def _width(planned: PlannedStep, reading: Reading) -> Fraction | None:
    low, high = (_number(planned, getattr(reading, name)) for name in ("at_least", "at_most"))
    if reading.target is None:
        return high - low if low is not None and high is not None else None
    if isinstance(reading.off_by, str):
        share, aim = _share(reading.off_by), _number(planned, reading.target)
        return 2 * share * abs(aim) if share and aim is not None else None
    if reading.off_by is not None:
        return 2 * Fraction(str(reading.off_by))
    return Fraction(str(reading.over_by or 0)) + Fraction(str(reading.under_by or 0))


def check_counts(plan: Plan) -> Iterator[Problem]:
    """Minutes are three rising numbers; people, bolts, runs and parts are at least one."""
    for base, step in plan.template.step.items():
        key = ("step", base)
        rising = len(step.minutes) == 3 and 0 < step.minutes[0] < step.minutes[1] < step.minutes[2]
        if step.minutes and not rising:
            yield Problem(
                (*key, "minutes"),
                "minutes are three rising numbers",
                "Write [short, likely, long], as [10, 20, 40]",
            )
        counts: list[tuple[Key, int]] = [((*key, "people"), step.people)]
        counts += [
            ((*key, "torque", name, "bolts"), torque.bolts)
            for name, torque in step.torque.items()
            if isinstance(torque.bolts, int)
        ]
        counts += [((*key, "weld", name, "runs"), weld.runs) for name, weld in step.weld.items()]
        counts += [((*key, "part", name, "count"), part.count) for name, part in step.part.items()]
        yield from _at_least_one(counts)
    yield from _at_least_one(
        [(("part", name, "count"), part.count) for name, part in plan.template.part.items()]
    )


def _at_least_one(counts: list[tuple[Key, int]]) -> Iterator[Problem]:
    for key, count in counts:
        if count < 1:
            yield Problem(key, f"{key[-1]} is {count}", "Write 1 or more")


def check_bolts_given(plan: Plan) -> Iterator[Problem]:
    """What says how many bolts there are is a given that holds a plain number; one that it begins with is a count."""
    for planned in plan.steps.values():
        for name, torque in planned.step.torque.items():
            if isinstance(torque.bolts, str):
                key = step_key(planned, "torque", name, "bolts")
                yield from _holds_a_count(plan, planned, key, torque.bolts)


def _holds_a_count(plan: Plan, planned: PlannedStep, key: Key, name: str) -> Iterator[Problem]:
    ref = plan.resolve(name, planned)
    if ref is None or ref.kind != "given":
        yield unknown(key, name, "given", plan.givens)
        return
    given = plan.givens[ref.name]
    if not holds_a_count(given):
        yield Problem(
            key, f"{name} holds no plain number", 'Name a given with unit = "count", or write the number'
        )
    elif given.default is not None and not is_count(given.default):
        why = f"{name} begins as {given.default}, which is no number of bolts"
        yield Problem(key, why, f"Give it a whole number from 1 to {MOST_BOLTS} as its default, or none")


def check_figure_given(plan: Plan) -> Iterator[Problem]:
    """What holds a figure that is asked for is a given torque; a figure that stands there has no use for it."""
    for planned in plan.steps.values():
        for name, torque in planned.step.torque.items():
            if torque.given is None:
                continue
            key = step_key(planned, "torque", name, "given")
            if torque.figure in _ASKED:
                yield from _holds_a_torque(plan, planned, key, torque.given)
            else:
                yield Problem(key, "the figure stands here already", "Remove given, or write whom to ask")


def _holds_a_torque(plan: Plan, planned: PlannedStep, key: Key, name: str) -> Iterator[Problem]:
    ref = plan.resolve(name, planned)
    if ref is None or ref.kind != "given":
        yield unknown(key, name, "given", plan.givens)
    elif not same_kind((unit := plan.givens[ref.name].unit), "N*m"):
        yield Problem(key, f"{name} is in {unit or 'no unit'}", "Name a given in N*m")


def check_torques(plan: Plan) -> Iterator[Problem]:
    """A torque's figure is asked for, or given with its source; only an ordinary bolt's can be worked out."""
    for base, step in plan.template.step.items():
        for name, torque in step.torque.items():
            key = ("step", base, "torque", name)
            yield from _figure((*key, "figure"), name, torque)
            shares = torque.stages
            rising = all(one < other for one, other in pairwise(shares))
            if shares and not (rising and shares[0] > 0 and shares[-1] == 100):
                yield Problem(
                    (*key, "stages"),
                    "stages are rising shares up to 100",
                    "Write them in percent, as [30, 60, 100]",
                )


def _figure(key: Key, name: str, torque: Torque) -> Iterator[Problem]:
    if isinstance(torque.figure, dict):
        yield from _figure_given(key, torque.figure)
    elif torque.figure not in _ASKED:
        yield Problem(
            key, f"{torque.figure} is no form of a figure",
            'Write { value = "55 N*m", source = "…" }, "ask the supplier", "ask the maker" or "work out"',
        )  # fmt: skip
    elif torque.figure == "work out":
        words = " ".join([name, torque.thread or "", torque.finish or ""]).lower().replace(" ", "-")
        if _NEVER_COMPUTED.search(words):
            yield Problem(
                key, "the torque of a U-bolt, a wheel nut or a locked thread isn't worked out",
                'Write "ask the supplier" or "ask the maker"',
            )  # fmt: skip
        elif not torque.thread or not torque.grade:
            yield Problem(
                key, "working out needs the bolt's thread and grade", "Add thread and grade, or ask the maker"
            )


def _figure_given(key: Key, figure: dict[str, str]) -> Iterator[Problem]:
    try:
        units.read(figure["value"], "N*m")
    except units.UnitError as error:
        yield Problem(key, f"the value can't be read: {error}", 'Write it with its unit, as "55 N*m"')


def check_distances(plan: Plan) -> Iterator[Problem]:
    """What is due afterwards is due after a distance or a number of days."""
    for name, due in plan.template.due_afterwards.items():
        yield from _distance(("due_afterwards", name, "after"), due.after)
    for planned in plan.steps.values():
        for name, torque in planned.step.torque.items():
            if torque.again is not None:
                yield from _distance(step_key(planned, "torque", name, "again"), torque.again)


def _distance(key: Key, text: str) -> Iterator[Problem]:
    if _DAYS.fullmatch(text.strip()):
        return
    try:
        distance = units.read(text, "km").value
    except units.UnitError:
        distance = None
    if not distance or distance < 0 or not re.search(r"[a-z]", text):
        yield Problem(
            key, f"{text} is neither a distance nor a number of days", 'Write "80 km", "50 mile" or "30 days"'
        )
