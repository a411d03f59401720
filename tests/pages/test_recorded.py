"""Whatever can be recorded is seen: on the page of its step, or on the page of the job."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import pytest

from jobtrack.job.acts.base import OF_JOB, Act
from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.acts.doing import BuyingAct, PartAct, PhotoAct, PlaceAct, TorqueAct, WeldAct
from jobtrack.job.acts.ending import DueDoneAct, JobClosedAct, JobStoppedAct
from jobtrack.job.acts.mending import SetAsideAct, TakenInAct
from jobtrack.job.acts.people import AgreedAct, HandoverAct, TakenOverAct, WorkedAct
from jobtrack.job.acts.registry import KINDS
from jobtrack.job.acts.said import MarkAct, MetAct, NoteAct
from jobtrack.job.acts.steps import AddedStepAct, NotNeededAct, SettledAct, StandsAct, SwappedAct
from jobtrack.job.compose import mending, people, steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.pages.job.last_line import last_line
from jobtrack.pages.job.outline import step_line
from jobtrack.pages.job.page import job_page
from jobtrack.pages.step.page import step_page
from jobtrack.store.file.writer import JobFile

Make = Callable[[str], JobFile]
STEP = "tack.right"
U_BOLTS = "U-bolts with deep nuts, leg measured over the stack"


Fill = Callable[[Draft], object]


class Seen(NamedTuple):
    """An act, and what of it is read where."""

    act: Act | Fill
    text: str
    of_step: bool = True


ON_A_PAGE = {
    "note": Seen(NoteAct(f"{'The vice jaw is worn. ' * 9}Shim it."), f"note: {'The vice jaw is worn. ' * 9}Shim it."),
    "mark": Seen(MarkAct("second side scribed"), "I am at: second side scribed"),
    "met": Seen(MetAct("seized", "drain plug", "heat didn't help"), "met: seized, drain plug, heat didn't help"),
    "torque": Seen(TorqueAct("u-bolts", "3", "2", 33.0, "N m", "33 N m", "beam torque wrench"),
                   "torque u-bolts: bolt 3, stage 2, 33 N m with beam torque wrench"),
    "weld": Seen(WeldAct("perch", "2", 95.0, 22.0, 1.5, "2.5 mm"),
                 "weld perch: run 2, 95 A, 22 V, 1.5 min, rod 2.5 mm"),
    "part": Seen(PartAct("u-bolts", "4", "scrapped"), f"part {U_BOLTS}: 4, scrapped"),
    "photo": Seen(PhotoAct("tack.jpg", "ab12"), "photo tack.jpg"),
    "swapped": Seen(SwappedAct("readings"), "the two sides swapped"),
    "stands": Seen(StandsAct(("aaaa/0",), "measured from the same face"), "stands: measured from the same face"),
    "settled": Seen(SettledAct("gap", 1.0, "mm", "1.0 mm", "Hob Tansley"), "settled gap: 1.0 mm, by Hob Tansley"),
    "not_needed": Seen(NotNeededAct(because="the old perch is kept"), "marked not needed: the old perch is kept"),
    "closes": Seen(ClosesAct(("aaaa/0",)), "a condition closed"),
    "buying": Seen(BuyingAct("u-bolts", "ordered", "the yard", "2031-05-20", "60"),
                   f"buying {U_BOLTS}: ordered, from the yard, due 2031-05-20, price 60", of_step=False),
    "place": Seen(PlaceAct("tin under the bench", tool="scriber"), "scriber: at tin under the bench", of_step=False),
    "agreed": Seen(AgreedAct("Ruth Dole", "paint afterwards", "by phone", "40"),
                   "agreed, Ruth Dole: paint afterwards, by phone, 40", of_step=False),
    "worked": Seen(WorkedAct(2.5, "Mara Quill", "2031-05-12"),
                   "2.5 h worked, by Mara Quill, 2031-05-12", of_step=False),
    "handover": Seen(HandoverAct("Ada Prosser"), "handed over to Ada Prosser", of_step=False),
    "taken_over": Seen(TakenOverAct(reading="gap"), "taken over, gap taken again", of_step=False),
    "added_step": Seen(AddedStepAct("shim", "Shim the pad"), "step shim added: Shim the pad", of_step=False),
    "due_done": Seen(DueDoneAct("retorque"), "due afterwards, done: retorque", of_step=False),
    "job_closed": Seen(JobClosedAct(broke="a tap"), "job closed; what broke: a tap", of_step=False),
    "job_stopped": Seen(JobStoppedAct("sold as it is"), "job stopped: sold as it is", of_step=False),
    "taken_in": Seen(TakenInAct(of=("ab",)), "an altered entry taken in", of_step=False),
    "set_aside": Seen(SetAsideAct(of=("ab",)), "a damaged entry set aside", of_step=False),
    "given": Seen(lambda draft: values.given(draft, "donor.name", "Blue flat-bed"),
                  "(donor): Blue flat-bed", of_step=False),
    "opens": Seen(OpensAct("The trestle foot is cracked"), "Open: The trestle foot is cracked", of_step=False),
}  # fmt: skip
"""By kind: an act, and what is read of it on the page of its step, or on that of the job."""

ELSEWHERE: dict[str, tuple[Fill, str | None, Callable[[Job], str], str]] = {
    "reading": (lambda draft: values.reading(draft, "gap", ["1.2"]), STEP, lambda job: on_step(job), "1.2 mm"),
    "tick": (lambda draft: values.tick(draft, "clamped", True), STEP, lambda job: on_step(job), "- yes"),
    "finished": (steps.finished, STEP, lambda job: step_line(job, STEP), "- finished"),
    "released": (steps.release_hold, "mark.right", lambda job: on_step(job, "mark.right"),
                 "Released by Hob Tansley (as typed)"),
    "clock": (lambda draft: people.clock(draft, "off"), None,
              lambda job: last_line(job, job.steps[STEP]), "No clock runs."),
    "undoes": (mending.undo, "mark.right", lambda job: notes_of_marking(job), "0 notes"),
}  # fmt: skip
"""What by its nature stands in a place of its own: the act, its step, where it is read, and what is read there."""


def words(lines: list[str]) -> str:
    return " ".join(" ".join(lines).split())


def on_step(job: Job, step: str = STEP) -> str:
    return words([line.plain for line in step_page(job, job.steps[step], 118, None, whole=True)])


def on_job(job: Job) -> str:
    return words([line.plain for line in job_page(job, 118)])


def notes_of_marking(job: Job) -> str:
    """How many notes stand on the page of the step in which the last entry wrote one."""
    return f"{on_step(job, 'mark.right').count('note: ')} notes"


def recorded(file: JobFile, act: Act | Fill, step: str | None) -> Job:
    """The job with one more entry: this act, or what a call puts into it."""
    draft = Draft(file.job, "Hob Tansley", list(file.job.view.entries)[-1].at, step)
    did = (act,) if isinstance(act, Act) else ()
    if not isinstance(act, Act):
        act(draft)
    file.append(did or draft.done(), draft.by, draft.at, id=draft.id, step=step)
    return file.job


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_act_is_seen(kind: str, make: Make) -> None:
    """Whatever kind of act there is, what was recorded is read where somebody looks for it; a new kind too."""
    file = make("half-done")
    if kind in ON_A_PAGE:
        act, text, of_step = ON_A_PAGE[kind]
        read = on_step if of_step else on_job
        assert text not in read(file.job)
        assert text in read(recorded(file, act, STEP if of_step else None))
    else:
        fill, step, where, said = ELSEWHERE[kind]
        assert said not in where(file.job)
        assert said in where(recorded(file, fill, step))


@pytest.mark.parametrize(
    "kind", [name for name, act in KINDS.items() if (act.on_page or act.under) == OF_JOB]
)
def test_what_concerns_the_job_is_on_its_page_wherever_it_was_recorded(kind: str, make: Make) -> None:
    """What was bought, put away or agreed while in a step stands on the step's page and on the job's."""
    act, text, _ = ON_A_PAGE[kind]
    job = recorded(make("half-done"), act, STEP)
    assert text in on_step(job)
    assert text in on_job(job)


def test_each_line_says_who_and_when(make: Make) -> None:
    """What is recorded in a step stands with whose it is and the time."""
    job = recorded(make("half-done"), PartAct("u-bolts", "4", "scrapped"), STEP)
    assert "Recorded here: - Hob Tansley, 12 May 2031, " in on_step(job)


def test_hours_are_on_the_page_of_the_job(make: Make) -> None:
    """Labour is summed there, by person, and whose clock runs is said."""
    assert "Labour: " in on_job(make("half-done").job)
    assert "The clock of Hob Tansley runs." in on_job(make("half-done").job)
