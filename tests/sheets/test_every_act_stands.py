"""Every kind of act, recorded once in an invented job, stands in `show`, in `show --json` and on the handover."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import pytest
import tomli

from jobtrack.job.about import About
from jobtrack.job.acts.base import Act
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.doing import BuyingAct, PartAct, PhotoAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct, JobStoppedAct
from jobtrack.job.acts.mending import SetAsideAct, TakenInAct, UndoesAct
from jobtrack.job.acts.people import AgreedAct, ClockAct, HandoverAct, TakenOverAct, WorkedAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.acts.said import MarkAct, MetAct, NoteAct
from jobtrack.job.acts.steps import (
    AddedStepAct,
    FinishedAct,
    NotNeededAct,
    ReleasedAct,
    SettledAct,
    StandsAct,
    SwappedAct,
)
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.compose import conditions, ending, mending, people, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.markdown import md
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from tests.support.builders import Copy, Do, close, finish, given, note, read, release, tick
from tests.support.cli_calls import TEMPLATE
from tests.support.handed import handed, section, unescaped

WHO = "Orla Quince"
"""Somebody who records the one act, and nothing else."""


def add(act: Act) -> Do:
    return lambda draft: draft.add(act)


@dataclass(frozen=True)
class Example:
    """One act of a kind, in which step, and the words by which it is found on each of the three."""

    do: Do
    show: str
    step: str | None = None
    handover: str | None = None
    """None: the same words as in `show`."""
    data: str | None = None


EXAMPLES: dict[type[Act], Example] = {
    GivenAct: Example(given("hook-height", "447.25"), "447.25 mm", data="447.25"),
    ReadingAct: Example(read("holes", "1013.5"), "1013.5 mm", "spacing.donor", data="1013.5"),
    TickAct: Example(
        tick("looked", False), "no crack? no", "tack", data='"looked": false'
    ),
    NoteAct: Example(note("tube thin by the weld"), "note: tube thin by the weld", "tack",
                     f"Note: tube thin by the weld ({WHO}", "tube thin by the weld"),
    MarkAct: Example(add(MarkAct("third corner done")), f"at third corner done ({WHO}", "tack",
                     f"Stopped at: third corner done ({WHO}", "third corner done"),
    MetAct: Example(add(MetAct("sheared", "eye bolt", "flush")), "met: sheared, eye bolt, flush", "tack",
                    data='"part": "eye bolt", "text": "flush"'),
    PartAct: Example(add(PartAct("bolts", "3", "scrapped")), "part bolts: 3, scrapped", "tack",
                     data='"part": "bolts", "quantity": "3", "fate": "scrapped"'),
    BuyingAct: Example(
        add(BuyingAct("bolts", "ordered", "Harrow", "2031-04-09", "12")),
        "buying bolts: ordered, from Harrow, due 2031-04-09, price 12",
        handover="ordered, from Harrow, due 2031-04-09, price 12",
        data='"buying": "ordered", "from": "Harrow", "due": "2031-04-09", "price": "12"',
    ),
    PlaceAct: Example(add(PlaceAct("jam jar", part="bolts")), "bolts: at jam jar", "tack", f"jam jar ({WHO}",
                      data='"place": "jam jar", "part": "bolts"'),
    TorqueAct: Example(
        add(TorqueAct("nuts", "3", "2", 33.0, "N*m", "33", "beam wrench")),
        f"torque nuts: bolt 3, stage 2, 33 N·m with beam wrench ({WHO}", "nuts",
        "33 N·m with beam wrench",
        '"nuts": {"3": {"stage": "2", "value": 33.0, "unit": "N*m", "typed": "33", "with": "beam wrench"',
    ),
    WeldAct: Example(
        add(WeldAct("hook", "2", 95.0, 24.0, 3.5, "2.5 mm")),
        "weld hook: run 2, 95 A, 24 V, 3.5 min, rod 2.5 mm", "tack",
        data='"weld": "hook", "run": "2", "amps": 95.0, "volts": 24.0, "minutes": 3.5, "rod": "2.5 mm"',
    ),
    PhotoAct: Example(add(PhotoAct("hook-7.jpg", "00ff")), "photo hook-7.jpg", "tack",
                      data='"photo": "hook-7.jpg"'),
    OpensAct: Example(lambda draft: conditions.opens(draft, "Smell by the tank"), "Smell by the tank"),
    ClosesAct: Example(close("ask-first"), f"closed: ask-first ({WHO}",
                       data='"words": "closed: ask-first"'),
    ReleasedAct: Example(release, f"Released by {WHO} (as typed)", "plate.left", data='"state": "released"'),
    FinishedAct: Example(finish, f"finished ({WHO}", "spacing.donor", data='"kind": "finished"'),
    NotNeededAct: Example(lambda draft: steps.not_needed(draft, "the old one fits"),
                          "marked not needed: the old one fits", "nuts"),
    StandsAct: Example(add(StandsAct(("nuts",), "seen with the lamp")),
                       "looked at again, nuts stands: seen with the lamp", "nuts"),
    SettledAct: Example(add(SettledAct("holes", 1014.5, "mm", "1014.5")), "1014.5 mm (settled)",
                        "spacing.donor", data='"value": 1014.5'),
    AddedStepAct: Example(lambda draft: steps.add_step(draft, "burr", "File the burr off", None),
                          "step burr added: File the burr off"),
    SwappedAct: Example(steps.swap, f"the two sides swapped ({WHO}", "plate.left",
                        data='"kind": "swapped"'),
    ClockAct: Example(lambda draft: people.clock(draft, "on"), f"The clock of {WHO} runs",
                      data=f'"running": ["{WHO}"]'),
    WorkedAct: Example(add(WorkedAct(2.5, "Ada", "2031-04-01")), "2.5 h worked, by Ada, 2031-04-01"),
    AgreedAct: Example(
        add(AgreedAct("Ivo Hask", "the hook moves", "by letter", "260")),
        "agreed, Ivo Hask: the hook moves, by letter, 260",
        data='"agreed": "Ivo Hask", "what": "the hook moves", "how": "by letter", "amount": "260"',
    ),
    HandoverAct: Example(lambda draft: people.hand_over(draft, "Ada"), f"handed over to Ada ({WHO}",
                         data="handed over to Ada"),
    TakenOverAct: Example(add(TakenOverAct(reading="holes")), "taken over, holes taken again"),
    DueDoneAct: Example(lambda draft: ending.due_done(draft, "nuts"), "due afterwards, done: nuts"),
    JobClosedAct: Example(add(JobClosedAct(differently="measure twice")),
                          "would do differently: measure twice"),
    JobStoppedAct: Example(lambda draft: ending.stop_job(draft, "sold for scrap"), "job stopped: sold for scrap"),
    TakenInAct: Example(add(TakenInAct(of=("00ff",))), "an altered entry taken in"),
    SetAsideAct: Example(add(SetAsideAct(of=("00ff",))), "a damaged entry set aside"),
}  # fmt: skip
"""An act of each kind. What an undoing does is that the act it undoes stands nowhere; that is tried on them all."""


@cache
def about() -> About:
    data = write_header({"id": "job-9", "title": "Hook"}, tomli.loads(TEMPLATE.read_text(encoding="utf-8")))
    header = scan(data).header
    assert header is not None
    return about_from(tomli.loads(data.decode()), header.hash)


def begun() -> Copy:
    copy = Copy(Job.fold(about(), ()))
    copy.begin()
    return copy


VIEWS: dict[str, Callable[[Job], str]] = {
    "show": job_text,
    "json": lambda job: json.dumps(job_json(job), ensure_ascii=False),
    "handover": lambda job: handed(job, "Wim", "Bo"),
}


def found(example: Example, job: Job) -> set[str]:
    """On which of the three the act is found."""
    words = {
        "show": example.show,
        "json": example.data or example.show,
        "handover": md(example.handover or example.show),
    }
    return {name for name, view in VIEWS.items() if words[name] in view(job)}


@pytest.mark.parametrize("kind", [*KINDS.values()], ids=lambda kind: kind.kind)
def test_each_kind_of_act_stands_on_all_three(kind: type[Act]) -> None:
    """Before it is recorded it is on none of them, then on all, and once undone on none again.

    A condition once opened stays open though its entry is undone, a closing opens nothing anew when undone
    but is gone as a row, and nobody undoes another's: those keep to what the record says of them.
    """
    if kind is UndoesAct:
        assert kind not in EXAMPLES
        return
    example, copy = EXAMPLES[kind], begun()
    assert found(example, copy.job) == set()
    copy.call(example.step, example.do, by=WHO)
    assert isinstance(copy.entries[-1].did[-1], kind)
    assert found(example, copy.job) == set(VIEWS)
    copy.call(None, mending.undo, by=WHO)
    assert found(example, copy.job) == (set(VIEWS) if kind is OpensAct else set())


def test_a_private_note_stays_in_the_shop() -> None:
    """`show` and the JSON of the shop itself have it, marked private; the handover hasn't."""
    copy = begun()
    copy.call("tack", add(NoteAct("He never sweeps", private=True)))
    copy.call(None, add(NoteAct("Owes for the rods", private=True)))
    text, state = job_text(copy.job), job_json(copy.job)
    assert "private note: He never sweeps (Wim" in text
    assert "private note: Owes for the rods (Wim" in text
    [mine] = [one["notes"] for one in state["steps"] if one["notes"]]
    assert [(one["note"], one["private"]) for one in (*mine, *state["notes"])] == [
        ("He never sweeps", True), ("Owes for the rods", True)]  # fmt: skip
    sheet = handed(copy.job, "Wim", "Bo")
    assert "sweeps" not in sheet
    assert "Owes" not in sheet


def replace_place(where: str) -> Do:
    def do(draft: Draft) -> None:
        draft.add(PlaceAct(where, part="bolts", replaces=draft.earlier(PlaceAct, part="bolts")))

    return do


@pytest.mark.parametrize("step", ["tack", None])
def test_what_was_replaced_stands_no_more(step: str | None) -> None:
    """Of a part's places the last counts, wherever the earlier one was recorded."""
    copy = begun()
    copy.call("nuts", replace_place("jam jar"))
    copy.call(step, replace_place("shelf nine"))
    for view in VIEWS.values():
        assert "jam jar" not in view(copy.job)
        assert "shelf nine" in view(copy.job)


def test_each_bolt_stands_at_its_last_stage() -> None:
    """Bolt by bolt on the handover, those without a record too; the JSON has the stages under both keys."""
    copy = begun()
    copy.call(
        "nuts", add(TorqueAct("nuts", "1", "snug")), add(TorqueAct("nuts", "2", "1", 40.0, "N*m", "40"))
    )
    copy.call("nuts", add(TorqueAct("nuts", "1", "final", 55.0, "N*m", "55")), by="Ada")
    rows = section(unescaped(handed(copy.job)), "Fasteners, bolt by bolt")
    drawn = rows.index("The order in which they are turned")
    assert [re.sub(", 1 Apr 08:0\\d", "", row) for row in (*rows[:drawn], rows[-1])] == [
        "### Nuts on, nuts",
        "Ask the maker; 4 bolts; stages 50 %, 100 %.",
        "| Bolt | How far | Figure | By, when |",
        "| --- | --- | --- | --- |",
        "| 1 | final | 55 N·m | Ada |",
        "| 2 | stage 1 of 2 | 40 N·m | Wim |",
        "- Nothing recorded: bolts 3 and 4",
    ]
    [nuts] = [one for one in job_json(copy.job)["steps"] if one["id"] == "nuts"]
    assert nuts["torques"] == {"nuts": {"2": "1", "1": "final"}}
    assert {bolt: one["stage"] for bolt, one in nuts["torque_stages"]["nuts"].items()} == {
        "2": "1",
        "1": "final",
    }
    assert "snug" not in job_text(copy.job)
