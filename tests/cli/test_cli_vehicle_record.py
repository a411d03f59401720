"""`vehicle-record`: what will stand on it is shown, somebody says yes, and only then is it written."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from tests.support.cli_calls import Ended, Shop

ANSWERED = {"yes": "yes\n", "y": "y\n"}


@pytest.fixture
def truck(shop: Shop) -> Shop:
    """A job with a private note, begun."""
    shop.record("--private-note", "owner in a hurry")
    shop.record("--agreed", "Ruth=two hours more", "--also", "amount=260")
    return shop


def answered(shop: Shop, monkeypatch: pytest.MonkeyPatch, typed: str, *more: object) -> Ended:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    return shop.run("vehicle-record", shop.job, *more)


@pytest.mark.parametrize("ending", [".html", ".md", ".txt"])
def test_it_is_written_after_a_yes(truck: Shop, monkeypatch: pytest.MonkeyPatch, ending: str) -> None:
    """The list first, then the question, then the sheet."""
    out = truck.folder / f"record{ending}"
    ended = answered(truck, monkeypatch, "yes\n", VEHICLE, "--out", out)
    assert ended.status == 0, ended.err
    rows = ended.out.splitlines()
    assert rows[0].startswith("On the record of ")
    assert any(row.startswith("Left off (private-notes): private note") for row in rows)
    assert any(row.startswith(f"Write this as {out}? Type yes, then Enter:") for row in rows)
    assert rows[-1] == f"Written: {out}"
    text = " ".join(out.read_text("utf-8").split())
    assert "This is what was written down." in text
    assert "owner in a hurry" not in text
    assert "260" not in text


VEHICLE = "recipient"


def test_what_is_marked_for_it_stands_there(truck: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Named in the list, and on the sheet."""
    out = truck.folder / "record.txt"
    marks = ("--including", "private-notes", "--including", "prices")
    ended = answered(truck, monkeypatch, "y\n", VEHICLE, "--out", out, *marks)
    assert "In it, as marked: private note" in ended.out
    assert "owner in a hurry" in out.read_text("utf-8")
    assert "260" in out.read_text("utf-8")


@pytest.mark.parametrize("typed", ["no\n", "\n", "", "yes please\n"])
def test_without_a_yes_nothing_is_written(truck: Shop, monkeypatch: pytest.MonkeyPatch, typed: str) -> None:
    """Nor at the end of the input; exit 2, one line."""
    out = truck.folder / "record.html"
    ended = answered(truck, monkeypatch, typed, VEHICLE, "--out", out)
    assert (ended.status, out.exists(), len(ended.err.splitlines())) == (2, False, 1)


def test_what_cant_be_is_said_in_one_line(truck: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another vehicle, another ending, a file that is there, a private thing that there isn't."""
    there = truck.folder / "there.html"
    there.write_text("mine")
    for more, said in (
        (
            ("owner", "--out", truck.folder / "a.html"),
            "owner is no vehicle of this job; name one of recipient, donor",
        ),
        ((VEHICLE, "--out", truck.folder / "a.pdf"), ".html"),
        ((VEHICLE, "--out", there), "is there already"),
        ((VEHICLE, "--out", truck.folder / "a.html", "--including", "names"), "names"),
    ):
        ended = answered(truck, monkeypatch, "yes\n", *more)
        assert (ended.status, len(ended.err.splitlines())) == (2, 1)
        assert said in ended.err
    assert there.read_text() == "mine"
    assert list(Path(truck.folder).glob("a.*")) == []
