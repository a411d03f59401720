"""The picture of a torque line goes bolt by bolt with what is recorded."""

from __future__ import annotations

from jobtrack.figures.drawing import Label
from jobtrack.pages.drawings.page import Room, picture_lines
from jobtrack.pages.step.items import TORQUE, Item
from jobtrack.sheets.drawings.of_step import StepPicture, Subject, step_pictures
from jobtrack.units.chosen import METRIC_FIRST, Chosen
from tests.job.doing.rig import STEP, asked, rig, turn
from tests.support.builders import Copy, given

LOOKED_AT = """\
Bolts, ubolts
Stage 1 of 3, 30 %: next 3; done 1. Order 1-3-2-4. The
numbers go round clockwise; begin at any bolt.
                 .'':                  :''.
          1 done :'':'                '.  : 2
                  '' ''.                ''
                        ''.
                           ''.
                              '..
                                 '.. :
                  ..               .::. ..
               4 :  '.                .:':: 3 NEXT
                 '..:                  :::'
30 % of the figure: ask the supplier.
""".splitlines()


def picture(copy: Copy, line: str = "ubolts", shown: Chosen = METRIC_FIRST) -> StepPicture:
    """The first picture with this line chosen."""
    found = step_pictures(copy.job, copy.job.steps[STEP], Item(TORQUE, line, line), shown)[0]
    assert found.of == Subject(TORQUE, STEP, line)
    return found


def words(one: StepPicture) -> set[str]:
    """What stands beside each bolt."""
    assert one.drawing is not None
    return {shape.text for shape in one.drawing.shapes if isinstance(shape, Label)}


def test_it_goes_bolt_by_bolt_through_all_stages() -> None:
    """At every moment NEXT stands at the bolt that is asked for, and those of this stage are done."""
    copy, done = rig(), set[str]()
    while (now := asked(copy)) is not None:
        stage, bolt = now
        shown = picture(copy)
        assert shown.drawing is not None
        assert shown.drawing.caption.startswith(f"Stage {stage} of 3, ")
        left = {"1", "2", "3", "4"} - done - {bolt}
        assert words(shown) == {f"{one} done" for one in done} | {f"{bolt} NEXT"} | left
        copy.call(STEP, *turn((bolt, str(stage))))
        done = set() if len(done) == 3 else done | {bolt}
    assert words(picture(copy)) == {"1 done", "2 done", "3 done", "4 done"}


def test_the_torque_of_the_stage_stands_in_it_once_it_is_known() -> None:
    """30 % of 110 N·m are 33 N·m, by hand; without the supplier's figure it is said that it is missing."""
    copy = rig()
    assert picture(copy).note == "30 % of the figure: ask the supplier."
    copy.call(None, given("u-bolt-figure", "110"))
    shown = picture(copy)
    assert shown.note == ""
    assert shown.drawing is not None
    assert shown.drawing.caption.startswith("Stage 1 of 3, 30 %, 33 N·m: begin with 1.")


def test_the_torque_turns_with_the_units() -> None:
    """81 ft lb as the template has it, in the one system; 110 N·m in the other."""
    metric, us = (picture(rig(), "studs", Chosen(system)).drawing for system in ("metric", "US"))
    assert metric is not None
    assert us is not None
    assert "110 N·m" in metric.caption
    assert "81 lbf ft" in us.caption


def test_bolts_with_names_of_their_own_are_not_placed() -> None:
    """Nobody knows where on the circle a "front left" stands."""
    copy = rig()
    copy.call(STEP, *turn(*((name, "snug") for name in ("front in", "front out", "rear in", "rear out"))))
    shown = picture(copy)
    assert shown.drawing is None
    assert "names of their own" in shown.note


def test_it_stands_first_among_the_step_s_pictures() -> None:
    """Each line of bolts, in the template's order."""
    copy = rig()
    found = [one.of.name for one in step_pictures(copy.job, copy.job.steps[STEP], None, METRIC_FIRST)]
    assert found == ["ubolts", "studs", "asked"]


def test_its_picture_as_it_was_looked_at() -> None:
    """Bolt 1 of the first stage done, 3 next."""
    copy = rig()
    copy.call(STEP, *turn(("1", "1")))
    assert [row.plain for row in picture_lines(picture(copy), Room(60, 14, plain=True))] == LOOKED_AT
