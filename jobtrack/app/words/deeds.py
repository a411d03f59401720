"""What an entry did, in a few words: for undo, and for what others have recorded meanwhile."""

from __future__ import annotations

from jobtrack.app.words.plain import clock_time
from jobtrack.record.absence import Gap
from jobtrack.record.entries import (
    Act,
    ClockAct,
    ClosesAct,
    Entry,
    FinishedAct,
    GivenAct,
    HandoverAct,
    MarkAct,
    NoteAct,
    NotNeededAct,
    OpensAct,
    ReadingAct,
    ReleasedAct,
    SettledAct,
    StandsAct,
    TakenOverAct,
    TickAct,
    UndoesAct,
)  # fmt: skip
from jobtrack.record.job import Job

PLAIN: dict[type[Act], str] = {
    NoteAct: "a note", ClosesAct: "a condition closed", FinishedAct: "finished",
    ReleasedAct: "a hold released",
    NotNeededAct: "marked not needed", StandsAct: "looked at again, stands", UndoesAct: "something undone",
    TakenOverAct: "taken over",
}  # fmt: skip


def entry_words(entry: Entry) -> str:
    """ "pin-spacing.donor: spacing 1012; finished (09:41)"."""
    did = "; ".join(dict.fromkeys(act_words(act) for act in entry.did))
    return f"{entry.step or 'job'}: {did} ({clock_time(entry.at)})"


def act_words(act: Act) -> str:
    """One act in a few words."""
    match act:
        case ReadingAct():
            typed = "; ".join(act.typed) if isinstance(act.typed, tuple) else act.typed
            return f"{act.reading} {typed}"
        case TickAct():
            return f"{act.tick} {'yes' if act.yes else 'no'}"
        case GivenAct():
            return f"{act.given} {'not known yet' if act.unknown else act.typed}"
        case MarkAct():
            return f"at {act.mark}"
        case OpensAct():
            return f"opened {act.opens}"
        case ClockAct():
            return f"clock {act.clock}"
        case HandoverAct():
            return f"handed over to {act.to}"
        case SettledAct():
            return f"settled {act.settled}"
        case _:
            return PLAIN.get(
                type(act), (act.kind or "something that this program doesn't know").replace("_", " ")
            )


def others_words(before: Job, after: Job) -> str:
    """What has come in from elsewhere, the last of it in words."""
    known = {entry.hash for entry in before.view.entries}
    new = [entry for entry in after.view.entries if entry.hash not in known]
    if not new:
        return "The file was read anew."
    more = f", and {len(new) - 1} more" if len(new) > 1 else ""
    return f"Taken in from {new[-1].by}: {entry_words(new[-1])}{more}."


NOT_AWAY = "y: yes, it counts. n: no, a break from then on. Any other key asks no more."


def away_question(found: Gap) -> list[str]:
    """The question to somebody who comes back to a running clock."""
    return [
        f"Nothing was entered from {clock_time(found.since)} to {clock_time(found.until)}. "
        "Were you working on this?"
    ]
