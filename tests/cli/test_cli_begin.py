"""`begin`: a job file from a template, or one line and no file."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from jobtrack.store.copies.intact import intact
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.load import load
from tests.support.cli_calls import TEMPLATE, Shop, entries, one_line


def test_begin_writes_a_job_with_its_template(empty_shop: Shop) -> None:
    """The header holds format, the job's id and title, and the whole template; the file is intact."""
    empty_shop.begin("--title", "Bay barrow")
    data = tomllib.loads(empty_shop.job.read_text(encoding="utf-8"))
    assert data["format"] == 1
    assert re.fullmatch("[a-z2-7]{16}", data["job"]["id"])
    assert data["job"]["title"] == "Bay barrow"
    assert data["template"] == tomllib.loads(TEMPLATE.read_text(encoding="utf-8"))
    assert intact(empty_shop.job) == []


def test_a_job_takes_its_templates_title(empty_shop: Shop) -> None:
    """Without a title the job is called as its template is."""
    empty_shop.begin()
    assert tomllib.loads(empty_shop.job.read_text(encoding="utf-8"))["job"]["title"] == "Tow hook moved"


def test_the_first_entry_holds_the_givens(empty_shop: Shop) -> None:
    """Givens as typed, `?` as unknown, defaults too, and what must be asked first is open."""
    empty_shop.begin("--given", "hook-height=17 1/2 in", "--given", "donor.name=Ostrick [red]",
                     "--given", "owner-there=yes", "--given", "wanted-on=?")  # fmt: skip
    [entry] = entries(empty_shop.job)
    assert entry["by"] == "Wim"
    assert entry["n"] == 1
    assert entry["did"] == [
        {"given": "hook-height", "value": 444.5, "unit": "mm", "typed": "17 1/2 in", "replaces": []},
        {"given": "donor.name", "value": "Ostrick [red]", "typed": "Ostrick [red]", "replaces": []},
        {"given": "owner-there", "value": True, "typed": "yes", "replaces": []},
        {"given": "wanted-on", "unknown": True, "replaces": []},
        {"given": "finish", "value": "plain", "typed": "plain", "replaces": []},
        {"given": "donor.plate", "value": 150.0, "unit": "kg", "typed": "150", "replaces": []},
        {"opens": "ask-first"},
    ]


def test_a_shipped_template_is_named_by_its_id(empty_shop: Shop) -> None:
    """A template's id is enough, and the start says what the program can't know."""
    title = load(shipped("job_templates") / "axle-exchange.toml")[0].title
    ended = empty_shop.done("begin", "axle-exchange", "--out", empty_shop.job, "--by", "Wim")
    assert ended.out.startswith(f"Begun: {title}, in ")
    assert "This program records and calculates." in ended.out
    assert "they win." in ended.out


def test_begin_never_overwrites(shop: Shop) -> None:
    """A file that is there stays as it is."""
    before = shop.job.read_bytes()
    ended = shop.run("begin", TEMPLATE, "--out", shop.job, "--by", "Wim")
    assert ended.status == 2
    assert one_line(ended.err) == f"{shop.job}: is there already; name a file that isn't"
    assert shop.job.read_bytes() == before


def test_a_template_with_mistakes_is_refused(empty_shop: Shop) -> None:
    """The first mistake with file and line, how many there are, and no file."""
    bad = empty_shop.folder / "bad.toml"
    text = TEMPLATE.read_text(encoding="utf-8").replace(
        'unit = "mm", with = "steel rule"', 'unit = "furlong"'
    )
    bad.write_text(text.replace('closes = ["hook-loose"]', 'closes = ["hook-lose"]'), encoding="utf-8")
    ended = empty_shop.run("begin", bad, "--out", empty_shop.job, "--by", "Wim")
    assert ended.status == 2
    assert re.match(rf"{re.escape(str(bad))}:\d+: mistake: ", one_line(ended.err))
    assert "`proofread` lists them" in ended.err
    assert not empty_shop.job.exists()


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("hook-height=tall", "hook-height"),
        ("hook-height=5 kg", "kg"),
        ("hook-height=1,012", "1,012"),
        ("hook-height=", "NAME=VALUE"),
        ("hook-height", "NAME=VALUE"),
        ("=5", "NAME=VALUE"),
        ("hook-higth=400", "hook-height"),
        ("owner-there=perhaps", "yes or no"),
        ("finish=gold", "zinc, plain"),
        ("wanted-on=tomorrow", "2031-04-02"),
        (f"donor.name={'x' * 11000}", "10240 bytes"),
        ("donor.name=\udcff", "UTF-8"),
    ],
)
def test_a_bad_given_leaves_no_file(empty_shop: Shop, given: str, said: str) -> None:
    """What can't be read is named in one line, and nothing is begun."""
    ended = empty_shop.run("begin", TEMPLATE, "--out", empty_shop.job, "--by", "Wim", "--given", given)
    assert ended.status == 2
    assert said in one_line(ended.err)
    assert list(empty_shop.folder.iterdir()) == []


def test_givens_too_long_together_leave_no_file(empty_shop: Shop) -> None:
    """More givens than an entry holds are refused before anything is written."""
    many = [one for number in range(7) for one in ("--given", f"given-{number}={'x' * 8000}")]
    ended = empty_shop.run("begin", TEMPLATE, "--out", empty_shop.job, "--by", "Wim", *many)
    assert ended.status == 2
    assert "together" in one_line(ended.err)
    assert not empty_shop.job.exists()


@pytest.mark.parametrize(("by", "said"), [("", "empty"), ("  ", "empty"), ("x" * 201, "200 characters")])
def test_who_begins_has_a_name(empty_shop: Shop, by: str, said: str) -> None:
    """A name that is empty or too long is refused, and nothing is begun."""
    ended = empty_shop.run("begin", TEMPLATE, "--out", empty_shop.job, "--by", by)
    assert ended.status == 2
    assert said in one_line(ended.err)
    assert not empty_shop.job.exists()


def test_a_job_needs_a_folder(empty_shop: Shop) -> None:
    """A place that isn't there is named."""
    out = Path("no/such/place.job.toml")
    ended = empty_shop.run("begin", TEMPLATE, "--out", out, "--by", "Wim")
    assert ended.status == 2
    assert one_line(ended.err).startswith(f"{out}: can't be written")
