"""What is found in a damaged job file, with its lines; and what hostile blocks come to."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.base import replace
from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose import mending
from jobtrack.store.copies.intact import examine, intact
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.text.blocks import digest, scan
from jobtrack.store.text.writing import write_entry
from tests.support.builders import DONOR, WORK, file_with, new_file, note, read, record


def changed(folder: Path, change: Callable[[list[bytes]], list[bytes]]) -> Path:
    """A file of the five calls with its blocks changed; the header is the first part."""
    file = file_with(folder, WORK)
    parts = change([file.header.data, *(block.data for block in file.blocks)])
    file.path.write_bytes(b"".join(parts))
    return file.path


def found(path: Path) -> list[tuple[int, str]]:
    return [(one.line, one.what) for one in intact(path)]


def line_of(parts: list[bytes], number: int) -> int:
    """The line of `[[entry]]` of the part of this number: one behind its blank line."""
    return 2 + sum(part.count(b"\n") for part in parts[:number])


def parts_of(folder: Path) -> list[bytes]:
    file = file_with(folder, WORK, "parts")
    return [file.header.data, *(block.data for block in file.blocks)]


def test_a_flipped_bit_anywhere_in_the_header_is_found(tmp_path: Path) -> None:
    """In a file without entries every single flipped bit of the header is found."""
    data = new_file(tmp_path).path.read_bytes()
    for at in range(len(data)):
        for bit in range(8):
            flipped = data[:at] + bytes([data[at] ^ 1 << bit]) + data[at + 1 :]
            assert "changed header" in [one.what for one in examine(scan(flipped))], (at, bit)


def read_only_or_refused(path: Path) -> str | None:
    """Why the file takes no entry; what refuses it altogether says so on one line, with the file's name."""
    try:
        return JobFile(path).read_only
    except JobFileError as error:
        lines = str(error).splitlines()
        return "its header was changed" if len(lines) == 1 and lines[0].startswith(str(path)) else str(error)


def test_a_file_with_a_flipped_header_is_read_only_or_refused(tmp_path: Path) -> None:
    """What opens with a changed header takes no entry; the rest is refused on one line."""
    data = file_with(tmp_path, WORK).path.read_bytes()
    path = tmp_path / "flipped.job.toml"
    for at in range(0, len(data) - 2000, 29):
        path.write_bytes(data[:at] + bytes([data[at] ^ 1 << at % 8]) + data[at + 1 :])
        assert read_only_or_refused(path) == "its header was changed"


def test_an_altered_entry(tmp_path: Path) -> None:
    """A changed digit costs that entry, which is named by line and hash; those behind it are whole."""
    path = changed(tmp_path, lambda parts: [*parts[:2], parts[2].replace(b"965.2", b"965.3"), *parts[3:]])
    parts = parts_of(tmp_path)
    assert found(path) == [(line_of(parts, 2), "altered")]
    opened = JobFile(path)
    assert [block.kind for block in opened.blocks] == ["sound", "altered", "sound", "sound", "sound"]
    assert [one.name for one in opened.job.all_open if not one.member] == [opened.blocks[1].hash]
    assert opened.read_only is None


def test_stray_text_is_blamed_on_nobody(tmp_path: Path) -> None:
    """Text between blocks is stray at its own line, and every entry stays whole."""
    path = changed(tmp_path, lambda parts: [*parts[:2], b"\n# seen by the owner\n", *parts[2:]])
    assert found(path) == [(line_of(parts_of(tmp_path), 2) - 1, "stray")]
    assert len(JobFile(path).job.view.entries) == len(WORK)


def test_a_missing_entry(tmp_path: Path) -> None:
    """An entry taken out is missing where the one that follows it stands."""
    path = changed(tmp_path, lambda parts: [*parts[:2], *parts[3:]])
    parts = parts_of(tmp_path)
    assert found(path) == [(line_of(parts, 2), "missing")]


def test_a_doubled_entry(tmp_path: Path) -> None:
    """The same block twice is doubled, at the line of the second; it counts once."""
    path = changed(tmp_path, lambda parts: [*parts[:3], parts[2], *parts[3:]])
    assert found(path) == [(line_of(parts_of(tmp_path), 3), "doubled")]
    assert len(JobFile(path).job.view.entries) == len(WORK)


def test_out_of_order(tmp_path: Path) -> None:
    """Two blocks changed about: the later line is out of order, and the state is the same."""
    path = changed(tmp_path, lambda parts: [*parts[:2], parts[3], parts[2], *parts[4:]])
    [(line, what)] = found(path)
    assert what == "out of order"
    parts = parts_of(tmp_path)
    assert line == line_of([*parts[:2], parts[3], parts[2], *parts[4:]], 3)
    assert JobFile(path).job.places.reading(DONOR, "spacing").value == 1012


def test_a_torn_end(tmp_path: Path) -> None:
    """A last block without its end is torn, at its line."""
    path = changed(tmp_path, lambda parts: [*parts[:-1], parts[-1][:-20]])
    assert found(path) == [(line_of(parts_of(tmp_path), 5), "torn")]


def test_several_at_once_come_in_the_order_of_lines(tmp_path: Path) -> None:
    """Altered, stray and torn in one file are told apart, each at its line."""
    path = changed(
        tmp_path,
        lambda parts: [
            parts[0],
            parts[1].replace(b"1012", b"1013"),
            b"\nstray\n",
            *parts[2:-1],
            parts[-1][:-1],
        ],
    )
    assert [what for _, what in found(path)] == ["altered", "stray", "torn"]
    lines = [line for line, _ in found(path)]
    assert lines == sorted(lines)


@pytest.mark.parametrize("at", [1, 2, len(WORK)])
def test_appending_behind_an_altered_entry(tmp_path: Path, at: int) -> None:
    """Entries added to a file with an altered one are in order, wherever the altered one stands."""
    path = changed(
        tmp_path, lambda parts: [*parts[:at], parts[at].replace(b"by = ", b"by =  "), *parts[at + 1 :]]
    )
    opened = JobFile(path)
    for more in range(2):
        record(opened, None, note(), number=20 + more)
    assert [what for _, what in found(path)] == ["altered"]
    lost = opened.blocks[at - 1].hash
    assert lost in {parent for entry in opened.job.view.entries for parent in entry.follows}


def test_an_altered_entry_taken_in(tmp_path: Path) -> None:
    """Its acts typed again beside the taking-in count, and what couldn't be read is open no more."""
    path = changed(tmp_path, lambda parts: [*parts[:2], parts[2].replace(b"965.2", b"965.3"), *parts[3:]])
    opened = JobFile(path)
    lost = opened.blocks[1].hash
    record(
        opened,
        "pin-spacing.recipient",
        lambda draft: mending.take_in(draft, lost),
        read("spacing", "38 in"),
        number=20,
    )
    assert lost not in [one.name for one in opened.job.all_open]
    assert opened.job.places.reading("pin-spacing.recipient", "spacing").written == 965.2
    assert [what for _, what in found(path)] == ["altered"]


def sound(body: bytes) -> bytes:
    """A block with the hash that its bytes give, whatever they say."""
    data = b"\n[[entry]]\n" + body
    return data + f'hash = "{digest(data)}"\n'.encode()


def plain(did: bytes, n: bytes = b"2", by: bytes = b'"Wim"', more: bytes = b"") -> bytes:
    return (b'id = "aaaaaaaaaaaaaaaa"\nn = ' + n + b"\nat = 2031-04-01T08:00:00+01:00\nby = " + by
            + b"\ndid = " + did + b"\nfollows = []\n" + more)  # fmt: skip


HOSTILE: dict[str, bytes] = {
    "no n": b'id = "aaaaaaaaaaaaaaaa"\nat = 2031-04-01T08:00:00+01:00\nby = "W"\ndid = []\nfollows = []\n',
    "n a word": plain(b"[]", n=b'"two"'),
    "n true": plain(b"[]", n=b"true"),
    "n nought": plain(b"[]", n=b"0"),
    "n beyond bounds": plain(b"[]", n=b"9" * 4000),
    "n a fraction": plain(b"[]", n=b"2.5"),
    "by a number": plain(b"[]", by=b"7"),
    "at without offset": plain(b"[]").replace(b"+01:00", b""),
    "at a word": plain(b"[]").replace(b"2031-04-01T08:00:00+01:00", b'"now"'),
    "5000 deep": plain(b"[" * 5000 + b"]" * 5000),
    "5000 deep behind a literal string": plain(b"['\"', " + b"[" * 5000 + b"]" * 5000 + b", '\"']"),
    "a key of 5000 parts": plain(b"[{ " + b".".join([b"a"] * 5000) + b" = 1 }]"),
    "a key of 5000 quoted parts": plain(b"[{ " + b" . ".join([b'"a"'] * 5000) + b" = 1 }]"),
    "a huge line": plain(b'[{ note = "' + b"x" * 70_000 + b'" }]'),
    "did a table": plain(b'{ note = "x" }'),
    "did words": plain(b'["reading", "note"]'),
    "did numbers": plain(b"[1, 2]"),
    "did of lists": plain(b'[["note"]]'),
    "follows a word": plain(b"[]").replace(b"follows = []", b'follows = "abc"'),
    "follows numbers": plain(b"[]").replace(b"follows = []", b"follows = [1]"),
    "no TOML": b"entry ][ = nonsense\n",
    "not UTF-8": plain(b'[{ note = "\xff\xfe" }]'),
    "a key twice": plain(b"[]", more=b"n = 3\n"),
    "an integer of 5000 digits": plain(b"[{ worked = " + b"9" * 5000 + b" }]"),
}
UNKNOWN_ACTS: dict[str, bytes] = {
    "nan": plain(b'[{ reading = "spacing", value = nan, unit = "mm", replaces = [] }]'),
    "inf": plain(b'[{ reading = "spacing", value = -inf, unit = "mm", replaces = [] }]'),
    "nan in on": plain(b"[{ finished = true, on = { a = nan } }]"),
    "a value of tables": plain(b'[{ reading = "spacing", value = { a = 1 } }]'),
    "a list of words as value": plain(b'[{ reading = "spacing", value = ["a"], replaces = [] }]'),
    "another kind": plain(b'[{ painted = "green" }]'),
    "another key": plain(b"[]", more=b'weather = "wet"\n'),
    "a key too many": plain(b'[{ note = "x", colour = "green" }]'),
    "yes a word": plain(b'[{ tick = "scribed", yes = "yes", replaces = [] }]'),
    "on a list": plain(b"[{ finished = true, on = [1] }]"),
    "closes numbers": plain(b"[{ closes = [1, 2] }]"),
    "an empty table": plain(b"[{}]"),
}


@pytest.mark.parametrize("name", [*HOSTILE, *UNKNOWN_ACTS])
def test_a_hostile_block_is_unknown_and_the_file_read_only(tmp_path: Path, name: str) -> None:
    """A sound block that is nonsense is kept and remarked, costs no other entry, and nothing is written behind it."""
    file = file_with(tmp_path, WORK)
    with file.path.open("ab") as raw:
        raw.write(sound((HOSTILE | UNKNOWN_ACTS)[name]))
    opened = JobFile(file.path)
    assert opened.blocks[-1].kind == "sound"
    assert [(one.what, one.remark) for one in intact(file.path) if one.what == "unknown"] == [
        ("unknown", True)
    ]
    assert opened.job.places.reading(DONOR, "spacing").value == 1012
    assert all(opened.job.state(step) for step in opened.job.steps)
    assert opened.read_only is not None
    with pytest.raises(NotRecorded, match=r"reading only"):
        record(opened, None, note(), number=30)


def test_a_file_that_turns_unknown_meanwhile_takes_nothing(tmp_path: Path) -> None:
    """What a newer program added since the file was opened is seen before the append, not after it."""
    file = file_with(tmp_path, WORK)
    with file.path.open("ab") as raw:
        raw.write(sound(UNKNOWN_ACTS["another kind"]))
    before = file.path.read_bytes()
    with pytest.raises(NotRecorded, match=r"reading only"):
        record(file, None, note(), number=30)
    assert file.path.read_bytes() == before


def test_a_known_act_with_values_of_its_kind_is_taken(tmp_path: Path) -> None:
    """The same blocks with sound values are entries like any other: it isn't the writer that is refused."""
    file = file_with(tmp_path, WORK)
    with file.path.open("ab") as raw:
        raw.write(sound(plain(b'[{ reading = "spacing", value = 9, unit = "mm", replaces = [] }]')))
    assert JobFile(file.path).read_only is None


def test_the_same_id_under_two_hashes_is_a_remark(tmp_path: Path) -> None:
    """An id that stands twice with different content is remarked and is no damage."""
    file = file_with(tmp_path, WORK[:1])
    [first] = file.job.view.entries
    again = replace(first, n=2, follows=(first.hash,), did=(NoteAct("another"),))
    file.path.write_bytes(file.path.read_bytes() + write_entry(again)[0])
    assert [(one.what, one.remark) for one in intact(file.path)] == [("twice", True)]


few = settings(max_examples=150, derandomize=True, database=None, deadline=None)
pieces = st.sampled_from([
    b"\n[[entry]]\n", b"\n", b'hash = "0123456789abcdef0123456789abcdef"\n', b"\n[header]\n", b"[job]\n", b"\x00\xff",
    b'did = [{ note = "x" }]\n', b"\r\n", b"n = 1\n", b'"""', b"'", b"[" * 40, sound(plain(b'[{ note = "x" }]')),
])  # fmt: skip


@few
@given(st.lists(pieces | st.binary(max_size=8), max_size=12).map(b"".join))
def test_any_bytes_are_taken_apart(data: bytes) -> None:
    """Whatever a file holds, it is taken apart without an error and no byte but a forgiven CR of it is dropped."""
    whole = scan(data)
    header = whole.header.data if whole.header else b""
    parts = header + b"".join(block.data for block in whole.blocks)
    assert parts.replace(b"\r\n", b"\n") == data.replace(b"\r\n", b"\n")
    assert all(one.line >= 1 and one.what for one in examine(whole))


@few
@given(st.lists(pieces | st.binary(max_size=8), max_size=12).map(b"".join))
def test_any_bytes_behind_a_header_open(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    """Behind a sound header any bytes open, and every question about the job has an answer."""
    folder = tmp_path_factory.mktemp("any")
    file = new_file(folder)
    with file.path.open("ab") as raw:
        raw.write(data)
    opened = JobFile(file.path)
    assert all(opened.job.state(step) for step in opened.job.steps)
    assert isinstance(opened.job.open_conditions, list)
    followed = file.refresh() and [block.data for block in file.blocks]
    assert not data or followed == [block.data for block in opened.blocks]
