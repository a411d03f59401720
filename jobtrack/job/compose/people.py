"""Clocks, hours typed afterwards, agreements, handing over and taking over: acts from what was typed; and refusals."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from msgspec.structs import replace

from jobtrack import units
from jobtrack.job.acts.people import AgreedAct, ClockAct, HandoverAct, TakenOverAct, WorkedAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose.draft import NAME_LIMIT, Draft
from jobtrack.job.compose.refusal import Refused, Wants
from jobtrack.job.compose.typed import day
from jobtrack.job.state.job import person
from jobtrack.job.time.runs import clocks


def clock(draft: Draft, what: str) -> None:
    """The person's clock on, off or to a break."""
    if what not in ("on", "off", "break"):
        raise Refused(f"the clock goes on, off or break, not {what!r}")
    draft.add(ClockAct(what, () if what == "on" else _clocks_on(draft)))


def _clocks_on(draft: Draft) -> tuple[str, ...]:
    """The person's clocks that were on at the time of the call; where none was, the last one."""
    mine = [one for one in clocks(draft.job) if person(one.person) == person(draft.by)]
    if not mine:
        raise Refused(f"{draft.by} has no clock on in this job; put it on first")
    return tuple(one.span.on for one in mine if one.is_on(draft.at)) or (mine[-1].span.on,)


def worked(draft: Draft, hours: str, for_: str | None = None, on_day: str | None = None) -> None:
    """Hours typed afterwards; for somebody else, for another day."""
    value = units.read(hours, "h").value
    if value is None or value <= 0:
        raise Wants(f"worked wants hours, as 2.5 or 2 h 30 min, not {hours!r}")
    whose = None if for_ is None else " ".join(for_.split())
    if whose is not None and len(whose) > NAME_LIMIT:
        raise Wants(f"for is longer than {NAME_LIMIT} characters; shorten it")
    draft.add(WorkedAct(float(value), whose, None if on_day is None else day("on-day", on_day)))


def agreed(draft: Draft, who: str, what: str, how: str | None = None, amount: str | None = None) -> None:
    """What somebody agreed to, if it was said."""
    draft.add(AgreedAct(who, what or None, how, amount))


def hand_over(draft: Draft, to: str, said: Mapping[str, str] | None = None) -> None:
    """Hand the job to somebody; `said`: in the giver's words, by the keys of SAID."""
    if not to.strip():
        raise Refused("a handover is given to somebody; say to whom")
    texts = {name: " ".join(text.split()) or None for name, text in (said or {}).items()}
    draft.add(replace(HandoverAct(" ".join(to.split())), **texts))


def take_over(draft: Draft, seen: Collection[str] | None = None) -> None:
    """Take over from the last handover; `seen`: what of the open conditions, by name; None: all of them."""
    given = draft.job.view.of_kind(HandoverAct)
    if not given:
        raise Refused("no handover is recorded in this job; record in it under your own name")
    again = [act.reading for act in draft.did if isinstance(act, ReadingAct)]
    names_open = (one.name for one in draft.job.open_conditions)
    were_seen = tuple(name for name in names_open if seen is None or name in seen)
    names = tuple(done.name for done in given)
    draft.add(TakenOverAct(seen=were_seen, reading=again[-1] if again else None, of=names))
