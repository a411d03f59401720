"""Every kind of act, and every key of it, is recorded by an option and is read back as what it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from jobtrack.job.acts.base import UnknownAct
from jobtrack.job.acts.registry import KINDS, OPTIONS
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.acts import read_act
from tests.support.cli_calls import Shop

DONOR, LEFT = "spacing.donor", "plate.left"
OF_OTHERS = {"replaces", "of", "on", "undoes", "closes"}
"""Keys that name what was recorded before; each has a test of its own in `test_cli_record*.py`."""


@dataclass(frozen=True)
class Case:
    """A call of `record` behind others, and what its last act of that kind says."""

    kind: str
    call: tuple[str, ...]
    says: dict[str, Any]
    before: tuple[tuple[str, ...], ...] = ()


def also(**keys: str) -> tuple[str, ...]:
    return tuple(word for key, value in keys.items() for word in ("--also", f"{key.rstrip('_')}={value}"))


FIRST = (DONOR, "--reading", "holes=1012")
CASES = (
    Case("given", ("--given", "hook-height=16 in"), {"given": "hook-height", "value": 406.4, "unit": "mm",
                                                     "typed": "16 in"}),
    Case("given", ("--given", "hook-height=?"), {"given": "hook-height", "unknown": True}),
    Case("given", ("--given", "owner-there=no"), {"given": "owner-there", "value": False, "typed": "no"}),
    Case("given", ("--given", "wanted-on=2031-05-01"), {"given": "wanted-on", "value": "2031-05-01",
                                                        "typed": "2031-05-01"}),
    Case("reading", (*FIRST, *also(with_="folding rule", doubt="1/16 in", mistyped="yes")),
         {"reading": "holes", "value": 1012.0, "unit": "mm", "typed": "1012", "with": "folding rule",
          "doubt": 1.5875, "mistyped": True}, (FIRST,)),
    Case("reading", (LEFT, "--reading", "thick=8", "--reading", "thick=8.1"),
         {"reading": "thick", "value": [8.0, 8.1], "unit": "mm", "typed": ["8", "8.1"]}),
    Case("reading", (DONOR, "--reading", "holes=1012..1014"),
         {"reading": "holes", "unit": "mm", "typed": "1012..1014", "bound": "range", "low": 1012.0,
          "high": 1014.0}),
    Case("reading", (DONOR, "--reading", "holes=seized"),
         {"reading": "holes", "unit": "mm", "typed": "seized", "word": "seized"}),
    Case("tick", (LEFT, "--tick", "scribed=no"), {"tick": "scribed", "yes": False}),
    Case("note", ("--note", "Rain."), {"note": "Rain."}),
    Case("note", ("--private-note", "He owes me."), {"note": "He owes me.", "private": True}),
    Case("mark", (LEFT, "--mark", "second hole"), {"mark": "second hole"}),
    Case("met", ("tack", "--met", "cracked", *also(part="hook", text="at the toe of the old weld")),
         {"met": "cracked", "part": "hook", "text": "at the toe of the old weld"}),
    Case("part", ("--part", "bolts=3", *also(fate="gone to the other vehicle")),
         {"part": "bolts", "quantity": "3", "fate": "gone to the other vehicle"}),
    Case("buying", ("--buying", "bolts=going back", *also(from_="Harrow & Sons", due="2031-05-21", price="4.20")),
         {"part": "bolts", "buying": "going back", "from": "Harrow & Sons", "due": "2031-05-21",
          "price": "4.20"}),
    Case("place", ("--place", "bolts=jam jar"), {"place": "jam jar", "part": "bolts"}),
    Case("place", ("--place", "long bar=the door"), {"place": "the door", "tool": "long bar"}),
    Case("torque", ("nuts", "--torque", "nuts.3=2:55", *also(with_="beam torque wrench")),
         {"torque": "nuts", "member": "3", "stage": "2", "value": 55.0, "unit": "N*m", "typed": "55",
          "with": "beam torque wrench"}),
    Case("weld", ("tack", "--weld", "hook=2:95 A", *also(volts="22 V", minutes="90 s", rod="oven 2")),
         {"weld": "hook", "run": "2", "amps": 95.0, "volts": 22.0, "minutes": 1.5, "rod": "oven 2"}),
    Case("photo", ("--photo", "weld.jpg"), {}),
    Case("opens", ("--opens", "nuts-new", *also(member="left")), {"opens": "nuts-new", "member": "left"}),
    Case("opens", ("--opens", "Petrol on the floor"), {"opens": "Petrol on the floor"}),
    Case("closes", ("--closes", "ask-first"), {}),
    Case("released", (LEFT, "--release-hold"), {"released": LEFT}),
    Case("finished", (LEFT, "--finished"), {"finished": True}),
    Case("not_needed", (LEFT, "--not-needed", "--because", "it fits"), {"not_needed": True,
                                                                        "because": "it fits"}),
    Case("stands", (LEFT, "--stands", "--because", "slack takes it"), {"stands": [LEFT],
                                                                       "because": "slack takes it"},
         ((*FIRST, "--finished"), ("spacing.recipient", "--reading", "holes=965"),
          (LEFT, "--reading", "moved=23.4", "--finished"), (DONOR, "--reading", "holes=1014", "--finished"))),
    Case("settled", (DONOR, "--settle", "holes=1012", *also(whose="Wim")),
         {"settled": "holes", "value": 1012.0, "unit": "mm", "typed": "1012", "whose": "Wim"}, (FIRST,)),
    Case("undoes", ("--undo",), {}, (FIRST,)),
    Case("added_step", ("--add-step", "seat=Clean it", *also(before="tack")),
         {"step": "seat", "title": "Clean it", "before": "tack", "added_step": True}),
    Case("added_step", ("--add-step", "seat=Clean it", *also(after="tack")),
         {"step": "seat", "title": "Clean it", "after": "tack", "added_step": True}),
    Case("swapped", (LEFT, "--swap"), {"swapped": LEFT}, ((LEFT, "--reading", "moved=20"),)),
    Case("clock", ("--clock", "on"), {"clock": "on"}),
    Case("clock", ("--clock", "break"), {"clock": "break"}, (("--clock", "on"),)),
    Case("clock", ("--clock", "off"), {"clock": "off"}, (("--clock", "on"),)),
    Case("worked", ("--worked", "90 min", "--for", "Teo", "--on-day", "2031-04-01"),
         {"worked": 1.5, "for": "Teo", "on_day": "2031-04-01"}),
    Case("agreed", ("--agreed", "Ruth=new bolts", *also(how="by phone", amount="20")),
         {"agreed": "Ruth", "what": "new bolts", "how": "by phone", "amount": "20"}),
    Case("taken_over", (DONOR, "--take-over", "--reading", "holes=1012"),
         {"taken_over": True, "seen": ["ask-first"], "reading": "holes"}, (("handover",),)),
    Case("due_done", ("--due-done", "nuts"), {"due": "nuts", "due_done": True}),
    Case("job_closed", ("--close-job", *also(differently="plate first", tool_lacked="step drill", broke="bit")),
         {"job_closed": True, "differently": "plate first", "tool_lacked": "step drill", "broke": "bit"},
         (("--closes", "ask-first"),
          *((one, "--finished") for one in (DONOR, "spacing.recipient", LEFT, "plate.right", "tack", "nuts")))),
    Case("job_stopped", ("--stop-job", "--because", "sold"), {"job_stopped": True, "because": "sold"}),
)  # fmt: skip


def made(shop: Shop, case: Case) -> list[dict[str, Any]]:
    """The acts that the call of a case wrote."""
    (shop.folder / "weld.jpg").write_bytes(b"\xff\xd8\xff\xe0 a picture")
    for call in case.before:
        if call == ("handover",):
            shop.done("handover", shop.job, "--by", "Wim", "--to", "Ada")
        else:
            shop.record(*call)
    return shop.record(*case.call)


@pytest.mark.parametrize("case", CASES, ids=lambda case: " ".join(case.call)[:50])
def test_an_act_is_read_back_as_it_was_recorded(shop: Shop, case: Case) -> None:
    """By any TOML reader and by the program: the same act, of its kind, with nothing added and nothing unknown."""
    written = made(shop, case)
    acts = JobFile(shop.job).job.view.entries[-1].did
    assert acts == tuple(read_act(one) for one in written)
    assert not [act for act in acts if isinstance(act, UnknownAct)]
    last = [one for one, act in zip(written, acts, strict=True) if act.kind == case.kind][-1]
    assert case.kind == "photo" or {
        key: value for key, value in last.items() if key not in OF_OTHERS
    } == pytest.approx(case.says)


@pytest.mark.parametrize("case", CASES, ids=lambda case: " ".join(case.call)[:50])
def test_a_job_with_any_act_in_it_is_shown(shop: Shop, case: Case) -> None:
    """Both forms of `show` take it, and nothing in it is unknown to them."""
    made(shop, case)
    for form in ((), ("--json",)):
        assert "doesn't know" not in shop.done("show", shop.job, *form).out


def test_every_kind_is_among_them() -> None:
    """All but what other commands write: `handover`, a block taken in, one that `merge --without` set aside."""
    elsewhere = {"taken_in"} | {name for name, kind in KINDS.items() if not kind.options}
    assert {case.kind for case in CASES} == set(KINDS) - elsewhere
    assert elsewhere == {"handover", "taken_in", "set_aside"}


def test_every_option_and_key_is_among_them() -> None:
    """No option of `record` and no key of `--also` is left out."""
    used = [word.removeprefix("--") for case in CASES for word in case.call if word.startswith("--")]
    assert set(OPTIONS) - set(used) == {"take-in"}
    for option, keys in ((name, option.also) for name, (option, _) in OPTIONS.items()):
        calls = [case.call for case in CASES if f"--{option}" in case.call]
        typed = {
            word.partition("=")[0].removeprefix("--").replace("-", "_") for call in calls for word in call
        }
        assert typed >= set(keys), option
