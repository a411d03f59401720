"""`templates`, and a template named by its id: one's own, the jobs folder's, the shipped."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from jobtrack.store.machine.template_folders import own_folder
from tests.support.cli_calls import Shop, one_line
from tests.support.mistakes import SOUND

SHIPPED = "axle-exchange"


def put(folder: Path, id: str, title: str = "My own way") -> Path:
    """A template of an id in a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    text = SOUND.read_text(encoding="utf-8").replace('"bracket"', f'"{id}"', 1)
    path = folder / f"{id}.toml"
    path.write_text(text.replace('"A bracket on a tube"', f'"{title}"', 1), encoding="utf-8")
    return path


def listed(shop: Shop) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(shop.done("templates", "--json").out)
    return found


def test_what_travels_with_the_program_is_listed(empty_shop: Shop) -> None:
    """Id, title, steps, file and where it is of each; in words without more where there is no choice."""
    found = listed(empty_shop)
    assert [list(one) for one in found] == [["id", "title", "steps", "file", "where", "instead_of"]] * len(
        found
    )
    assert {(one["where"], tuple(one["instead_of"])) for one in found} == {("shipped", ())}
    exchange = next(one for one in found if one["id"] == SHIPPED)
    assert tomllib.loads(Path(exchange["file"]).read_text(encoding="utf-8"))["id"] == SHIPPED
    assert exchange["steps"] > 0
    lines = empty_shop.done("templates").out.splitlines()
    assert f"{SHIPPED}: {exchange['title']} ({exchange['steps']} steps)" in lines


def test_whose_each_is_and_whose_place_it_takes(empty_shop: Shop) -> None:
    """Those of one's own first, then those among the jobs; in words and as JSON."""
    shipped = next(one["file"] for one in listed(empty_shop) if one["id"] == SHIPPED)
    own, among = put(own_folder(), SHIPPED), put(empty_shop.folder / "jobs", SHIPPED)
    seat = put(empty_shop.folder / "jobs", "seat")
    found = listed(empty_shop)
    assert [(one["file"], one["where"], one["instead_of"]) for one in found[:2]] == [
        (str(own), "own", [str(among), shipped]),
        (str(seat), "jobs", []),
    ]
    lines = empty_shop.done("templates").out.splitlines()
    assert lines[:2] == [
        f"{SHIPPED}: My own way (3 steps), your own, in place of one from the jobs folder and the shipped one",
        "seat: My own way (3 steps), from the jobs folder",
    ]


def test_the_folder_that_is_asked_for_is_looked_into(empty_shop: Shop, tmp_path: Path) -> None:
    """--folder goes before JOBTRACK_FOLDER, that before the settings; no folder is made."""
    put(tmp_path / "asked", "seat")
    assert "seat" not in [one["id"] for one in listed(empty_shop)]
    assert "seat: " in empty_shop.done("--folder", tmp_path / "asked", "templates").out
    assert not (tmp_path / "jobs").exists()


def test_the_settings_folder_is_looked_into(
    empty_shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where neither an option nor the variable names one; and the data folder isn't made either."""
    monkeypatch.delenv("JOBTRACK_FOLDER")
    assert "seat" not in [one["id"] for one in listed(empty_shop)]
    put(tmp_path / "usual", "seat")
    own_folder().parent.mkdir(parents=True)
    own_folder().with_name("settings.toml").write_text(f'folder = "{tmp_path / "usual"}"\n', encoding="utf-8")
    assert "seat" in [one["id"] for one in listed(empty_shop)]
    assert not (tmp_path / "data").exists()


@pytest.mark.parametrize("more", [(), ("--json",)])
def test_a_broken_one_is_named_and_the_rest_listed(empty_shop: Shop, more: tuple[str, ...]) -> None:
    """Status 1: something was found. One line on stderr with file and line; stdout is as without it."""
    whole = empty_shop.done("templates", *more).out
    own_folder().mkdir(parents=True)
    broken = own_folder() / "tow.toml"
    broken.write_text('format = 1\nid = "tow\n', encoding="utf-8")
    ended = empty_shop.run("templates", *more)
    assert (ended.status, ended.out) == (1, whole)
    assert one_line(ended.err).startswith(f"{broken}:2: ")


def begin(shop: Shop, template: object) -> str:
    """Begin a job from it: what is said."""
    return shop.done("begin", template, "--out", shop.job, "--by", "Wim").out


def test_begin_takes_ones_own_and_says_so(empty_shop: Shop) -> None:
    own = put(own_folder(), SHIPPED)
    lines = begin(empty_shop, SHIPPED).splitlines()
    assert lines[0] == f"The template is your own, in place of the shipped one: {own}."
    assert lines[1].startswith("Begun: My own way, in ")


def test_begin_takes_that_of_the_jobs_folder(empty_shop: Shop) -> None:
    among = put(empty_shop.folder / "jobs", "seat")
    assert begin(empty_shop, "seat").startswith(f"The template is from the jobs folder: {among}.\n")


def test_begin_from_a_shipped_one_or_a_file_needs_no_more_words(empty_shop: Shop, tmp_path: Path) -> None:
    assert begin(empty_shop, SHIPPED).startswith("Begun: ")
    empty_shop.job.unlink()
    put(own_folder(), "seat")
    assert begin(empty_shop, put(tmp_path / "elsewhere", "seat", "Another")).startswith("Begun: Another")


def test_begin_says_that_a_broken_one_of_that_name_is_not_used(empty_shop: Shop) -> None:
    """Otherwise somebody would think that their own figures stand in the job."""
    own = put(own_folder(), SHIPPED)
    own.write_text(own.read_text(encoding="utf-8").replace("format = 1", "format = one"), encoding="utf-8")
    ended = empty_shop.done("begin", SHIPPED, "--out", empty_shop.job, "--by", "Wim")
    assert one_line(ended.err).startswith(f"not used: {own}:1: ")
    assert ended.out.startswith("Begun: ")
    assert "A bracket" not in ended.out


def test_a_mistake_in_ones_own_is_refused(empty_shop: Shop) -> None:
    """It isn't passed over for the shipped one."""
    own = put(own_folder(), SHIPPED)
    own.write_text(
        own.read_text(encoding="utf-8").replace('closes = ["tacked"]', 'closes = ["tackd"]'), encoding="utf-8"
    )
    ended = empty_shop.run("begin", SHIPPED, "--out", empty_shop.job, "--by", "Wim")
    assert ended.status == 2
    assert one_line(ended.err).startswith(f"{own}:")
    assert not empty_shop.job.exists()


def test_an_id_that_is_nowhere(empty_shop: Shop) -> None:
    """All ids in one line, one's own first."""
    put(own_folder(), "seat")
    ended = empty_shop.run("begin", "nowhere", "--out", empty_shop.job, "--by", "Wim")
    assert ended.status == 2
    assert one_line(ended.err).startswith("nowhere: no such template; there are seat, axle-exchange")
