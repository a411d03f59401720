"""The settings file: what the app goes by, one line for each mistake in it, and nothing that stops the app."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import tomli
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from jobtrack.app.own_keys import usable
from jobtrack.cli import app
from jobtrack.cli.schema import schema_of
from jobtrack.schema.fields import known_keys
from jobtrack.schema.published import model_of
from jobtrack.store.machine.settings import LARGEST, Settings, read_settings, settings_file
from tests.support.cli_calls import Shop, one_line


@pytest.fixture
def settings(empty_shop: Shop) -> Path:
    """Where the settings file of this test stands, not made yet."""
    path = settings_file()
    assert not path.exists()
    path.parent.mkdir(parents=True)
    return path


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Path, str | None]]:
    """With what the app was run, instead of running it."""
    calls: list[tuple[Path, str | None]] = []

    def run(path: Path, by: str | None, settings: Settings, first: bool = False) -> int:
        calls.append((path, by))
        return 0

    monkeypatch.setattr(app, "run", run)
    monkeypatch.setattr(app, "run_job", run)
    return calls


def test_without_a_file_nothing_is_set(empty_shop: Shop, tmp_path: Path) -> None:
    """A missing file, and an empty one, are no mistake."""
    (tmp_path / "empty.toml").write_text("")
    for found in (
        read_settings(),
        read_settings(tmp_path / "no.toml"),
        read_settings(tmp_path / "empty.toml"),
    ):
        assert (found.settings, found.mistakes) == (Settings(), ())


def test_the_app_goes_by_folder_and_name(
    empty_shop: Shop, settings: Path, opened: list[tuple[Path, str | None]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both are obeyed where nothing else says otherwise."""
    monkeypatch.delenv("JOBTRACK_FOLDER")
    monkeypatch.setenv("HOME", str(empty_shop.folder))
    settings.write_text('folder = "~/bench"\nby = "Wim Harrow"\n')
    bench = empty_shop.folder / "bench"
    empty_shop.done()
    empty_shop.done("open", "hook.job.toml")
    assert opened == [(bench, "Wim Harrow"), (bench / "hook.job.toml", "Wim Harrow")]
    assert bench.is_dir()


def test_options_and_the_variable_win(
    empty_shop: Shop, settings: Path, opened: list[tuple[Path, str | None]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """--folder before JOBTRACK_FOLDER before the settings; --by before the settings."""
    here = empty_shop.folder
    settings.write_text(f'folder = "{here}/set"\nby = "Wim"\n')
    monkeypatch.setenv("JOBTRACK_FOLDER", f"{here}/variable")
    empty_shop.done("--by", "Ada")
    empty_shop.done("--folder", here / "option")
    assert opened == [(here / "variable", "Ada"), (here / "option", "Wim")]
    assert not (here / "set").exists()


def test_a_job_named_by_its_file_is_opened_with_the_name_set(
    shop: Shop, opened: list[tuple[Path, str | None]]
) -> None:
    """`open FILE` needs no folder."""
    settings_file().parent.mkdir(parents=True)
    settings_file().write_text('by = "Wim"\n')
    shop.done("open", shop.job)
    assert opened == [(shop.job, "Wim")]


MISTAKES: list[tuple[str, int, str]] = [
    ('by = "Wim"\nfoldr = "~/jobs"\n', 2, "foldr: unknown key foldr; Did you mean folder?"),
    ('\n[shop]\nunits = "inch"\n', 2, "shop: unknown key shop; Known here: folder, by, photos, looks, units, motion, "
     "bell, keys"),
    ('by = "Wim"\nlooks = "drak"\n', 2, 'looks: here stands a text (drak), wanted is "paper" or "dark" or '
     '"high-contrast"; Write "paper" or "dark" or "high-contrast"'),
    ('units = "us"', 1, 'units: here stands a text (us), wanted is "metric" or "US"; Write "metric" or "US"'),
    ("motion = no", 1, "here stands an answer that TOML doesn't know; Write false"),
    ('bell = "no"', 1, "bell: here stands a text (no), wanted is true or false; Write true or false, without quotes"),
    ("by = 5\n", 1, "by: here stands a number (5), wanted is a name in quotes of at most 200 characters, as \"Wim\"; "
     "Write a name in quotes of at most 200 characters, as \"Wim\""),
    ('by = "  "\n', 1, "by: here stands a text (  ), wanted is a name in quotes of at most 200 characters, "
     "as \"Wim\"; Write a name in quotes of at most 200 characters, as \"Wim\""),
    ('folder = "jobs"\n', 1, "folder: here stands a text (jobs), wanted is a whole path in quotes, as \"~/jobs\"; "
     "Write a whole path in quotes, as \"~/jobs\""),
    ("by = Wim\n", 1, 'here stands a text without quotes; Write "Wim"'),
    ('by = "Wim\n', 1, 'a text has no end, or a control character in it; Put the quote " at its end'),
    ("a = " + "[" * 20 + "]" * 20, 1,
     "lists or tables too deep in one another; no settings need that, shorten it"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "why"), MISTAKES, ids=[why[:30] for _, _, why in MISTAKES])
def test_a_mistake_is_one_line_and_stops_nothing(
    empty_shop: Shop, settings: Path, opened: list[tuple[Path, str | None]], text: str, line: int, why: str
) -> None:
    """The app says it on stderr and runs; `schema settings` says it too, with status 2. The file stays."""
    settings.write_text(text)
    ended = empty_shop.done()
    assert one_line(ended.err) == f"{settings}:{line}: {why}"
    assert opened == [(empty_shop.folder / "jobs", "Wim" if 'by = "Wim"' in text else None)]
    looked = empty_shop.run("schema", "settings")
    assert (looked.status, looked.err) == (2, ended.err)
    assert json.loads(looked.out) == schema_of("settings")
    assert settings.read_text() == text


def test_each_mistake_has_its_line_and_costs_its_own_key(settings: Path) -> None:
    """What is sound beside it is used."""
    settings.write_text('by = "Wim"\nfolder = 5\ncolour = "red"\n')
    found = read_settings()
    assert found.settings == Settings(by="Wim")
    assert [mistake.removeprefix(f"{settings}:")[:2] for mistake in found.mistakes] == ["3:", "2:"]


def test_a_file_that_is_no_text_is_said(settings: Path) -> None:
    """A folder, another encoding, a file too large: one line each."""
    settings.mkdir()
    assert "can't be read" in read_settings().mistakes[0]
    settings.rmdir()
    settings.write_bytes(b'# a\nby = "M\xfcller"\n')
    assert read_settings().mistakes == (f"{settings}:2: not UTF-8 text; save the file as UTF-8",)
    settings.write_bytes(b"#" * (LARGEST + 1))
    assert "larger than 64 KiB" in read_settings().mistakes[0]


def test_commands_that_record_want_the_name_each_time(shop: Shop) -> None:
    """Nobody records under a name that stands in a file and isn't seen: only the app shows whose it is."""
    settings_file().parent.mkdir(parents=True)
    settings_file().write_text('by = "Wim"\n')
    ended = shop.run("record", shop.job, "--note", "Rain.")
    assert ended.status == 2
    assert "--by" in one_line(ended.err)


VALUES: list[Any] = [
    "x",
    "dark",
    "US",
    "US\n",
    "",
    " ",
    "/",
    "~",
    "~/jobs",
    "~wim/jobs",
    "C:/jobs",
    "x" * 201,
    "/" + "x" * 5000,
    5,
    True,
    [],
    {},
]


@pytest.mark.parametrize("key", [*known_keys(Settings), "odd"])
@pytest.mark.parametrize("value", VALUES, ids=lambda value: repr(value)[:12])
def test_reader_model_and_schema_say_the_same(settings: Path, key: str, value: Any) -> None:
    """Each value in the place of each key."""
    settings.write_text(f"{key} = {json.dumps(value)}\n")
    sound = not read_settings().mistakes
    data = tomli.loads(settings.read_text())
    assert Draft202012Validator(schema_of("settings")).is_valid(data) is sound
    try:
        model_of(Settings).model_validate(data)
    except ValidationError:
        assert not sound
    else:
        assert sound


KEYS: list[tuple[str, str]] = [
    ('finnish = "k"', "keys.finnish: no action is called finnish; Did you mean finish?"),
    ('zzzz = "k"', "keys.zzzz: no action is called zzzz; The page of all keys names each"),
    ("note = 5", 'keys.note: here stands a number (5), wanted is a text in quotes; Write "5", in quotes'),
    ('note = "7"', "keys.note: 7 begins a number; Choose a letter"),
    ('note = "*"', "keys.note: * answers a check on the number pad; Choose a letter"),
    ('note = "ctrl+t"', 'keys.note: ctrl+t is no key that is pressed alone; Write one letter, or "space"'),
    ('note = "f5"', 'keys.note: f5 is no key that is pressed alone; Write one letter, or "space"'),
    ('note = " "', 'keys.note:   is no key that is pressed alone; Write one letter, or "space"'),
    ('note = "T"', 'keys.note: T takes two keys, Shift and t; Write "t"'),
    ('leave = "z"', "keys.leave: Escape means the same on every page and stays; Take this line out"),
    ('note = ","', "keys.note: , is the key of units on the same page; Set another, or another for units"),
    ('note = "g"', "keys.note: g is the key of go-on on the same page; Set another, or another for go-on"),
    ('note = "é"\nfinish = "é"', "keys.finish: é is the key of note on the same page; Set another, or another "
     "for note"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "why"), KEYS, ids=[why[:40] for _, why in KEYS])
def test_a_key_that_cannot_be_had_costs_itself_alone(settings: Path, text: str, why: str) -> None:
    """One line says where and how to mend it; the keys beside it are as set."""
    settings.write_text(f'by = "Wim"\n[keys]\nundo = "\u00e4"\n{text}\n')
    got, mistakes = usable(read_settings())
    line = 3 + len(text.splitlines())
    assert mistakes == [f"{settings}:{line}: {why}"]
    assert (got.by, got.keys["undo"]) == ("Wim", "\u00e4")
    assert len(got.keys) == len(text.splitlines())


def test_two_keys_that_change_places_are_no_mistake(settings: Path) -> None:
    """Each is free because the other has moved; where one can't move, neither does."""
    settings.write_text('[keys]\nfinish = "g"\ngo-on = "f"\n')
    assert usable(read_settings()) == (Settings(keys={"finish": "g", "go-on": "f"}), [])
    settings.write_text('[keys]\nfinish = "g"\ngo-on = "F5"\n')
    got, mistakes = usable(read_settings())
    assert got.keys == {}
    assert [one.split(": ")[1] for one in mistakes] == ["keys.go-on", "keys.finish"]


def test_the_app_is_run_with_what_can_be_used(
    empty_shop: Shop, settings: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each mistake is a line on stderr, here and from `schema settings`."""
    ran: list[Settings] = []

    def run(path: Path, by: str | None, settings: Settings, first: bool = False) -> int:
        ran.append(settings)
        return 0

    monkeypatch.setattr(app, "run", run)
    settings.write_text('looks = "dark"\nbell = false\nmotion = 1\n[keys]\nundo = "9"\nnote = "é"\n')
    ended = empty_shop.done()
    assert [line.split(": ")[1] for line in ended.err.splitlines()] == ["motion", "keys.undo"]
    assert ran == [Settings(looks="dark", bell=False, keys={"note": "é"})]
    looked = empty_shop.run("schema", "settings")
    assert (looked.status, looked.err) == (2, ended.err)
