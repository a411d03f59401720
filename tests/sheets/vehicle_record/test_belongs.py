"""What of a job stands on the record of which vehicle."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.doing import PartAct, TorqueAct, WeldAct
from jobtrack.job.acts.ending import DueDoneAct, JobStoppedAct
from jobtrack.job.acts.said import MetAct, NoteAct
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Named
from jobtrack.sheets.vehicle_record.belongs import vehicles
from jobtrack.sheets.words.sentences import CLOSED, NO_CONDITION
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.load import load
from jobtrack.template.plan import plan
from tests.sheets.vehicle_record.made import exchange, forms, in_section, plain, put, record, rows, stated
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    Copy,
    finish,
    marked,
    not_needed,
    read,
    release,
    stands,
    tick,
)


def words(job: Job, vehicle: str) -> str:
    """The record as text, its rows joined."""
    *_, text = forms(record(job, vehicle))
    return " ".join(text.split())


def test_a_step_over_the_vehicles_is_on_its_own_record() -> None:
    """And on no other; what is over nothing is the vehicle's that the template is about."""
    copy = exchange()
    copy.call(DONOR, read("spacing", "1012"))
    copy.call(RECIPIENT, read("spacing", "965"))
    copy.call("height", read("tilt", "3"))
    steps = {one: {step for step, _ in stated(record(copy.job, one))} for one in ("donor", "recipient")}
    assert steps["donor"] == {"Spacing of the bracket pins (donor)"}
    assert steps["recipient"] == {"Spacing of the bracket pins (recipient)", "Height of the step"}


def test_a_step_may_name_the_other_vehicle() -> None:
    """It goes with all that was recorded in it."""
    copy = exchange(step={"height": {"about": "donor"}})
    copy.call("height", read("tilt", "3"))
    put(copy, "height", NoteAct("Far Side's own"), MetAct("worn", "bush"), OpensAct("step hangs loose"))
    assert "Far Side's own" in words(copy.job, "donor")
    assert "step hangs loose" in words(copy.job, "donor")
    for said in ("Far Side's own", "bush", "step hangs loose", "tilt"):
        assert said not in words(copy.job, "recipient")


def test_where_the_template_names_none_the_job_as_a_whole_is_on_each() -> None:
    """An older template, with two vehicles and not a word about which."""
    job = marked().job
    assert all("Mark the new place (left)" in words(job, one) for one in ("donor", "recipient"))


def test_what_is_open_without_a_vehicle_is_on_every_record() -> None:
    """In doubt nothing open is left off."""
    copy = exchange()
    put(copy, None, OpensAct("brake line chafed"))
    assert all("brake line chafed" in words(copy.job, one) for one in ("donor", "recipient"))
    assert NO_CONDITION not in words(copy.job, "donor")


@pytest.mark.parametrize("name", ["drum-brakes", "tyres-wheels-weights"])
def test_a_template_of_one_vehicle_or_none(name: str) -> None:
    """All of it is about that one."""
    template, _ = load(shipped("job_templates") / f"{name}.toml")
    assert vehicles(plan(template)) == (("truck",) if name.startswith("tyres") else ("vehicle",))


HOLDS = "Holds, and whether a second person looked"


def worked() -> Copy:
    """Bolts, a part, a surprise, a hold that two saw and one that nobody else did, a step not needed."""
    copy = exchange(("recipient.load", "900"), ("retention", "clips"))
    copy.call(DONOR, read("spacing", "1012"), finish)
    copy.call(RECIPIENT, read("spacing", "965"), finish)
    copy.call("mark.left", read("moved", "22.8"), tick("scribed"), finish)
    copy.call("mark.left", release, by="Ada")
    copy.call("mark.right", read("moved", "22.8"), tick("scribed", False), finish)
    copy.call("mark.right", release)
    copy.call("clips", not_needed("no clips on this one"))
    put(
        copy,
        "nuts",
        TorqueAct("nuts", "1", "1", 45.0, "N*m", "45", "wrench 3"),
        TorqueAct("nuts", "2", "final"),
    )
    put(copy, "nuts", PartAct("u-bolts", "4", "fitted"), MetAct("sheared", "stud", "flush"))
    return copy


def test_bolts_parts_holds_surprises_and_deviations() -> None:
    """Each in its section, with who and when."""
    sheet = record(worked().job)
    bolts = list(rows(in_section(sheet, "Fasteners")))
    assert bolts[0][:4] == ("1", "at stage 1", "45 N·m", "wrench 3")
    assert bolts[1][:3] == ("2", "final", "no value typed")
    assert next(iter(rows(in_section(sheet, "Parts"))))[2] == "fitted 4 (Nuts on, Wim, 1 Apr 2031 08:09)"
    held = {row[0].partition(":")[0]: row[2] for row in rows(in_section(sheet, HOLDS))}
    assert held["Mark the new place (left)"] == "seen by a second person"
    assert held["Mark the new place (right)"] == "not seen by a second person"
    text = words(worked().job, "recipient")
    for said in (
        "not needed: no clips on this one (Wim",
        "Sheared, stud, flush: Nuts on",
    ):
        assert said in text
    assert "Scribed line past the old and the new place? no" in text


def test_what_was_looked_at_again_says_why_it_stands() -> None:
    """The target moved; the hold stays as released before a change."""
    copy = worked()
    copy.call(RECIPIENT, read("spacing", "960"))
    copy.call("mark.left", stands("same pads"))
    assert "looked at again, and it stands: same pads (Wim" in words(copy.job, "recipient")
    held = [row[1] for row in rows(in_section(record(copy.job), HOLDS))]
    assert held[0] == "Ada, 1 Apr 2031 08:04 (before a change: released anew by nobody)"


def test_whose_a_limit_or_a_figure_is_says_the_year() -> None:
    """A record is kept for years: when somebody typed what a limit or a torque stands on."""
    nuts = {"torque": {"nuts": {"given": "nut-figure"}}}
    figure = {"nut-figure": {"ask": "Nut torque", "unit": "N*m"}}
    copy = exchange(("step-height", "410"), ("nut-figure", "90"), given=figure, step={"nuts": nuts})
    copy.call("height", read("height", "407"))
    put(copy, "nuts", TorqueAct("nuts", "1", "final"))
    text = words(copy.job, "recipient")
    assert "limit typed by Wim from “Height of the step above the ground”, 1 Apr 2031 08:00" in text.replace(
        " | ", " "
    )
    assert "90 N·m = 66 lbf ft (typed by Wim, 1 Apr 2031 08:00, from “Nut torque”)" in text


def test_a_weld_says_what_was_not_examined() -> None:
    """Process, rods, runs with current and time; and the sentence."""
    weld = {"process": "stick", "rod": "3.2 mm", "runs": 2}
    copy = exchange(step={"height": {"weld": {"seam": weld}}})
    put(copy, "height", WeldAct("seam", "1", 95.0, 22.0, 3.0, "E7018"))
    text = words(copy.job, "recipient")
    assert "The inside of the weld was not examined." in text
    assert "Where a weld was looked at, it was looked at from outside against the list" in text
    assert "To be made: stick; 3.2 mm; 2 runs" in text
    assert [row[:2] for row in rows(in_section(record(copy.job), "Welds"))] == [
        ("1", "95 A, 22 V, 3 min, rod E7018"),
        ("2", "not recorded"),
    ]


def test_how_it_ended_is_said_with_its_sentence() -> None:
    """Not ended, stopped with its reason, closed; and what is due."""
    copy = exchange()
    assert "Not ended yet: 10 steps of 10 neither" in words(copy.job, "recipient")
    put(copy, None, DueDoneAct("nuts"))
    due = list(rows(in_section(record(copy.job), "Due afterwards")))
    assert due == [("Nuts again", "80 km", "Wim, 1 Apr 2031 08:01")]
    put(copy, None, JobStoppedAct("sold as it stands"))
    assert "Stopped, not finished, by Wim, 1 Apr 2031 08:02: sold as it stands." in words(
        copy.job, "recipient"
    )
    closed = JobFile(shipped("sample_jobs") / "axle-exchange-finished.job.toml").job
    [named] = in_section(record(closed), "In short").blocks
    assert isinstance(named, Named)
    assert CLOSED in plain(dict(named.rows)["How it ended"])
