"""What each option of `record` does: from the words typed to the acts of the call."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from jobtrack import units
from jobtrack.cli.record_options import Asked, split
from jobtrack.cli.saying import BadInput, day, typed_name
from jobtrack.job.acts.base import Act, keys, replace
from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.acts.people import AgreedAct, WorkedAct
from jobtrack.job.acts.said import MarkAct, NoteAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.typed import yes_or_no

STATES = ("asked", "ordered", "here", "wrong", "going back")


def reading_id(asked: Asked) -> str:
    """Which reading an option `--reading ID=VALUE` is about."""
    return split(asked.option, asked.value)[0]


UNITS = {"amps": "A", "volts": "V", "minutes": "min"}
"""The unit in which a number that `--also` adds is kept, and taken where it is typed without one."""


def _with_more(act: Act, also: dict[str, str], unit: str | None = None) -> Act:
    """The act with the keys that `--also` gave it; a doubt is in the reading's unit."""
    known = keys(type(act))
    more: dict[str, Any] = {}
    for key, text in also.items():
        one = known[key]
        more[one.attribute] = _number(key, text, UNITS.get(key, unit)) if "float" in one.holds else text
    return replace(act, **more)


def _number(key: str, text: str, unit: str | None) -> float:
    """A number, nought or more, in this unit; an amount typed in another is a difference there, too (9 °F is 5 °C)."""
    own = units.typed_unit(text) or unit
    value = units.read(text, own).value
    if value is None or value < 0:
        raise BadInput(f"{key} wants a number, nought or more, not {text!r}")
    return float(units.convert_difference(value, own, unit))


def _add(draft: Draft, act: Act, asked: Asked) -> None:
    draft.add(_with_more(act, asked.also))


def _reading(draft: Draft, same: Sequence[Asked]) -> None:
    also = {key: value for one in same for key, value in one.also.items()}
    mistyped = yes_or_no("mistyped", also.pop("mistyped", "no"))
    name = reading_id(same[0])
    draft.reading(name, [split("reading", one.value)[1] for one in same], mistyped)
    _amend(draft, also, draft.planned.step.reading[name].unit)


def _amend(draft: Draft, also: dict[str, str], unit: str | None = None) -> None:
    if also:
        draft.amend(_with_more(draft.did[-1], also, unit))


def _tick(draft: Draft, same: Sequence[Asked]) -> None:
    name, answer = split("tick", same[0].value)
    draft.tick(name, yes_or_no(name, answer))


def _given(draft: Draft, same: Sequence[Asked]) -> None:
    draft.given(*split("given", same[0].value))


def _torque(draft: Draft, same: Sequence[Asked]) -> None:
    name, rest = split("torque", same[0].value)
    torque, _, member = name.partition(".")
    stage, _, typed = rest.partition(":")
    read = units.read(typed, "N*m") if typed else None
    if read is not None and read.value is None:
        raise BadInput(f"{torque} wants one torque in N*m behind the stage, not {typed!r}")
    value = float(read.value) if read is not None and read.value is not None else None
    draft.torque(
        TorqueAct(
            torque,
            member or None,
            _stage(draft, torque, stage.strip()),
            value,
            "N*m" if read else None,
            typed or None,
        )
    )
    _amend(draft, same[0].also)


def _stage(draft: Draft, torque: str, stage: str) -> str:
    """How far a fastener is tightened, one of the template's own steps."""
    template = draft.planned.step.torque.get(torque)
    numbers = [str(1 + number) for number in range(len(template.stages) if template else 0)]
    known = ["finger", "snug", *numbers, "final"]
    if template is not None and stage not in known:
        raise BadInput(f"--torque {torque} wants one of {', '.join(known)}, not {stage!r}")
    return stage


def _weld(draft: Draft, same: Sequence[Asked]) -> None:
    name, rest = split("weld", same[0].value)
    if name not in draft.planned.step.weld:
        raise BadInput(
            f"no weld {name!r} in {draft.step}; there are: {', '.join(draft.planned.step.weld) or 'none'}"
        )
    run, _, amps = rest.partition(":")
    _add(
        draft,
        WeldAct(name, run.strip() or "1", _number("amps", amps, UNITS["amps"]) if amps else None),
        same[0],
    )


def _parts(draft: Draft) -> set[str]:
    steps = (part for one in draft.job.steps.values() for part in one.step.part)
    return {*draft.job.plan.template.part, *steps}


def _part_name(draft: Draft, name: str) -> str:
    known = _parts(draft)
    if name not in known:
        raise BadInput(f"no part {name!r} in this job; there are: {', '.join(sorted(known)) or 'none'}")
    return name


def _part(draft: Draft, same: Sequence[Asked]) -> None:
    name, quantity = split("part", same[0].value)
    _add(draft, PartAct(_part_name(draft, name), quantity or None), same[0])


def _buying(draft: Draft, same: Sequence[Asked]) -> None:
    name, state = split("buying", same[0].value)
    if state not in STATES:
        raise BadInput(f"--buying wants one of {', '.join(STATES)}, not {state!r}")
    act = BuyingAct(_part_name(draft, name), state)
    _add(draft, replace(act, replaces=draft.earlier(BuyingAct, part=name)), same[0])


def _place(draft: Draft, same: Sequence[Asked]) -> None:
    name, where = split("place", same[0].value)
    if name in _parts(draft):
        act = PlaceAct(where, part=name, replaces=draft.earlier(PlaceAct, part=name))
    else:
        act = PlaceAct(where, tool=name, replaces=draft.earlier(PlaceAct, tool=name))
    _add(draft, act, same[0])


def _opens(draft: Draft, same: Sequence[Asked]) -> None:
    member = same[0].also.get("member")
    known = dict.fromkeys(one.member for one in draft.job.steps.values() if one.member)
    if member is not None and member not in known:
        raise BadInput(f"no member {member!r} in this job; there are: {', '.join(known)}")
    draft.open(same[0].value)
    _amend(draft, same[0].also)


def _settle(draft: Draft, same: Sequence[Asked]) -> None:
    name, text = split("settle", same[0].value)
    draft.settle(name, text, same[0].also.get("whose"))


def _add_step(draft: Draft, same: Sequence[Asked]) -> None:
    also = same[0].also
    draft.add_step(*split("add-step", same[0].value), also.get("after"), also.get("before"))


def _met(draft: Draft, same: Sequence[Asked]) -> None:
    also = same[0].also
    draft.met(same[0].value, also.get("part"), also.get("text"))


def _worked(draft: Draft, same: Sequence[Asked]) -> None:
    value = units.read(same[0].value, "h").value
    if value is None or value <= 0:
        raise BadInput(f"--worked wants hours, as 2.5 or 2 h 30 min, not {same[0].value!r}")
    also = same[0].also
    if "for" in also:
        also["for"] = typed_name("--for", also["for"])
    if "on_day" in also:
        also["on_day"] = day("--on-day", also["on_day"])
    _add(draft, WorkedAct(float(value)), same[0])


def _agreed(draft: Draft, same: Sequence[Asked]) -> None:
    who, what = split("agreed", same[0].value)
    _add(draft, AgreedAct(who, what or None), same[0])


def _reason(same: Sequence[Asked], option: str) -> str:
    reason = same[0].value or same[0].also.get("because", "")
    if not reason.strip():
        raise BadInput(f"--{option} wants a reason: --{option}=REASON, or --because TEXT behind it")
    return reason


def _undo(draft: Draft, same: Sequence[Asked]) -> None:
    draft.undo(same[0].value.strip() or None)


def _not_needed(draft: Draft, same: Sequence[Asked]) -> None:
    draft.not_needed(same[0].value or same[0].also.get("because"))


def _close_job(draft: Draft, same: Sequence[Asked]) -> None:
    draft.close_job()
    _amend(draft, same[0].also)


def _take_over(draft: Draft, same: Sequence[Asked]) -> None:
    draft.take_over()


ACTS: dict[str, Callable[[Draft, Sequence[Asked]], None]] = {
    "reading": _reading,
    "tick": _tick,
    "given": _given,
    "note": lambda draft, same: draft.add(NoteAct(same[0].value)),
    "private-note": lambda draft, same: draft.add(NoteAct(same[0].value, private=True)),
    "mark": lambda draft, same: draft.add(MarkAct(same[0].value)),
    "met": _met,
    "torque": _torque,
    "weld": _weld,
    "part": _part,
    "buying": _buying,
    "place": _place,
    "opens": _opens,
    "closes": lambda draft, same: draft.close(same[0].value),
    "settle": _settle,
    "add-step": _add_step,
    "clock": lambda draft, same: draft.clock(same[0].value),
    "worked": _worked,
    "agreed": _agreed,
    "due-done": lambda draft, same: draft.due_done(same[0].value),
    "take-in": lambda draft, same: draft.take_in(same[0].value),
    "not-needed": _not_needed,
    "stands": lambda draft, same: draft.stands(_reason(same, "stands")),
    "stop-job": lambda draft, same: draft.stop_job(_reason(same, "stop-job")),
    "finished": lambda draft, same: draft.finish(),
    "release-hold": lambda draft, same: draft.release(),
    "swap": lambda draft, same: draft.swap(),
    "undo": _undo,
    "take-over": _take_over,
    "close-job": _close_job,
}
