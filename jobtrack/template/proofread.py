"""Proofreading a template: its form, its names and order, and what its own words give away of the work.

The strict reader of `schema` looks at the form first; what the names mean is examined only when the form
holds, so that one slip isn't reported five times.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from pathlib import Path
from typing import Any

import tomli

from jobtrack.schema.key_lines import place_of, places
from jobtrack.schema.problem import MISTAKE, REMARK, Key, Problem, dotted, remark
from jobtrack.schema.stumbles import explain_all
from jobtrack.schema.values import Shape
from jobtrack.template.checks import (
    branches,
    conditions,
    exchanged,
    given,
    limits,
    names,
    sets,
    unwritten,
    words,
)
from jobtrack.template.checks import units as unit
from jobtrack.template.checks.in_order import order, waits
from jobtrack.template.checks.meaning import (
    apart,
    hazards,
    hot_work,
    ids,
    own_words,
    questions,
    torques,
)
from jobtrack.template.findings import Finding, as_json, as_lines
from jobtrack.template.guard import check_feeding
from jobtrack.template.load import NoTemplateFileError, TemplateError, parse, read_template
from jobtrack.template.model import OLD_THEN, Template
from jobtrack.template.partly import names_one_of, without
from jobtrack.template.plan import plan
from jobtrack.template.values import Check

__all__ = ["Finding", "as_json", "as_lines", "check", "problems"]

_DECLARED: tuple[Check, ...] = (
    names.check_references,
    sets.check_sets,
    names.check_conditions_named,
    names.check_after,
    waits.check_waits,
    given.check_givens,
    exchanged.check_about,
    order.check_loops,
    check_feeding,
)

_NAMES: tuple[Check, ...] = (names.check_references, names.check_conditions_named, names.check_after)

_ALONE: tuple[Check, ...] = (
    words.check_complete,
    words.check_hazards,
    words.check_does,
    words.check_promises,
    words.check_helper,
    unwritten.check_unwritten,
    unwritten.check_usual,
    unit.check_reading_units,
    unit.check_stray_units,
    limits.check_limits_fit,
    limits.check_strict,
    limits.check_typed_or_shown,
    limits.check_tolerances,
    limits.check_doubt,
    limits.check_counts,
    limits.check_torques,
    limits.check_distances,
    conditions.check_ask_first,
    own_words.check_said,
    own_words.check_nobody_under,
    hazards.check_covered,
    hazards.check_hot_covered,
    hazards.check_chocked,
    hazards.check_on_the_road,
    hot_work.check_watched,
    hot_work.check_approved,
    hot_work.check_solvent,
    hot_work.check_one_length,
    apart.check_not_beside,
    apart.check_not_while,
    apart.check_asked,
    questions.check_one_thing,
    questions.check_wanted,
    torques.check_plausible,
    ids.check_own_id,
    ids.check_readable,
)

_TOGETHER: tuple[Check, ...] = (
    limits.check_figure_given,
    limits.check_bolts_given,
    given.check_only_when,
    exchanged.check_exchanged,
    names.check_limits_named,
    sets.check_members,
    sets.check_names_differ,
    sets.check_compare,
    unit.check_workings_out,
    order.check_fed_by,
    order.check_one_by_one,
    order.check_measured_before,
    waits.check_waited_since,
    order.check_file_order,
    order.check_reach,
    conditions.check_opened_and_closed,
    conditions.check_closed_after_opened,
    conditions.check_left_open,
    conditions.check_closed_at_the_first,
    conditions.check_waited_for,
)
"""Checks that follow names and the order of the steps: left out while those don't hold."""


def check(path: Path) -> list[Finding]:
    """Every mistake and every unanswered remark of a template file, in the order of the file.

    Raises NoTemplateFileError.
    """
    try:
        data, text = parse(path)
    except NoTemplateFileError:
        raise
    except TemplateError as error:
        return _unreadable(path, error)
    found = problems(data)
    where = places(text) if found else {}
    findings = [
        Finding(str(path), *place_of(each.key, where), each.kind, dotted(each.key), each.why, each.mend)
        for each in found
    ]
    return sorted(findings, key=lambda finding: (finding.line, finding.column, finding.kind))


def remarks_of(path: Path) -> list[Finding]:
    """The unanswered remarks of a template that a job can be begun from.

    Raises TemplateError with the first mistake, in one line, where it holds any.
    """
    found = check(path)
    mistakes = [one for one in found if one.kind == MISTAKE]
    if mistakes:
        all_ = f"{len(mistakes)} mistakes in all, `proofread` lists them"
        raise TemplateError(f"{as_lines(mistakes)[0]}; {all_}")
    return found


def problems(data: dict[str, Any]) -> list[Problem]:
    """The problems of a template's data, each once, without the remarks that are answered."""
    shape = Shape()
    template = read_template(data, shape)
    if template is None:
        return [*shape.problems, *(() if shape.full else _elsewhere(data, shape.problems))]
    return _unanswered(dict.fromkeys((*_old_keys(data), *_meaning(template))), data)


def _elsewhere(data: dict[str, Any], found: list[Problem]) -> list[Problem]:
    """The mistakes in those steps and givens that can be read, where others can't.

    What is found only by looking at several of them together waits until all of them can be read.
    """
    unread = {problem.key[:2] for problem in found}
    template = read_template(without(data, unread), Shape())
    if template is None:
        return []
    planned, lost = plan(template), {key[-1] for key in unread}
    single = [problem for each in (*_NAMES, *_ALONE) for problem in each(planned)]
    return [
        problem
        for problem in dict.fromkeys(single)
        if problem.kind == MISTAKE and len(problem.key) > 2 and not names_one_of(problem, lost)
    ]


def _old_keys(data: dict[str, Any]) -> Iterator[Problem]:
    """Keys that have another name by now."""
    for base, step in data.get("step", {}).items():
        for name, row in step.get("compare", {}).items():
            if OLD_THEN in row:
                key = ("step", base, "compare", name, OLD_THEN)
                yield remark(
                    key, f"{OLD_THEN} is called then by now, and read for one more version", "Write then = …"
                )


def _meaning(template: Template) -> Iterator[Problem]:
    planned = plan(template)
    declared = [problem for each in _DECLARED for problem in each(planned)]
    yield from declared
    alone = [problem for each in _ALONE for problem in each(planned)]
    yield from alone
    if not declared:
        together = [problem for each in _TOGETHER for problem in _first_by_key(each(planned))]
        yield from together
        if all(problem.kind == REMARK for problem in (*alone, *together)):
            yield from (*given.check_used(planned), *conditions.check_needed_too(planned))
            yield from _first_by_key(branches.check_held_back(planned))


def _first_by_key(found: Iterable[Problem]) -> Iterable[Problem]:
    """The members of a set mostly have the same problem: one of them is enough."""
    by_key: dict[Key, Problem] = {}
    for problem in found:
        by_key.setdefault(problem.key, problem)
    return by_key.values()


def _unanswered(found: Iterable[Problem], data: dict[str, Any]) -> list[Problem]:
    """Without the remarks that `answered` answers, with a remark for each `answered` that answers none."""
    answers = dict.fromkeys(_answers(data), False)
    left = []
    for problem in found:
        place = _answered_at(problem.key, answers)
        if problem.kind == REMARK and place is not None:
            answers[place] = True
        else:
            left.append(problem)
    if any(problem.kind == MISTAKE for problem in left):
        return left
    idle = [place for place, used in answers.items() if not used]
    return left + [
        remark(_written_at(place), "there is no remark to answer here", "Remove it") for place in idle
    ]


def _answers(data: dict[str, Any]) -> Iterator[Key]:
    """Every place where an answer stands; the form holds by now."""
    if data.get("answered"):
        yield ()
    yield from _answered_in(data, "condition", ())
    for base, step in data.get("step", {}).items():
        yield from (("step", base, key) for key, why in step.get("answered", {}).items() if why)
        for table in _WITH_ANSWERS:
            yield from _answered_in(step, table, ("step", base))


def _answered_in(tables: dict[str, Any], name: str, above: Key) -> Iterator[Key]:
    """Those of the tables of this name that hold an answer of their own."""
    for inner, table in tables.get(name, {}).items():
        if table.get("answered"):
            yield (*above, name, inner)


_WITH_ANSWERS = ("reading", "tick", "torque", "weld")
"""The tables of a step that hold their own answers; a remark on anything else is answered in the step's."""


def _answered_at(key: Key, answers: Container[Key]) -> Key | None:
    """Where a remark on this key is answered: in its own table, in the step's under the key, else at the top."""
    if key[:1] != ("step",):
        return next((place for place in (key[:2], ()) if place in answers), None)
    place = key[:4] if key[2:3] and key[2] in _WITH_ANSWERS else key[:3]
    return place if place in answers else None


def _written_at(place: Key) -> Key:
    """The key of the answer itself."""
    if place[:1] == ("step",) and len(place) == 3:
        return (*place[:2], "answered", place[2])
    return (*place, "answered")


def _unreadable(path: Path, error: TemplateError) -> list[Finding]:
    if isinstance(error.__cause__, tomli.TOMLDecodeError):
        stumbles = sorted(explain_all(error.__cause__))
        return [
            Finding(str(path), line, column, MISTAKE, "", why, mend) for line, column, why, mend in stumbles
        ]
    why, _, mend = str(error).removeprefix(f"{path}:").strip().rpartition("; ")
    number, _, rest = why.partition(": ")
    if number.isdigit():
        return [Finding(str(path), int(number), 1, MISTAKE, "", rest, mend)]
    return [Finding(str(path), 1, 1, MISTAKE, "", why, mend)]
