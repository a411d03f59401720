"""`record`: what is refused writes nothing and says why in one line."""

from __future__ import annotations

import pytest

from tests.support.cli_calls import Shop

LEFT, DONOR = "plate.left", "spacing.donor"

REFUSED = [
    (["plate", "--finished"], "did you mean plate.left or plate.right?"),
    (["plate.lft", "--finished"], "no step 'plate.lft' in this job; did you mean plate.left"),
    (["nowhere", "--finished"], "`show` lists them"),
    ([LEFT, "--reading", "mooved=5"], "no reading 'mooved' in plate.left; there are: moved, thick"),
    ([LEFT, "--reading", "moved=5 kg"], "kg"),
    ([LEFT, "--reading", "moved=1,012"], "1,012"),
    ([LEFT, "--reading", "moved=1112-100"], "1112-100"),
    ([LEFT, "--reading", "thick=8", "--reading", "thick=can't reach"], "repeats are plain numbers"),
    (["--reading", "moved=5"], "this belongs to a step"),
    (["--finished"], "this belongs to a step"),
    ([LEFT, "--tick", "scribed=perhaps"], "scribed wants yes or no"),
    ([LEFT, "--tick", "scribd=yes"], "no check 'scribd'"),
    (["--given", "hook-higth=5"], "no given 'hook-higth'"),
    (["--given", "finish=gold"], "finish is one of zinc, plain"),
    (["nuts", "--torque", "bolts=snug"], "no torque 'bolts' in nuts"),
    (["nuts", "--torque", "nuts=3"], "finger, snug, 1, 2, final"),
    (["nuts", "--torque", "nuts.1=final:tight"], "not 'tight'"),
    (["nuts", "--torque", "nuts.1=final:5 kg"], "kg"),
    (["tack", "--weld", "plate=1"], "no weld 'plate' in tack; there are: hook"),
    (["tack", "--weld", "hook=1:hot"], "amps wants a number"),
    (["tack", "--weld", "hook=1", "--also", "minutes=long"], "minutes wants a number"),
    ([LEFT, "--reading", "moved=5", "--also", "doubt=-3"], "doubt wants a number, nought or more"),
    ([LEFT, "--reading", "moved=5", "--also", "doubt=1 kg"], "kg is a mass"),
    (["tack", "--weld", "hook=1:95", "--also", "volts=5 mm"], "mm is a length"),
    (["--part", "nails=5"], "no part 'nails' in this job; there are: bolts"),
    (["--buying", "bolts=lost"], "asked, ordered, here, wrong, going back"),
    (["--photo", "no.jpg"], "no.jpg: can't be read"),
    ([LEFT, "--stands=looked"], "plate.left is to come, not to be looked at again"),
    ([LEFT, "--stands"], "--stands wants a reason"),
    (["--stop-job"], "--stop-job wants a reason"),
    ([DONOR, "--release-hold"], "spacing.donor has no hold to release"),
    (["--closes", "hook-loose"], "no open condition 'hook-loose'; there are: ask-first"),
    (["--settle", "hook-height=400"], "there is nothing to settle"),
    (["tack", "--swap"], "isn't done on two sides"),
    (["--add-step", "tack=again"], "can't be a new step's id"),
    (["--add-step", "a.b=again"], "can't be a new step's id"),
    (["--add-step", "new=again", "--also", "after=nowhere"], "no step 'nowhere'"),
    (["--add-step", "new=again", "--also", "before=plate"], "did you mean plate.left or plate.right?"),
    (["--add-step", "new=again", "--also", "before=tack", "--also", "after=nuts"], "say which of the two"),
    (["--met", "rusty"], "one of sheared, seized, cracked, missing, worn, other; not 'rusty'"),
    (["--met", "seized", "--also", "why=rust"], "--met takes no 'why'; it takes part, text"),
    ([LEFT, "--reading", "moved=5", "--also", "mistyped=yes"], "no value yet that could be mistyped"),
    ([LEFT, "--reading", "moved=5", "--also", "mistyped=perhaps"], "mistyped wants yes or no"),
    (["--undo=nowhere"], "no entry 'nowhere' in this job"),
    (["--clock", "sideways"], "the clock goes on, off or break"),
    (["--clock", "off"], "has no clock on in this job"),
    (["--worked", "0"], "--worked wants hours"),
    (["--worked", "lots"], "--worked wants hours"),
    (["--worked", "2", "--on-day", "tomorrow"], "a day as 2031-04-02"),
    (["--worked", "2", "--for", "x" * 201], "200 characters"),
    (["--take-over"], "no handover is recorded"),
    (["--take-in", "0" * 32], "`intact` lists them"),
    (["--due-done", "oil"], "nothing due afterwards is called 'oil'; there are: nuts"),
    (["--close-job"], "the job can't be closed yet: open: "),
    (["--note", "x" * 10241], "10240 bytes"),
    (["--note", "\u00e9" * 5121], "10240 bytes"),
    (["--note", ""], "--note is empty"),
    (["--opens", "  "], "--opens is empty"),
    (["--mark", "\udcff"], "UTF-8"),
    (["--at", "yesterday", "--note", "x"], "--at wants a time"),
    (["--at", "0001-01-01T00:00:00", "--note", "x"], "--at wants a time"),
    (["--also", "with=rule"], "put it behind one"),
    (["--note", "x", "--also", "with=rule"], "--note takes no 'with'; it takes nothing more"),
    (["--worked", "2", "--because", "so"], "--worked takes no 'because'; it takes for, on_day"),
    ([LEFT, "--reading", "moved=5", "--also", "value=6"], "it takes with, doubt, mistyped"),
    ([], "nothing to record"),
]  # fmt: skip


@pytest.mark.parametrize(("options", "said"), REFUSED, ids=[" ".join(options)[:40] for options, _ in REFUSED])
def test_a_refused_call_writes_nothing(shop: Shop, options: list[str], said: str) -> None:
    """Exit 2, one line that names what and how to mend it, and the file as it was."""
    assert said in shop.refused(*options)


def test_one_unknown_name_refuses_the_whole_call(shop: Shop) -> None:
    """A good act beside one that is refused isn't recorded either."""
    assert "no check 'scribd'" in shop.refused(
        LEFT, "--note", "Good.", "--reading", "moved=5", "--tick", "scribd=yes"
    )


def test_closing_says_all_that_is_left(shop: Shop) -> None:
    """The refusal lists what is open and every step that isn't settled."""
    shop.record(DONOR, "--finished")
    line = shop.refused("--close-job")
    assert "open: Not yet asked: does the owner want the hook moved?" in line
    for step in ("spacing.recipient", "plate.left", "plate.right", "tack", "nuts"):
        assert f"{step} is " in line
    assert "spacing.donor" not in line


def test_a_step_to_be_looked_at_again_keeps_the_job_open(shop: Shop) -> None:
    """*Look again* is left to do like an unfinished step."""
    shop.record(DONOR, "--reading", "holes=1012", "--finished")
    shop.record("spacing.recipient", "--reading", "holes=965", "--finished")
    shop.record(LEFT, "--reading", "moved=23.5", "--finished")
    shop.record(DONOR, "--reading", "holes=1020", "--finished")
    assert f"{LEFT} is look again" in shop.refused("--close-job")


def test_undo_is_for_ones_own_entry(shop: Shop) -> None:
    """Somebody who has recorded nothing has nothing to undo."""
    ended = shop.run("record", shop.job, "--by", "Ada", "--undo")
    assert (ended.status, ended.err) == (
        2,
        "Ada has recorded nothing that could be undone; each undoes only their own\n",
    )


def test_a_whose_that_measured_nothing_settles_nothing(shop: Shop) -> None:
    """A disagreement is settled by somebody who measured."""
    shop.record(DONOR, "--reading", "holes=1012")
    assert "Ada recorded none" in shop.refused(DONOR, "--settle", "holes=1012", "--also", "whose=Ada")


def test_whose_value_counts_needs_no_value(shop: Shop) -> None:
    """`--settle ID= --also whose=NAME` takes the value from that person; without whose, a value is wanted."""
    shop.record(DONOR, "--reading", "holes=1012")
    shop.record(DONOR, "--settle", "holes=", "--also", "whose=Wim")
    assert "--settle wants NAME=VALUE" in shop.refused(DONOR, "--settle", "holes=")


def test_too_much_for_one_entry_is_refused(shop: Shop) -> None:
    """More than a line of the file may hold: exit 2, said, and the file as it was."""
    before = shop.job.read_bytes()
    notes = [one for _ in range(9) for one in ("--note", "x" * 8000)]
    ended = shop.run("record", shop.job, "--by", "Wim", *notes)
    assert ended.status == 2
    assert "too long for one entry" in ended.err
    assert shop.job.read_bytes() == before


def test_a_changed_header_opens_for_reading_only(shop: Shop) -> None:
    """Nothing is recorded in a job whose header was changed: exit 3, one line; `show` still shows it."""
    shop.job.write_bytes(shop.job.read_bytes().replace(b"Nuts again", b"Nuts never"))
    before = shop.job.read_bytes()
    ended = shop.run("record", shop.job, "--by", "Wim", "--note", "x")
    assert ended.status == 3
    assert "its header was changed" in ended.err
    assert shop.job.read_bytes() == before
    assert (
        "! Open for reading only: its header was changed; this list may be incomplete."
        in shop.done("show", shop.job).out
    )
