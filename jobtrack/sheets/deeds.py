"""What an entry did, in a few words: what was recorded, undone, or taken in from others."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from jobtrack.record.entries import (
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


def _named(name: str, *parts: str | None) -> str:
    return " ".join((name, _listed(*parts))).strip()


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
    bolt = f"{act.torque}.{act.member}" if act.member else act.torque
    return _named(bolt, f"stage {act.stage}" if act.stage.isdecimal() else act.stage, act.typed)


def _weld(act: WeldAct) -> str:
    return _named(f"weld {act.weld}", f"run {act.run}", None if act.amps is None else f"{act.amps:g} A")


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
    PartAct: lambda act: _named(f"part {act.part}", act.quantity, act.fate),
    BuyingAct: lambda act: _named(act.part, act.buying, act.from_ and f"from {act.from_}"),
    PlaceAct: _place,
    TorqueAct: _torque,
    WeldAct: _weld,
    PhotoAct: lambda act: "a photo",
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
    TakenOverAct: lambda act: "taken over",
    DueDoneAct: lambda act: f"due afterwards, done: {act.due}",
    JobClosedAct: lambda act: "job closed",
    JobStoppedAct: lambda act: f"job stopped: {act.because}",
    TakenInAct: lambda act: "an altered entry taken in",
    SetAsideAct: lambda act: "a damaged entry set aside",
}
