"""A torque line whose bolts a given counts: asked as it counts now, none while it isn't known, nothing hidden."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.compose import steps
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.doing.tightening import FINGER
from jobtrack.job.remarks.of_step import Besides, NotCounted, NotTightened, left_open, step_problems
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, Job
from jobtrack.pages.doing.bolts import asked_words
from jobtrack.pages.doing.lines import doing_lines
from jobtrack.pages.doing.typed_bolts import Turn, turn, turned
from jobtrack.pages.step.items import GIVEN, TORQUE, answered, items
from jobtrack.sheets.drawings.bolts import bolts as drawn
from jobtrack.sheets.handover.fasteners import fasteners
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.words.doing.torques import torque_words
from jobtrack.sheets.words.problems import with_ids, with_names
from jobtrack.units.chosen import METRIC_FIRST
from tests.job.doing.rig import turn as turns
from tests.job.doing.studs import ASKED, NUTS, STUDS, about, known, line, studs
from tests.support.builders import Copy, Do, entry_id
from tests.support.handed import bolts_told, handed

ORDERS = {
    "4": ["1", "3", "2", "4"],
    "5": ["1", "3", "5", "2", "4"],
    "8": ["1", "5", "3", "7", "2", "6", "4", "8"],
}
"""Round clockwise from the top: a cross, a star, two crosses; `tests/shopmath` has them from their sources."""


def nuts(*bolts: tuple[str | None, str]) -> list[Do]:
    """Nuts turned, in one call."""
    return turns(*bolts, line="nuts")


def joined(*copies: Copy) -> Copy:
    """All that some copies hold."""
    entries = {entry.hash: entry for copy in copies for entry in copy.entries}
    return Copy(Job.fold(about(), entries.values()), (entry_id(number, "joined") for number in range(100)))


def page(copy: Copy) -> str:
    """The torque line on the page of its step, in one line."""
    here = copy.job.steps[NUTS]
    return " ".join(" ".join(one.plain for one in doing_lines(copy.job, here, 76, None)).split())


def heads(copy: Copy) -> list[str]:
    """What the columns of the table are called, those of a table below it too."""
    lines = [one.plain for one in doing_lines(copy.job, copy.job.steps[NUTS], 76, None)]
    return [head.strip() for one in lines if "bolts in turn" in one for head in one.split("│")[1:]]


@pytest.mark.parametrize("many", ORDERS)
def test_the_number_says_the_star(many: str) -> None:
    """As many as the given says, in the published order of that number; one that changes brings its own."""
    copy = studs((STUDS, "6"), (STUDS, many))
    assert [bolt.name for bolt in line(copy).bolts] == ORDERS[many]
    assert f"{many} bolts (“Wheel studs a wheel”)" in page(copy)
    drawing, _ = drawn(copy.job, copy.job.steps[NUTS], "nuts", METRIC_FIRST)
    assert drawing is not None
    assert f"Order {'-'.join(ORDERS[many])}." in drawing.caption


def test_a_vehicle_has_its_own_number() -> None:
    """In a step over vehicles the name means each one's own."""
    copy = studs(("donor.plate-bolts", "4"), ("recipient.plate-bolts", "6"))
    counts = [len(line(copy, f"plates.{one}", "plate").bolts) for one in ("donor", "recipient")]
    assert counts == [4, 6]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (None, ASKED),
        ("?", ASKED),
        ("0", "how many bolts isn't known: “Plate bolts (recipient)” is 0, wanted is a whole number from 1 to 24"),
        ("25", "how many bolts isn't known: “Plate bolts (recipient)” is 25, wanted is a whole number from 1 to 24"),
        ("5.5", "how many bolts isn't known: “Plate bolts (recipient)” is 5.5, wanted is a whole number from 1 to 24"),
        ("-4", "how many bolts isn't known: “Plate bolts (recipient)” is -4, wanted is a whole number from 1 to 24"),
    ],
)  # fmt: skip
def test_without_a_number_no_bolt_is_asked(typed: str | None, says: str) -> None:
    """It is said what is wanted; the line has no answer, the step asks its given, and finishing leaves it open."""
    copy = studs() if typed is None else studs(("recipient.plate-bolts", typed))
    step, says = "plates.recipient", says.replace("Wheel studs a wheel", "Plate bolts (recipient)")
    here, found = copy.job.steps[step], line(copy, step, "plate")
    assert (found.bolts, found.next, found.stage, found.left) == ((), None, None, ())
    assert asked_words(copy.job, here, "plate").replace("−", "-") == f"plate: {says}"
    assert says in torque_words(copy.job, here, "plate").replace("−", "-")
    assert drawn(copy.job, here, "plate", METRIC_FIRST)[0] is None
    kinds = [(one.kind, answered(copy.job, here, one)) for one in items(copy.job, here)]
    assert kinds == [(GIVEN, typed not in (None, "?")), (TORQUE, False)]
    open_now = left_open(copy.job, step)
    assert open_now == [NotCounted(step, "plate", "recipient.plate-bolts")]
    assert with_names(copy.job, open_now)[0].replace("−", "-") == f"plate: {says}"
    copy.call(step, steps.finished)
    assert says in job_text(copy.job).replace("−", "-")
    assert says in " ".join(handed(copy.job, ending=".txt").split()).replace("−", "-")


def test_a_half_bolt_is_not_taken() -> None:
    """A given that counts takes whole numbers only."""
    with pytest.raises(ValueError, match="whole"):
        studs((STUDS, "5.5"))


def test_any_bolt_is_recorded_before_the_number_is_known() -> None:
    """By its number or all of them; each is shown, and counts once the number is there."""
    copy = studs()
    for text in ("3 snug", "bolt 2", "all finger", "7 final", "12 stage 1 33"):
        copy.call(NUTS, lambda draft, text=text: turned(draft, "nuts", text))  # type: ignore[misc]
    copy.call(NUTS, *nuts(("front", "1")))
    assert [bolt.name for bolt in line(copy).beyond] == ["3", "2", "all", "7", "12", "front"]
    assert line(copy).next is None
    assert "bolts in turn │ 3" in page(copy)
    with pytest.raises(Refused, match="name the bolt too: 1 final"):
        turn(line(copy), "")
    with pytest.raises(Refused, match="how many bolts isn't known yet"):
        turn(line(copy), "33")
    assert turn(line(copy), "bolt 7") == Turn("7", "2")
    copy.call(None, known(STUDS, "8"))
    found = line(copy)
    assert [bolt.name for bolt in found.bolts] == [*ORDERS["8"], "front"]
    assert [bolt.name for bolt in found.beyond] == ["12"]
    assert {bolt.name: bolt.reached for bolt in found.bolts if bolt.name in "127"} == {
        "1": FINGER,
        "2": FINGER,
        "7": 2,
    }


def test_what_lies_beyond_a_smaller_number_stays() -> None:
    """It is shown as recorded, said in words, and not asked; the finished step is to be looked at again."""
    copy = studs((STUDS, "6"))
    copy.call(NUTS, *nuts((None, "1"), ("6", "2")))
    copy.call(NUTS, *nuts((None, "final")), steps.finished)
    assert copy.job.state(NUTS) == FINISHED
    copy.call(NUTS, *nuts(("6", "1")))
    copy.call(None, known(STUDS, "5"))
    assert copy.job.state(NUTS) == LOOK_AGAIN
    assert line(copy).next is None
    assert [(bolt.name, bolt.reached) for bolt in line(copy).beyond] == [("6", 1)]
    problems = step_problems(copy.job, NUTS)
    said = f"nuts: bolt 6 at stage 1, though {STUDS} is 5"
    assert said in with_ids(copy.job, problems)
    assert "bolt 6 at stage 1, though “Wheel studs a wheel” is 5" in job_text(copy.job)
    assert "5 bolts (“Wheel studs a wheel”); besides these bolt 6 at stage 1" in page(copy)
    assert (
        "Not drawn, but recorded: bolt 6." in drawn(copy.job, copy.job.steps[NUTS], "nuts", METRIC_FIRST)[1]
    )
    copy.call(None, known(STUDS, "6"))
    assert [one for one in left_open(copy.job, NUTS) if isinstance(one, NotTightened | Besides)] == [
        NotTightened(NUTS, "nuts", (("6", 1),))
    ]


def test_two_copies_that_disagree_leave_it_unknown() -> None:
    """Until one of them settles it, no bolt is asked."""
    one, other = studs((STUDS, "4"), salt="one"), studs((STUDS, "5"), salt="other")
    both = joined(one, other)
    assert line(both).next is None
    assert asked_words(both.job, both.job.steps[NUTS], "nuts") == (
        "nuts: how many bolts isn't known: “Wheel studs a wheel” is in disagreement"
    )
    both.call(None, known(STUDS, "5"))
    assert [bolt.name for bolt in line(both).bolts] == ORDERS["5"]


MOVES = st.lists(
    st.one_of(
        st.tuples(st.just("is"), st.sampled_from(["?", "0", "1", "2", "4", "5", "6", "24", "25"])),
        st.tuples(
            st.sampled_from([None, "1", "2", "5", "7", "24", "30", "all", "front"]),
            st.sampled_from(["finger", "snug", "1", "2", "final"]),
        ),
    ),
    max_size=12,
)


@settings(max_examples=150, derandomize=True, database=None, deadline=None)
@given(MOVES)
def test_whatever_the_number_becomes_nothing_is_hidden(moves: list[tuple[str | None, str]]) -> None:
    """Each recorded bolt stands in the table and the handover; asked are those of the number alone, or none."""
    copy, many = studs(), 0
    recorded: set[str | None] = set()
    for what, text in moves:
        if what == "is":
            copy.call(None, known(STUDS, text))
            many = int(text) if text.isdecimal() and 1 <= int(text) <= 24 else 0
        else:
            copy.call(NUTS, *nuts((what, text)))
            recorded.add(what)
        found = line(copy)
        shown = {bolt.name for bolt in found.every}
        assert len(shown) == len(found.every)
        assert {one for one in recorded if one is not None} <= shown
        assert all(bolt.done for bolt in found.every if bolt.name in recorded)
        numbers = {bolt.name for bolt in found.bolts if bolt.name.isdecimal()}
        named = {one for one in recorded if one is not None and not one.isdecimal()}
        by_names_alone = (
            named and many <= len(named) and not recorded & {str(one) for one in range(1, many + 1)}
        )
        assert numbers == ({*()} if by_names_alone else {str(number) for number in range(1, many + 1)})
        assert found.counted == bool(many)
        assert found.next is None or found.next in found.bolts
        if None in recorded:
            assert all(bolt.done for bolt in found.every)
            assert found.every
        if recorded and not all(one.tight for one in fasteners(copy.job)):
            assert {one for one in recorded if one is not None} <= bolts_told(copy.job)
    assert {one for one in recorded if one is not None} <= set(heads(copy))
