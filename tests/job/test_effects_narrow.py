"""What an entry changed, looked for only below it, is what a comparison of the whole job before and after finds.

The comparison of the whole is the oracle: it asks for every step, reading and condition of both states.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress

import pytest
import tomli

from jobtrack import units
from jobtrack.job.acts.entry import Entry
from jobtrack.job.acts.steps import ReleasedAct
from jobtrack.job.acts.values import ReadingAct
from jobtrack.job.compose import conditions, mending, steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused
from jobtrack.job.remarks.effects import effects
from jobtrack.job.state.changed import changed
from jobtrack.job.state.job import FINISHED, LOOK_AGAIN, RELEASED, RELEASED_BEFORE, TO_COME, Job
from jobtrack.job.state.look_again import values_now
from jobtrack.job.values.limits import WITHIN
from jobtrack.sheets.words.doing.effects import effect_lines
from jobtrack.sheets.words.problems import both_sides
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.header import about_from
from jobtrack.store.text.writing import write_header
from tests.job.test_refusals import done_but
from tests.support.builders import (
    DONOR,
    RECIPIENT,
    Copy,
    Do,
    about,
    close,
    close_job,
    finish,
    given,
    marked,
    not_needed,
    note,
    opens,
    read,
    release,
    settle,
    stands,
    surveyed,
    template,
    tick,
    undo,
)  # fmt: skip
from tests.support.histories import Script, over_histories, play, snapshot
from tests.support.said import why_look_again

RUNS, CALLS = 60, 25
"""Histories of other calls than those of `support/histories.py`, and so many calls in each."""


def whole(before: Job, after: Job) -> list[str]:
    """The oracle: every step and every condition compared, in words."""
    there = [step for step in before.steps if step in after.steps]
    return [
        *(line for step in there for line in _unsettled(before, after, step)),
        *(line for step in there for line in _moved(before, after, step)),
        *(line for step in there for line in _agreed(before, after, step)),
        *_conditions(before, after),
    ]


def _unsettled(before: Job, after: Job, step: str) -> Iterator[str]:
    if before.state(step) != LOOK_AGAIN == after.state(step):
        yield f"{step}: look again: {'; '.join(why_look_again(after, step))}"
    elif before.state(step) == LOOK_AGAIN and after.state(step) == FINISHED:
        yield f"{step}: stands again"
    held, holds = before.hold(step), after.hold(step)
    if held and holds and held.state == RELEASED and holds.state == RELEASED_BEFORE:
        yield f"{step}: its hold was released before a change: {holds.ask}"


def _moved(before: Job, after: Job, step: str) -> Iterator[str]:
    if before.state(step) != FINISHED or after.state(step) != FINISHED:
        return
    for name, reading in before.steps[step].step.reading.items():
        old, new = before.now.limits(step, name).target, after.now.limits(step, name).target
        value = after.now.reading_value(step, name)
        if None in (old, new, value) or old == new or after.now.verdict(step, name) != WITHIN:
            continue
        assert new is not None
        assert value is not None
        yield (
            f"{step}: the target of {name} is now {units.show(new, reading.unit)}; "
            f"{units.show(value, reading.unit)} is within it, so this unsettles nothing"
        )


def _agreed(before: Job, after: Job, step: str) -> Iterator[str]:
    for name in before.steps[step].step.reading:
        was, now = before.places.reading(step, name), after.places.reading(step, name)
        if not was.agreed and now.agreed:
            yield f"{step}: the disagreement about {name} is over, {both_sides(was)} no longer count"


def _conditions(before: Job, after: Job) -> Iterator[str]:
    was = {one.name: one for one in before.open_conditions}
    now = {one.name: one for one in after.open_conditions}
    yield from (f"recorded as open: {now[name].words}" for name in now if name not in was)
    yield from (f"recorded as closed: {was[name].words}" for name in was if name not in now)


def same(before: Job, after: Job) -> list[str]:
    """The lines, which both ways of looking give; asked of states that nothing was asked of yet, and of these.

    And what the later state has kept of the earlier one is what it would find out anew.
    """
    lines = whole(before, after)
    fresh = Job(before.about, before.view, before.damage)
    assert effect_lines(fresh, fresh.with_more(after.view.entries, after.damage)) == lines
    assert effect_lines(before, after) == lines
    asked, anew = snapshot(after), snapshot(Job.fold(after.about, after.view.entries, after.damage))
    assert asked == anew
    return lines


def test_in_histories_that_collide() -> None:
    """Each entry of each copy as it came, and each taking in of what the others had."""
    met: Counter[str] = Counter()

    def each(script: Script) -> None:
        played = play(script)
        merged = played.merged
        for copy in played.copies:
            state = Job.fold(about(), ())
            for entry in copy.entries:
                after = state.apply(entry)
                met.update(_kinds(same(state, after)))
                state = after
            met.update(_kinds(same(state, state.with_more(merged.view.entries, ()))))

    over_histories(each)
    assert met.keys() >= KINDS - {"disagreement"}


KINDS = {"look again", "stands again", "hold", "target", "disagreement", "open", "closed"}


def _kinds(lines: list[str]) -> list[str]:
    words = {"look again:": "look again", "stands again": "stands again", "released before": "hold",
             "the target of": "target", "disagreement": "disagreement", "as open:": "open",
             "as closed:": "closed"}  # fmt: skip
    return [kind for line in lines for said, kind in words.items() if said in line]


def unsure(draft: Draft) -> None:
    """A gap by an instrument that is surer of nothing than half a millimetre."""
    draft.add(
        ReadingAct(
            "gap", 0.7, "mm", "0.7", doubt=0.5, replaces=values.earlier(draft, ("reading", "height", "gap"))
        )
    )


def all_stand(draft: Draft) -> None:
    """Everything that is to be looked at again stands, said in no step."""
    steps.stands(draft, "seen", [one for one in draft.job.steps if draft.job.state(one) == LOOK_AGAIN])


def _calls(chance: random.Random) -> tuple[str | None, tuple[Do, ...]]:
    """One call of any sort, in any step of the small job."""
    side = chance.choice(("mark.left", "mark.left", "mark.right"))
    tack = side.replace("mark", "tack")
    others: list[tuple[str | None, tuple[Do, ...]]] = [
        (DONOR, (read("spacing", chance.choice(("1012", "1013", "1015", "?", ">1000"))),)),
        (DONOR, (read("spacing", chance.choice(("1012", "1013"))), finish)),
        (RECIPIENT, (read("spacing", chance.choice(("965", "966"))), finish)),
        (side, (read("moved", chance.choice(("22.8", "23.5", "24.4"))), finish)),
        (side, (tick("scribed", chance.random() < 0.7),)),
        (side, (release,)), (side, (finish,)), (side, (stands(),)),
        (side, (steps.swap,)), (side, (not_needed(),)), *[(side, (settle("moved", "23.5"),))] * 3,
        (tack, (read("other", "2"), read("slope", chance.choice(("2", "2.2", "3"))), finish)),
        (tack.replace("tack", "cold"), (tick("looked"), finish)),
        (None, (given("step-height", chance.choice(("300", "302", "304", "320"))),)),
        (None, (given("retention", chance.choice(("clips", "bolts"))),)),
        ("clips", (tick("seen"), finish)),
        ("height", (read("height", chance.choice(("300", "303"))), read("gap", chance.choice(("0.5", "0.9"))),
                    finish)),
        ("height", (unsure,)), ("height", (release,)),
        ("nuts", (tick("painted"), finish)), (None, (opens("jack lent"),)), (None, (opens("unread"),)),
        (None, (close(chance.choice(("unread", "tacked", "nuts-new", "tacked.left"))),)),
        (None, (lambda draft: conditions.closes(draft, draft.job.all_open[-1].name),)),
        (None, (undo,)), (None, (undo,)), (None, (note(),)),
        (None, (lambda draft: mending.undo(draft, chance.choice(draft.before.view.entries).id),)),
        (None, (lambda draft: steps.add_step(draft, "shim", "Shim it", "mark.left"),)),
        (None, (close_job,)), (None, (all_stand,)),
    ]  # fmt: skip
    return chance.choice(others)


def test_in_calls_of_every_sort() -> None:
    """Readings, givens, swaps, steps put in, undoings, own conditions; every kind of line occurs."""
    met = Counter(
        kind for seed in range(RUNS) for lines in _run(random.Random(seed)) for kind in _kinds(lines)
    )
    assert met.keys() == KINDS, met


def _run(chance: random.Random) -> Iterator[list[str]]:
    """The lines of each call in two copies that are merged now and then."""
    first = marked(chance.choice(("22.8", "24.4"))) if chance.random() < 0.5 else surveyed()
    copies = [first, first.split("other")]
    for _ in range(CALLS):
        copy = chance.choice(copies)
        before = copy.job
        if chance.random() < 0.15:
            copy.job = copy.job.with_more([entry for each in copies for entry in each.entries], ())
        else:
            _call(copy, chance)
        yield same(before, copy.job)


def _call(copy: Copy, chance: random.Random) -> None:
    step, do = _calls(chance)
    with suppress(Refused, units.UnitError, IndexError):
        copy.call(step, *do, by=chance.choice(("Wim", "Ada")))


@pytest.mark.parametrize("seed", range(20))
def test_in_files_that_lost_entries(seed: int) -> None:
    """What others follow comes in late: then what was seen of it changes, and nothing is passed over."""
    chance = random.Random(seed)
    copy = marked("22.8")
    for _ in range(CALLS):
        _call(copy, chance)
    entries = list(copy.entries)
    late = [entries.pop(chance.randrange(len(entries))) for _ in range(3)]
    state = Job.fold(about(), entries[:2])
    for entry in (*entries[2:], *late):
        after = state.apply(entry)
        same(state, after)
        state = after


def test_two_states_of_which_neither_grew_from_the_other() -> None:
    """A file that was read anew, or an older state: all of it is compared."""
    one = marked("22.8")
    other = Job.fold(about(), one.entries[:-2])
    assert effect_lines(one.job, other) == whole(one.job, other)
    assert effect_lines(other, one.job) == whole(other, one.job)


def looked_at(copy: Copy, step: str | None, *do: Do) -> tuple[str, ...]:
    before = copy.job
    copy.call(step, *do)
    return changed(before, copy.job).steps


@pytest.mark.parametrize(
    ("step", "do", "those"),
    [
        (None, note(), ()),
        ("nuts", tick("painted"), ("nuts",)),
        (None, given("step-height", "300"), ("height",)),
        (DONOR, read("spacing", "1013"), (RECIPIENT, DONOR, "mark.left", "mark.right")),
    ],
)
def test_only_what_stands_on_it_is_looked_at(step: str | None, do: Do, those: tuple[str, ...]) -> None:
    """A note touches no step; a measurement its own, the other side's, and those that stand on it."""
    assert looked_at(marked(), step, do) == those


def test_a_step_that_was_put_in_and_taken_back() -> None:
    """The step is gone with the undo, and nothing is said of it."""
    copy = marked()
    copy.call(None, lambda draft: steps.add_step(draft, "shim", "Shim it", "mark.left"))
    before = copy.job
    copy.call(None, undo)
    assert effects(before, copy.job) == []


def test_what_limits_another_reading_reaches_who_stands_on_that() -> None:
    """Two steps said to stand together: the second is unsettled where the target of a reading of the first moves."""
    data = template()
    data["step"]["trim"] = {
        "stage": "fit",
        "title": "Trim the step",
        "work_out": {
            "off": {"use": "perch-shift", "spacing_now": "height.height", "spacing_wanted": "height.plate"}
        },
    }
    head = write_header({"id": "job-1", "title": "Trim"}, data)
    header = scan(head).header
    assert header is not None
    copy = Copy(Job.fold(about_from(tomli.loads(head.decode()), header.hash), ()))
    copy.call(None, given("step-height", "300"))
    copy.call("height", read("height", "300"), finish)
    copy.call("trim", finish)
    copy.call("height", read("height", "304"))
    copy.call(None, all_stand)
    assert said(copy, "height", read("height", "302"), finish) == []
    assert said(copy, None, given("step-height", "310")) == [
        "height: look again: height 302 mm is outside: its target was 300 mm and is now 310 mm",
        "trim: look again: height.height was 304 mm and is now 302 mm",
    ]


def said(copy: Copy, step: str | None, *do: Do) -> list[str]:
    before = copy.job
    copy.call(step, *do)
    return same(before, copy.job)


def test_an_opening_that_nobody_wrote() -> None:
    """The step's first act counts as the opening that should stand before it."""
    copy = surveyed()
    act = ReadingAct("moved", 23.0, "mm", "23")
    entry = Entry(
        "bare", 9, copy.entries[-1].at, "Wim", (act,), copy.job.view.loose_ends, "bare", "mark.left"
    )
    assert same(copy.job, copy.job.apply(entry)) == ["recorded as open: Marks not yet read back (left)"]


def test_a_note_that_comes_in_late_shows_what_a_finish_had_seen() -> None:
    """A finish followed a doubt of 0.5 by way of the note: once that is there, nothing has changed since."""
    copy = Copy()
    copy.call("height", unsure)
    late = copy.call(None, note())
    copy.call("height", finish)
    without = Job.fold(about(), [entry for entry in copy.entries if entry is not late])
    assert without.state("height") == LOOK_AGAIN
    assert same(without, without.apply(late))[0] == "height: stands again"


def test_a_hold_released_from_elsewhere() -> None:
    """A release names its step; where it was recorded in none, that step's hold is looked at all the same."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "22.8"), finish)
    before = copy.job
    assert (hold := before.hold("mark.left")) is not None
    on = values_now(before.plan, before.steps["mark.left"], before.now)
    copy.call(None, lambda draft: draft.add(ReleasedAct("mark.left", on)), by="Ada")
    same(before, copy.job)
    assert (released := copy.job.hold("mark.left")) is not None
    assert (hold.state, released.state) == (TO_COME, RELEASED)


def test_closing_the_job_takes_what_passes_on_off_the_list() -> None:
    """The end of a job is about all conditions: what is to be done afterwards is said to be off the list."""
    copy = done_but("nuts")
    copy.call("nuts", tick("painted"), finish)
    assert said(copy, None, close_job) == ["recorded as closed: Nuts to be tightened again"]
