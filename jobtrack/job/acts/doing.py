"""What is tightened, welded, used, bought, put away and photographed: the acts and their options."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.acts.base import OF_JOB, Act, Names, Option, commas, with_reason

ASKED, ORDERED, HERE, WRONG, GOING_BACK = BUYING = ("asked", "ordered", "here", "wrong", "going back")
"""How far the buying of a part may be."""


class TorqueAct(Act, frozen=True):
    """A fastener tightened to a stage; of one bolt the last stage recorded stands.

    torque: the id of the torque line in the entry's step.
    member: which bolt, by its number or its own name; the side is in the step.
    stage: finger, snug, one of the template's stages by its number from 1, or final.
    value: the torque in `unit`; without `typed`, what the wrench was to be set to when it clicked.
    unit: that of the line's figure, in which a bare number was taken; N*m where it has none.
    typed: what was typed of it.
    with: what it was tightened with, in somebody's own words.
    """

    kind = "torque"
    listed = "torque_stages"
    options = (
        Option(
            "torque",
            "a fastener's stage: finger, snug, 1, 2, final",
            "ID[.MEMBER]=STAGE[:VALUE]",
            also=("with",),
        ),
    )

    torque: str
    member: str | None = None
    stage: str = "final"
    value: float | None = None
    unit: str | None = None
    typed: str | None = None
    with_: str | None = None

    def words(self) -> str:
        """As "torque hub-bolts: bolt 3, stage 2, 33 N·m with beam wrench"."""
        return f"torque {self.torque}: {self.tightened()}"

    def tightened(self) -> str:
        """How far and with what: "bolt 3, stage 2, 33 N·m with beam wrench"."""
        bolt = f"bolt {self.member}" if self.member and self.member.isdecimal() else self.member
        stage = f"stage {self.stage}" if self.stage.isdecimal() else self.stage
        return f"{commas(bolt, stage, self.value_words())}{f' with {self.with_}' if self.with_ else ''}"

    def value_words(self) -> str | None:
        """What it was tightened to: as typed, with the unit that a bare number was taken in."""
        bare = self.typed is None or units.typed_unit(self.typed) is None
        return units.show(self.value, self.unit) if bare and self.value is not None else self.typed

    def newton_metres(self) -> float | None:
        """The torque in N*m; None where none was recorded."""
        return None if self.value is None else float(units.convert(self.value, self.unit, "N*m"))

    def spot(self) -> tuple[str, ...]:
        """The bolt, by its line and its name: its next stage stands for it."""
        return (self.torque, self.member or "")


class WeldAct(Act, frozen=True):
    """A weld run.

    weld: the id of the weld in the entry's step.
    run: which run of it, from 1.
    amps: the current in A.
    volts: the voltage in V.
    minutes: how long it took.
    rod: the rod or the wire, in somebody's own words.
    """

    kind = "weld"
    listed = "welds"
    options = (Option("weld", "a weld run", "ID=RUN[:AMPS]", also=("volts", "minutes", "rod")),)

    weld: str
    run: str = "1"
    amps: float | None = None
    volts: float | None = None
    minutes: float | None = None
    rod: str | None = None

    def words(self) -> str:
        """As "weld perch: run 2, 95 A, 22 V, 3 min, rod E7018"."""
        measured = ((self.amps, "A"), (self.volts, "V"), (self.minutes, "min"))
        figures = [None if value is None else f"{value:g} {unit}" for value, unit in measured]
        return f"weld {self.weld}: {commas(f'run {self.run}', *figures, self.rod and f'rod {self.rod}')}"


class PartAct(Act, frozen=True):
    """A part used, or what became of it.

    part: the id of the part in the template; for one that nobody planned, the words with which it was asked for.
    quantity: how many or how much, as typed.
    fate: fitted, scrapped, kept, gone to the other vehicle; in somebody's own words.
    """

    kind = "part"
    listed = "parts"
    options = (Option("part", "a part used; --also fate=...", "ID=QUANTITY", also=("fate",)),)

    part: str
    quantity: str | None = None
    fate: str | None = None

    def words(self) -> str:
        """As "part seal: 2, fitted"."""
        return with_reason(f"part {self.part}", commas(self.quantity, self.fate))


class BuyingAct(Act, frozen=True):
    """How far the buying of a part is; the last one counts.

    part: the id of the part in the template, or, for one that nobody planned, its name in somebody's own words.
    buying: asked, ordered, here, wrong or going back.
    from: of whom.
    due: when it should come, as typed.
    price: what it costs, as typed.
    replaces: every earlier one about this part that could be seen, replaced ones too.
    """

    kind = "buying"
    under = OF_JOB
    listed = "buying"
    options = (
        Option(
            "buying", "asked, ordered, here, wrong or going back", "ID=STATE", also=("from", "due", "price")
        ),
    )

    part: str
    buying: str
    from_: str | None = None
    due: str | None = None
    price: str | None = None
    replaces: Names = ()

    def words(self) -> str:
        """As "buying seal: ordered, from Ilse, due Friday, price 12"."""
        return f"buying {self.part}: {self.how_far()}"

    def how_far(self) -> str:
        """How far it is, of whom, due when, at what price: "ordered, from Ilse, due Friday, price 12"."""
        more = (("from", self.from_), ("due", self.due), ("price", self.price))
        return commas(self.buying, *(value and f"{name} {value}" for name, value in more))


class PlaceAct(Act, frozen=True):
    """Where a part or a tool is; the last one counts.

    place: where, in somebody's own words.
    part: the id of the part in the template, or the name of one that nobody planned; or
    tool: the name of the tool.
    replaces: every earlier one about this part or tool that could be seen, replaced ones too.
    """

    kind = "place"
    on_page = OF_JOB
    listed = "places"
    options = (Option("place", "where a part or a tool is", "ID=WHERE"),)

    place: str
    part: str | None = None
    tool: str | None = None
    replaces: Names = ()

    def words(self) -> str:
        """As "seal: at second shelf"."""
        return f"{self.part or self.tool}: at {self.place}"


class PhotoAct(Act, frozen=True):
    """A photo.

    photo: the name of its file in `NAME.photos/`, beside the job file `NAME.job.toml`.
    hash: BLAKE2b of its bytes, 16 bytes in hexadecimal digits.
    """

    kind = "photo"
    work = False
    listed = "photos"
    options = (Option("photo", "a photo, copied beside the job", "FILE", turn=5),)

    photo: str
    hash: str | None = None

    def words(self) -> str:
        """As "photo 1f0c.jpg"."""
        return f"photo {self.photo}"
