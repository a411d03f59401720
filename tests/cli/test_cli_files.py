"""`proofread`, `merge`, `intact`."""

from __future__ import annotations

import json
import re
from itertools import permutations
from pathlib import Path

import pytest

from jobtrack.store.copies.intact import intact
from tests.support.cli_calls import TEMPLATE, Shop, entries, one_line
from tests.support.mistakes import SOUND


def test_proofread_finds_nothing_in_a_template_without_mistakes(empty_shop: Shop) -> None:
    """Exit 0, and what was not examined is said."""
    ended = empty_shop.done("proofread", SOUND)
    assert ended.out == (
        "No mistake of form found. Whether the work described is right or safe was not examined.\n"
    )
    assert json.loads(empty_shop.done("proofread", SOUND, "--json").out) == []


def test_proofread_names_file_and_line(empty_shop: Shop) -> None:
    """A mistake: exit 1, FILE:LINE: in words, and the keys of the shape as JSON."""
    bad = Path("bad.toml")
    text = TEMPLATE.read_text(encoding="utf-8").replace('closes = ["hook-loose"]', 'closes = ["hook-lose"]')
    bad.write_text(text, encoding="utf-8")
    line = 1 + text.splitlines().index('closes = ["hook-lose"]')
    ended = empty_shop.run("proofread", bad)
    assert (ended.status, ended.err) == (1, "")
    assert re.search(rf"^bad\.toml:{line}: mistake: ", ended.out, re.M)
    found = json.loads(empty_shop.run("proofread", bad, "--json").out)
    assert [list(one) for one in found] == [["file", "line", "column", "kind", "key", "why", "mend"]] * len(
        found
    )
    assert {one["kind"] for one in found} <= {"mistake", "remark"}
    assert line in [one["line"] for one in found]


def test_remarks_alone_are_a_finding_too(empty_shop: Shop) -> None:
    """Remarks that nobody answered: exit 1."""
    ended = empty_shop.run("proofread", TEMPLATE)
    assert ended.status == 1
    assert {line.split(": ")[1] for line in ended.out.splitlines()} == {"remark"}


# Merge


@pytest.fixture
def copies(shop: Shop) -> list[Path]:
    """Three copies of one job, each with something that the others haven't."""
    paths = [shop.job, Path("stick.job.toml"), Path("third.job.toml")]
    for path in paths[1:]:
        path.write_bytes(shop.job.read_bytes())
    for path, by in zip(paths, ("Wim", "Ada", "Teo"), strict=True):
        shop.done("record", path, "spacing.donor", "--by", by, "--note", f"From {by}.")
        shop.done("record", path, "spacing.donor", "--by", by, "--reading", "holes=1012")
    return paths


def test_a_merge_is_the_same_in_any_order(shop: Shop, copies: list[Path]) -> None:
    """Byte for byte, with everybody's entries, intact, and merging again changes nothing."""
    merged = set()
    for number, order in enumerate(permutations(copies)):
        out = Path(f"both-{number}.job.toml")
        assert shop.done("merge", *order, "--out", out).out == f"Merged 3 copies into {out}.\n"
        merged.add(out.read_bytes())
    assert len(merged) == 1
    assert {one["by"] for one in entries(out)} == {"Wim", "Ada", "Teo"}
    assert len(entries(out)) == 7
    assert intact(out) == []
    shop.done("merge", out, *copies, "--out", "again.job.toml")
    assert Path("again.job.toml").read_bytes() == out.read_bytes()


def test_a_merge_never_overwrites(shop: Shop, copies: list[Path]) -> None:
    """Not even one of the copies."""
    before = copies[0].read_bytes()
    ended = shop.run("merge", *copies, "--out", copies[0])
    assert ended.status == 2
    assert "is there already" in one_line(ended.err)
    assert copies[0].read_bytes() == before


def test_two_jobs_are_not_merged(shop: Shop) -> None:
    """Different headers: exit 2, nothing written."""
    other = Path("other.job.toml")
    shop.done("begin", TEMPLATE, "--out", other, "--by", "Wim")
    ended = shop.run("merge", shop.job, other, "--out", "both.job.toml")
    assert ended.status == 2
    assert one_line(ended.err).startswith("other.job.toml:1: a different job")
    assert not Path("both.job.toml").exists()


def test_a_damaged_entry_that_a_copy_holds_sound_is_mended(shop: Shop, copies: list[Path]) -> None:
    """The sound block of another copy takes its place."""
    whole, damaged = copies[0].read_bytes(), Path("damaged.job.toml")
    damaged.write_bytes(whole.replace(b"From Wim.", b"From Jim."))
    shop.done("merge", damaged, copies[0], "--out", "both.job.toml")
    assert Path("both.job.toml").read_bytes() == whole


def test_a_damaged_entry_stops_a_merge(shop: Shop, copies: list[Path]) -> None:
    """Exit 1, named with its line and hash, nothing written."""
    lost = _damage(copies[0])
    ended = shop.run("merge", *copies, "--out", "both.job.toml")
    assert ended.status == 1
    assert re.match(rf"{re.escape(str(copies[0]))}:\d+: an entry can't be read", one_line(ended.err))
    assert f"--without {lost} --by NAME" in ended.err
    assert not Path("both.job.toml").exists()


def test_a_merge_goes_on_without_a_damaged_entry(shop: Shop, copies: list[Path]) -> None:
    """By name, with an entry that says so and a condition that stays open; its id follows from the hash."""
    lost = [_damage(copies[0]), _damage(copies[1])]
    without = [one for hash in lost for one in ("--without", hash)]
    shop.done("merge", *copies, "--out", "both.job.toml", "--by", "Ada", *without)
    aside = [one for one in entries(Path("both.job.toml")) if "set_aside" in one["did"][0]]
    assert [one["did"][0]["of"] for one in aside] == [[lost[0]], [lost[1]]]
    assert {one["by"] for one in aside} == {"Ada"}
    assert all(re.fullmatch("[a-z2-7]{16}", one["id"]) for one in aside)
    state = json.loads(shop.done("show", "both.job.toml", "--json").out)
    assert sum("set aside" in one["text"] for one in state["open_conditions"]) == 2
    shop.done("merge", *copies, "--out", "anew.job.toml", "--by", "Ada", *without)
    assert [one["id"] for one in entries(Path("anew.job.toml"))] == [
        one["id"] for one in entries(Path("both.job.toml"))
    ]
    assert not [one for one in intact(Path("both.job.toml")) if one.what != "missing"]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--without", "HASH"], "--without wants --by"),
        (["--without", "0" * 32, "--by", "Ada"], "there are: HASH"),
        (["--without", "HASH", "--by", " "], "--by is empty"),
    ],
)
def test_going_on_without_needs_a_name_and_a_damaged_entry(
    shop: Shop, copies: list[Path], more: list[str], said: str
) -> None:
    """Nobody's name, or a hash that stops nothing: exit 2, nothing written."""
    lost = _damage(copies[0])
    ended = shop.run("merge", *copies, "--out", "both.job.toml", *(one.replace("HASH", lost) for one in more))
    assert ended.status == 2
    assert said.replace("HASH", lost) in one_line(ended.err)
    assert not Path("both.job.toml").exists()


def test_a_torn_end_is_left_out_and_said(shop: Shop, copies: list[Path]) -> None:
    """Exit 0, one line, and the whole entries merged."""
    copies[0].write_bytes(copies[0].read_bytes()[:-5])
    ended = shop.done("merge", *copies, "--out", "both.job.toml")
    assert re.fullmatch(rf"{re.escape(str(copies[0]))}:\d+: a torn end was left out", one_line(ended.err))
    assert len(entries(Path("both.job.toml"))) == 6


# Intact


def test_a_file_as_it_was_written(shop: Shop) -> None:
    """Exit 0, and what that doesn't show."""
    shop.record("--note", "x")
    ended = shop.done("intact", shop.job)
    assert ended.out == "The file is as it was written. That doesn't show who wrote it or that it is true.\n"


def test_each_kind_of_damage_has_its_word(shop: Shop) -> None:
    """Torn, altered, stray, missing, doubled, out of order, changed header: exit 1, with its line."""
    for text in ("first", "second", "third"):
        shop.record("--note", text)
    whole = shop.job.read_bytes()
    head, *blocks = re.split(rb"(?=\n\[\[entry\]\]\n)", whole)
    cases = {
        "torn": whole[:-4],
        "altered": whole.replace(b'"second"', b'"secund"'),
        "stray": whole + b"\nhello = 5\n" + blocks[-1],
        "missing": head + b"".join(blocks[:2] + blocks[3:]),
        "doubled": whole + blocks[-1],
        "out of order": head + b"".join([blocks[0], blocks[2], blocks[1], blocks[3]]),
        "changed header": whole.replace(b"Tow hook moved", b"Tow hook mowed"),
    }
    for word, data in cases.items():
        shop.job.write_bytes(data)
        ended = shop.run("intact", shop.job)
        assert ended.status == 1, word
        assert any(
            re.match(rf"{re.escape(str(shop.job))}:\d+: {word}: ", line) for line in ended.out.splitlines()
        ), word


def test_line_endings_are_a_remark(shop: Shop) -> None:
    """CRLF for LF is said and forgiven: exit 0."""
    shop.job.write_bytes(shop.job.read_bytes().replace(b"\n", b"\r\n"))
    ended = shop.done("intact", shop.job)
    assert f"{shop.job}:1: line endings: " in ended.out
    assert "The file is as it was written." in ended.out


def _damage(path: Path) -> str:
    """Alter a copy's own note; the hash of that entry as written."""
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('note = "From ', 'note = "Fron '), encoding="utf-8")
    lost: str = next(one["hash"] for one in entries(path) if "note" in one["did"][0])
    return lost
