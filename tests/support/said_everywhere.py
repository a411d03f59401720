"""An invented job in which every free text of its template and its entries says what somebody wants it to say.

A new field of a template or an act is a free text until it is listed here as a name or one of a few words.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import fields

from jobtrack.job.about import About
from jobtrack.job.acts.base import Act, replace
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.doing import BuyingAct, PartAct, PlaceAct, TorqueAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.template.model import CompareRow, Hazard, Template, Wait
from jobtrack.template.plan import plan
from tests.sheets.test_every_act_stands import EXAMPLES, add, begun
from tests.support.builders import Copy, given, note, read, tick

Text = Callable[[str], str]
S = TypeVar("S", bound=Struct)
NAMES = {
    "Given": {"unit", "kind"}, "Condition": {"passes_to"}, "Stage": {"after", "for_each"}, "Hazard": {"signal"},
    "Reading": {"unit", "target", "at_least", "at_most", "off_by", "from_"},
    "Wait": {"since"}, "WorkOut": {"use", "inputs"},
    "CompareRow": {"of", "by", "then"}, "Part": {"before"}, "Torque": {"bolts", "given"},
    "Step": {"stage", "for_each", "after", "does", "opens", "closes", "not_while", "not_beside", "about"},
    "DueAfterwards": {"step"}, "Exchanged": {"vehicle", "own", "gets"}, "Template": {"id", "about", "set"},
    "TorqueAct": {"torque", "stage", "unit"}, "WeldAct": {"weld", "run"}, "BuyingAct": {"buying"}, "PhotoAct": {"hash"},
    "OpensAct": {"member"}, "ClosesAct": {"closes"}, "DueDoneAct": {"due"}, "UndoesAct": {"undoes"},
    "ClockAct": {"clock"}, "WorkedAct": {"on_day"}, "TakenOverAct": {"reading", "seen"}, "MetAct": {"met"},
    "SettledAct": {"settled", "unit"}, "AddedStepAct": {"step", "after", "before"}, "StandsAct": {"stands", "on"},
    "FinishedAct": {"on"}, "ReleasedAct": {"released", "on"}, "SwappedAct": {"swapped"},
    "ReadingAct": {"reading", "unit", "bound"}, "TickAct": {"tick"}, "GivenAct": {"given", "unit"},
}  # fmt: skip
"""By class, what is no free text: names of steps, values and sets, units, signal words and others of a few words."""
OF_ACTS = {"replaces", "of"}
"""Names of acts, whatever the class."""
WORDS = re.compile(r"(typing\.)?(Annotated\[|tuple\[)?str\b")
"""What the annotation of a text begins with, or of a list of texts."""
ASKED = {"only_when"}
"""Answers to givens with `choose`: they say what those say."""


def saying(one: S, text: Text) -> S:
    """The same struct with every free text put through `text`, also those that it leaves out."""
    kept = NAMES.get(type(one).__name__, set()) | OF_ACTS | ASKED
    return replace(one, **{
        each.name: _said(getattr(one, each.name), each.name, str(type(one).__annotations__[each.name]), text)
        for each in fields(one) if each.name not in kept or isinstance(getattr(one, each.name), Struct)
    })  # fmt: skip


def _said(value: Any, name: str, annotation: str, text: Text) -> Any:
    if isinstance(value, Struct):
        return saying(value, text)
    if isinstance(value, dict):
        return {key: _said(each, key, "", text) for key, each in value.items()}
    if isinstance(value, tuple):
        return tuple(_said(each, name, "", text) for each in value or _missing(annotation))
    if isinstance(value, str) or (value is None and WORDS.match(annotation)):
        return text(value or name)
    return value


def _missing(annotation: str) -> tuple[Any, ...]:
    """What a list without anything in it gets: a text, a hazard message."""
    if "Hazard" in annotation:
        return (Hazard("DANGER", "it falls", "crushes a hand", "prop it"),)
    return ("one",) if WORDS.match(annotation) else ()


def job_saying(text: Text) -> Job:
    """The invented job of one of everything, with an act of every kind; each typed, each name, each note says it."""
    plain = begun_with_everything()
    head = plain.job.about
    template = saying(_wider(head.plan.template), text)
    copy = Copy(Job.fold(About(head.id, text(head.title), plan(template), head.hash), ()))
    for entry in plain.entries:
        draft = Draft(copy.job, text(entry.by), entry.at, entry.step, id=entry.id)
        copy.put(tuple(_act(act, template, text) for act in entry.did), draft)
    return copy.job


def _act(act: Act, template: Template, text: Text) -> Act:
    """An act that says it; one that opens what the template has, or is about a part that it has, keeps that name."""
    said = saying(act, text)
    if isinstance(act, OpensAct) and act.opens in (*template.condition, "ask-first"):
        return replace(said, opens=act.opens)
    if isinstance(act, PartAct | BuyingAct | PlaceAct) and act.part in (*template.part, None):
        return replace(said, part=act.part)
    return said


def _wider(template: Template) -> Template:
    """With what the invented template hasn't: a wait, and vehicles side by side."""
    steps = dict(template.step)
    steps["tack"] = replace(
        steps["tack"],
        tick={"looked": replace(steps["tack"].tick["looked"], wait=Wait(10, "looked"))},
        compare={"holes": CompareRow("spacing.holes")},
    )
    return replace(template, step=steps)


def begun_with_everything() -> Copy:
    """A few values, parts that nobody planned, then the example of every kind of act, one after the other."""
    copy = begun()
    copy.call(None, given("recipient.name", "Fenwold"), given("finish", "zinc"), note())
    copy.call("spacing.recipient", read("holes", "965"))
    copy.call("plate.right", read("thick", "8", "8.1", "9.5"), tick("scribed"), read("moved", "can't reach"))
    copy.call("nuts", *(add(TorqueAct("nuts", bolt)) for bolt in ("1", "own")))
    unplanned = (PartAct("split pin", "2"), BuyingAct("washer", "asked"), PlaceAct("van", tool="bar"))
    copy.call("tack", *(add(act) for act in unplanned))
    for example in EXAMPLES.values():
        copy.call(example.step, example.do, by="Orla")
    return copy
