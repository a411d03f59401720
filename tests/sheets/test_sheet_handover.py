"""The handover sheet and the job in words, on the half-done sample and on what is recorded beside it."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any

import pytest

from jobtrack.cli.main import main
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover.begin_next import NOT_BESIDE
from jobtrack.sheets.handover.open_now import STOPS_NOTHING
from jobtrack.sheets.handover.sheet import handover_sheet
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.markdown import md
from jobtrack.sheets.paper.blocks import Cut, Lines
from jobtrack.sheets.words.doing.what_now import RINGS, SIDE_BY_SIDE
from jobtrack.sheets.words.sentences import CLOSED, NEXT
from jobtrack.store.file.writer import JobFile
from jobtrack.units.chosen import METRIC_FIRST
from tests.job.doing.test_can_be_done import copy_of
from tests.job.doing.test_waits import run, seam
from tests.support.builders import Copy, about, minutes, read, surveyed, tick
from tests.support.exchange import FINISHED, HALF_DONE
from tests.support.handed import AT, handed, section, unescaped

OUTSIDE = "Readings outside, disagreements, what to look at again"
GIVER, TAKER = "Teo Banfield", "Ada Prosser"
OPEN = {
    "Marks on the tube not finished: grind nothing, cut nothing": "KEEP THE MARKS (right)",
    "Axle drained": "AXLE DRY",
    "Axle shafts out: nothing holds the wheels on": "WHEELS NOT HELD",
    "No rear axle under the vehicle": "AXLE OUT",
    "Prop shaft off: being in gear no longer holds the vehicle": "PROP SHAFT OFF",
    "No parking brake: only the chocks hold the vehicle": "NO PARKING BRAKE",
    "Brake line open, both ends plugged": "BRAKES OPEN",
    "Vehicle on stands": "ON STANDS",
    "Battery and modules disconnected": "BATTERY OFF",
}
"""What the half-done sample leaves open, what was opened last before the rest, with the tag for each."""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A copy of the half-done sample."""
    sample = HALF_DONE
    return Path(shutil.copyfile(sample, tmp_path / "half.job.toml"))


def record(path: Path, *arguments: str) -> None:
    assert main(["record", str(path), *arguments, "--by", "Teo Banfield"]) == 0


def sheet(path: Path, **more: Any) -> str:
    """The sheet as it is read."""
    return unescaped(handed(JobFile(path).job, GIVER, TAKER, **more))


def rows(path: Path, title: str) -> list[str]:
    return section(sheet(path), title)


def test_who_hands_over_what_to_whom(path: Path) -> None:
    """The first lines name the job, the giver, the taker, the time and its zone."""
    assert sheet(path).splitlines()[:3] == [
        "# Handover: Mail van: axle from the breaker's yard",
        "",
        "From Teo Banfield to Ada Prosser, 1 Jun 2031 17:00. Times are local, UTC+01:00.",
    ]


def test_the_sections_stand_in_the_order_in_which_they_are_read(path: Path) -> None:
    """What is open first, then the don'ts; last what is signed, and below the cut nothing but the slip."""
    assert re.findall("^## (.*)", sheet(path), re.M) == [
        "Recorded as open, right now",
        "Don't",
        "What holds it up",
        "Where inside",
        "Hazards of the whole job, wherever it stands",
        "Fasteners, bolt by bolt",
        "What can be begun next",
        "Readings outside, disagreements, what to look at again",
        "How and with what it was measured",
        "Parts, and where things are",
        "Who decides, what was promised, what didn't work",
        "New since the last handover",
        "What else was recorded",
        "Walk round it together",
        "Return slip",
    ]
    sheet_ = handover_sheet(JobFile(path).job, GIVER, TAKER, None, METRIC_FIRST, AT)
    *_, besides, signed, slip = sheet_.sections
    assert besides.new_page
    assert isinstance(signed.blocks[-1], Cut)
    assert {type(block) for block in slip.blocks} == {Lines}
    assert sheet_.foot == ()


def test_each_open_condition_stands_once_with_what_it_stops(path: Path) -> None:
    """Its tag with the side, what it is, who left it and since when, and the nearest steps that it stops."""
    head, _, *lines = rows(path, "Recorded as open, right now")
    assert head == "| What | Left by, since | Stops |"
    shown = [re.sub(r"\. \| Teo Banfield, 1[345] May \d\d:\d\d \| .*", "", line) for line in lines]
    assert shown == [f"| {tag}: {text}" for text, tag in OPEN.items()]
    assert lines[0].endswith("| “Cut the old perch off, grind flush (right)” and 1 more |")
    [out] = [line for line in lines if "AXLE OUT" in line]
    assert out.endswith("| “New U-bolts to the supplier's figure” and 2 more |")


def test_both_sides_of_one_wording_take_one_row() -> None:
    """Each side named, and each with its own time; what no step waits for stands behind what stops one."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23.5"), at=minutes(5))
    copy.call("mark.right", read("moved", "23.5"), at=minutes(7))
    _, _, line, *more = section(unescaped(handed(copy.job)), "Recorded as open, right now")
    assert line.startswith("| KEEP THE MARKS (left, right): ")
    assert "| Wim, 1 Apr 08:05 (left) and 1 Apr 08:07 (right) |" in line
    assert not [one for one in more if "MARKS" in one]
    back = section(unescaped(handed(copy.job)), "Walk round it together")
    assert any("“KEEP THE MARKS (left, right)” stands first" in one for one in back)


def test_where_few_are_open_more_of_what_each_stops_is_named() -> None:
    """Two steps by name, the rest by how many; a step that is begun comes before them all."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23.5"))
    _, _, line = section(unescaped(handed(copy.job)), "Recorded as open, right now")
    assert line.endswith(
        "| “Level it with the other and tack it (left)” and “Level it with the other and tack it (right)” |"
    )
    copy.call("tack.right", read("other", "1.2"))
    [marks] = [
        one for one in section(unescaped(handed(copy.job)), "Recorded as open, right now") if "MARKS" in one
    ]
    assert marks.endswith(
        "| “Level it with the other and tack it (right)” and “Level it with the other and tack it (left)” |"
    )


def test_a_condition_in_somebodys_own_words_has_no_tag(path: Path) -> None:
    """Its words stand strong in the place of a tag."""
    record(path, "--opens", "Smell of petrol by the tank")
    _, _, first, *_ = section(handed(JobFile(path).job), "Recorded as open, right now")
    assert first.startswith("| **Smell of petrol by the tank.** | Teo Banfield, ")
    assert first.endswith(f"| {STOPS_NOTHING} |")


def test_what_not_to_do_before_both_have_looked(path: Path) -> None:
    """And when the last sparks or flame were."""
    first, *others = rows(path, "Don't")
    assert re.match("- Don't press the pedal, lower it, turn the key, move a jack or grind off a mark", first)
    assert others[-1].startswith(
        "- Last sparks or flame, by the entries: “Weld it on (left)”, Teo Banfield, 15 May"
    )


def test_the_end_of_a_fire_watch_stands_among_the_donts() -> None:
    """While nobody has answered it: not before when, by the entries, or that the wait is over; and the last sparks."""
    copy = seam()
    copy.call("weld.left", run(), at=minutes(0))
    said = "by the entries (60 min after the last entry of Weld it on (left)). To answer then: Watched for an hour?"
    for after, words in ((20, "not before 1 Apr 09:00"), (60, "the wait was over 1 Apr 09:00")):
        rows = section(unescaped(handed(copy.job, at=minutes(after))), "Don't")
        assert f"- Stay and look (left): {words}, {said}" in rows
        assert not [row for row in rows if row.startswith("- Stay and look (right)")]
    copy.call("watch.left", tick("stayed"), at=minutes(61))
    rows = section(unescaped(handed(copy.job, at=minutes(62))), "Don't")
    assert not [row for row in rows if row.startswith("- Stay and look (left)")]


def test_a_sheet_that_cannot_be_whole_says_so() -> None:
    """Where an entry is gone, what it said isn't known: first among what is open, and among the don'ts."""
    whole = surveyed()
    for job, lost in ((whole.job, False), (Job.fold(about(), whole.entries[1:]), True)):
        sheet = unescaped(handed(job))
        donts = section(sheet, "Don't")
        assert any(row.startswith("- Don't take this sheet for the whole: ") for row in donts) == lost
        first = [row for row in section(sheet, "Recorded as open, right now") if "---" not in row][:2][-1]
        assert ("UNKNOWN: ENTRY MISSING: " in first) == lost


def test_a_hold_that_nobody_released_stays_among_the_donts(path: Path) -> None:
    """Also once the step itself is finished and has closed what stopped the next one; released, it goes."""
    wanted = (
        "- Don't go on past “Mark the new place (right)”: its hold isn't released: "
        "Cut release: side, direction and figure read back aloud?"
    )
    assert wanted in rows(path, "Don't")
    record(path, "mark.right", "--finished")
    assert wanted in rows(path, "Don't")
    record(path, "mark.right", "--release-hold")
    assert not [one for one in rows(path, "Don't") if "Mark the new place (right)" in one]


def test_a_reading_outside_in_a_step_in_hand_is_among_the_donts(path: Path) -> None:
    """By its name and step; and with its value, limits, and who measured it, among the readings outside."""
    record(path, "mark.right", "--reading", "moved=26")
    assert (
        "- Don't go on in “Mark the new place (right)”: New edge from the old one, inboard is outside."
        in rows(path, "Don't")
    )
    [row] = [line for line in rows(path, OUTSIDE) if "New edge" in line]
    assert re.fullmatch(
        r"\| New edge from the old one, inboard, “Mark the new place \(right\)” \| 26 mm \| 24.2 ± 1 mm \| outside "
        r"\| Teo Banfield, .* \|",
        row,
    )


def test_what_holds_it_up_is_the_givers_to_say(path: Path) -> None:
    """In their words, else with room to write; the last steps that lift or lower stand there as recorded."""
    asked = "What holds the vehicle up, and when was it shaken?"
    line, *_ = rows(path, "What holds it up")
    assert line == asked
    said = sheet(path, said={"holds_up": "two stands, shaken at four"})
    line, first, *_ = section(said, "What holds it up")
    assert line == f"{asked} Teo Banfield says: two stands, shaken at four"
    assert first.startswith("- Recorded: Take the old axle out, finished, Teo Banfield, 14 May 10:30. ")
    told = " ".join(rows(path, "What holds it up"))
    assert "Stands rated for the load, flat floor, shaken hard: nothing moved? yes." in told


def test_what_is_in_hand_says_where_inside_it(path: Path) -> None:
    """The step with its side, the last mark, what was measured with what, what isn't there yet."""
    lines = rows(path, "Where inside")
    assert lines[lines.index("### Mark the new place (right): in hand") :] == [
        "### Mark the new place (right): in hand",
        "Stopped at: right perch scribed, marks not read back yet (Teo Banfield, 15 May 16:25).",
        "| Reading | Measured, with | Wanted | Where it lies |",
        "| --- | --- | --- | --- |",
        "| New edge from the old one, inboard | 24.5 mm, steel rule | 24.2 ± 1 mm | within |",
        "- Not yet: Punch marks and scribed line reach past the old and the new place? not answered",
        "- Not yet: hold not released: Cut release: side, direction and figure read back aloud?",
    ]
    record(path, "mark.right", "--mark", "read back, front edge only")
    [where] = [line for line in rows(path, "Where inside") if line.startswith("Stopped at: ")]
    assert where.startswith("Stopped at: read back, front edge only (Teo Banfield, ")
    assert "Before that: right perch scribed, marks not read back yet (Teo Banfield, 15 May 16:25" in where


def test_whose_the_limits_are_stands_behind_the_instruments(path: Path) -> None:
    """Of what is in hand; and with what everything was measured."""
    used, *others = rows(path, "How and with what it was measured")
    assert used.startswith(
        "- Readings by instrument, as recorded or as the template asks: steel rule (8), steel tape (7)"
    )
    assert others[-1] == (
        "- Limit of New edge from the old one, inboard: limit worked out by perch-shift (plane geometry, arithmetic "
        "only: no publication gives such figures) from "
        "“Pin to pin, Spacing of the spring centre pins (donor)”, typed by Teo Banfield, 13 May 08:40, and from "
        "“Pin to pin, Spacing of the spring centre pins (recipient)”, typed by Nell Orrick, 12 May 10:40"
    )


def test_the_hazards_of_what_is_in_hand_are_told(path: Path) -> None:
    """The job's own first, then those of each step in hand, each with how to avoid it; of many the rest by name."""
    record(path, "down", "--mark", "wheels on, still on stands")
    job = JobFile(path).job
    lines = [*rows(path, "Where inside"), *rows(path, "Hazards of the whole job, wherever it stands")]
    own, step = job.plan.template.hazard, job.steps["down"].step.hazard
    assert own
    assert step
    told, more = [*own[:2], *step[:2]], step[2:]
    for one in told:
        assert (
            f"> {one.signal} {one.hazard}. What it does: {one.does}. How to avoid it: {one.avoid}." in lines
        )
    names = "; ".join(f"{one.signal} {one.hazard}" for one in more)
    assert (f"More on the step's own page: {names}." in lines) == bool(more)


def test_other_steps_say_what_is_missing_in_them(path: Path) -> None:
    """Who finished a step and when; unanswered checks, missing readings and an unreleased hold stand beside it."""
    record(path, "mark.right", "--finished")
    lines = rows(path, "What else was recorded")
    at = next(number for number, line in enumerate(lines) if line.startswith("- Mark the new place (right)"))
    assert re.match(r".*: finished \(Teo Banfield, \d", lines[at])
    for said in (
        "Wrong or missing: Punch marks and scribed line reach past the old and the new place? not answered",
        "Wrong or missing: hold not released: Cut release: side, direction and figure read back aloud?",
    ):
        assert said in lines[at]


def test_what_is_to_be_looked_at_again_is_where_inside_too(path: Path) -> None:
    """A step unsettled by a value taken again stands there with what is against it, who finished it, and why."""
    record(path, "pin-spacing.donor", "--reading", "spacing=1020", "--finished")
    lines = rows(path, "Where inside")
    at = lines.index("### Mark the new place (left): look again")
    assert any(line.startswith("- Wrong or missing: look again: ") for line in lines[at:])
    assert any(line.startswith("- finished (Teo Banfield, ") for line in lines[at:])
    [again] = [
        line for line in rows(path, OUTSIDE)
        if line.startswith("- To be looked at again")
    ]  # fmt: skip
    assert "“Mark the new place (left)”" in again


def test_fasteners_stand_at_their_last_stage(path: Path) -> None:
    """Each bolt once, how far it is tightened and to what as typed; those with nothing recorded by name."""
    assert rows(path, "Fasteners, bolt by bolt") == [
        "No fastener is recorded, and no step with one is begun. What is tight on the vehicle wasn't looked at."
    ]
    record(path, "u-bolts", "--torque", "ubolts.1=snug", "--torque", "ubolts.2=snug")
    record(path, "u-bolts", "--torque", "ubolts.1=1:21 ft lb")
    when = re.compile(r"\d+ \w+ \d\d:\d\d( UTC.*)?(?= \|)")
    lines = [when.sub("WHEN", line) for line in rows(path, "Fasteners, bolt by bolt")]
    assert lines[0] == "### New U-bolts to the supplier's figure, ubolts"
    assert lines[1].startswith("Ask the supplier")
    drawn = lines.index("The order in which they are turned")
    assert [*lines[4:drawn], lines[-1]] == [
        "| 1 | stage 1 of 3 | 21 ft lb | Teo Banfield, WHEN |",
        "| 2 | snug |  | Teo Banfield, WHEN |",
        "- Nothing recorded: bolts 3 and 4",
    ]


def test_a_line_all_at_its_last_stage_takes_one_row(path: Path) -> None:
    """Bolts alike together, whatever the order in which they were turned."""
    for bolt in "1234":
        record(
            path, "u-bolts", "--torque", f"ubolts.{bolt}=final:70 ft lb", "--at", "2031-05-16T10:00:00+01:00"
        )
    assert rows(path, "Fasteners, bolt by bolt") == [
        "### All at the last stage, as recorded",
        "- New U-bolts to the supplier's figure, ubolts: bolts 1 to 4 final, 70 ft lb (Teo Banfield, 16 May 10:00)",
    ]


def test_what_can_be_begun_next_promises_nothing(path: Path) -> None:
    """What is begun already; what is next, by one or by more, under the sentence that it is no more than the order."""
    first, begun, *_ = rows(path, "What can be begun next")
    assert first.startswith("No step is next: ")
    assert begun == "- Begun already, to go on with: Mark the new place (right)."
    record(path, "mark.right", "--tick", "own-marks=yes", "--finished")
    record(path, "mark.right", "--release-hold")
    lines = rows(path, "What can be begun next")
    assert lines[0] == NEXT
    assert "- By one person: Cut the old perch off, grind flush (right)." in lines
    assert f"- {RINGS}" in lines


def test_what_two_do_together_and_what_goes_side_by_side() -> None:
    """Not alone, side by side, and that nothing else does, under the sentence that keeps it honest."""
    steps: dict[str, dict[str, Any]] = {
        "sweep": {},
        "sort": {"helper_alone": True},
        "lift": {"people": 2, "hoist": True, "does": ["lifts"]},
        "weld": {"does": ["welds"]},
    }
    assert section(unescaped(handed(copy_of(steps).job)), "What can be begun next") == [
        NEXT,
        "- By one person: Sweep; Sort (a helper may do it alone); Weld.",
        "- Not alone, by two people or more together: Lift (2 people; hoist or trolley).",
        f"- {RINGS}",
        "- By two people side by side: “Sweep” beside “Sort” (a helper may do it alone).",
        f"- {SIDE_BY_SIDE} {NOT_BESIDE}",
    ]


def test_notes_come_without_the_private_ones(path: Path) -> None:
    """Notes with who and where; a private one is in the job's words, as one, and on no sheet that leaves."""
    record(path, "cut.right", "--private-note", "He never sweeps.", "--note", "Tube is thin here.")
    record(path, "--private-note", "Owes for the rods.", "--note", "Key under the mat.")
    lines = rows(path, "What else was recorded")
    assert any("Note: Tube is thin here. (Teo Banfield, " in line for line in lines)
    assert any(line.startswith("- note: Key under the mat. (Teo Banfield, ") for line in lines)
    for ending in (".md", ".txt", ".html"):
        for to in (TAKER, GIVER):
            assert not re.search("sweeps|Owes|private", handed(JobFile(path).job, GIVER, to, ending))
    words = job_text(JobFile(path).job)
    assert "      private note: He never sweeps. (Teo Banfield" in words
    assert "      note: Tube is thin here. (Teo Banfield" in words


def test_what_is_new_since_the_last_handover(path: Path) -> None:
    """Entry by entry while they are few, a row a step where they are many; the first handover says that it is."""
    last, *others = rows(path, "New since the last handover")
    assert last.startswith("Last handed over to Ada Prosser (Teo Banfield, 15 May 16:35)")
    assert others == ["Nothing is recorded since."]
    record(path, "mark.right", "--mark", "read back", "--private-note", "He never sweeps.")
    _, new = rows(path, "New since the last handover")
    assert new.startswith("- Mark the new place (right): at read back (Teo Banfield, ")
    for number in range(13):
        record(path, "mark.right", "--note", f"look {number}")
    _, new = rows(path, "New since the last handover")
    assert new.startswith("- Mark the new place (right), in hand: 14 entries by Teo Banfield, the last ")
    assert section(unescaped(handed(copy_without_handover())), "New since the last handover") == [
        "This is the first handover of this job."
    ]


def copy_without_handover() -> Job:
    copy = Copy()
    copy.begin()
    return copy.job


def test_the_walk_round_stands_on_every_sheet(path: Path) -> None:
    """What giver and taker do together, and what the program doesn't know, in the words of the start."""
    lines = rows(path, "Walk round it together")
    assert any("Take one reading again" in line and "24.5 mm, steel rule" in line for line in lines)
    assert any(
        "In the order of the record “KEEP THE MARKS (right)” and “AXLE DRY” stand first" in line
        for line in lines
    )
    assert "The makers' instructions, local rules and people licensed for the work decide" in sheet(path)
    assert "Names are as they were typed: not checked who typed them" in sheet(path)


def test_the_slip_comes_back_to_the_giver(path: Path) -> None:
    """Below the cut; done, not done, broke, found, didn't dare, name and time, each with room."""
    assert rows(path, "Walk round it together")[-1].endswith(
        "Mail van: axle from the breaker's yard: back to Teo Banfield"
    )
    asked = [line for line in rows(path, "Return slip") if not line.startswith("_")]
    assert asked == ["Done", "Not done", "Broke", "Found", "Didn't dare", "Name, date and time"]


def test_to_oneself_the_sheet_is_short(path: Path) -> None:
    """What holds it up, fasteners, where inside, what is open: nothing else."""
    text = unescaped(handed(JobFile(path).job, GIVER, " teo  BANFIELD "))
    assert re.findall("^## (.*)", text, re.M) == [
        "What holds it up",
        "Fasteners, bolt by bolt",
        "Where inside",
        "Hazards of the whole job, wherever it stands",
        "Recorded as open, right now",
    ]


def test_nothing_open_is_said_honestly() -> None:
    """On a closed job the sheet doesn't say more than that nothing is recorded."""
    job = JobFile(FINISHED).job
    sheet = unescaped(handed(job, "A", "B"))
    assert section(sheet, "Recorded as open, right now") == [
        "No open condition is recorded. That does not say that the vehicle is safe: look."
    ]
    assert section(sheet, "What can be begun next") == [CLOSED]
    words = job_text(job)
    assert (
        "no open condition is recorded. It doesn't mean that the vehicle may be driven, loaded or sold."
        in words
    )
    assert "Due afterwards: 80 km Wheel nuts to the maker's figure again (done)" in words
    assert "Due afterwards: 800 km Old axle kept until now (not recorded as done)" in words


@pytest.mark.parametrize(
    ("typed", "markdown"),
    [
        ("[3/4] [/x]", r"\[3/4\] \[/x\]"),
        ("*a* _b_ `c` <d> #e |f| ~g~ &h \\i", r"\*a\* \_b\_ \`c\` \<d\> \#e \|f\| \~g\~ \&h \\i"),
        ("1. first", r"1\. first"),
        ("- dash", r"\- dash"),
        ("+ plus", r"\+ plus"),
        ("2) two", r"2\) two"),
        ("3.5 mm, 3/4-16", "3.5 mm, 3/4-16"),
        ("a\nb\x1bc", "a\N{SYMBOL FOR LINE FEED}b\N{SYMBOL FOR ESCAPE}c"),
        ("\N{WRENCH}", "\N{WRENCH}"),
    ],
)
def test_markdown_keeps_text_literal(typed: str, markdown: str) -> None:
    """Whatever would be markup gets a backslash, a control character its stand-in."""
    assert md(typed) == markdown
