"""The empty card of each shipped template holds all of it, counted from the file by a walk of its own."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
import tomli

from jobtrack.job.about import About
from jobtrack.job.doing.tightening import MOST
from jobtrack.job.state.job import Job
from jobtrack.sheets.job_card.bolts import UNCOUNTED
from jobtrack.sheets.job_card.sheet import job_card
from jobtrack.sheets.paper.blocks import Message, Paragraph, Section, Sheet
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.load import build
from jobtrack.template.plan import plan
from jobtrack.units.chosen import METRIC, US, Chosen
from tests.sheets.job_card.reading_cards import (
    CHECKED,
    MEASURED,
    TIGHTENED,
    WELDED,
    blanks,
    boxes,
    named_before,
    plain,
    released_lines,
    rows,
    step_sections,
)

SHIPPED = {path.stem: path for path in sorted(shipped("job_templates").glob("*.toml"))}
AT = datetime(2031, 5, 14, 16, 20, tzinfo=UTC)


def read(template: str) -> dict[str, Any]:
    return tomli.loads(SHIPPED[template].read_text(encoding="utf-8"))


def card(data: dict[str, Any], system: str = METRIC) -> Sheet:
    """The card of a job of a template in which nothing is recorded."""
    job = Job.fold(About("job-1", "Hay trailer", plan(build(data)), "00"), ())
    return job_card(job, Chosen(system), AT, empty=True)


def spread(data: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each step for each member of its set, from the tables of the file alone."""
    for name, step in data["step"].items():
        over = step.get("for_each") or data["stage"][step["stage"]].get("for_each")
        members = list(data["vehicle"]) if over == "vehicle" else data["set"][over] if over else []
        yield from ((f"{name}.{one}", step) for one in members) if members else [(name, step)]


@pytest.mark.parametrize("template", SHIPPED)
def test_every_step_stands_once_with_all_that_is_written_down_in_it(template: str) -> None:
    """Readings with as many frames as they have repeats, checks, bolts, runs and holds; nothing more, nothing twice."""
    data = read(template)
    found, wanted = step_sections(card(data)), dict(spread(data))
    assert sorted(found) == sorted(wanted)
    for id, step in wanted.items():
        check_readings(found[id], step.get("reading", {}), id.partition(".")[2])
        check_ticks(found[id], step.get("tick", {}))
        check_torques(found[id], step.get("torque", {}))
        check_welds(found[id], step.get("weld", {}))
        assert len(released_lines(found[id])) == ("hold" in step) + ("go_or_stop" in step)
        [times] = [one for one in paragraphs(found[id]) if "Begun " in one.text]
        assert re.fullmatch(r"(\w+: )?Begun  Ended  Remarks ", plain(times.text))
        assert blanks(times.text) == 3


def paragraphs(section: Section) -> list[Paragraph]:
    return [one for one in section.blocks if isinstance(one, Paragraph)]


def check_readings(section: Section, readings: dict[str, Any], member: str) -> None:
    found = rows(section, MEASURED)
    assert len(found) == len(readings)
    for (name, reading), (label, wanted, measured, _) in zip(readings.items(), found, strict=True):
        said = plain(label)
        assert said.startswith(reading.get("say", name))
        assert ("worked out by the program" in said) == ("from" in reading)
        assert reading.get("with", "") in said
        assert blanks(measured) == reading.get("times", 1)
        limits = [reading[one] for one in ("target", "at_least", "at_most") if one in reading]
        limited = any(member in one if isinstance(one, dict) else True for one in limits)
        assert limited == (plain(wanted) != "recorded only")
        assert bool(plain(wanted)) != bool(blanks(wanted))


def check_ticks(section: Section, ticks: dict[str, Any]) -> None:
    found = rows(section, CHECKED)
    assert len(found) == len(ticks)
    for tick, (asked, answer) in zip(ticks.values(), found, strict=True):
        assert plain(asked).startswith(tick["ask"])
        assert boxes(answer) == ["yes", "no"]


def check_torques(section: Section, torques: dict[str, Any]) -> None:
    found = named_before(section, TIGHTENED, "Torque")
    assert [name for name, _ in found] == list(torques)
    for (_, table), torque in zip(found, torques.values(), strict=True):
        bolts, stages = torque.get("bolts", 1), len(torque.get("stages", [])) or 1
        many = min(bolts, MOST) if isinstance(bolts, int) else UNCOUNTED
        assert len(table.rows) == many
        assert all(boxes(cell) == [""] for row in table.rows for cell in row[1:-1])
        assert all(len(row) == stages + 4 for row in table.rows)
        if isinstance(bolts, int):
            assert sorted(map(plain, (row[0] for row in table.rows)), key=int) == [
                str(n + 1) for n in range(many)
            ]


def check_welds(section: Section, welds: dict[str, Any]) -> None:
    found = named_before(section, WELDED, "Weld")
    assert [name for name, _ in found] == list(welds)
    for (_, table), weld in zip(found, welds.values(), strict=True):
        assert [plain(row[0]) for row in table.rows] == [str(n + 1) for n in range(weld.get("runs", 1))]
        assert all(blanks(row[1]) == blanks(row[2]) == 1 for row in table.rows)
        rule = [weld["before_next"]] if "before_next" in weld else []
        assert [boxes(row[3]) for row in table.rows] == [*[rule] * (len(table.rows) - 1), []]


@pytest.mark.parametrize("template", SHIPPED)
def test_every_hazard_stands_whole_and_the_worst_first(template: str) -> None:
    """Those of the whole job once at the front, those of a step in it."""
    data = read(template)
    sheet = card(data)
    front = [one for one in sheet.sections[0].blocks if isinstance(one, Message)]
    assert Counter(map(parts, front)) == Counter(tuple(one) for one in data.get("hazard", []))
    for id, step in spread(data):
        found = [one for one in step_sections(sheet)[id].blocks if isinstance(one, Message)]
        assert Counter(map(parts, found)) == Counter(tuple(one) for one in step.get("hazard", []))
        order = ["DANGER", "WARNING", "CAUTION", "NOTICE"]
        assert [one.signal for one in found] == sorted((one.signal for one in found), key=order.index)


def parts(one: Message) -> tuple[str, ...]:
    return one.signal, one.hazard, one.does, one.avoid


def test_the_three_forms_have_as_many_boxes_and_rules() -> None:
    """A frame too few in one of them would be a reading that nobody writes down."""
    data = read("drum-brakes")
    ticks = sum(len(step.get("tick", {})) for _, step in spread(data))
    yes_or_no = sum(one.get("kind") == "yes/no" for one in data["given"].values())
    holds = sum(("hold" in step) + ("go_or_stop" in step) for _, step in spread(data))
    forms = {ending: written(card(data), ending).decode() for ending in ENDINGS}
    assert forms[".html"].count('<span class="box"></span>yes<') == ticks + yes_or_no
    assert forms[".md"].count("☐ yes") == ticks + yes_or_no
    assert forms[".txt"].count("[ ] yes") == ticks + yes_or_no
    assert all(one.count("Released by, name and time") == holds for one in forms.values())


def test_a_limit_that_isnt_known_has_a_frame_and_says_where_it_comes_from() -> None:
    """The drum's largest diameter is what somebody reads off the drum."""
    found = step_sections(card(read("drum-brakes"), US))["measure.left"]
    waits = [plain(row[1]) for row in rows(found, MEASURED) if blanks(row[1])]
    assert waits
    said = [plain(one.text) for one in paragraphs(found)]
    assert any(
        "comes from “Discard diameter cast into the drum (MAX DIA), else the maker's”: not known yet" in one
        for one in said
    )


def test_a_step_of_a_branch_says_what_it_depends_on() -> None:
    """While nobody has said how the drum is carried, the hub's nut is neither wanted nor not."""
    found = step_sections(card(read("drum-brakes")))["hub-nut.left"]
    said = [plain(one.text) for one in paragraphs(found)]
    assert "Only where “How the drum is carried” is “carries the hub bearings”: not known yet." in said
