"""The record of a small invented job, printed and shown; and hostile text in every field of the record."""

from __future__ import annotations

import pytest

from jobtrack.job.acts.base import Act, replace
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.doing import PartAct, PhotoAct, TorqueAct
from jobtrack.job.acts.said import MetAct, NoteAct
from jobtrack.job.state.job import Job
from jobtrack.sheets.paper.blocks import Photo, Sheet
from jobtrack.sheets.paper.forms import written
from jobtrack.sheets.vehicle_record.private import MAY_BE_INCLUDED
from tests.sheets.paper.every_block import PIXEL
from tests.sheets.paper.test_hostile import Elements
from tests.sheets.vehicle_record.made import RATED, about_of, exchange, forms, merged, put, record
from tests.support.browser import faults
from tests.support.builders import DONOR, RECIPIENT, Copy, finish, read, release, template, tick
from tests.support.example_acts import ACTS
from tests.support.spiteful import NOT_TEXT, RAW, SPITE, spiteful

SHOWN: dict[str, Photo | str] = {
    "a1.jpg": Photo(PIXEL, "image/png", "a1.jpg"),
    "b2.jpg": "its file is broken",
}


def small() -> Copy:
    """A job with something in each section, the lower-rated part on its way."""
    copy = exchange(
        ("recipient.load", "900"), ("donor.load", "700"), ("retention", "clips"), ("step-height", "410")
    )
    copy.call(DONOR, read("spacing", "1012"), finish)
    copy.call(RECIPIENT, read("spacing", "38 in"), finish)
    copy.call("mark.left", read("moved", "22.8"), tick("scribed"), finish)
    copy.call("mark.left", release, by="Ada")
    copy.call("mark.right", read("moved", "28"), tick("scribed", False), finish)
    copy.call(
        "height",
        read("height", "407"),
        read("gap", "0.7"),
        read("tilt", ">5 deg"),
        read("lean", "cant reach"),
    )
    bolts = (TorqueAct("nuts", one, "final", 90.0, "N*m", "90", "wrench 3") for one in "12")
    put(copy, "nuts", *bolts, PartAct("u-bolts", "4", "fitted"), MetAct("sheared", "stud", "flush"))
    put(copy, "height", NoteAct("Left at 407: the rubber settles."), PhotoAct("a1.jpg"), PhotoAct("b2.jpg"))
    put(copy, None, OpensAct("grease nipple missing"))
    return copy


@pytest.mark.parametrize("vehicle", ["recipient", "donor"])
def test_it_is_whole_on_paper_and_on_a_telephone(vehicle: str) -> None:
    """Nothing cut off, no orphan page, contrast, headings in order, nothing from elsewhere; A4 and Letter."""
    assert faults(written(record(small().job, vehicle, photos=SHOWN), ".html")) == []


def hostile(act: Act) -> Act:
    """The act with spite behind each of its texts that is no id."""
    changed = {}
    for name in act.__struct_fields__:
        value = getattr(act, name)
        if (
            isinstance(value, str)
            and (name not in NOT_TEXT or name == "opens")
            and name not in ("stage", "unit")
        ):
            changed[name] = f"{value} {SPITE}"
    return replace(act, **changed)


def spite(text: str) -> Job:
    """A job with every example of an act in several steps, and the template's own texts, hostile or not."""
    data = merged(template(), RATED)
    if text:
        data = merged(spiteful(data), {"about": "recipient", "exchanged": RATED["exchanged"]})
        data["exchanged"]["step"]["say"] += f" {SPITE}"
    copy = Copy(Job.fold(about_of(data), ()))
    copy.begin(("recipient.load", "900"), ("donor.load", "700"))
    for act in ACTS:
        for step in ("mark.left", "height", "nuts", None):
            put(copy, step, hostile(act) if text else act, by=f"Wim {text}".strip())
    return copy.job


def test_hostile_text_in_every_field_stays_text() -> None:
    """In all three forms, with all that is private marked for it: nothing raw, no element more, no style or script."""
    sheet = record(spite(SPITE), "recipient", *MAY_BE_INCLUDED, photos=SHOWN)
    for text in forms(sheet):
        assert RAW.findall(text) == []
        assert "No step is next" in text
    assert elements_of(sheet) <= elements_of(record(spite(""), "recipient", *MAY_BE_INCLUDED, photos=SHOWN))


def elements_of(sheet: Sheet) -> set[tuple[str, ...]]:
    """Every element that a page has, with its attributes' names."""
    elements = Elements()
    elements.feed(written(sheet, ".html").decode())
    return set(elements.tags)
