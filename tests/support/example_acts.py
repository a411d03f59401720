"""An example of every act, or several."""

from __future__ import annotations

from jobtrack.job.acts.base import Act, Plain
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.doing import BuyingAct, PartAct, PhotoAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct, JobStoppedAct
from jobtrack.job.acts.mending import SetAsideAct, TakenInAct, UndoesAct
from jobtrack.job.acts.people import AgreedAct, ClockAct, HandoverAct, TakenOverAct, WorkedAct
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

ON: dict[str, Plain] = {"mark.left.moved": 22.8, "mark.left.scribed": True, "retention": "clips"}
ACTS: tuple[Act, ...] = (
    GivenAct("step-height", 400.0, "mm", "400", replaces=("a/0",)),
    GivenAct("owner-there", False, replaces=()),
    GivenAct("retention", unknown=True),
    ReadingAct("moved", 22.8, "mm", "22.8", "rule", 0.6, replaces=("a/0", "b/1")),
    ReadingAct("plate", (8.0, 8.1), "mm", ("8", "8.1")),
    ReadingAct("tilt", None, "deg", "2..4", bound="range", low=2.0, high=4.0),
    ReadingAct("tilt", None, "deg", "seized", word="seized"),
    ReadingAct("moved", 22.8, "mm", "22.8", mistyped=True, replaces=("a/0",)),
    TickAct("scribed", False),
    NoteAct("[3/4] \x1b[31m", private=True),
    MarkAct("bolt 3, second stage"),
    MetAct("sheared", "rear spring eye bolt", "flush with the bracket"),
    MetAct("other"),
    PartAct("u-bolts", "4", "fitted"),
    BuyingAct("u-bolts", "ordered", "Harrow & Sons", "2031-04-09", "80", ("a/0",)),
    PlaceAct("shelf 2", part="u-bolts"),
    PlaceAct("van", tool="trammel"),
    TorqueAct("nuts", "2", "final", 90.0, "N*m", "90", "wrench 3"),
    WeldAct("bracket", "2", 95.0, 24.0, 3.5, "3.2 mm"),
    PhotoAct("a1.jpg", "00ff"),
    OpensAct("unread", "left"),
    ClosesAct(("a/0",)),
    ReleasedAct("mark.left", ON),
    FinishedAct(on=ON),
    NotNeededAct(because="fits", of=("a/0",)),
    StandsAct(("mark.left", "mark.right"), "seen", ON),
    SettledAct("moved", 23.0, "mm", "23", "Wim", ("a/0", "b/0")),
    SettledAct("scribed", False, of=("a/0",)),
    UndoesAct("aaaaaaaaaaaaaaaa"),
    AddedStepAct("seat", "Clean the seat", "nuts"),
    AddedStepAct("seat", "Clean the seat", before="nuts"),
    SwappedAct("mark.left", ("a/0",)),
    ClockAct("off", ("a/0",)),
    WorkedAct(2.5, "Ada", "2031-04-01"),
    AgreedAct("Ivo Hask", "brackets", "by telephone", "260"),
    HandoverAct("Ada"),
    TakenOverAct(seen=("unread.left",), reading="moved", of=("a/0",)),
    DueDoneAct("nuts"),
    JobClosedAct(differently="measure twice", tool_lacked="trammel", broke="a disc", of=("00ff",)),
    JobStoppedAct(because="sold", of=("00ff",)),
    TakenInAct(of=("00ff",)),
    SetAsideAct(of=("00ff",)),
)
