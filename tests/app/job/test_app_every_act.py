"""Every kind of act is recorded through the app by its keys, and read back from the file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from textual.pilot import Pilot

from jobtrack.app.main import JobApp
from jobtrack.app.screens.step.step import StepScreen
from jobtrack.job.acts.registry import KINDS, OPTIONS
from jobtrack.job.compose import steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.store.file.beginning import first_acts
from jobtrack.store.file.writer import JobFile, create
from jobtrack.store.text.blocks import digest
from tests.support.else_rows import choose_row
from tests.support.invented_jobs import NOW, fill
from tests.support.job_fixtures import copied
from tests.support.pictures import jpeg

Fill = Callable[[Draft], object]


class Text(NamedTuple):
    """Put into the field that is open, and Enter; `{folder}` is where the jobs are."""

    typed: str


class Row(NamedTuple):
    """Chosen on the page of everything else."""

    action: str


class Flow(NamedTuple):
    """The keys that record an act in a job, and what of it then stands in the file."""

    keys: tuple[str | Text | Row, ...]
    stands: dict[str, Any]
    step: str | None = None
    job: str = "half-done"
    before: tuple[tuple[str | None, str, Fill], ...] = ()
    """What others have recorded before: in which step, who, what; none of them having seen the others' entries."""


BY_COMMAND = {
    "taken_in": "an altered entry's acts are typed again by whoever has looked at the file: record --take-in HASH",
    "set_aside": "a merge over damage is decided where the copies are, on the command line: merge --without HASH",
}
"""Kinds that the app doesn't record, with the reason."""

FLOWS: dict[str, Flow] = {
    "given": Flow((Row("known"), *"760", "enter"), {"given": "donor.tyre-load", "value": 760.0, "typed": "760"}),
    "reading": Flow((*"0.3", "enter"), {"reading": "wall-loss", "value": 0.3, "typed": "0.3"}, "cut.right"),
    "tick": Flow(("down", "y"), {"tick": "no-notch", "yes": True}, "cut.right"),
    "note": Flow(("t", Text("wire wheel is on the shelf")), {"note": "wire wheel is on the shelf"}),
    "mark": Flow(("m", Text("front edge punched")), {"mark": "front edge punched"}),
    "met": Flow(("s", "e", Text("drain plug"), "n"), {"met": "seized", "part": "drain plug"}),
    "torque": Flow((*["down"] * 4, "y"), {"torque": "ubolts", "member": "1", "stage": "1"}, "u-bolts"),
    "weld": Flow(
        (*["down"] * 4, *"95", "enter", Text("3.2 mm")), {"run": "1", "amps": 95.0, "rod": "3.2 mm"}, "weld.right"
    ),
    "photo": Flow(("i", Text("{folder}/crack.jpg"), "enter"), {"hash": digest(jpeg("crack"))}),
    "part": Flow(("p", "f", Text("1")), {"quantity": "1", "fate": "fitted"}),
    "buying": Flow(("p", "n"), {"buying": "asked"}),
    "place": Flow(("p", "l", Text("blue tray")), {"place": "blue tray"}),
    "opens": Flow(("a", Text("stand under the left rail leans")), {"opens": "stand under the left rail leans"}),
    "closes": Flow(("c", "down", "enter", Text("Mara Quill"), "c"), {}),
    "settled": Flow(
        (Row("settle"), "down", "enter"), {"settled": "backlash", "whose": "Mara Quill"}, "donor-axle", "surveyed",
        (("donor-axle", "Hob Tansley", lambda made: values.reading(made, "backlash", ["0.15"])),
         ("donor-axle", "Mara Quill", lambda made: values.reading(made, "backlash", ["0.21"]))),
    ),
    "added_step": Flow(
        (Row("seldom('before')"), Text("Free the plug")),
        {"step": "free-the-plug", "title": "Free the plug", "before": "tack.right"}, "tack.right",
    ),
    "not_needed": Flow((Row("not_needed"), Text("done last year")), {"because": "done last year"}, "offer-up"),
    "stands": Flow(
        (Row("look_again"), "y", "enter", Text("same pads")),
        {"stands": ("pin-spacing.donor",), "because": "same pads"},
        before=(("pin-spacing.donor", "Mara Quill", lambda made: values.reading(made, "spacing", ["1018"])),),
    ),
    "finished": Flow(("f", "enter"), {"finished": True}, "tack.right"),
    "released": Flow(("r", Text("Mara Quill"), "r"), {"released": "mark.right"}, "mark.right"),
    "swapped": Flow(("l", "enter"), {"swapped": "mark.right"}, "mark.right"),
    "clock": Flow(("k", "o"), {"clock": "off"}),
    "worked": Flow(
        (Row("seldom('hours')"), Text("2.5"), Text("Mara Quill"), Text("1")),
        {"worked": 2.5, "for": "Mara Quill", "on_day": "2031-05-13"},
    ),
    "agreed": Flow(
        (Row("seldom('agreed')"), Text("Ilse Morn"), Text("weld the bracket"), Text("by telephone"), Text("80")),
        {"agreed": "Ilse Morn", "what": "weld the bracket", "how": "by telephone", "amount": "80"},
    ),
    "handover": Flow(
        ("h", "h", Text("Ada Prosser"), Text("two stands"), *["enter"] * 4, "h"),
        {"to": "Ada Prosser", "holds_up": "two stands"},
    ),
    "taken_over": Flow(
        ("y", "end", "i", Text("Ada Prosser"), "i"), {"seen": ("marks-unread.right",)}, job="handed-over"
    ),
    "due_done": Flow((Row("seldom('due')"), "enter"), {"due": "wheel-nuts"}),
    "job_closed": Flow(
        ("o", "e", "c", Text("drill from inside"), Text(""), Text(""), Text(""), "c"),
        {"differently": "drill from inside"}, job="nearly done",
    ),
    "job_stopped": Flow(("o", "e", "s", Text("sold"), Text(""), "s"), {"because": "sold"}),
    "undoes": Flow(("t", Text("slip"), "u"), {}),
}  # fmt: skip


def nearly_done(folder: Path) -> JobFile:
    """A job of one step, which is finished."""
    step = {"only": {"stage": "fit", "title": "Bolt it on"}}
    data = {"format": 1, "id": "hook", "title": "Hook", "stage": {"fit": {"title": "Fit"}}, "step": step}
    file = create(folder / "nearly.job.toml", "hook", "Hook for the hay trailer", data)
    draft = first_acts(file.job, [], "Hob Tansley", NOW)
    file.append(draft.done(), draft.by, draft.at, id=draft.id)
    record(file, "only", "Hob Tansley", steps.finished)
    return file


def record(file: JobFile, step: str | None, by: str, act: Fill, seen: Draft | None = None) -> None:
    """One entry of somebody."""
    made = Draft(seen.job if seen else file.job, by, NOW, step)
    act(made)
    file.append(made.done(), made.by, made.at, id=made.id, step=step)


def opened(flow: Flow, folder: Path) -> JobApp:
    """The app on the job of a flow, with what others have recorded in it."""
    file = nearly_done(folder) if flow.job == "nearly done" else copied(flow.job, folder)
    as_it_was = Draft(file.job, "Hob Tansley", NOW)
    for step, by, act in flow.before:
        record(file, step, by, act, as_it_was)
    (folder / "crack.jpg").write_bytes(jpeg("crack"))
    return JobApp(folder, "Hob Tansley", file)


async def press(pilot: Pilot[int], keys: tuple[str | Text | Row, ...], folder: Path) -> None:
    for one in keys:
        if isinstance(one, Row):
            await choose_row(pilot, one.action)
        elif isinstance(one, Text):
            await fill(pilot, one.typed.format(folder=folder))
        else:
            await pilot.press(one)
            await pilot.pause()


def acts(path: Path, kind: str) -> list[dict[str, Any]]:
    """Every act of a kind, as it stands in the file."""
    entries = JobFile(path).job.view.entries
    return [act.as_dict() for entry in entries for act in entry.did if act.kind == kind]


def test_each_kind_has_its_flow_or_its_reason() -> None:
    """A new kind of act needs keys in the app; what has none is recorded by a command that is there."""
    assert {*FLOWS, *BY_COMMAND} == set(KINDS)
    assert not {*FLOWS} & {*BY_COMMAND}
    assert KINDS["taken_in"] in [act for _, act in OPTIONS.values()]


@pytest.mark.parametrize("kind", sorted({*KINDS} - {*BY_COMMAND}))
async def test_every_act_is_recorded_by_keys(kind: str, folder: Path) -> None:
    """One act of the kind more stands in the file, with what was typed."""
    flow = FLOWS[kind]
    app = opened(flow, folder)
    assert app.file is not None
    path, before = app.file.path, len(acts(app.file.path, kind))
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        if flow.step is not None:
            assert isinstance(app.screen, StepScreen)
            app.screen.go(flow.step)
            await pilot.pause()
        await press(pilot, flow.keys, folder)
    found = acts(path, kind)
    assert len(found) == before + 1
    assert {key: found[-1].get(key) for key in flow.stands} == flow.stands
