"""What every act has: its keys as they stand in the file, where it is shown, its options, its words.

An act is one table in an entry's `did`; it is named `ENTRYID/INDEX`. A key that is a Python keyword has an
underscore at its end here. The classes are compiled structs: 32 of them are made in a tenth of the time that
frozen dataclasses take, and an act in a thirtieth. Templates are made so too.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, ClassVar, Literal, NamedTuple

from msgspec import Struct, field
from msgspec.structs import replace

__all__ = [
    "APART",
    "IN_STEP",
    "OF_JOB",
    "Act",
    "Key",
    "Names",
    "On",
    "Option",
    "Plain",
    "Struct",
    "UnknownAct",
    "commas",
    "field",
    "keys",
    "plain_words",
    "replace",
    "with_reason",
]  # fmt: skip

Plain = float | int | str | bool
Names = tuple[str, ...]
On = Mapping[str, Plain]
"""Values by name that an act stood on; `STEP.READING.target` for a target."""

Under = Literal["in its step", "of the job", "apart"]
IN_STEP: Under = "in its step"
"""Under the step in which it was recorded; under the job where that was in none."""
OF_JOB: Under = "of the job"
"""About the job as a whole, wherever it was recorded."""
APART: Under = "apart"
"""In a place of its own: a table, a check, the open conditions, a state, a hold, a clock."""


class Option(Struct, frozen=True):
    """An option of `record` that makes an act; `job.compose` has a function of the same name for it."""

    name: str
    help: str
    text: str = ""
    """What is typed behind it, as `--help` says it; `A=B` is taken apart at the sign. Empty: nothing."""
    may_be_bare: bool = False
    """Whether the text may be left out."""
    also: tuple[str, ...] = ()
    """The keys of the act that `--also` may add."""
    repeats: bool = False
    """Whether several with the same name in one call are one act."""
    turn: int = 0
    """Those with a later turn see what the rest of the call recorded, wherever they were typed."""


class Act(Struct, frozen=True):
    """One thing done. Its class says all there is to say of its kind."""

    kind: ClassVar[str] = ""
    """The key that tells it from the others in the file."""
    work: ClassVar[bool] = True
    """Whether it means that somebody has begun on the step; words, photos and what is about the record don't."""
    options: ClassVar[tuple[Option, ...]] = ()
    under: ClassVar[Under] = IN_STEP
    """Where `show`, its JSON and the handover have it."""
    on_page: ClassVar[Under | None] = None
    """Where the app has it, if that is elsewhere; what is of the job and was done in a step stands there, too."""
    listed: ClassVar[str] = ""
    """Its list in `show --json`; without one it stands in words among the others."""

    def words(self) -> str:
        """The act in a few words, what was typed as it was typed."""
        raise NotImplementedError(f"{type(self).__name__} has no words")

    def whole_words(self) -> str:
        """The act on `show` and the handover, where nothing of it is left out."""
        return self.words()

    def page_words(self) -> str:
        """The act on a page of the app, where nothing of it is left out."""
        return self.words()

    def replaced(self) -> Names:
        """The acts of its place that it takes the place of."""
        names: Names = getattr(self, "replaces", ())
        return names

    def spot(self) -> tuple[str, ...] | None:
        """What a later act of its kind in the same step stands for instead of it, a bolt; None: each stands."""
        return None

    def as_dict(self) -> dict[str, Any]:
        """The act as it stands in the file: keys in order, what is empty left out."""
        plain: dict[str, Any] = {}
        for name, key in keys(type(self)).items():
            value = getattr(self, key.attribute)
            empty = value is None or (value == () and name != "replaces")
            if not empty and not (value is False and key.default is False):
                plain[name] = value
        return plain


class UnknownAct(Act, frozen=True):
    """What this program doesn't know, or can't make out, word for word."""

    work = False
    under = APART
    on_page = IN_STEP

    data: Mapping[str, Any] = field(default_factory=dict)

    def words(self) -> str:
        """That it is unknown; none of what a stranger wrote."""
        return "something that this program doesn't know"

    def as_dict(self) -> dict[str, Any]:
        """The table as it was read."""
        return dict(self.data)


class Key(NamedTuple):
    """A key of an act: its attribute, the annotation that says what it may hold, and its default."""

    attribute: str
    holds: str
    default: object


@cache
def keys(cls: type[Act]) -> dict[str, Key]:
    """The keys of an act's table, in the order in which they are written."""
    names, defaults = cls.__struct_fields__, cls.__struct_defaults__
    known = (*(None for _ in names[len(defaults) :]), *defaults)
    return {
        name.rstrip("_"): Key(name, str(cls.__annotations__[name]), default)
        for name, default in zip(names, known, strict=True)
    }


def commas(*parts: str | None) -> str:
    """What there is of these, with commas."""
    return ", ".join(part for part in parts if part)


def with_reason(words: str, reason: str | None) -> str:
    """Words with what is behind them, if anything is: "job stopped: sold"."""
    return f"{words}: {reason}" if reason else words


def plain_words(value: object) -> str:
    """A value as it is said: yes and no for the two of them."""
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)


def what_was_typed(typed: str | tuple[str, ...] | None) -> str | None:
    """What was typed, repeats parted by `;`; None where nothing was."""
    return "; ".join(typed) if isinstance(typed, tuple) else typed
