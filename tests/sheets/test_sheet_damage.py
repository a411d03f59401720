"""What damage of a job file does to the lists of what is open and of the tags: nothing leaves one in silence.

A few dozen seeds here; two thousand behind the marker `whole`, whose figures are printed (`pytest -m whole -s`).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.damage import UNKNOWN
from jobtrack.job.state.job import Job
from jobtrack.pages.job.conditions import all_lines, top_lines
from jobtrack.pages.job.list import open_words
from jobtrack.sheets import job_text as plain
from jobtrack.sheets.as_json import job as as_json
from jobtrack.sheets.as_json.job import job_json
from jobtrack.sheets.handover import against, besides, donts, inside
from jobtrack.sheets.job_text import job_text
from jobtrack.sheets.markdown import md
from jobtrack.sheets.words.sentences import tags
from jobtrack.store.file.reader import JobFileError
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine import last_seen
from jobtrack.store.text.header import read_header
from tests.support.damage import read_once
from tests.support.damaged_samples import Case, case
from tests.support.handed import handed, section


def rows_of(text: str, begins: str) -> str:
    """The rows of a sheet from the one that begins so to the next empty one."""
    found = re.search(rf"^{re.escape(begins)}.*?(?=\n\n|\Z)", text, re.M | re.S)
    return found[0] if found else ""


def on_screen(lines: list[Any]) -> str:
    return " ".join(" ".join(line.plain for line in lines).split())


@dataclass(frozen=True)
class Lists:
    """Every list on which a tag stands, and on which a condition stands in its words, as text."""

    tags: dict[str, str]
    conditions: dict[str, str]

    @classmethod
    def of(cls, job: Job) -> Lists:
        sheet, shown, data = handed(job, "Wim", "Ada"), job_text(job), job_json(job)
        whole = on_screen(all_lines(job, 80))
        tags = {
            "show": rows_of(shown, "Tags for the steering wheel"),
            "json": "\n".join(data["tags"]),
            "json, each": "\n".join(str(one["tag"]) for one in data["open_conditions"]),
            "handover": "\n".join(section(sheet, "Recorded as open, right now")),
            "app, on top": on_screen(top_lines(job, 80)),
            "app, all": whole,
            "app, jobs": open_words(job),
        }
        conditions = {
            "show": rows_of(shown, "Recorded as open:"),
            "json": "\n".join(str(one["text"]) for one in data["open_conditions"]),
            "handover": "\n".join(section(sheet, "Recorded as open, right now")),
            "app, all": whole,
        }
        return cls(tags, conditions)


def stands(text: str, name: str) -> bool:
    return name in text or md(name) in text


def lost(before: Job, after: Job) -> Iterator[str]:
    """What stood on a list and is gone from it, with no line that says that something is unknown."""
    lists = Lists.of(after)
    for where, text in lists.tags.items():
        gone = [one.tag for one in before.open_conditions if one.tag and not stands(text, one.tag)]
        if gone and UNKNOWN not in text:
            yield f"{where}: {gone}"
    unknown = [one.text for one in after.open_conditions if one.since is None]
    for where, text in lists.conditions.items():
        gone = [one.text for one in before.open_conditions if not stands(text, one.text)]
        if gone and not any(stands(text, one) for one in unknown):
            yield f"{where}: {gone}"


def outcome(one: Case) -> tuple[str, list[str]]:
    """How a case came out: refused, or each list as it was, or with something unknown on it; and what was lost."""
    one.path.write_bytes(one.data)
    try:
        after = JobFile(one.path).job
    except JobFileError as error:
        return "refused", [f"refused on several lines: {error}"] if "\n" in str(error) else []
    kept = set(tags(one.before)) <= set(tags(after))
    unknown = any(tag.startswith(UNKNOWN) for tag in tags(after))
    how = f"tags {'kept' if kept else 'lost'}{', unknown said' if unknown else ''}"
    return how, list(lost(one.before, after))


@pytest.fixture
def read_before(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The same header and the same entries are read once."""
    monkeypatch.setattr("jobtrack.store.file.reader.read_header", cache(read_header))
    with read_once():
        yield


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch, read_before: None) -> None:
    """What stands against each step is on none of these lists, and most of the work; it is left out here."""
    for sheet in (as_json, plain, against, besides, donts, inside):
        monkeypatch.setattr(sheet, "step_problems", lambda job, step: [])


def run(seeds: range, folder: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Counter[str], list[str]]:
    met: Counter[str] = Counter()
    found: list[str] = []
    for seed in seeds:
        one = case(seed, folder)
        with monkeypatch.context() as here:
            # What a damaged file ends in isn't remembered for the next case.
            here.setattr(last_seen, "_remember", lambda path, ends: None)
            how, gone = outcome(one)
        met[f"{one.kind}: {how}"] += 1
        found += [f"seed {seed}, {one.kind}: {text}" for text in gone]
    return met, found


@pytest.mark.usefixtures("quick")
def test_damage_takes_nothing_off_a_list_in_silence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of damaged sample jobs each condition and tag stands on every list, or something unknown stands there."""
    met, found = run(range(60), tmp_path, monkeypatch)
    assert found == []
    assert {kind.partition(":")[0] for kind in met} == {"byte", "taken out", "changed about"}


@pytest.mark.whole
@pytest.mark.usefixtures("read_before")
def test_two_thousand_damages_take_nothing_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same of two thousand."""
    met, found = run(range(1000, 3000), tmp_path, monkeypatch)
    print("", *(f"{count} x {kind}" for kind, count in sorted(met.items())), sep="\n")
    assert found == []


@pytest.mark.usefixtures("quick")
def test_without_the_tags_of_what_is_lost_some_would_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The check can fail: where what can't be read has no tag of its own, tags go from every list of them."""
    monkeypatch.setattr("jobtrack.job.state.conditions._lost", _without_tag)
    _, found = run(range(60), tmp_path, monkeypatch)
    where = Counter(text.split(": ")[1] for text in found)
    print("", *(f"{count} x {kind}" for kind, count in sorted(where.items())), sep="\n")
    assert {"show", "json", "handover", "app, on top"} <= where.keys()


def _without_tag(name: str, text: str, tag: str) -> OpenCondition:
    return OpenCondition(name, None, None, text, None, None, None, (name,))
