"""The handover sheet and the job in words, on the half-done sample and on what is recorded beside it."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from jobtrack.cli.main import main
from jobtrack.sheets.handover.page import handover_markdown
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.markdown import md
from jobtrack.store.file.writer import JobFile
from tests.support.exchange import FINISHED, HALF_DONE

OPEN = {
    "Marks on the tube not finished: grind nothing, cut nothing (right)": "KEEP THE MARKS",
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


def sheet(path: Path) -> str:
    return handover_markdown(JobFile(path).job, "Teo Banfield", "Ada Prosser")


def section(text: str, title: str) -> list[str]:
    """The lines under one heading of a sheet."""
    found = re.search(rf"^## {re.escape(title)}\n(.*?)(?=\n\n|\Z)", text, re.M | re.S)
    assert found, f"no section {title!r}"
    return found[1].splitlines()


def test_who_hands_over_what_to_whom(path: Path) -> None:
    """The first lines name the job, the giver and the taker."""
    assert sheet(path).splitlines()[:2] == [
        "# Handover: Mail van: axle from the breaker's yard",
        "From Teo Banfield to Ada Prosser.",
    ]


def test_what_not_to_do_stands_first_then_what_is_open(path: Path) -> None:
    """What nobody touches before both have looked, the steps that are stopped, then every open condition."""
    text = sheet(path)
    donts = section(text, "Don't")
    assert re.match(
        "- Don't press the pedal, lower it, turn the key, move a jack or grind off a mark", donts[0]
    )
    assert "- Don't begin: New U-bolts to the supplier's figure. Open: AXLE OUT." in donts
    lines = section(text, "Recorded as open")
    assert [re.sub(r" · since .*", "", line) for line in lines] == [f"- {one}" for one in OPEN]
    assert [line.rpartition(" · tag ")[2] for line in lines] == list(OPEN.values())
    assert all(re.search(r" · since 1[345] May \d\d:\d\d · ", line) for line in lines)
    headings = re.findall("^## .*", text, re.M)
    assert headings[:3] == ["## Don't", "## Recorded as open", "## Tags for the steering wheel"]


def test_a_hold_that_nobody_released_stays_among_the_donts(path: Path) -> None:
    """Also once the step itself is finished and has closed what stopped the next one; released, it goes."""
    wanted = (
        "- Don't go on past: Mark the new place (right). Its hold isn't released: "
        "Cut release: side, direction and figure read back aloud?"
    )
    assert wanted in section(sheet(path), "Don't")
    record(path, "mark.right", "--finished")
    assert wanted in section(sheet(path), "Don't")
    record(path, "mark.right", "--release-hold")
    assert not [one for one in section(sheet(path), "Don't") if "Mark the new place (right)" in one]


def test_tags_are_listed_to_be_written_out(path: Path) -> None:
    """One tag for the steering wheel each, with its side, none twice."""
    tags = ["KEEP THE MARKS (right)", *list(OPEN.values())[1:]]
    assert section(sheet(path), "Tags for the steering wheel") == [f"- **{one}**" for one in tags]


def test_what_is_in_hand_says_where_inside_it(path: Path) -> None:
    """The step with its side, what was measured with what, and the last mark."""
    lines = section(sheet(path), "In hand")
    assert lines[lines.index("- **Mark the new place** (right): in hand") :] == [
        "- **Mark the new place** (right): in hand",
        "  - New edge from the old one, inboard: 24.5 mm, steel rule. Within the limits given: 24.2 ± 1 mm "
        "(limit worked out by perch-shift (plane geometry, arithmetic only: no publication gives such figures) from "
        "“Pin to pin, Spacing of the spring centre pins (donor)”, typed by Teo Banfield, 13 May 08:40, and from "
        "“Pin to pin, Spacing of the spring centre pins (recipient)”, typed by Nell Orrick, 12 May 10:40).",
        "  - not yet: Punch marks and scribed line reach past the old and the new place? not answered",
        "  - not yet: hold not released: Cut release: side, direction and figure read back aloud?",
        "  - where: right perch scribed, marks not read back yet (Teo Banfield, 15 May 16:25)",
    ]
    record(path, "mark.right", "--mark", "read back, front edge only")
    assert section(sheet(path), "In hand")[-1].startswith(
        "  - where: read back, front edge only (Teo Banfield"
    )


def test_the_hazards_of_what_is_in_hand_are_told(path: Path) -> None:
    """The job's own first, then those of each step in hand, each with how to avoid it."""
    record(path, "down", "--mark", "wheels on, still on stands")
    job, lines = JobFile(path).job, section(sheet(path), "In hand")
    own, step = job.plan.template.hazard, job.steps["down"].step.hazard
    assert own
    assert step
    for one, indent in (*((one, "") for one in own), *((one, "  ") for one in step)):
        assert (
            f"{indent}- {md(f'{one.signal}: {one.hazard}. What it does: {one.does}. How to avoid it: {one.avoid}.')}"
            in lines
        )


def test_other_steps_say_what_is_missing_in_them(path: Path) -> None:
    """Who finished a step and when; unanswered checks, missing readings and an unreleased hold stand beside it."""
    record(path, "mark.right", "--finished")
    lines = section(sheet(path), "Other steps worked on")
    at = next(
        number for number, line in enumerate(lines) if line.startswith("- **Mark the new place** (right)")
    )
    assert re.match(r".*: finished \(Teo Banfield, \d", lines[at])
    assert [line for line in lines[at + 1 : at + 3] if line.startswith("  - wrong or missing: ")] == [
        "  - wrong or missing: Punch marks and scribed line reach past the old and the new place? not answered",
        "  - wrong or missing: hold not released: Cut release: side, direction and figure read back aloud?",
    ]


def test_what_is_to_be_looked_at_again_is_in_hand_too(path: Path) -> None:
    """A step unsettled by a value taken again stands there with what is against it."""
    record(path, "pin-spacing.donor", "--reading", "spacing=1020", "--finished")
    lines = section(sheet(path), "In hand")
    at = lines.index("- **Mark the new place** (left): look again")
    assert any(line.startswith("  - wrong or missing: ") for line in lines[at:])


def test_fasteners_stand_at_their_last_stage(path: Path) -> None:
    """Each bolt once, how far it is tightened and to what as typed; none, no heading."""
    assert "## Fasteners" not in sheet(path)
    record(path, "u-bolts", "--torque", "ubolts.1=snug", "--torque", "ubolts.2=snug")
    record(path, "u-bolts", "--torque", "ubolts.1=1:21 ft lb")
    assert [re.sub(r"\d+ \w+ \d\d:\d\d", "WHEN", line) for line in section(sheet(path), "Fasteners")] == [
        "- New U-bolts to the supplier's figure, ubolts",
        "  - bolt 2, snug (Teo Banfield, WHEN)",
        "  - bolt 1, stage 1, 21 ft lb (Teo Banfield, WHEN)",
        "  - nothing recorded: bolts 3 and 4",
    ]


def test_notes_come_without_the_private_ones(path: Path) -> None:
    """Notes with who and where; a private one is in the job's words, as one, and on no sheet that leaves."""
    record(path, "cut.right", "--private-note", "He never sweeps.", "--note", "Tube is thin here.")
    assert (
        section(sheet(path), "Notes")[-1]
        == "- Teo Banfield, Cut the old perch off, grind flush (right): Tube is thin here."
    )
    assert "sweeps" not in sheet(path)
    words = job_text(JobFile(path).job)
    assert "      private note: He never sweeps. (Teo Banfield" in words
    assert "      note: Tube is thin here. (Teo Banfield" in words


def test_the_walk_round_stands_on_every_sheet(path: Path) -> None:
    """What giver and taker do together, and what the program doesn't know, in the words of the start."""
    text = sheet(path)
    assert any(
        "Take one reading again" in line for line in section(text, "Together, before the giver leaves")
    )
    assert "The makers' instructions, local rules and people licensed for the work decide" in text


def test_nothing_open_is_said_honestly(tmp_path: Path) -> None:
    """On a closed job the sheet doesn't say more than that nothing is recorded."""
    job = JobFile(FINISHED).job
    assert section(handover_markdown(job, "A", "B"), "Recorded as open") == [
        "No open condition is recorded. That does not say that the vehicle is safe: look."
    ]
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
