"""What whoever buys a vehicle reads: nothing that was not recorded, nothing private unasked, the rest findable."""

from __future__ import annotations

from jobtrack.job.acts.doing import BuyingAct, PlaceAct, TorqueAct
from jobtrack.job.acts.ending import DueDoneAct
from jobtrack.job.acts.people import AgreedAct
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose.doing import buying
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Named
from jobtrack.sheets.vehicle_record.list import on_the_record
from jobtrack.sheets.vehicle_record.sections.deviations import NOTHING_NOTED
from jobtrack.sheets.vehicle_record.sections.looked import SEEN_MEANS
from jobtrack.sheets.vehicle_record.sections.readings import FREE
from jobtrack.sheets.vehicle_record.sections.work import OF_WHOM
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from tests.sheets.vehicle_record.made import exchange, forms, in_section, plain, put, record, rows
from tests.support.builders import Copy, finish, read, release, tick


def text_of(job: Job) -> str:
    *_, text = forms(record(job))
    return " ".join(text.split())


def sample() -> Job:
    return JobFile(shipped("sample_jobs") / "axle-exchange-finished.job.toml").job


def off_the_mark() -> Copy:
    """A reading outside, with nothing noted; then a hold released by somebody else."""
    copy = exchange()
    copy.call("mark.left", read("moved", "22.8"), tick("scribed", False), finish)
    copy.call("mark.left", release, by="Ada")
    return copy


def test_a_note_is_no_decision_and_none_is_made_up() -> None:
    """What was noted beside a deviation is called a note; where nothing was, that is said."""
    copy = off_the_mark()
    assert NOTHING_NOTED in text_of(copy.job)
    put(copy, "mark.left", NoteAct("Scriber is blunt."))
    said = text_of(copy.job)
    assert "noted: Scriber is blunt." in said
    assert NOTHING_NOTED not in said


def test_what_seen_by_a_second_person_stands_for() -> None:
    """A release by another name: it stands above the holds."""
    assert SEEN_MEANS in text_of(off_the_mark().job)


def test_a_torque_off_its_figure_has_the_figure_beside_it() -> None:
    """10 typed bare is 10 N·m, also where the figure was asked in lbf ft; on the figure nothing is added."""
    nuts = {"torque": {"nuts": {"given": "nut-figure"}}}
    figure = {"nut-figure": {"ask": "Nut torque", "unit": "lbf ft"}}
    copy = exchange(("nut-figure", "10"), given=figure, step={"nuts": nuts})
    for bolt, value in (("1", 10.0), ("2", 13.558)):
        put(copy, "nuts", TorqueAct("nuts", bolt, "final", value, "N*m", f"{value:g} N m"))
    torques = {row[0]: row[2] for row in rows(in_section(record(copy.job), "Fasteners"))}
    assert torques["1"].endswith("; by the figure 13.6 N·m")
    assert "by the figure" not in torques["2"]


def test_a_check_answered_no_comes_first_and_strong() -> None:
    """Behind the step and who answered; the same check answered yes is said so."""
    [(said,)] = rows(in_section(record(off_the_mark().job), "Checks"))
    assert said.startswith("Mark the new place (left) (Wim, 1 Apr 2031 08:01). No: Scribed line past")
    copy = exchange()
    copy.call("mark.left", read("moved", "22.8"), tick("scribed"))
    [(said,)] = rows(in_section(record(copy.job), "Checks"))
    assert "08:01). Yes: Scribed line past" in said


def test_of_whom_a_part_is_stays_when_it_has_come() -> None:
    """Whoever says that it is here needn't name the seller again; where nobody did, that is said."""
    copy = exchange()
    copy.call("nuts", lambda draft: buying(draft, "clamp plate", "asked"))
    copy.call("nuts", lambda draft: buying(draft, "clamp plate", "ordered", "Quilby Springs"))
    copy.call("nuts", lambda draft: buying(draft, "clamp plate", "here"))
    put(copy, None, BuyingAct("washers", "here"), PlaceAct("grey crate", part="washers"))
    from_ = [row[1] for row in rows(in_section(record(copy.job), "Parts"))]
    assert "not in the template; here; ordered before, from Quilby Springs" in from_
    assert any(one.endswith(f"here; {OF_WHOM}") for one in from_)


def test_the_readings_with_a_limit_come_first_the_others_last_but_one() -> None:
    """And those at the brakes stand together, with a limit or without."""
    sheet = record(sample())
    titles = [one.title for one in sheet.sections]
    assert titles[-2:] == [FREE, "Every step"]
    readings = in_section(sheet, "Readings")
    assert titles.index("Whose limits, and published sources") == titles.index("Readings") + 1
    brakes, *others = readings.sections
    assert brakes.title == "At the brakes"
    assert any(row[1] == "recorded only" for row in rows(brakes) if row[1:])
    wanted = [row[1] for one in others for row in rows(one) if row[1:]]
    assert len(wanted) > 80
    assert "recorded only" not in wanted


def test_whose_a_limit_is_stands_beside_it_in_a_word() -> None:
    """The template's own, quoted from something published, typed by somebody, or worked out."""
    found = {row[-1].partition(" (")[0] for row in rows(in_section(record(sample()), "Readings")) if row[1:]}
    assert found == {"", "template", "quoted", "typed", "worked out"}


def test_in_short_says_what_is_due_and_which_other_vehicle_is_in_the_job() -> None:
    """Whence the axle came; how much is due, and how much of it is recorded as done."""
    [named] = in_section(record(sample()), "In short").blocks
    assert isinstance(named, Named)
    said = {name: plain(text) for name, text in named.rows}
    assert said["Due afterwards"] == "8 things, 2 recorded as done"
    assert said["Also in the job"].startswith("Ostrick Haywain horse-box: the vehicle that gives the axle")
    copy = exchange()
    put(copy, None, DueDoneAct("nuts"))
    assert "1 thing, 1 recorded as done" in text_of(copy.job)


def test_a_weld_that_nobody_has_looked_at_is_not_said_to_be_looked_at() -> None:
    """Half done: tacked, and the step in which it is looked at has not been come to."""
    job = JobFile(shipped("sample_jobs") / "axle-exchange-half-done.job.toml").job
    said = text_of(job)
    assert "Four tacks, measure all again (left): tacks" in said
    assert "Looked at from outside against the list." not in said
    assert "The inside of the weld was not examined." in said


def test_a_price_hours_or_a_telephone_number_that_was_typed_is_shown_before_it_is_written() -> None:
    """As typed, with where; and nothing of a note that holds no such figure."""
    copy = exchange()
    put(copy, None, AgreedAct("Ruth", "60 more for drums"), NoteAct("Nuts are right-hand."))
    put(copy, "height", NoteAct("Took 14 h more."), NoteAct("Ring her on 01632 960 001."))
    put(copy, "height", NoteAct("Ruth's secret 950", private=True))
    shown = "\n".join(on_the_record(copy.job, "recipient", []).words())
    for one in ("60 more for drums", "Took 14 h more.", "Ring her on 01632 960 001."):
        assert one in shown
    assert "right-hand" not in shown
    assert "950" not in shown
