"""Where an evaluation finds what was typed: as it counts now, as an act stood on it, or moved a little."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Protocol

from jobtrack import units
from jobtrack.job.acts.base import Plain
from jobtrack.job.state.standing import Places, Standing
from jobtrack.template.plan import PlannedStep, Ref


class Source(Protocol):
    """Where an evaluation finds what was typed."""

    def standing(self, ref: Ref) -> Standing:
        """What stands at the place of a reading, a tick or a given."""
        ...

    def target(self, name: str) -> float | None:
        """A target that was written down under `STEP.READING.target`; None: work it out."""
        ...

    def doubt(self, ref: Ref, planned: PlannedStep) -> float | None:
        """The doubt of a typed reading, expanded, half-width, in its unit; None where it isn't known."""
        ...


class Now:
    """The values as they count in a view."""

    def __init__(self, places: Places) -> None:
        self.places = places

    def standing(self, ref: Ref) -> Standing:
        """What stands there in the view."""
        if ref.kind == "given":
            return self.places.given(ref.name)
        if ref.kind == "tick":
            return self.places.tick(ref.step or "", ref.item)
        return self.places.reading(ref.step or "", ref.item)

    def target(self, name: str) -> float | None:
        """None: a target is worked out from the values that count now."""
        return None

    def doubt(self, ref: Ref, planned: PlannedStep) -> float | None:
        """The doubt of a reading: that of the instrument really used, else the template's."""
        act = self.standing(ref).reading
        return act.doubt if act and act.doubt is not None else planned.step.reading[ref.item].doubt


class Then:
    """The values that an act stood on, as it wrote them down.

    What still counts unchanged is taken as it stands now: `on` holds no bound, no fraction. It holds no doubt
    either: that is found in what whoever wrote it could see.
    """

    def __init__(self, on: Mapping[str, Plain], now: Source, seen: Source | None = None) -> None:
        self.on = on
        self.now = now
        self.seen = seen or now

    def standing(self, ref: Ref) -> Standing:
        """What the act wrote down; where that still counts, as it stands now, its bound and fraction with it."""
        value = self.on.get(ref.name)
        present = self.now.standing(ref)
        if value is not None and type(value) is type(present.written) and value == present.written:
            return present
        if isinstance(value, str) and ref.kind == "reading":
            return Standing()
        if isinstance(value, int | float) and not isinstance(value, bool):
            exact = units.exact(value)
            return Standing(value=exact, values=(exact,))
        return Standing(value=value)

    def target(self, name: str) -> float | None:
        """The target that the act wrote down; None where it wrote none."""
        value = self.on.get(name)
        return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None

    def doubt(self, ref: Ref, planned: PlannedStep) -> float | None:
        """The doubt as whoever wrote it could see it."""
        return self.seen.doubt(ref, planned)


class Moved:
    """A source in which one reading lies a little beside where it lies."""

    def __init__(self, source: Source, base: Ref, by: Fraction) -> None:
        self.source, self.base, self.by = source, base, by

    def standing(self, ref: Ref) -> Standing:
        """What stands there; the one reading, with all its repeats, by `by` beside it."""
        found = self.source.standing(ref)
        if ref.name != self.base.name or not isinstance(found.value, Fraction):
            return found
        return Standing(found.acts, found.value + self.by, tuple(one + self.by for one in found.values))

    def target(self, name: str) -> float | None:
        """None: a target moves with what it is worked out from."""
        return None

    def doubt(self, ref: Ref, planned: PlannedStep) -> float | None:
        """None: nobody asks how sure a moved reading is."""
        return None
