"""What stands at a place: the reading, tick or given that counts, or a disagreement.

Numbers are exact fractions of what was typed, so that a limit is met or missed as on paper.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from jobtrack import units
from jobtrack.job.acts.base import Plain
from jobtrack.job.acts.steps import SettledAct
from jobtrack.job.acts.values import GivenAct, ReadingAct, TickAct
from jobtrack.job.state.history import Done, Place, live
from jobtrack.job.state.view import View
from jobtrack.template.plan import Plan, PlannedStep

Exact = Fraction | str | bool
FEEDS = (None, "none", "about")
"""The bounds of a reading that has one value: a plain number, or one with `~`."""


class Standing(Struct, frozen=True):
    """What was recorded at one place. More than one act in `acts` is a disagreement, unless they are equal."""

    acts: tuple[Done, ...] = ()
    value: Exact | None = None
    """The one value that counts; None where there is none (words, a bound, a disagreement)."""
    values: tuple[Fraction, ...] = ()
    """The repeats behind a mean."""
    agreed: bool = True
    """False: several were recorded, not knowing of each other, and they differ."""

    @property
    def last(self) -> Done | None:
        """The act that sorts behind the others; None where nothing was recorded."""
        return self.acts[-1] if self.acts else None

    @property
    def reading(self) -> ReadingAct | None:
        """The act to show, where it is a reading that was typed as one."""
        return self.last.act if self.last and isinstance(self.last.act, ReadingAct) else None

    def typed_in(self, unit: str | None) -> bool:
        """Whether its number was typed as it stands: in this unit, or bare, and isn't the mean of several."""
        typed = getattr(self.last.act, "typed", None) if self.last else None
        return not self.values[1:] and (not isinstance(typed, str) or units.typed_unit(typed) in (None, unit))

    @property
    def bound(self) -> str:
        """How its number was typed: none, about, over, under or range."""
        return (self.reading.bound if self.reading else None) or "none"

    @property
    def written(self) -> Plain | None:
        """The value as an entry's `on` holds it; None where nothing stands here."""
        if not self.acts or not self.agreed:
            return None
        if self.value is None:
            return _words(self.acts[-1])
        return float(self.value) if isinstance(self.value, Fraction) else self.value


class Places:
    """The standings of a view, found by canonical name (`STEP.READING`, `STEP.TICK`, a given's name)."""

    def __init__(self, plan: Plan, view: View) -> None:
        self.plan = plan
        self.view = view
        self._known: dict[Place, Standing] = {}

    def reading(self, step: str, reading: str) -> Standing:
        """What stands at a reading of an expanded step: a number, the mean of repeats, or none with its reason."""
        place = ("reading", step, reading)
        return self._standing(place, lambda: _number_standing(self._swapped_in(place)))

    def tick(self, step: str, tick: str) -> Standing:
        """What stands at a check of an expanded step: true only where everybody said yes."""
        place = ("tick", step, tick)
        return self._standing(place, lambda: _tick_standing(self._at(place)))

    def given(self, name: str) -> Standing:
        """What stands at a given; no value where it isn't known or they differ."""
        place = ("given", "", name)
        return self._standing(place, lambda: _given_standing(self._at(place)))

    def acts(self, place: Place) -> list[Done]:
        """Every act of a place that counts, those that others replaced too, in order."""
        return self._swapped_in(place) if place[0] == "reading" else self._at(place)

    def take_over(self, before: Places, touched: Collection[Place]) -> None:
        """Keep what is known of the places that nothing has touched since."""
        self._known.update((place, one) for place, one in before._known.items() if place not in touched)

    def _standing(self, place: Place, make: Callable[[], Standing]) -> Standing:
        if place not in self._known:
            self._known[place] = make()
        return self._known[place]

    def _at(self, place: Place) -> list[Done]:
        return [done for done in self.view.at_place(place) if self._belongs(done, place)]

    def _belongs(self, done: Done, place: Place) -> bool:
        return (
            not isinstance(done.act, SettledAct)
            or self.settled_place(done.act.settled, done.entry.step) == place
        )

    def settled_place(self, name: str, step: str | None) -> Place:
        """What a settlement in a step settles: its reading of that name, else its tick, else a given."""
        planned = self.plan.steps.get(step or "")
        if planned and name in planned.step.reading:
            return ("reading", planned.id, name)
        if planned and name in planned.step.tick:
            return ("tick", planned.id, name)
        return ("given", "", name)

    def _swapped_in(self, place: Place) -> list[Done]:
        """The readings of a place, those that changed sides with the other member's reckoned in."""
        if not self.view.swaps:
            return self._at(place)
        stayed = [done for done in self._at(place) if not self._has_changed(done)]
        other = self._other(place)
        came = [done for done in self._at(other) if self._has_changed(done)] if other else []
        return sorted(stayed + came, key=lambda done: done.order)

    def _has_changed(self, done: Done) -> bool:
        return self.view.swaps.get(done.name, 0) % 2 == 1

    def _other(self, place: Place) -> Place | None:
        planned = self.plan.steps.get(place[1])
        others = (
            [one.id for one in self.plan.by_base.get(planned.base, ()) if one.id != place[1]]
            if planned
            else []
        )
        return (place[0], others[0], place[2]) if len(others) == 1 else None


@lru_cache(maxsize=4096)
def exact_of(value: float, unit: str | None, typed: str | None) -> Fraction:
    """The exact fraction of what was typed, where reading it again gives the value that was recorded."""
    if typed is not None:
        try:
            again = units.read(typed, unit).value
        except units.UnitError:
            again = None
        if again is not None and float(again) == value:
            return again
    return units.exact(value)


def _numbers(done: Done) -> tuple[Fraction, ...]:
    act = done.act
    if not isinstance(act, ReadingAct | SettledAct | GivenAct) or isinstance(act.value, str | bool | None):
        return ()
    typed = act.typed
    if isinstance(act.value, tuple):
        typed_all = (
            typed if isinstance(typed, tuple) and len(typed) == len(act.value) else (None,) * len(act.value)
        )
        return tuple(exact_of(value, act.unit, one) for value, one in zip(act.value, typed_all, strict=True))
    return (exact_of(act.value, act.unit, typed if isinstance(typed, str) else None),)


def _feeds(done: Done) -> bool:
    return not isinstance(done.act, ReadingAct) or done.act.bound in FEEDS


def _mean(numbers: tuple[Fraction, ...]) -> Fraction | None:
    return sum(numbers, Fraction(0)) / len(numbers) if numbers else None


def _words(done: Done) -> str | None:
    """What stands for a value that isn't one number: `>5 deg`, `can't reach`."""
    act = done.act
    if isinstance(act, ReadingAct):
        return act.word or (act.typed if isinstance(act.typed, str) else None)
    return act.value if isinstance(act, SettledAct | GivenAct) and isinstance(act.value, str) else None


def _number_standing(acts: list[Done]) -> Standing:
    left = live(acts)
    if not left:
        return Standing()
    values = [_numbers(done) if _feeds(done) else () for done in left]
    means = {
        (_mean(numbers), None if numbers else _words(done))
        for numbers, done in zip(values, left, strict=True)
    }
    if len(means) > 1:
        return Standing(left, agreed=False)
    return Standing(left, _mean(values[-1]), values[-1])


def _tick_standing(acts: list[Done]) -> Standing:
    """Ticks that differ count as *no*."""
    left = live(acts)
    if not left:
        return Standing()
    answers = {_yes(done) for done in left}
    return Standing(left, answers == {True}, agreed=len(answers) == 1)


def _yes(done: Done) -> bool:
    return (
        done.act.yes
        if isinstance(done.act, TickAct)
        else isinstance(done.act, SettledAct) and done.act.value is True
    )


def _given_standing(acts: list[Done]) -> Standing:
    """Givens that differ count as unknown."""
    left = live(acts)
    if not left:
        return Standing()
    values = [_given_value(done) for done in left]
    if any(value != values[0] for value in values):
        return Standing(left, agreed=False)
    return Standing(left, values[0])


def _given_value(done: Done) -> Exact | None:
    act = done.act
    if not isinstance(act, GivenAct | SettledAct) or (isinstance(act, GivenAct) and act.unknown):
        return None
    if isinstance(act.value, str | bool):
        return act.value
    return _mean(_numbers(done))


def own_names(planned: PlannedStep) -> list[str]:
    """The canonical names of what is typed in a step: readings that aren't worked out, and ticks."""
    readings = [name for name, reading in planned.step.reading.items() if reading.from_ is None]
    return [f"{planned.id}.{name}" for name in (*readings, *planned.step.tick)]
