"""A torque line in words: what is asked of it next, and what was recorded last."""

from __future__ import annotations

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.doing.tightening import Tightening, tightening
from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.pages.typeset import Line, line, spaced_rows, wrap
from jobtrack.pages.wording import raised
from jobtrack.sheets.words.doing.torques import setting_words, unknown_words
from jobtrack.template.plan import PlannedStep
from jobtrack.units.chosen import METRIC_FIRST, Chosen


def now(job: Job, planned: PlannedStep, name: str) -> Tightening:
    """How far a torque line is tightened."""
    return tightening(job, planned, name)


# What is asked


def asked_words(job: Job, planned: PlannedStep, name: str, shown: Chosen = METRIC_FIRST) -> str:
    """What is asked of a line: "bolt 3 of 4, stage 2 of 3: 66 N·m = 49 lbf ft"; or that all of it is recorded."""
    who, what = asked_apart(job, planned, name, shown)
    return f"{who}: {what}"


def asked_lines(
    job: Job, planned: PlannedStep, name: str, room: int, shown: Chosen = METRIC_FIRST
) -> list[Line]:
    """The same, bolt and stage in spaced capitals, the torque behind them where it fits."""
    found = now(job, planned, name)
    if found.next is None:
        return wrap(f"{asked_words(job, planned, name)}.", room, "strong")
    who, what = asked_apart(job, planned, name, shown)
    *above, last = spaced_rows(who, room)
    fits = len(last) + 3 + len(what) <= room
    rows = [*above, f"{last}   {what}"] if fits else [*above, last]
    return [
        *(line(row, "strong") for row in rows),
        *([] if fits else wrap(what, room, "strong")),
    ]


def asked_apart(job: Job, planned: PlannedStep, name: str, shown: Chosen) -> tuple[str, str]:
    """Bolt and stage, and the torque; of a line of which none is asked its name, and why: recorded, or not counted."""
    found = now(job, planned, name)
    called = called_words(planned, name, len(planned.step.torque))
    bolt, stage = found.next, found.stage
    if not found.counted:
        return name, unknown_words(job, found)
    if bolt is None or stage is None:
        return name, f"the last stage is recorded of {every_words(found)}"
    said = f"{bolt_words(found, bolt.name)}{_stage_words(found, stage)}"
    return f"{called}: {said}" if called else said, setting_words(job, planned, name, stage, shown)


def called_words(planned: PlannedStep, name: str, lines: int) -> str:
    """The side or vehicle of a step, and which of its several lines it is."""
    return " ".join(part for part in (planned.member, name if lines > 1 else None) if part)


def every_words(found: Tightening) -> str:
    """ "all 4 bolts"; "all bolts" where nobody knows how many there are."""
    if not found.counted:
        return "all bolts"
    return f"all {len(found.bolts)} bolts" if found.bolts[1:] else "its bolt"


def bolt_words(found: Tightening, bolt: str) -> str:
    """ "bolt 3 of 4"; one that isn't counted without how many, one that goes by a name of its own by that."""
    if not bolt.isdecimal():
        return bolt
    return (
        f"bolt {bolt} of {len(found.bolts)}"
        if any(one.name == bolt for one in found.bolts)
        else f"bolt {bolt}"
    )


def _stage_words(found: Tightening, stage: int) -> str:
    return f", stage {stage} of {found.stages}" if found.stages > 1 else ""


# What was recorded


def turned_words(job: Job, planned: PlannedStep, act: TorqueAct, shown: Chosen = METRIC_FIRST) -> str:
    """What a click has recorded, "bolt 3 of 4, stage 2: 66 N·m", and where it ends a stage what the next one is."""
    found = now(job, planned, act.torque)
    bolt = every_words(found) if act.member is None else bolt_words(found, act.member)
    stage = f"stage {act.stage}" if act.stage.isdecimal() else act.stage
    value = act.value_words()
    said = f"{bolt}, {stage}: {visible(value)}" if value else f"{bolt}, {stage}"
    return f"{said}. {_through(job, planned, act, found, shown)}".rstrip()


def _through(job: Job, planned: PlannedStep, act: TorqueAct, found: Tightening, shown: Chosen) -> str:
    """That a stage has come to its end with this act, and what the next one is."""
    if not found.counted:
        return f"{raised(unknown_words(job, found))}."
    if found.stage is None:
        return f"The last stage is recorded of {every_words(found)}."
    here = found.stage - 1
    reached = {bolt.reached for bolt in found.bolts}
    if here < 1 or reached != {here} or act.stage != str(here):
        return ""
    following = setting_words(job, planned, act.torque, found.stage, shown)
    done = f"Stage {here} of {found.stages} is recorded of {every_words(found)}"
    return f"{done}; the next is stage {found.stage}: {following}."


def place_words(job: Job, planned: PlannedStep) -> str:
    """Where the last torque recorded in a step was, "bolt 3, stage 2"; empty where there is none."""
    lines = [now(job, planned, name) for name in planned.step.torque]
    acts = sorted((one.last for one in lines if one.last is not None), key=lambda done: done.order)
    act = acts[-1].act if acts else None
    if not isinstance(act, TorqueAct):
        return ""
    bolt = (
        "" if act.member is None else f"bolt {act.member}, " if act.member.isdecimal() else f"{act.member}, "
    )
    stage = f"stage {act.stage}" if act.stage.isdecimal() else act.stage
    return f"{f'{act.torque}: ' if len(planned.step.torque) > 1 else ''}{bolt}{stage}"
