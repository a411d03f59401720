"""Job files from strangers and from newer programs: shown as far as they are understood, never more."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.job_text import job_text
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile, NotRecorded
from jobtrack.store.machine.photos import inside
from jobtrack.store.text import sizes
from jobtrack.store.text.blocks import digest, scan
from tests.support.builders import WORK, file_with, new_file, note, record, template
from tests.support.said import job_problems

Change = Callable[[dict[str, Any]], object]


def header(change: Change) -> bytes:
    """A header changed so, under the right hash."""
    data: dict[str, Any] = {"format": 1, "job": {"id": "j", "title": "T"}, "template": template()}
    change(data)
    body = tomli_w.dumps(data).encode() + b"\n[header]\n"
    return body + f'hash = "{digest(body)}"\n'.encode()


def opened(folder: Path, data: bytes) -> JobFile:
    path = folder / "x.job.toml"
    path.write_bytes(data)
    return JobFile(path)


def entry(n: int, id: str, did: str, follows: str = "") -> bytes:
    """A block with the right hash."""
    text = (f'\n[[entry]]\nid = "{id}"\nn = {n}\nat = 2031-04-02T09:41:07+01:00\nby = "Wim"\n'
            f"did = [{did}]\nfollows = [{follows}]\n")  # fmt: skip
    return text.encode() + f'hash = "{digest(text.encode())}"\n'.encode()


def newer(data: dict[str, Any]) -> None:
    data["format"] = 2
    data["job"]["colour"] = "red"
    data["template"]["format"] = 2
    data["template"]["step"]["mark"]["sketch"] = {"x": 1}


def test_a_newer_format_is_opened_for_reading(tmp_path: Path) -> None:
    """What is understood is shown, what isn't is named, nothing is recorded and nothing rewritten."""
    data = header(newer) + entry(1, "a" * 16, '{ note = "seen" }, { hologram = "x" }')
    file = opened(tmp_path, data)
    assert file.read_only == "its format 2 is newer than this program"
    assert job_problems(file.job)[:3] == [
        "the file has format 2, newer than this program; this list may be incomplete",
        "the header says something under job.colour that this program doesn't know; this list may be incomplete",
        "the header says something under template.step.mark.sketch that this program doesn't know; "
        "this list may be incomplete",
    ]  # fmt: skip
    assert "mark.left" in job_text(file.job)
    with pytest.raises(NotRecorded, match="newer than this program"):
        record(file, None, note())
    assert file.path.read_bytes() == data


def _set(*path: str, to: object) -> Change:
    def change(data: dict[str, Any]) -> None:
        for part in path[:-1]:
            data = data[part]
        data[path[-1]] = to

    return change


HEADERS: dict[str, tuple[Change, str]] = {
    "newer, not understood": (lambda d: d.update(format=2, template={}), "format 2 is newer than this program"),
    "format text": (_set("format", to="1"), "no format of a job file"),
    "format 0": (_set("format", to=0), "no format of a job file"),
    "no job": (lambda d: d.pop("job"), "is no table"),
    "job title a list": (_set("job", "title", to=[1]), "is no title of a job"),
    "job title long": (_set("job", "title", to="x" * 201), "is no title of a job"),
    "template a text": (_set("template", to="x"), "is no table"),
    "unit": (_set("template", "step", "mark", "reading", "moved", "unit", to="furlong"), "no unit 'furlong' is known"),
    "title a number": (_set("template", "title", to=5.5), "title: here stands a number"),
    "nan": (_set("template", "step", "mark", "people", to=float("nan")), "step.mark.people: here stands"),
    "too deep": (_set("template", "x", to=[[[[[[[[[1]]]]]]]]]), "too deep"),
    "large set": (_set("template", "set", to={"side": [f"m{n}" for n in range(11_000)]}), "more than 10000 steps"),
}  # fmt: skip


@pytest.mark.parametrize("what", HEADERS)
def test_a_header_of_nonsense_is_one_line(tmp_path: Path, what: str) -> None:
    """Under the right hash, and still no header of ours: file, line, why."""
    change, why = HEADERS[what]
    with pytest.raises(JobFileError) as caught:
        opened(tmp_path, header(change))
    assert why in str(caught.value)
    assert str(caught.value).startswith(f"{tmp_path / 'x.job.toml'}:")
    assert "\n" not in str(caught.value)


def test_limits_in_units_of_another_kind_are_not_known(tmp_path: Path) -> None:
    """A template that `proofread` would refuse opens; what can't be worked out has no value."""

    def change(data: dict[str, Any]) -> None:
        reading = data["template"]["step"]["mark"]["reading"]["moved"]
        reading |= {"unit": "kg", "off_by": "x %"}

    file = opened(tmp_path, header(change))
    assert job_json(file.job)["steps"]


def test_a_long_row_of_undoings(tmp_path: Path) -> None:
    """Two thousand entries, each undoing the one before: every second one counts, and nothing is too deep."""
    ids = [f"{number:016d}".translate(str.maketrans("0189", "xyzw")) for number in range(2000)]
    did = ['{ note = "first" }', *(f'{{ undoes = "{one}" }}' for one in ids)]
    blocks = (entry(number, one, did[number - 1]) for number, one in enumerate(ids, 1))
    file = opened(tmp_path, header(lambda data: None) + b"".join(blocks))
    assert len(list(file.job.view.counting_entries())) == 1000


def test_thousands_of_hash_lines_without_an_entry(tmp_path: Path) -> None:
    """Each is an altered stretch of its own; its line is right."""
    stray = b'\nhash = "' + b"0" * 32 + b'"\n'
    whole = scan(header(lambda data: None) + stray * 5000)
    assert [block.kind for block in whole.blocks] == ["altered"] * 5000
    assert whole.blocks[1].line - whole.blocks[0].line == 2


def test_an_entry_longer_than_any_is_shown_cut(tmp_path: Path) -> None:
    """A note of thirty thousand letters and a name of five hundred count; they are shown bounded, and said so."""
    block = entry(1, "a" * 16, f'{{ note = "{"x" * 30_000}" }}').replace(b'"Wim"', b'"' + b"W" * 500 + b'"')
    body = block[: block.rfind(b"hash = ")]
    file = opened(tmp_path, header(lambda data: None) + body + f'hash = "{digest(body)}"\n'.encode())
    [found] = file.job.view.entries
    assert len(found.by) < 200
    assert "(cut: 500 characters in the file" in found.by
    assert "(cut: 30000 characters in the file" in str(found.did[0].as_dict()["note"])
    assert file.read_only is None


def test_a_file_too_large_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its size is looked at first."""
    file = file_with(tmp_path, WORK)
    monkeypatch.setattr(sizes, "LARGEST", 100)
    with pytest.raises(JobFileError, match="larger than"):
        JobFile(file.path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_not_read(tmp_path: Path) -> None:
    """A pipe or a device in a job file's place is refused, not waited for."""
    os.mkfifo(tmp_path / "x.job.toml")
    with pytest.raises(JobFileError, match="a device or a pipe"):
        JobFile(tmp_path / "x.job.toml")


@pytest.mark.parametrize(
    "name",
    ["../x", "/etc/passwd", "a/../../x", "C:\\x", "C:x", "..\\x", "a\\b", "", ".", "..", "a//b", "a\x00b", "con.",
     "\x1b[2J", "~/x", "out/x", "file:x"],
)  # fmt: skip
def test_a_photo_stays_inside_its_folder(tmp_path: Path, name: str) -> None:
    """No name in a job file leads out of the job's own folder of photos, not by a link either."""
    file = new_file(tmp_path)
    folder = tmp_path / "bay.photos"
    folder.mkdir()
    (folder / "out").symlink_to(tmp_path.parent)
    assert inside(file.path, name) is None
    assert inside(file.path, "a/b-1.jpg") == folder / "a" / "b-1.jpg"


def test_more_entries_than_any_job_has(tmp_path: Path) -> None:
    """Forty thousand blocks of a few bytes are refused before they are taken apart."""
    data = header(lambda data: None) + b"\n[[entry]]\n" * 40_000
    with pytest.raises(JobFileError, match="more than 32000 entries"):
        opened(tmp_path, data)


def test_a_full_file_is_open_for_reading_only(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Before a file becomes larger than what can be opened again, nothing more is recorded in it."""
    file = file_with(tmp_path, WORK)
    monkeypatch.setattr(sizes, "MOST_ENTRIES", len(WORK))
    with pytest.raises(NotRecorded, match="as large as a job file can be"):
        record(JobFile(file.path), None, note())
    assert len(JobFile(file.path).blocks) == len(WORK)


@pytest.mark.parametrize("line", ["step = {}", "step = []", "step = false", 'typed_at = ""', "typed_at = 0"])
def test_an_empty_value_of_the_wrong_kind(tmp_path: Path, line: str) -> None:
    """An empty table where a step's name belongs makes the entry one of a shape not known here."""
    block = entry(1, "a" * 16, '{ note = "seen" }')
    body = block[: block.rfind(b"hash = ")] + line.encode() + b"\n"
    file = opened(tmp_path, header(lambda data: None) + body + f'hash = "{digest(body)}"\n'.encode())
    assert [(one.kind, one.entry) for one in file.blocks] == [("sound", None)]
    assert file.read_only is not None
