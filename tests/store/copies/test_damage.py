"""Every byte of a job file cut off or changed, every entry taken out, put in, moved and doubled: what is found.

Small here; the whole of it behind the marker `whole`, whose figures are printed (`pytest -m whole -s`).
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.base import replace
from jobtrack.store.copies.intact import examine, intact
from jobtrack.store.file.writer import JobFile, create
from jobtrack.store.text.blocks import scan
from jobtrack.store.text.writing import write_entry, write_header
from tests.support.builders import Copy, entry_id, note, read, record, template
from tests.support.damage import Whole, busy, conditions_after, found, found_in, opened, read_once, steady

AWKWARD = b"\x00\xff\n\r\"'[]{}()= \t#,.-\\:09afz\x1b\x7f"
"""What a byte is changed to, beside each of its bits flipped."""
RIGHT = 0.99
"""The least share of changed bytes that must be found under the right word and line, and nothing else with it."""


@cache
def small() -> Whole:
    return Whole.of(busy(14))


@cache
def merged() -> Whole:
    """A file that was merged several times, ending in two loose ends."""
    copy = busy(30)
    other = copy.split("last")
    copy.call(None, note("here"))
    other.call(None, note("there"), by="Ada")
    return Whole.of(copy.take(other))


# Cut anywhere


def cut_everywhere(whole: Whole, places: Sequence[int]) -> None:
    """Each beginning of a file holds its whole entries, and what is behind them is torn, at its line."""
    with read_once():
        for at in places:
            got = scan(whole.data[:at])
            number = whole.part_at(at) if at < len(whole.data) else len(whole.parts)
            torn = at not in whole.starts
            assert [entry.hash for entry in got.entries] == whole.names[1:number], at
            line = whole.lines[number] - (at < whole.starts[number] + len("\n[[entry]]\n")) if torn else 0
            assert [(one.what, one.line) for one in examine(got)] == [("torn", line)] * torn, at


def behind_header(whole: Whole) -> range:
    return range(whole.starts[1], len(whole.data) + 1)


def test_a_cut_leaves_the_whole_entries() -> None:
    """A file of thirty entries that ends at any byte, every third tried, has all its whole entries, and says torn."""
    whole = Whole.of(steady(30))
    cut_everywhere(whole, behind_header(whole)[::3])


@pytest.mark.whole
def test_a_cut_at_every_byte_of_300_entries() -> None:
    """The same at every byte of 300 entries."""
    whole = Whole.of(steady(300))
    cut_everywhere(whole, behind_header(whole))
    print(f"\ncut: {len(whole.data)} bytes, {len(behind_header(whole))} cuts behind the header")


def test_a_cut_in_the_header_is_a_changed_header() -> None:
    """What ends within its header never passes for a whole file."""
    whole = small()
    for at in range(1, whole.starts[1]):
        assert found(whole.data[:at]) == [(1, "changed header")], at


def test_behind_a_cut_the_next_entry_finds_its_place(tmp_path: Path) -> None:
    """The append after a cut sets the torn end aside, byte for byte, and leaves an intact file."""
    whole = small()
    for at in range(whole.starts[-3] + 1, len(whole.data), 41):
        path = tmp_path / f"cut-{at}.job.toml"
        path.write_bytes(whole.data[:at])
        aside = record(JobFile(path), None, note(), number=at).set_aside
        start = whole.starts[whole.part_at(at)]
        assert (aside.read_bytes() if aside else b"") == whole.data[start:at]
        assert intact(path) == []
        assert path.read_bytes().startswith(whole.data[:start])


def test_a_hole_that_the_disk_never_filled_is_torn(tmp_path: Path) -> None:
    """A file that had grown before its last block was on the disk ends in zeros: torn, and set aside."""
    whole = small()
    for written in (0, 1, 9, 60, 200):
        data = whole.data[: whole.starts[-2] + written].ljust(len(whole.data), b"\0")
        path = tmp_path / f"hole-{written}.job.toml"
        path.write_bytes(data)
        assert [what for _, what in found(data)] == ["torn"]
        assert record(JobFile(path), None, note(), number=1000 + written).set_aside
        assert intact(path) == []


# A byte changed


def values(byte: int) -> Iterator[int]:
    """Each bit flipped, and the awkward ones."""
    yield from {*(byte ^ 1 << bit for bit in range(8)), *AWKWARD} - {byte}


def expected(whole: Whole, at: int, value: int) -> list[tuple[int, str]]:
    """Where the change of a byte has to be found: at the `[[entry]]` of its block, as it stands after it."""
    number = whole.part_at(at)
    if number == 0:
        return [(1, "changed header")]
    return [(whole.lines[number] - (at == whole.starts[number] and value != ord("\n")), "altered")]


def change_bytes(whole: Whole, places: Sequence[int], some: int = 1) -> Counter[str]:
    """Change each of the bytes to every value, one at a time; how each change was found, every `some`th opened too."""
    met: Counter[str] = Counter()
    with read_once():
        for at in places:
            for value in values(whole.data[at]):
                data = whole.changed(at, value)
                got = found_in(scan(data))
                met["found" if got else "unseen"] += 1
                met["right"] += got == expected(whole, at, value)
                if (met["found"] + met["unseen"]) % some == 0:
                    met.update(conditions_after(whole, data))
    return met


def check_changes(name: str, met: Counter[str]) -> None:
    """Shown by `pytest -s`."""
    print(f"\n{name}: {dict(met)}, right {met['right'] / met['found']:.3%}")
    assert (met["unseen"], met["lost"]) == (0, 0)
    assert met["right"] >= RIGHT * met["found"]
    assert met["name"] + met["damage"] > 0


def test_a_changed_byte_is_found_and_closes_nothing() -> None:
    """A changed byte is found under the right word and line, and takes no open condition off the list."""
    whole = small()
    check_changes("entries", change_bytes(whole, range(whole.starts[1], len(whole.data), 97), 9))


def test_a_changed_byte_at_the_seams_is_found() -> None:
    """The same for each byte of the last entry's end, of a block's beginning and of the header's end."""
    whole = small()
    places = [
        *range(len(whole.data) - 41, len(whole.data)),
        *range(whole.starts[3] - 37, whole.starts[3] + 13),
    ]
    check_changes("seams", change_bytes(whole, [*places, *range(whole.starts[1] - 55, whole.starts[1])], 41))


@pytest.mark.whole
def test_every_byte_of_40_entries_changed() -> None:
    """Every byte of a 40-entry file, or each so many-th as the environment says; a part of them is opened too."""
    whole = Whole.of(busy(40))
    stride = int(os.environ.get("JOBTRACK_TEST_STRIDE", "1"))
    check_changes("entries", change_bytes(whole, range(whole.starts[1], len(whole.data), stride), 23))
    check_changes("header", change_bytes(whole, range(0, whole.starts[1], stride), 97))


def test_only_whole_line_endings_are_forgiven() -> None:
    """CRLF everywhere is forgiven; a single CR put before an LF, or taken from one, is found at its entry."""
    whole = small()
    crlf = whole.data.replace(b"\n", b"\r\n")
    assert [(one.what, one.remark) for one in examine(scan(crlf))] == [("line endings", True)]
    ends = [at for at, byte in enumerate(whole.data) if byte == ord("\n")]
    for number, at in [*enumerate(ends)][::3]:
        one_more = whole.data[:at] + b"\r" + whole.data[at:]
        one_less = crlf[: at + number] + crlf[at + number + 1 :]
        word = "changed header" if at < whole.starts[1] else "altered"
        for data in (one_more, one_less):
            assert [what for _, what in found(data)] == [word], at


def test_a_file_that_grew_after_its_line_endings_were_changed() -> None:
    """Entries in LF behind those in CRLF are as sound as they were."""
    whole = small()
    middle = whole.starts[6]
    mixed = whole.data[:middle].replace(b"\n", b"\r\n") + whole.data[middle:]
    assert [(one.what, one.remark) for one in examine(scan(mixed))] == [("line endings", True)]
    assert len(scan(mixed).entries) == len(whole.parts) - 1


# Entries taken out, put in, moved, doubled


def join(parts: Sequence[bytes]) -> bytes:
    return b"".join(parts)


def follows(part: bytes) -> list[str]:
    [entry] = scan(part).entries
    return list(entry.follows)


def check_taken_out(whole: Whole) -> None:
    """Each run of entries taken out is missing at the line of each that followed one of them, but for the very tail."""
    parents = [[], *(follows(part) for part in whole.parts[1:])]
    for first, last in combinations(range(1, len(whole.parts) + 1), 2):
        gone = set(whole.names[first:last])
        left = [*range(first), *range(last, len(whole.parts))]
        data = join([whole.parts[number] for number in left])
        behind = [number for number in left if gone & set(parents[number])]
        shift = join(whole.parts[first:last]).count(b"\n")
        lines = {whole.lines[number] - (shift if number >= last else 0) for number in behind}
        assert set(found(data)) == {(line, "missing") for line in lines}, (first, last)


def check_moved(whole: Whole) -> None:
    """Two entries that changed places are out of order; where an earlier one went on, it is missing nowhere."""
    for one, other in combinations(range(1, len(whole.parts)), 2):
        parts = list(whole.parts)
        parts[one], parts[other] = parts[other], parts[one]
        got = found(join(parts))
        moved = Whole(tuple(parts))
        assert {what for _, what in got} == {"out of order"}, (one, other)
        assert {line for line, _ in got} <= {moved.lines[one + 1], moved.lines[other]}, (one, other)


def check_doubled(whole: Whole) -> None:
    """An entry that stands there once more is doubled, at the line of the second."""
    for one in range(1, len(whole.parts)):
        for at in range(one + 1, len(whole.parts) + 1):
            moved = Whole((*whole.parts[:at], whole.parts[one], *whole.parts[at:]))
            assert found(moved.data) == [(moved.lines[at], "doubled")], (one, at)


def foreign() -> list[bytes]:
    """Entries of another job of the same template: its first, and one in the middle."""
    other = Whole.of(busy(10))
    header = write_header({"id": "job-2", "title": "Another"}, template())
    data = another_job(header, other)
    return [data[1], data[5]]


def another_job(header: bytes, like: Whole) -> list[bytes]:
    """The blocks of another job with the same acts, each following the one before it there."""
    parent = header[-34:-2].decode()
    parts = [header]
    for number, part in enumerate(like.parts[1:], 1):
        [entry] = scan(part).entries
        entry = replace(entry, id=entry_id(number, "other job"), n=number, follows=(parent,))
        part, parent = write_entry(entry)
        parts.append(part)
    return parts


def check_put_in(whole: Whole) -> None:
    """Stray text is stray, an entry of another job follows what isn't here: each at its line, every other whole."""
    stray = b"\nseen by the owner, 3 April\n"
    for at in range(1, len(whole.parts) + 1):
        moved = Whole((*whole.parts[:at], stray, *whole.parts[at:]))
        assert found(moved.data) == [(moved.lines[at] - 1, "stray")], at
        for part in foreign():
            moved = Whole((*whole.parts[:at], part, *whole.parts[at:]))
            got = found(moved.data)
            assert (moved.lines[at], "missing") in got, at
            assert {line for line, _ in got} <= set(moved.lines[at : at + 2]), at


CHECKS = (check_taken_out, check_moved, check_doubled, check_put_in)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
@pytest.mark.parametrize("which", [small, merged], ids=["14 entries", "32, merged"])
def test_entries_out_in_moved_doubled(which: object, check: object) -> None:
    """Each is found in a file of one copy and in one merged several times, wherever it is done."""
    assert callable(which)
    assert callable(check)
    with read_once():
        check(which())


def test_the_very_tail_is_what_a_file_cannot_know() -> None:
    """The last entry taken out, or one of two loose ends, leaves a file that looks whole."""
    whole = merged()
    assert found(join(whole.parts[:-1])) == found(join([*whole.parts[:-2], whole.parts[-1]])) == []


# Several at once

few = settings(max_examples=150, derandomize=True, database=None, deadline=None)


@few
@given(st.lists(st.tuples(st.integers(0, 10**6), st.integers(0, 255)), min_size=1, max_size=12))
def test_several_changed_bytes_close_nothing(changes: list[tuple[int, int]]) -> None:
    """However many bytes are changed, the change is found and each open condition is there, or stood for."""
    whole = small()
    data = bytearray(whole.data)
    for at, value in changes:
        data[at % len(data)] = value
    with read_once():
        assert bool(found(bytes(data))) == (data != whole.data)
        assert conditions_after(whole, bytes(data))["lost"] == 0


@few
@given(st.integers(0, 10**6), st.integers(1, 3000), st.binary(max_size=40))
def test_a_stretch_lost_or_overwritten_closes_nothing(at: int, length: int, other: bytes) -> None:
    """A stretch lost before the last entry, with other bytes in its place, takes no open condition off the list."""
    whole = small()
    at %= whole.starts[-2]
    end = min(at + length, whole.starts[-2])
    data = whole.data[:at] + other + whole.data[end:]
    with read_once():
        assert conditions_after(whole, data)["lost"] == 0


def test_a_damaged_end_is_not_torn(tmp_path: Path) -> None:
    """An entry at the very end whose hash line is damaged stays where it is, and its condition on the list."""
    copy = Copy()
    copy.begin()
    copy.call("mark.left", read("moved", "23"))
    whole = Whole.of(copy)
    path = tmp_path / "bay.job.toml"
    path.write_bytes(whole.changed(len(whole.data) - 3, ord("x")))
    file = JobFile(path)
    record(file, None, note(), number=9)
    assert [what for _, what in found(path.read_bytes())] == ["altered"]
    assert [one.text for one in file.job.all_open if "can't be read" in one.text]


def test_what_was_added_behind_lost_entries_is_in_order_once_they_are_back(tmp_path: Path) -> None:
    """Entries made while several branches' ends couldn't be read are in order beside the sound ones of a copy."""
    copy = busy(12)
    for salt in ("a", "b", "c"):
        other = copy.split(salt)
        other.call(None, note(salt))
        copy.take(other)
    ends = [copy.split(salt) for salt in ("d", "e", "f")]
    for one in ends:
        one.call(None, note("end"))
    whole = Whole.of(copy.take(*ends))
    data = bytearray(whole.data)
    for number in (-2, -3, -4):
        data[whole.starts[number] + 30] ^= 1
    path = tmp_path / "bay.job.toml"
    path.write_bytes(data)
    file = JobFile(path)
    record(file, None, note(), number=90)
    assert [what for _, what in found(path.read_bytes())] == ["altered"] * 3
    added = file.blocks[-1].data
    assert found(whole.data + added) == []


def test_a_changed_header_is_an_open_condition(tmp_path: Path) -> None:
    """What a changed header says of conditions can't be relied on, and that is on the list, first."""
    whole = small()
    data = whole.data.replace(b"Bay horse-box", b"Boy horse-box", 1)
    first = opened(data).job.all_open[0]
    assert first.text == "the header isn't as it was written; what is open may not all be listed"
    assert [one.name for one in opened(data).job.all_open[1:]] == [one.name for one in whole.job.all_open]
    assert create(tmp_path / "x.job.toml", "x", "x", template()).job.all_open == []
