"""A stranger's text in every free field of a template and of its entries comes out of the card as text."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from typing import Any

import tomli

from jobtrack.job.about import About
from jobtrack.job.acts.base import Act, keys, replace
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.sheets.job_card.sheet import job_card
from jobtrack.sheets.paper.blocks import Sheet
from jobtrack.sheets.paper.forms import ENDINGS, written
from jobtrack.store.text.writing import write_entry
from jobtrack.template.load import build
from jobtrack.template.plan import plan
from jobtrack.units.chosen import METRIC_FIRST
from tests.sheets.paper.test_hostile import markdown_kinds, read
from tests.support.builders import entry_id, minutes
from tests.support.cli_calls import TEMPLATE
from tests.support.example_acts import ACTS
from tests.support.spiteful import NOT_TEXT, RAW, SPITE, spiteful

NAMES_THINGS = NOT_TEXT | {"stage", "member", "part", "on_day", "opens", "due", "photo", "run", "bound"}
"""Keys of acts whose words have to be those of the template, or are no words."""
PLAIN = "word\nword"
"""As many rows as the hostile text has."""


def card(text: str, *, empty: bool = False) -> Sheet:
    """The card of a job in which `text` stands behind every text that isn't a name, of the template and of acts."""
    data = said(tomli.loads(TEMPLATE.read_text(encoding="utf-8")), text)
    job = Job.fold(About("j", f"T {text}", plan(build(data)), "00"), ())
    follows: tuple[str, ...] = ("00",)
    for number, (step, act) in enumerate(acts(job, text)):
        entry = Entry(entry_id(number), number + 1, minutes(number), f"W {text}", (act,), follows, "", step)
        entry = replace(entry, hash=write_entry(entry)[1])
        job, follows = job.apply(entry), (entry.hash,)
    return job_card(job, METRIC_FIRST, datetime(2031, 5, 1, tzinfo=UTC), empty)


def said(value: Any, text: str, key: str = "") -> Any:
    """What `spiteful` does, with any text."""
    found = spiteful(value, key)
    return replaced(found, text)


def replaced(value: Any, text: str) -> Any:
    if isinstance(value, dict):
        return {name: replaced(one, text) for name, one in value.items()}
    if isinstance(value, list):
        return [replaced(one, text) for one in value]
    return value.replace(SPITE, text) if isinstance(value, str) else value


def acts(job: Job, text: str) -> list[tuple[str | None, Act]]:
    """Each example act in a step that has what it names, if one has, with the text behind its free words."""
    return [
        (step_of(job, act), spoilt(act, text)) for act in ACTS if act.kind not in ("undoes", "not_needed")
    ]


def step_of(job: Job, act: Act) -> str | None:
    name = getattr(act, act.kind, None)
    for id, planned in job.steps.items():
        if name in (*planned.step.reading, *planned.step.tick, *planned.step.torque, *planned.step.weld):
            return id
    return next(iter(job.steps)) if act.work else None


def spoilt(act: Act, text: str) -> Act:
    values = {key.attribute: getattr(act, key.attribute) for key in keys(type(act)).values()}
    return type(act)(
        **{
            name: f"{one} {text}" if isinstance(one, str) and name.rstrip("_") not in NAMES_THINGS else one
            for name, one in values.items()
        }
    )


@cache
def elements() -> tuple[list[tuple[str, ...]], list[str]]:
    return read(card(PLAIN)).tags, markdown_kinds(card(PLAIN))


def test_it_stays_text_in_the_three_forms() -> None:
    """The same elements as with plain words, nothing raw, and the words themselves many times."""
    sheet = card(SPITE)
    tags, marks = elements()
    found = read(sheet)
    assert found.tags == tags
    assert "".join(found.texts).count(visible("No step is next. [b]x[/b] <b>*y*</b> `z`")) > 60
    assert markdown_kinds(sheet) == marks
    for ending in ENDINGS:
        assert not RAW.search(written(sheet, ending).decode())


def test_what_is_left_out_of_the_empty_card_is_left_out() -> None:
    """Nothing that anybody typed stands on it."""
    assert "W word" in written(card(PLAIN), ".txt").decode()
    assert "W word" not in written(card(PLAIN, empty=True), ".txt").decode()
