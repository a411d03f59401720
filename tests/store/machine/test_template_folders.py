"""Where templates are found, in which order, and whose place each takes."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.store.machine import template_folders
from jobtrack.store.machine.template_folders import JOBS, OWN, SHIPPED, Shelf, named, own_folder, shelf
from jobtrack.template.load import TemplateError
from tests.support.builders import template_text
from tests.support.mistakes import SOUND


@pytest.fixture
def jobs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of jobs; one template of the id `bracket` travels with the program."""
    own_folder().mkdir(parents=True)
    for name in ("jobs", "shipped"):
        (tmp_path / name).mkdir()
    monkeypatch.setattr(template_folders, "shipped", lambda what: tmp_path / "shipped")
    put(tmp_path / "shipped", "bracket", "The shipped one")
    return tmp_path / "jobs"


def put(folder: Path, id: str, title: str, name: str = "") -> Path:
    """A template in a folder."""
    text = SOUND.read_text(encoding="utf-8").replace('"bracket"', f'"{id}"', 1)
    path = folder / f"{name or id}.toml"
    path.write_text(text.replace('"A bracket on a tube"', f'"{title}"', 1), encoding="utf-8")
    return path


def found(jobs: Path) -> list[tuple[str, str, str, list[str]]]:
    """Of each template its id, its title, where it is, and where those are in whose place it stands."""
    return [(one.id, one.title, one.where, [other.where for other in one.instead_of])
            for one in shelf(jobs).templates]  # fmt: skip


def test_only_those_shipped_where_there_are_no_others(jobs: Path) -> None:
    assert found(jobs) == [("bracket", "The shipped one", SHIPPED, [])]
    own_folder().rmdir()
    assert found(jobs) == [("bracket", "The shipped one", SHIPPED, [])]
    assert found(jobs / "that" / "is" / "not" / "there") == [("bracket", "The shipped one", SHIPPED, [])]


def test_own_before_the_jobs_folder_before_those_shipped(jobs: Path) -> None:
    """Each id once, the first found in the place of the others, in whatever file it stands."""
    put(jobs, "bracket", "Among the jobs", "any-name")
    put(jobs, "seat", "A seat")
    put(own_folder(), "tow", "A tow bar")
    assert found(jobs) == [
        ("tow", "A tow bar", OWN, []),
        ("bracket", "Among the jobs", JOBS, [SHIPPED]),
        ("seat", "A seat", JOBS, []),
    ]
    own = put(own_folder(), "bracket", "My own")
    assert found(jobs)[0] == ("bracket", "My own", OWN, [JOBS, SHIPPED])
    assert named("bracket", shelf(jobs)).file == own


def test_two_of_one_id_in_one_folder(jobs: Path) -> None:
    """The first by its file's name counts, and it is known that there is another."""
    put(own_folder(), "seat", "The later", "b")
    put(own_folder(), "seat", "The earlier", "a")
    assert found(jobs)[0] == ("seat", "The earlier", OWN, [OWN])


def test_jobs_folders_and_other_files_are_no_templates(jobs: Path) -> None:
    """What isn't a TOML file, or is a job file, isn't looked at."""
    (jobs / "a.job.toml").write_text("no job either\n", encoding="utf-8")
    (jobs / "notes.md").write_text("[\n", encoding="utf-8")
    (jobs / "folder.toml").mkdir()
    (own_folder() / "gone.toml").symlink_to(jobs / "nowhere")
    assert shelf(jobs).broken == ()
    assert len(found(jobs)) == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format = 1\ntitle = \n", ":2: "),
        ("[tool]\nname = 1\n", ":1: tool: unknown key tool"),
        (template_text().replace("format = 1", "format = 9", 1), "this format isn't known here"),
        ("\0", ":1: "),
    ],
)
def test_a_broken_one_is_named_and_hides_nothing(jobs: Path, text: str, said: str) -> None:
    """One line with its file; every other is there, that of its id further back too."""
    put(jobs, "seat", "A seat")
    broken = own_folder() / "bracket.toml"
    broken.write_text(text, encoding="utf-8")
    among = shelf(jobs)
    [unread] = among.broken
    assert unread.file == broken
    assert unread.why.startswith(f"{broken}:")
    assert said in unread.why
    assert "\n" not in unread.why
    assert [one.id for one in among.templates] == ["seat", "bracket"]


def test_an_id_that_is_nowhere_is_refused(jobs: Path) -> None:
    """All that there are are named, and that one can't be read, where it may be that."""
    with pytest.raises(TemplateError) as refused:
        named("seat", shelf(jobs))
    assert str(refused.value) == "seat: no such template; there are bracket, or name a file"
    (jobs / "seat.toml").write_text("format = \n", encoding="utf-8")
    with pytest.raises(TemplateError, match="; 1 can't be read, `jobtrack templates` names them"):
        named("seat", shelf(jobs))
    with pytest.raises(TemplateError):
        named("seat", Shelf())
