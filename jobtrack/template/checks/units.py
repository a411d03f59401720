"""Checks: units are known, workings-out exist and get what they need, in units of the right kind."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from jobtrack import units
from jobtrack.schema.problem import Key, Problem, remark
from jobtrack.shopmath import catalogue
from jobtrack.shopmath.quantity import Quantity, accept
from jobtrack.shopmath.quantity import wanted as wanted_words
from jobtrack.template.checks.given import given_key
from jobtrack.template.checks.names import check_value, unknown
from jobtrack.template.model import WorkOut
from jobtrack.template.one_unit import UnitsDiffer, in_one_unit
from jobtrack.template.plan import Plan, PlannedStep
from jobtrack.template.values import (
    LIST,
    TEXT,
    did_you_mean,
    known_unit,
    one_of,
    readings,
    same_kind,
    sort_of_unit,
    step_key,
)

_MEASURES = {
    r"tape|\brule\b|ruler|caliper|micrometer|feeler|straight.?edge|\bdial|trammel": "length",
    r"(weld|drum|thread|bore|depth) gauge": "length",
    r"\blevel\b|angle box|protractor|inclinometer|bevel": "angle",
    r"(torque|beam) wrench|torque meter": "torque",
    r"(pressure|tyre) gauge": "pressure",
    r"scales|weighbridge": "mass",
    r"thermometer|temperature": "temperature",
    r"stopwatch|\bclock\b": "time",
}
"""What an instrument measures, by words in its name (common practice, no source)."""

ODD_ONE_OUT = 3
"""So many uses of one unit make the only use of another unit of its kind worth a remark."""


def check_reading_units(plan: Plan) -> Iterator[Problem]:
    """A reading's unit is known, and its instrument measures that kind of thing."""
    for _, _, reading, key in readings(plan):
        if not known_unit(reading.unit):
            yield Problem(
                (*key, "unit"), f"{reading.unit} is no unit known here", "Write mm, deg, N*m or another one"
            )
        elif reading.unit is not None and reading.with_ is not None:
            measured = {kind for words, kind in _MEASURES.items() if re.search(words, reading.with_.lower())}
            if measured and units.kind(reading.unit) not in {*measured, "share", "number"}:
                yield remark(
                    (*key, "unit"), f"{reading.unit} isn't what one reads from a {reading.with_}",
                    f"Write a unit of {' or '.join(sorted(measured))}, or name another instrument",
                )  # fmt: skip


def check_stray_units(plan: Plan) -> Iterator[Problem]:
    """One reading in inches among many in millimetres is likely a slip: a remark; a count among ratios isn't."""
    places = [(given.unit, given_key(name)) for name, given in plan.template.given.items()]
    places += [
        (reading.unit, ("step", base, "reading", name))
        for base, step in plan.template.step.items() for name, reading in step.reading.items()
    ]  # fmt: skip
    known = [(unit, key) for unit, key in places if unit is not None and known_unit(unit)]
    counts = Counter(unit for unit, _ in known)
    for unit, key in known:
        usual = [
            other
            for other in counts
            if units.shown(other) != units.shown(unit)
            and same_kind(other, unit)
            and counts[other] >= ODD_ONE_OUT
        ]
        if counts[unit] == 1 and usual:
            yield remark(
                (*key, "unit"), f"{unit} is used nowhere else; others are in {' and '.join(usual)}",
                "Write one unit for one kind, or say why under answered",
            )  # fmt: skip


def check_workings_out(plan: Plan) -> Iterator[Problem]:
    """`use` names a working-out; its inputs are there, known, and of the right kind."""
    for planned in plan.steps.values():
        for name, work in planned.step.work_out.items():
            key = step_key(planned, "work_out", name)
            try:
                found = catalogue.find(work.use)
            except catalogue.WorkingOutError:
                every = [each for names in catalogue.by_topic().values() for each in names]
                mend = did_you_mean(work.use, every, "`jobtrack work-out` lists them")
                yield Problem((*key, "use"), f"{work.use} is no working-out", mend)
                continue
            yield from _inputs_there(key, work, found)
            yield from _inputs_fit(plan, planned, key, work)


def _inputs_fit(plan: Plan, planned: PlannedStep, key: Key, work: WorkOut) -> Iterator[Problem]:
    try:
        found = in_one_unit(plan, planned, work)
    except UnitsDiffer as error:
        yield Problem((*key, error.key), error.why, error.mend)
        return
    for each in found.inputs:
        if each.key in work.inputs:
            yield from _input(plan, planned, (*key, each.key), work.inputs[each.key], each)


def _inputs_there(key: Key, work: WorkOut, found: catalogue.WorkingOut) -> Iterator[Problem]:
    known = [each.key for each in found.inputs]
    for name in work.inputs.keys() - set(known):
        yield unknown((*key, name), name, f"input of {work.use}", known)
    for each in found.inputs:
        if not each.optional and each.key not in work.inputs:
            wanted = wanted_words(each)
            yield Problem(
                key, f"{work.use} needs {each.key}", f"Add {each.key} = {wanted}, or the name of one"
            )
        if each.beside and each.key in work.inputs and each.beside not in work.inputs:
            yield Problem(key, f"{each.key} counts for nothing without {each.beside}", f"Add {each.beside}")
    for group in found.together:
        absent = [name for name in group if name not in work.inputs]
        if 0 < len(absent) < len(group):
            yield Problem(key, f"{' and '.join(group)} go together", f"Add {absent[0]}, or remove the others")


def _input(
    plan: Plan, planned: PlannedStep, key: Key, value: float | str | bool, wanted: Quantity
) -> Iterator[Problem]:
    sort = sort_of_unit(wanted.unit)
    if not isinstance(value, str):
        yield from _literal(key, value, wanted)
    elif sort.sort == LIST:
        yield from _list_input(plan, planned, key, value, wanted)
    elif sort.sort == TEXT:
        yield from _text_input(plan, planned, key, value, sort.choices)
    else:
        yield from check_value(plan, planned, key, value, sort)


def _literal(key: Key, value: float | bool, wanted: Quantity) -> Iterator[Problem]:
    try:
        accept(wanted, value)
    except catalogue.WorkingOutError:
        yield Problem(key, f"{str(value).lower()} can't be used here", f"Write {wanted_words(wanted)}")


def _list_input(plan: Plan, planned: PlannedStep, key: Key, name: str, wanted: Quantity) -> Iterator[Problem]:
    unit = sort_of_unit(wanted.unit).unit
    if not known_unit(unit):
        yield Problem(key, f"a list of {unit} comes from no reading", "Leave it to `jobtrack work-out`")
        return
    ref = plan.resolve(name, planned)
    reading = (
        plan.steps[ref.step].step.reading[ref.item] if ref and ref.step and ref.kind == "reading" else None
    )
    if reading is None or not reading.times:
        yield Problem(key, f"{name} is no reading with several values", "Name a reading that has times = …")
    elif not same_kind(reading.unit, unit):
        yield Problem(key, f"{name} is in {reading.unit}", f"Name {wanted_words(wanted)}")


def _text_input(
    plan: Plan, planned: PlannedStep, key: Key, value: str, choices: tuple[str, ...]
) -> Iterator[Problem]:
    ref = plan.resolve(value, planned)
    given = plan.givens.get(ref.item) if ref and ref.kind == "given" else None
    if ref is None:
        if choices and value not in choices:
            yield Problem(
                key, f"{value} is none of the choices", did_you_mean(value, choices, one_of(choices))
            )
    elif given is None or (given.unit or given.kind in {"yes/no", "date"}):
        yield Problem(key, f"{value} isn't a text", "Name a given with choices or a text")
    elif choices and not set(given.choose) <= set(choices):
        yield Problem(
            key, f"{value} has other choices than {', '.join(choices)}", "Give that given the same choices"
        )
