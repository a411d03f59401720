"""A template that stands in many jobs is read once, and each header says what it says read as a whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.job.about import About
from jobtrack.store.machine.jobs_folder import job_paths, opened, shipped
from jobtrack.store.text import header
from jobtrack.store.text.writing import write_header
from jobtrack.template.load import parse
from tests.support.builders import new_file, template

HEADER = (
    write_header({"id": "job-1", "title": "Bay horse-box"}, template()).partition(b"\n[header]\n")[0] + b"\n"
)
SHIPPED = [parse(path)[0] for path in sorted(shipped("job_templates").glob("*.toml"))]


def whole(data: bytes) -> About | str:
    """What a header says read as a whole, or why it can't be understood."""
    try:
        return header._read_whole(data, "0" * 32)
    except header.HeaderError as error:
        return f"{error.line}: {error}"


def as_read(data: bytes) -> About | str:
    """The same by way of what is kept."""
    try:
        return header.read_header(data, "0" * 32)
    except header.HeaderError as error:
        return f"{error.line}: {error}"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"format = 1", b"format = 1"),
        (b"format = 1", b"format = 2"),
        (b"format = 1", b"format = true"),
        (b"format = 1", b"format = 1.0"),
        (b"format = 1\n", b""),
        (b"[job]", b"more = 1\n[job]"),
        (b"[job]", b"template.id = 'x'\n[job]"),
        (b"[job]", b"[template.given.x]\nask = 'x'\n[job]"),
        (b'title = "Bay horse-box"', b"title = 1"),
        (b'title = "Bay horse-box"', b'title = """\n[template]\n"""'),
        (b'title = "Bay horse-box"', b"title = '''\n[template]\n"),
        (b'title = "Bay horse-box"', b"title = 'x' # \n[template]\n# "),
        (b"\n[template]\n", b"\n[template]\n[template]\n"),
        (b"\n[template]\n", b"\n[template]\n'''"),
        (b"\n[template]\n", b"\n[ template ]\n"),
        (b"\n[template]\n", b"\n[template]\n\xff"),
        (b"\n[template]\n", b"\n[template]\nunheard_of = 1\n"),
        (b"\n[template]\n", b"\n[template]\ntitle.x = 1\n"),
    ],
)
def test_in_parts_as_in_one(old: bytes, new: bytes) -> None:
    """Whatever stands in a header, its parts say the same as the whole, the first time and again."""
    data = HEADER.replace(old, new, 1)
    assert old in HEADER
    assert as_read(data) == as_read(data) == whole(data)


@pytest.mark.parametrize(
    "end", [b"\n[job]\nid = 'x'\n", b"\n[job.more]\n", b"\n[other]\nx = 1\n", b"\n[template]\n"]
)
def test_what_stands_behind_a_template(end: bytes) -> None:
    """A table behind the template that isn't the template's keeps the header from being read in parts."""
    data = HEADER + end
    assert as_read(data) == as_read(data) == whole(data)


@pytest.mark.parametrize("data", SHIPPED, ids=lambda data: str(data["id"]))
def test_shipped_templates_are_read_in_parts(data: dict[str, object]) -> None:
    """A header that this program wrote is read by way of what is kept, and says the same."""
    raw = write_header({"id": "a", "title": "b"}, data).partition(b"\n[header]\n")[0] + b"\n"
    assert header._with_known_template(raw, "0" * 32) == whole(raw)


def test_one_plan_for_all_jobs_of_a_template(tmp_path: Path) -> None:
    """Two jobs of one template share what was read of it; each has its own id and title."""
    new_file(tmp_path, "one")
    new_file(tmp_path, "two")
    first, second = (one.file for one in map(opened, job_paths(tmp_path)))
    assert first is not None
    assert second is not None
    assert first.job.about.plan is second.job.about.plan
