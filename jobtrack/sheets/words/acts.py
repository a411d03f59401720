"""What an entry did, in a few words: what was recorded, undone, or taken in from others."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from jobtrack import units
from jobtrack.job.acts.entries import (
    Act,
    AddedStepAct,
    AgreedAct,
    BuyingAct,
    ClockAct,
    ClosesAct,
    DueDoneAct,
    Entry,
    FinishedAct,
    GivenAct,
    HandoverAct,
    JobClosedAct,
    JobStoppedAct,
    MarkAct,
    MetAct,
    NoteAct,
    NotNeededAct,
    OpensAct,
    PartAct,
    PhotoAct,
    PlaceAct,
    ReadingAct,
    ReleasedAct,
    SetAsideAct,
    SettledAct,
    StandsAct,
    SwappedAct,
    TakenInAct,
    TakenOverAct,
    TickAct,
    TorqueAct,
    UndoesAct,
    WeldAct,
    WorkedAct,
)

LONGEST_NOTE = 60
"""Characters of a note that stand in a line about it."""


def entry_words(entry: Entry) -> str:
    """ "pin-spacing.donor: spacing 1012; finished (09:41)"."""
    return f"{entry.step or 'job'}: {acts_words(entry.did)} ({entry.at:%H:%M})"


def acts_words(did: Iterable[Act]) -> str:
    """Several acts, each said once."""
    return "; ".join(dict.fromkeys(act_words(act) for act in did))


def act_words(act: Act) -> str:
    """One act in a few words, what was typed as it was typed."""
    words = WORDS.get(type(act))
    return words(act) if words else "something that this program doesn't know"


def _listed(*parts: str | None) -> str:
    return ", ".join(part for part in parts if part)


def _reading(act: ReadingAct) -> str:
    typed = "; ".join(act.typed) if isinstance(act.typed, tuple) else act.typed
    return f"{act.reading} {typed or act.value}{', typed wrong before' if act.mistyped else ''}"


def _given(act: GivenAct) -> str:
    value = _plain(act.value)
    return f"{act.given} {'not known yet' if act.unknown else act.typed or value}"


def _plain(value: object) -> str:
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)


def _note(act: NoteAct) -> str:
    if act.private:
        return "a private note"
    words = " ".join(act.note.split())
    return f"note: {words if len(words) <= LONGEST_NOTE else words[:LONGEST_NOTE] + '…'}"


def _torque(act: TorqueAct) -> str:
    return f"torque {act.torque}: {tightened(act)}"


def tightened(act: TorqueAct) -> str:
    """How far and with what: "bolt 3, stage 2, 33 N·m with beam wrench"."""
    stage = f"stage {act.stage}" if act.stage.isdecimal() else act.stage
    figure = _listed(_bolt(act.member), stage, _torque_typed(act))
    return f"{figure}{f' with {act.with_}' if act.with_ else ''}"


def _bolt(member: str | None) -> str | None:
    """Which bolt, by its number or by its own name."""
    return f"bolt {member}" if member and member.isdecimal() else member


def _torque_typed(act: TorqueAct) -> str | None:
    """What a fastener was tightened to: as typed, with the unit that a bare number was taken in."""
    bare = act.typed is None or units.typed_unit(act.typed) is None
    return units.show(act.value, act.unit) if bare and act.value is not None else act.typed


def _weld(act: WeldAct) -> str:
    measured = ((act.amps, "A"), (act.volts, "V"), (act.minutes, "min"))
    figures = [None if value is None else f"{value:g} {unit}" for value, unit in measured]
    return f"weld {act.weld}: {_listed(f'run {act.run}', *figures, act.rod and f'rod {act.rod}')}"


def _buying(act: BuyingAct) -> str:
    more = (
        act.from_ and f"from {act.from_}",
        act.due and f"due {act.due}",
        act.price and f"price {act.price}",
    )
    return f"buying {act.part}: {_listed(act.buying, *more)}"


def _part(act: PartAct) -> str:
    figures = _listed(act.quantity, act.fate)
    return f"part {act.part}{f': {figures}' if figures else ''}"


def _taken_over(act: TakenOverAct) -> str:
    return _listed("taken over", act.reading and f"{act.reading} taken again")


def _job_closed(act: JobClosedAct) -> str:
    asked = (
        ("would do differently", act.differently),
        ("a tool that was missing", act.tool_lacked),
        ("what broke", act.broke),
    )
    return "; ".join(("job closed", *(f"{name}: {text}" for name, text in asked if text)))


def _settled(act: SettledAct) -> str:
    return (
        f"settled {act.settled}: {act.typed or _plain(act.value)}{f', by {act.whose}' if act.whose else ''}"
    )


def _place(act: PlaceAct) -> str:
    return f"{act.part or act.tool}: at {act.place}"


def _due_to(words: str, because: str | None) -> str:
    return f"{words}: {because}" if because else words


WORDS: dict[type[Act], Callable[[Any], str]] = {
    ReadingAct: _reading,
    TickAct: lambda act: f"{act.tick} {_plain(act.yes)}",
    GivenAct: _given,
    NoteAct: _note,
    MarkAct: lambda act: f"at {act.mark}",
    MetAct: lambda act: f"met: {_listed(act.met, act.part, act.text)}",
    PartAct: _part,
    BuyingAct: _buying,
    PlaceAct: _place,
    TorqueAct: _torque,
    WeldAct: _weld,
    PhotoAct: lambda act: f"photo {act.photo}",
    OpensAct: lambda act: f"opened {act.opens}{f'.{act.member}' if act.member else ''}",
    ClosesAct: lambda act: "a condition closed",
    ReleasedAct: lambda act: "hold released",
    FinishedAct: lambda act: "finished",
    NotNeededAct: lambda act: _due_to("marked not needed", act.because),
    StandsAct: lambda act: _due_to("looked at again, stands", act.because),
    SettledAct: _settled,
    UndoesAct: lambda act: "something undone",
    AddedStepAct: lambda act: f"step {act.step} added: {act.title}",
    SwappedAct: lambda act: "the two sides swapped",
    ClockAct: lambda act: f"clock {act.clock}",
    WorkedAct: lambda act: _listed(f"{act.worked:g} h worked", act.for_ and f"by {act.for_}", act.on_day),
    AgreedAct: lambda act: _due_to(f"agreed, {act.agreed}", _listed(act.what, act.how, act.amount)),
    HandoverAct: lambda act: f"handed over to {act.to}",
    TakenOverAct: _taken_over,
    DueDoneAct: lambda act: f"due afterwards, done: {act.due}",
    JobClosedAct: _job_closed,
    JobStoppedAct: lambda act: f"job stopped: {act.because}",
    TakenInAct: lambda act: "an altered entry taken in",
    SetAsideAct: lambda act: "a damaged entry set aside",
}
