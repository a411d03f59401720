"""What is typed of a torque line, or a click, turned into an act."""

from __future__ import annotations

import re

from msgspec import Struct

from jobtrack import units
from jobtrack.job.compose import doing
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.doing.tightening import SNUG, Tightening, far
from jobtrack.job.state.job import Job
from jobtrack.job.values.stage_torque import known_figure, setting, unit_of_line
from jobtrack.pages.doing.bolts import bolt_words, every_words, now
from jobtrack.template.plan import PlannedStep

ALL = "all"
"""What is typed for every bolt of a line."""


class Turn(Struct, frozen=True):
    """What is to be recorded: one bolt or all (None), to which stage, and what was typed of its torque."""

    bolt: str | None
    stage: str
    value: str = ""


def turn(found: Tightening, text: str) -> Turn:
    """What a text says of a line: "33", "3 snug", "all finger", "final 110", "bolt 3", "bolt 3 stage 2".

    A number alone is the torque of the bolt that is asked. Raises Refused.
    """
    names = "|".join([ALL, *_names(found)])
    form = rf"(?:(bolt\s+)?({names})(?![\w.,/])\s*:?\s*)?(?:(finger|snug|final|stage\s*\d+)\b)?\s*(.*)"
    said = re.fullmatch(form, text.strip(), re.IGNORECASE)
    if said is None:
        raise Refused(_forms(found))
    named, bolt, stage, value = said.groups()
    if bolt is not None and not (named or stage or bolt.casefold() == ALL):
        bolt, value = None, text.strip()  # a plain number, that might be a bolt's too, is a torque
    known = {one.name.casefold(): one.name for one in found.every}
    return _turn(
        found, known.get(bolt.casefold(), bolt.casefold()) if bolt else None, _stage(found, stage), value
    )


def _names(found: Tightening) -> list[str]:
    """Patterns of what the bolts go by, the longest first; any number, where nobody knows how many there are."""
    known = [re.escape(bolt.name) for bolt in sorted(found.every, key=lambda bolt: -len(bolt.name))]
    return known if found.counted else [*known, r"[1-9]\d?"]


def as_words(text: str) -> str:
    """What is typed as words: a number alone is a bolt out of turn, no torque."""
    return f"bolt {text.strip()}" if re.match(r"\s*\d", text) else text


def _turn(found: Tightening, bolt: str | None, stage: str | None, value: str) -> Turn:
    """With the bolt and the stage that are asked, where the text doesn't say which."""
    due = _due(found, bolt)
    stage = stage or (str(due) if found.line.stages else "final")
    if bolt == ALL:
        return Turn(None, stage, value)
    if bolt is None and found.next is None:
        raise Refused(
            f"the last stage is recorded of {every_words(found)}; name the bolt too: {found.bolts[0].name} final"
            if found.counted
            else f"how many bolts isn't known yet; name the bolt too: {_first(found)} final"
        )
    return Turn(bolt or (found.next.name if found.next else None), stage, value)


def _due(found: Tightening, bolt: str | None) -> int:
    """The stage that is asked; where none is, the next of a bolt that is named, at most the last."""
    if found.counted:
        return found.stage or found.stages
    reached = next((one.reached for one in found.every if one.name == bolt), SNUG)
    return min(max(reached, SNUG) + 1, found.stages)


def _first(found: Tightening) -> str:
    return found.bolts[0].name if found.bolts else "1"


def _stage(found: Tightening, said: str | None) -> str | None:
    """A stage as an act has it."""
    number = re.sub(r"\D", "", said or "")
    return number or (said.casefold() if said else None)


def _forms(found: Tightening) -> str:
    bolt = _first(found)
    return f"type finger, snug or final, or another bolt: {bolt} snug, {ALL} finger"


def turned(made: Draft, name: str, text: str = "") -> None:
    """Put a click, or what was typed of a bolt, into a call. Raises Refused, UnitError."""
    planned = made.planned
    found = now(made.job, planned, name)
    one = turn(found, text)
    if one.value:
        doing.torque(made, name if one.bolt is None else f"{name}.{one.bolt}", one.stage, one.value)
        return
    doing.turned(made, name, one.bolt, one.stage, _set_to(made.job, planned, name, one.stage))


def set_to(job: Job, planned: PlannedStep, name: str) -> float | None:
    """What the wrench is to be set to for the bolt that is asked, in N·m; None where that isn't known."""
    found = now(job, planned, name)
    return None if found.stage is None else _set_to(job, planned, name, str(found.stage))


def _set_to(job: Job, planned: PlannedStep, name: str, stage: str) -> float | None:
    """The same for a stage as an act has it, where the figure is known and the stage is one of its shares."""
    known = known_figure(job.now, planned, name)
    if known is None:
        return None
    line = planned.step.torque[name]
    number = far(line, stage)
    return float(setting(line, number, known.value).rounded) if number > SNUG else None


def echo_words(job: Job, planned: PlannedStep, name: str, text: str) -> str:
    """How a text would be read: "= bolt 3 of 4, snug". Raises Refused, UnitError."""
    found = now(job, planned, name)
    one = turn(found, text)
    bolt = every_words(found) if one.bolt is None else bolt_words(found, one.bolt)
    stage = f"stage {one.stage}" if one.stage.isdecimal() else one.stage
    unit = unit_of_line(job.plan, planned, name)
    value = units.read(one.value, unit) if one.value else None
    said = f": {units.both(value.value, unit)}" if value is not None and value.value is not None else ""
    return f"= {bolt}, {stage}{said}"
