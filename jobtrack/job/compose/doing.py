"""From what was typed of a torque, a weld, a part, its buying or a place to the act; and its refusals."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.acts.base import replace
from jobtrack.job.acts.doing import ASKED, BUYING, BuyingAct, PartAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused, Wants, all_known, known
from jobtrack.job.compose.typed import amount
from jobtrack.job.doing.parts import part_called, part_names
from jobtrack.job.values.stage_torque import unit_of_line

PART_LIMIT = 200
"""Characters of the longest name of a part that nobody planned."""


def torque(draft: Draft, name: str, stage: str, typed: str = "", with_: str | None = None) -> None:
    """A fastener, `ID` or `ID.MEMBER`, tightened to a stage; a bare number is in the unit of the line's figure."""
    line, _, member = name.partition(".")
    _check_stage(draft, line, stage)
    unit = unit_of_line(draft.job.plan, draft.planned, line) if typed else None
    read = units.read(typed, unit) if typed else None
    if read is not None and read.value is None:
        raise Refused(f"{line} wants one torque in {unit} behind the stage, not {typed!r}")
    value = float(read.value) if read is not None and read.value is not None else None
    draft.add(TorqueAct(line, member or None, stage, value, unit, typed or None, with_))


def turned(draft: Draft, name: str, bolt: str | None, stage: str, value: float | None = None) -> None:
    """A bolt turned until the wrench clicked, or all of a line; `value` in N·m is what the wrench was to be set to."""
    _check_stage(draft, name, stage)
    draft.add(TorqueAct(name, bolt, stage, value, None if value is None else "N*m"))


def _check_stage(draft: Draft, line: str, stage: str) -> None:
    """How far a fastener is tightened is one of the template's own steps."""
    lines = draft.planned.step.torque
    if line not in lines:
        raise Refused(f"no torque {line!r} in {draft.step}{known(lines)}")
    stages = ["finger", "snug", *(str(1 + number) for number in range(len(lines[line].stages))), "final"]
    if stage not in stages:
        raise Wants(f"torque {line} wants one of {', '.join(stages)}, not {stage!r}")


def weld(
    draft: Draft,
    name: str,
    run: str = "1",
    amps: str = "",
    volts: str | None = None,
    minutes: str | None = None,
    rod: str | None = None,
) -> None:
    """A weld run; bare numbers are in ampere, volt and minutes."""
    if name not in draft.planned.step.weld:
        raise Refused(f"no weld {name!r} in {draft.step}{all_known(draft.planned.step.weld)}")
    measured = (("amps", amps, "A"), ("volts", volts, "V"), ("minutes", minutes, "min"))
    figures = {key: amount(key, text, unit) for key, text, unit in measured if text}
    draft.add(replace(WeldAct(name, run or "1", rod=rod), **figures))


def part(draft: Draft, name: str, quantity: str, fate: str | None = None) -> None:
    """A part used, or what became of it."""
    draft.add(PartAct(_known_part(draft, name), quantity or None, fate))


def buying(
    draft: Draft,
    name: str,
    state: str,
    from_: str | None = None,
    due: str | None = None,
    price: str | None = None,
) -> None:
    """How far the buying of a part is; one that nobody planned is asked for first, and known from then on."""
    if state not in BUYING:
        raise Wants(f"buying wants one of {', '.join(BUYING)}, not {state!r}")
    found = _any_part(draft, name) if state == ASKED else _known_part(draft, name)
    draft.add(BuyingAct(found, state, from_, due, price, draft.earlier(BuyingAct, part=found)))


def place(draft: Draft, name: str, where: str) -> None:
    """Where a part of the job is, or a tool by any name."""
    if (part := part_called(draft.job, name)) is not None:
        draft.add(PlaceAct(where, part=part, replaces=draft.earlier(PlaceAct, part=part)))
    else:
        draft.add(PlaceAct(where, tool=name, replaces=draft.earlier(PlaceAct, tool=name)))


def _known_part(draft: Draft, name: str) -> str:
    found = part_called(draft.job, name)
    if found is None:
        there = all_known(sorted(part_names(draft.job)))
        raise Refused(
            f"no part {name!r} in this job{there}; one that nobody planned begins with --buying NAME=asked"
        )
    return found


def _any_part(draft: Draft, name: str) -> str:
    """A part of the job, or a new one by this name, as it was typed."""
    if not name.strip() or len(name) > PART_LIMIT:
        raise Refused(
            f"a part wants a name of at most {PART_LIMIT} characters; what else there is to say is a note"
        )
    return part_called(draft.job, name) or name
