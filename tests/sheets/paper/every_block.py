"""A sheet that has every block and every look, whatever its texts are."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from jobtrack.figures.drawing import Circle, Dimension, Drawing, Label, Line
from jobtrack.sheets.paper.blocks import (
    Blank,
    Box,
    Cut,
    Lines,
    Message,
    Named,
    Paragraph,
    Photo,
    Picture,
    Point,
    Points,
    Section,
    Sheet,
    Shout,
    Strong,
    Table,
)
from jobtrack.sheets.words.hazards import WORST

PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c489"
    "0000000d49444154789c63606060f80f0001040100d12ee1a70000000049454e44ae426082"
)
"""A PNG of one black pixel (W3C PNG, 5.3 and 11)."""
DRAWING = Drawing(
    (
        Line((-500, 0), (500, 0)), Circle((-320, 0), 40), Circle((320, 0), 40, dashed=True),
        Dimension((-320, -120), (320, -120), "640 mm"), Label((-320, 60), "left", "above"),
    ),
    "From behind, not to scale",
)  # fmt: skip
KINDS: tuple[Literal["handover", "tag", "job-card", "vehicle-record"], ...] = (
    "handover", "tag", "job-card", "vehicle-record",
)  # fmt: skip


def every_block(
    text: Callable[[str], str], kind: Literal["handover", "tag", "job-card", "vehicle-record"] = "handover"
) -> Sheet:
    """The sheet; `text` gives what stands in each place for what would stand there in a shop."""
    return Sheet(
        kind,
        text("Handover: flatbed, axle exchange"),
        (text("From Wim to Ada, 15 May 2031 15:40."), ("Given ", Strong(text("half done")), text(", not closed."))),
        (
            Section(text("Recorded as open"), _words(text)),
            Section(text("Hazards"), tuple(_message(text, signal) for signal in WORST)),
            Section(text("Measured"), _tables(text), (_rear_axle(text),)),
            Section(text("Tag"), _to_write_on(text), new_page=True),
        ),
        (text("This is what was written down."), text("Names are as typed; nobody was authenticated.")),
    )  # fmt: skip


def _rear_axle(text: Callable[[str], str]) -> Section:
    left = Section(text("Left"), (Paragraph(text("Nothing yet.")),))
    return Section(text("Rear axle"), _pictures(text), (left,))


def _words(text: Callable[[str], str]) -> tuple[Paragraph | Points, ...]:
    return (
        Paragraph(text("The vehicle is on stands, and no brake holds it."), "large"),
        Paragraph((text("Left by Wim, "), Strong(text("since 15 May")), text(": nobody goes under it.")), "strong"),
        Paragraph(text("As it was typed."), "small"),
        Points(
            (
                Point(text("Don't press the brake pedal."), (Point(text("The line is open at the left wheel.")),)),
                Point((Strong(text("Don't lower it")), text(" on its wheels."))),
                Point((Box(text("yes")), "  ", Box(text("no")), text("  shaken on its stands"))),
                Point((text("gap left "), Blank(text("mm"), 6))),
            )
        ),
    )  # fmt: skip


def _message(text: Callable[[str], str], signal: str) -> Message:
    return Message(
        signal, text("The axle can swing down"), text("crushes a hand"), text("prop it before the last nut")
    )


def _tables(text: Callable[[str], str]) -> tuple[Table | Named, ...]:
    torque = (Strong(text("80 N·m")), text(" (59 lbf ft)"))
    by_hand = (Box(text("seen")), Blank(text("N·m")))
    rows = tuple((text(f"Bolt {number}"), torque, text("final"), by_hand) for number in range(1, 5))
    return (
        Table(
            (text("What"), text("Measured"), text("How far"), text("By hand")),
            ((text("U-bolts (left)"),), *rows),
        ),
        Named(((text("Ratio"), (Strong(text("4.10")), text(" by turns"))),)),
    )  # fmt: skip


def _pictures(text: Callable[[str], str]) -> tuple[Picture | Photo, ...]:
    return (
        Picture(DRAWING, text("The axle from behind"), text("The right perch isn't known yet.")),
        Photo(PIXEL, "image/png", text("The left perch, tacked")),
    )


def _to_write_on(text: Callable[[str], str]) -> tuple[Shout | Cut | Lines, ...]:
    return (
        Shout(text("NO BRAKES"), (text("Wim, 15 May 2031"), text("Line open at the left wheel."))),
        Shout(text("U-BOLTS LOOSE"), ()),
        Cut(text("give this back")),
        Lines(text("What broke, what was found?"), 3),
    )
