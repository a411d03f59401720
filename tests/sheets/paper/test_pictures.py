"""A drawing on a sheet: as SVG with its caption in sight, and whatever its texts are they stay text."""

from __future__ import annotations

import pytest

from jobtrack.figures.drawing import Circle, Dimension, Drawing, Label, Line
from jobtrack.literal import visible
from jobtrack.sheets.paper.blocks import Picture, Section, Sheet
from tests.sheets.paper.test_hostile import HOSTILE, read
from tests.support.spiteful import RAW

TAGS = {"svg", "title", "rect", "g", "path", "circle", "text", "tspan"}


def sheet(text: str) -> Sheet:
    shapes = (
        Circle((0, 0), 50),
        Line((0, 0), (40, 30)),
        Label((0, 0), text, "left"),
        Dimension((0, 60), (50, 60), text),
    )
    return Sheet("job-card", "Card", (), (Section("Step", (Picture(Drawing(shapes, text), "The face"),)),))


@pytest.mark.parametrize("typed", HOSTILE)
def test_hostile_text_in_a_drawing_stays_text(typed: str) -> None:
    """The elements are those of any drawing, and nothing that takes part in another's text is left raw."""
    plain, hostile = read(sheet("a word")), read(sheet(typed))
    assert {tag[0].strip("/") for tag in hostile.tags} - TAGS <= {tag[0].strip("/") for tag in plain.tags}
    assert not {name for tag in hostile.tags for name in tag[1:]} - {name for tag in plain.tags for name in tag[1:]} - {
        "textlength", "lengthadjust", "stroke", "stroke-width", "paint-order"}  # fmt: skip
    seen = "".join(hostile.texts)
    assert visible(typed) in seen or "Can't be drawn: " in seen
    assert not RAW.search(seen.replace("\n", ""))


def test_the_caption_is_read_with_the_picture() -> None:
    """Once in sight above it, once as its name for whoever can't see it; each text of the drawing once."""
    found = read(sheet("from the left"))
    assert [tag[0] for tag in found.tags].count("svg") == 1
    assert found.texts.count("from the left") == 4
    assert ("p", "class") in found.tags
