"""What is private stays off the record unless it is marked for it; each key of each act is decided."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from jobtrack.job.acts.base import Act, keys
from jobtrack.job.acts.doing import BuyingAct
from jobtrack.job.acts.people import AgreedAct, ClockAct, WorkedAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.acts.said import NoteAct
from jobtrack.sheets.vehicle_record.list import on_the_record
from jobtrack.sheets.vehicle_record.private import KEYS, OFF, WHOLE
from tests.sheets.vehicle_record.made import exchange, forms, put, record

ON, LINK, SHOP, NOTE, PRICE, HOUR = "on", "link", "the shop's own", "private-notes", "prices", "hours"
"""On the record; ties acts to others and is no text; never on it; and what `--including` may bring onto it."""
DECIDED: dict[str, dict[str, str]] = {
    "reading": {"reading": ON, "value": ON, "unit": ON, "typed": ON, "with": ON, "doubt": ON, "bound": ON, "low": ON,
                "high": ON, "word": ON, "mistyped": ON, "replaces": LINK},
    "tick": {"tick": ON, "yes": ON, "replaces": LINK},
    "given": {"given": ON, "value": ON, "unit": ON, "typed": ON, "unknown": ON, "replaces": LINK},
    "note": {"note": NOTE, "private": NOTE},
    "mark": {"mark": SHOP},
    "met": {"met": ON, "part": ON, "text": ON},
    "torque": {"torque": ON, "member": ON, "stage": ON, "value": ON, "unit": ON, "typed": ON, "with": ON},
    "weld": {"weld": ON, "run": ON, "amps": ON, "volts": ON, "minutes": ON, "rod": ON},
    "part": {"part": ON, "quantity": ON, "fate": ON},
    "buying": {"part": ON, "buying": ON, "from": ON, "due": ON, "price": PRICE, "replaces": LINK},
    "place": {"place": ON, "part": ON, "tool": SHOP, "replaces": LINK},
    "photo": {"photo": ON, "hash": LINK},
    "opens": {"opens": ON, "member": ON},
    "closes": {"closes": LINK},
    "settled": {"settled": ON, "value": ON, "unit": ON, "typed": ON, "whose": ON, "of": LINK},
    "added_step": {"step": ON, "title": ON, "after": LINK, "before": LINK, "added_step": ON},
    "not_needed": {"not_needed": ON, "because": ON, "of": LINK},
    "stands": {"stands": ON, "because": ON, "on": LINK},
    "finished": {"finished": ON, "on": LINK},
    "released": {"released": ON, "on": LINK},
    "swapped": {"swapped": ON, "of": LINK},
    "clock": {"clock": HOUR, "of": LINK},
    "worked": {"worked": HOUR, "for": HOUR, "on_day": HOUR},
    "agreed": {"agreed": ON, "what": ON, "how": ON, "amount": PRICE},
    "handover": dict.fromkeys(("to", "handover", "holds_up", "decides", "promised", "tried", "says"), SHOP),
    "taken_over": {"taken_over": SHOP, "seen": SHOP, "reading": SHOP, "of": LINK},
    "due_done": {"due": ON, "due_done": ON},
    "job_stopped": {"because": ON, "job_stopped": ON, "of": LINK},
    "job_closed": {"job_closed": ON, "differently": SHOP, "tool_lacked": SHOP, "broke": ON, "of": LINK},
    "taken_in": {"taken_in": SHOP, "of": LINK},
    "set_aside": {"set_aside": SHOP, "of": LINK},
    "undoes": {"undoes": SHOP},
}  # fmt: skip
"""A new key of an act fails here until it is said whether a stranger may read it."""


def test_each_key_of_each_act_is_decided() -> None:
    """And the record's own table says the same of what is private as a whole, by a key, or the shop's own."""
    assert {kind: list(keys(act)) for kind, act in KINDS.items()} == {
        kind: list(decided) for kind, decided in DECIDED.items()
    }
    by_key = {kind: {key for key, how in of.items() if how == PRICE} for kind, of in DECIDED.items()}
    assert {kind: set(of) for kind, of in KEYS.items()} == {kind: of for kind, of in by_key.items() if of}
    hours = {kind for kind, of in DECIDED.items() if HOUR in of.values()}
    assert hours == set(WHOLE)
    own = {kind: {key for key, how in of.items() if how == SHOP} for kind, of in DECIDED.items()}
    rest = {kind: set(of) or own[kind] for kind, of in OFF.items()}
    assert {kind: of for kind, of in own.items() if of} == {
        kind: of - {key for key, how in DECIDED[kind].items() if how == LINK} for kind, of in rest.items()
    }


def texts() -> Iterator[tuple[str, str, Act]]:
    """Each text of an act that isn't plainly on the record, with an act that holds it."""
    for kind, decided in DECIDED.items():
        for key, how in decided.items():
            attribute = keys(KINDS[kind])[key].attribute
            holds = keys(KINDS[kind])[key].holds
            if how not in (ON, LINK) and holds.startswith("str"):
                needed = {
                    key.attribute: "x"
                    for key in keys(KINDS[kind]).values()
                    if key.default is None and key.holds == "str"
                }
                more: dict[str, object] = {"worked": 1.0} if kind == "worked" else {}
                more |= {"private": True} if kind == "note" else {}
                yield kind, how, KINDS[kind](**{**needed, **more, attribute: f"Secret {kind} {key}"})


PRIVATE = list(texts())


def test_there_are_such_texts() -> None:
    """Notes, prices, hours, handovers, marks, tools."""
    assert {kind for kind, _, _ in PRIVATE} >= {
        "note",
        "buying",
        "agreed",
        "worked",
        "handover",
        "mark",
        "place",
    }


@pytest.mark.parametrize(("kind", "how", "act"), PRIVATE, ids=lambda one: one if isinstance(one, str) else "")
def test_nothing_private_stands_in_any_form(kind: str, how: str, act: Act) -> None:
    """Recorded in a step and for the job as a whole; with its mark it stands there, without it it doesn't."""
    copy = exchange(("recipient.load", "900"))
    put(copy, "height", act)
    put(copy, None, act)
    for vehicle in ("recipient", "donor"):
        for others in ((), tuple({NOTE, PRICE, HOUR} - {how})):
            assert not any("Secret" in text for text in forms(record(copy.job, vehicle, *others)))
    if how in (NOTE, PRICE) and kind != "place":
        assert all("Secret" in text for text in forms(record(copy.job, "recipient", how)))
    if how == SHOP:
        assert not any("Secret" in text for text in forms(record(copy.job, "recipient", NOTE, PRICE, HOUR)))


def test_hours_stand_only_where_they_are_marked() -> None:
    """As a sum and by person, none of it without its mark."""
    copy = exchange()
    put(copy, "height", WorkedAct(7.25, "Dorrit Vane"))
    put(copy, "height", ClockAct("on"))
    assert not any(
        "7.25" in text or "Dorrit" in text for text in forms(record(copy.job, "recipient", NOTE, PRICE))
    )
    assert all(
        "7.25 h" in text and "Dorrit Vane" in text for text in forms(record(copy.job, "recipient", HOUR))
    )


def test_the_list_says_what_is_left_off_and_what_is_in() -> None:
    """By name, each private thing; and how many things stand under each heading."""
    copy = exchange(("recipient.load", "900"))
    put(copy, "height", NoteAct("owner in a hurry", private=True), NoteAct("a plain one"))
    put(copy, None, BuyingAct("u-bolts", "ordered", "Harrow", price="80"))
    put(copy, None, AgreedAct("Ivo Hask", "two hours more", amount="260"))
    put(copy, "height", WorkedAct(2.5))
    found = on_the_record(copy.job, "recipient", [PRICE])
    assert [(one.name, one.included) for one in found.private] == [
        (NOTE, False),
        (PRICE, True),
        (PRICE, True),
        (HOUR, False),
    ]
    assert dict(found.headings)["Notes"] == 1
    assert dict(found.headings)["Parts"] == 1
    said = "\n".join(found.words())
    assert "In it, as marked: amount agreed with Ivo Hask" in said
    assert "Left off (private-notes): private note in Height of the step, Wim" in said
    assert "owner in a hurry" not in said
    assert on_the_record(copy.job, "donor", []).private == ()
