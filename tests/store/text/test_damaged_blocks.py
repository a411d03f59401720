"""What can still be read of an entry that counts for nothing, and what it puts on the lists of open things and tags."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.job.acts.mending import SetAsideAct
from jobtrack.job.compose import conditions
from jobtrack.job.state import order
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.damage import NOTHING, Legible
from jobtrack.job.state.job import Job
from jobtrack.sheets.words.problems import with_ids
from jobtrack.sheets.words.sentences import tags
from jobtrack.store.file.writer import JobFile
from jobtrack.store.text.broken import legible
from tests.support.builders import DONOR, Copy, note, opens, read, surveyed, tick
from tests.support.damage import Whole, opened
from tests.support.exchange import HALF_DONE

BLOCK = (
    b'\n[[entry]]\nid = "abc"\nn = 3\nby = "Wim"\nstep = "mark.left"\n'
    b'did = [{ opens = "unread", member = "left" }, { opens = "wedge \\"A\\"" }, { mark = "x" }]\n'
)


@pytest.mark.parametrize(
    ("data", "left"),
    [
        (BLOCK, Legible("mark.left", (("unread", "left"), ('wedge "A"', None)))),
        (BLOCK.replace(b"step", b"stap"), Legible(None, (("unread", "left"), ('wedge "A"', None)))),
        (BLOCK.replace(b"unread", b"unr\xffad"), Legible("mark.left", (("unr\ufffdad", "left"), ('wedge "A"', None)))),
        (BLOCK.replace(b", member", b", mumber"), Legible("mark.left", (("unread", None), ('wedge "A"', None)))),
        (BLOCK.replace(b"opens", b"\x00pens"), Legible("mark.left")),
        (b'\n[[entry]]\ndid = [{ note = "opens = \\"unread\\"" }]\n', NOTHING),
        (b"", NOTHING),
        (b'opens = "' + b"x" * 100_000, NOTHING),
        (b'opens = "x" ' * 500, Legible(None, (("x", None),) * 20)),
    ],
    ids=["all", "no step", "a byte of the id", "no member", "no opening", "inside a note", "nothing", "no end", "many"],
)  # fmt: skip
def test_what_is_left_of_an_entry(data: bytes, left: Legible) -> None:
    """The step and each opening with its member, as far as the bytes still say them; never what a note says."""
    assert legible(data) == left


def altered(copy: Copy, old: bytes, new: bytes) -> Job:
    """The job where the last entry that holds these bytes has others in their place."""
    data = Whole.of(copy).data
    before, found, after = data.rpartition(old)
    assert found
    return opened(before + new + after).job


def lost(job: Job) -> OpenCondition:
    [one] = [one for one in job.all_open if one.since is None]
    return one


def test_a_changed_byte_leaves_the_tags_of_its_entry_on_the_sheet(tmp_path: Path) -> None:
    """The entry that took brakes and shaft off can't be read: the sheet has a tag for it and names all three."""
    sample = HALF_DONE.read_bytes()
    start = sample.index(b'did = [{ opens = "shaft-off" }')
    path = tmp_path / "half.job.toml"
    path.write_bytes(sample[:start] + sample[start:].replace(b"yes = true", b"yes = truu", 1))
    job = JobFile(path).job
    line = sample[: sample.rindex(b"[[entry]]", 0, start)].count(b"\n") + 1
    conditions = [
        job.plan.template.condition[name] for name in ("shaft-off", "no-parking-brake", "brakes-open")
    ]
    assert tags(job)[:4] == [f"UNKNOWN: ENTRY AT LINE {line}", *(f"PERHAPS {one.tag}" for one in conditions)]
    assert all(f"{one.text} (tag {one.tag})" in (lost(job).remark or "") for one in conditions)


def test_what_its_step_opens_is_named_where_the_opening_is_unreadable() -> None:
    """Where the opening itself is damaged, what the step opens may have been opened."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"))
    job = altered(copy, b"opens", b"op\x00ns")
    assert [(one.id, one.member) for one in lost(job).perhaps] == [("unread", "left")]
    assert tags(job)[1:] == ["PERHAPS KEEP THE MARKS (left)"]


def test_what_is_open_anyhow_is_not_named_twice() -> None:
    """What a later act of the step shows as open stands there by its own name and tag alone."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"))
    copy.call("mark.left", tick("scribed"))
    job = altered(copy, b"opens", b"op\x00ns")
    assert lost(job).perhaps == ()
    assert tags(job)[1:] == ["KEEP THE MARKS (left)"]


def test_what_a_sound_entry_opened_is_not_ascribed_to_a_damaged_one() -> None:
    """A later entry of a step whose opening is sound, and closed since, is not said to have opened it."""
    copy = surveyed()
    copy.call("mark.left", read("moved", "23"))
    copy.call(None, lambda draft: conditions.closes(draft, "unread.left"))
    copy.call("mark.left", tick("scribed"))
    assert lost(altered(copy, b"scribed", b"scr\x00bed")).perhaps == ()


def test_what_may_be_open_stops_a_step_that_must_not_meet_it() -> None:
    """A step that must wait while something is open waits where that may be so, and what was done isn't blamed."""
    copy = surveyed()
    copy.call("tack.left", read("other", "2.0"))
    copy.call(None, lambda draft: conditions.closes(draft, "tacked.left"))
    copy.call("nuts", tick("painted"))
    whole = Whole.of(copy).job
    copy = surveyed()
    copy.call("tack.left", read("other", "2.0"))
    job = altered(copy, b'typed = "2.0"', b'typed = "2.\x00"')
    found = [one.what for one in order.blockers(job, job.steps["nuts"]) if one.kind == "condition"]
    assert found == ["perhaps Bracket only tacked (left)"]
    assert not [
        one for one in with_ids(whole, order.out_of_order(whole, whole.steps["nuts"])) if "open" in one
    ]


def test_a_missing_entry_and_a_changed_header_have_a_tag() -> None:
    """An entry that others follow and isn't there, and a header that isn't as written, stand among the tags."""
    copy = surveyed()
    copy.call(DONOR, note())
    parts = Whole.of(copy).parts
    assert tags(opened(b"".join([*parts[:2], *parts[3:]])).job) == ["UNKNOWN: ENTRY MISSING"]
    assert tags(altered(copy, b"Bay horse-box", b"Boy horse-box")) == ["UNKNOWN: HEADER CHANGED"]


def test_an_entry_that_was_set_aside_has_a_tag() -> None:
    """What a merge went on without keeps its tag until somebody closes it by name."""
    copy = surveyed()
    gone = copy.entries[1]
    copy.call(None, lambda draft: draft.add(SetAsideAct(of=(gone.hash,))), opens("an entry was set aside"))
    assert tags(copy.job) == ["UNKNOWN: ENTRY SET ASIDE"]
    copy.call(None, lambda draft: conditions.closes(draft, draft.job.all_open[0].name))
    assert tags(copy.job) == []


def test_the_tail_of_an_older_copy_has_a_tag_where_it_was_seen(tmp_path: Path) -> None:
    """Where an older copy is put back, what this machine saw behind its end is open and has a tag."""
    copy = surveyed()
    whole = Whole.of(copy)
    path = tmp_path / "bay.job.toml"
    path.write_bytes(whole.data)
    file = JobFile(path)
    path.write_bytes(whole.data[: whole.starts[-2]])
    assert file.refresh()
    one = lost(file.job)
    assert (one.name, one.tag) == (whole.names[-1], "UNKNOWN: ENTRY MISSING")
    assert one.text.endswith("is gone; what it opened isn't known")
    path.write_bytes(whole.data)
    assert JobFile(path).job.all_open == []
