"""What can happen in a job: one frozen class an act, keys as they stand in the file.

An act is one table in an entry's `did`; it is named `ENTRYID/INDEX`. A key that is a Python keyword
has an underscore at its end here. What a newer program wrote is kept word for word as `Unknown`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import datetime
from typing import Any, ClassVar

Plain = float | int | str | bool
Names = tuple[str, ...]
On = Mapping[str, Plain]
"""Values by name that an act stood on; `STEP.READING.target` for a target."""


@dataclass(frozen=True, slots=True)
class Act:
    """One thing done. `kind` is the key that tells it from the others in the file."""

    kind: ClassVar[str] = ""

    def as_dict(self) -> dict[str, Any]:
        """The act as it stands in the file: keys in order, what is empty left out."""
        plain: dict[str, Any] = {}
        for one in fields(self):
            value = getattr(self, one.name)
            empty = value is None or (value == () and one.name != "replaces")
            if empty or (value is False and one.default is False):
                continue
            plain[one.name.rstrip("_")] = value
        return plain


@dataclass(frozen=True, slots=True)
class GivenAct(Act):
    kind: ClassVar[str] = "given"
    given: str
    value: Plain | None = None
    unit: str | None = None
    typed: str | None = None
    unknown: bool = False
    replaces: Names = ()


@dataclass(frozen=True, slots=True)
class ReadingAct(Act):
    kind: ClassVar[str] = "reading"
    reading: str
    value: float | tuple[float, ...] | None = None
    unit: str | None = None
    typed: str | tuple[str, ...] | None = None
    with_: str | None = None
    doubt: float | None = None
    bound: str | None = None
    low: float | None = None
    high: float | None = None
    word: str | None = None
    mistyped: bool = False
    """It replaces a number that was typed wrong; the measuring is the same."""
    replaces: Names = ()


@dataclass(frozen=True, slots=True)
class TickAct(Act):
    kind: ClassVar[str] = "tick"
    tick: str
    yes: bool
    replaces: Names = ()


@dataclass(frozen=True, slots=True)
class NoteAct(Act):
    kind: ClassVar[str] = "note"
    note: str
    private: bool = False


@dataclass(frozen=True, slots=True)
class MarkAct(Act):
    kind: ClassVar[str] = "mark"
    mark: str


MET = ("sheared", "seized", "cracked", "missing", "worn", "other")
"""What somebody may meet that endangers nobody."""


@dataclass(frozen=True, slots=True)
class MetAct(Act):
    """A surprise that endangers nobody; what does is opened as a condition."""

    kind: ClassVar[str] = "met"
    met: str
    """One of `MET`."""
    part: str | None = None
    """On what, in somebody's own words: what breaks is seldom on the template's list."""
    text: str | None = None


@dataclass(frozen=True, slots=True)
class BuyingAct(Act):
    kind: ClassVar[str] = "buying"
    part: str
    buying: str
    from_: str | None = None
    due: str | None = None
    price: str | None = None
    replaces: Names = ()


@dataclass(frozen=True, slots=True)
class PlaceAct(Act):
    kind: ClassVar[str] = "place"
    place: str
    part: str | None = None
    tool: str | None = None
    replaces: Names = ()


@dataclass(frozen=True, slots=True)
class TorqueAct(Act):
    kind: ClassVar[str] = "torque"
    torque: str
    member: str | None = None
    stage: str = "final"
    value: float | None = None
    unit: str | None = None
    typed: str | None = None
    with_: str | None = None


@dataclass(frozen=True, slots=True)
class WeldAct(Act):
    kind: ClassVar[str] = "weld"
    weld: str
    run: str = "1"
    amps: float | None = None
    volts: float | None = None
    minutes: float | None = None
    rod: str | None = None


@dataclass(frozen=True, slots=True)
class PhotoAct(Act):
    kind: ClassVar[str] = "photo"
    photo: str
    hash: str | None = None


@dataclass(frozen=True, slots=True)
class OpensAct(Act):
    kind: ClassVar[str] = "opens"
    opens: str
    member: str | None = None


@dataclass(frozen=True, slots=True)
class ClosesAct(Act):
    kind: ClassVar[str] = "closes"
    closes: Names = ()


@dataclass(frozen=True, slots=True)
class ReleasedAct(Act):
    kind: ClassVar[str] = "released"
    released: str
    on: On = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FinishedAct(Act):
    kind: ClassVar[str] = "finished"
    finished: bool = True
    on: On = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class NotNeededAct(Act):
    kind: ClassVar[str] = "not_needed"
    not_needed: bool = True
    because: str | None = None
    of: Names = ()


@dataclass(frozen=True, slots=True)
class StandsAct(Act):
    kind: ClassVar[str] = "stands"
    stands: Names = ()
    because: str | None = None
    on: On = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SettledAct(Act):
    kind: ClassVar[str] = "settled"
    settled: str
    value: Plain | None = None
    unit: str | None = None
    typed: str | None = None
    whose: str | None = None
    of: Names = ()


@dataclass(frozen=True, slots=True)
class UndoesAct(Act):
    kind: ClassVar[str] = "undoes"
    undoes: str


@dataclass(frozen=True, slots=True)
class AddedStepAct(Act):
    kind: ClassVar[str] = "added_step"
    step: str
    title: str
    after: str | None = None
    before: str | None = None
    added_step: bool = True


@dataclass(frozen=True, slots=True)
class SwappedAct(Act):
    kind: ClassVar[str] = "swapped"
    swapped: str
    of: Names = ()


@dataclass(frozen=True, slots=True)
class ClockAct(Act):
    kind: ClassVar[str] = "clock"
    clock: str
    """on, off or break."""
    of: Names = ()


@dataclass(frozen=True, slots=True)
class WorkedAct(Act):
    kind: ClassVar[str] = "worked"
    worked: float
    """Hours."""
    for_: str | None = None
    on_day: str | None = None


@dataclass(frozen=True, slots=True)
class AgreedAct(Act):
    kind: ClassVar[str] = "agreed"
    agreed: str
    what: str | None = None
    how: str | None = None
    amount: str | None = None


@dataclass(frozen=True, slots=True)
class HandoverAct(Act):
    kind: ClassVar[str] = "handover"
    to: str
    handover: bool = True


@dataclass(frozen=True, slots=True)
class TakenOverAct(Act):
    kind: ClassVar[str] = "taken_over"
    taken_over: bool = True
    seen: Names = ()
    """The conditions that were open and were seen."""
    reading: str | None = None
    """The reading that was taken again."""
    of: Names = ()


@dataclass(frozen=True, slots=True)
class DueDoneAct(Act):
    kind: ClassVar[str] = "due_done"
    due: str
    due_done: bool = True


@dataclass(frozen=True, slots=True)
class JobClosedAct(Act):
    kind: ClassVar[str] = "job_closed"
    job_closed: bool = True
    differently: str | None = None
    tool_lacked: str | None = None
    broke: str | None = None
    of: Names = ()


@dataclass(frozen=True, slots=True)
class JobStoppedAct(Act):
    kind: ClassVar[str] = "job_stopped"
    because: str = ""
    job_stopped: bool = True
    of: Names = ()


@dataclass(frozen=True, slots=True)
class TakenInAct(Act):
    kind: ClassVar[str] = "taken_in"
    taken_in: bool = True
    of: Names = ()


@dataclass(frozen=True, slots=True)
class SetAsideAct(Act):
    kind: ClassVar[str] = "set_aside"
    set_aside: bool = True
    of: Names = ()


@dataclass(frozen=True, slots=True)
class PartAct(Act):
    kind: ClassVar[str] = "part"
    part: str
    quantity: str | None = None
    fate: str | None = None


@dataclass(frozen=True, slots=True)
class UnknownAct(Act):
    """What this program doesn't know, word for word."""

    kind: ClassVar[str] = ""
    data: Mapping[str, Any] = field(default_factory=dict)

    def as_dict(self) -> dict[str, Any]:
        return dict(self.data)


@dataclass(frozen=True, slots=True)
class Entry:
    """One call of somebody: one block in the file."""

    id: str
    n: int
    at: datetime
    """When it was done, with its offset from UTC."""
    by: str
    did: tuple[Act, ...]
    follows: tuple[str, ...]
    hash: str = ""
    step: str | None = None
    typed_at: datetime | None = None
    """When it was entered, if later than `at`."""

    @property
    def order(self) -> tuple[int, str, str]:
        """The key by which entries stand in the file and are shown; no clock in it."""
        return (self.n, self.id, self.hash)

    def name(self, index: int) -> str:
        return f"{self.id}/{index}"
