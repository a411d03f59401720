"""The options of `record`, in the order they were typed: `--also` belongs to the act before it."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from jobtrack.cli.saying import BadInput, typed
from jobtrack.job.acts.said import MET


@dataclass(slots=True)
class Asked:
    """One act that was asked for, with what `--also` adds to it."""

    option: str
    value: str = ""
    also: dict[str, str] = field(default_factory=dict)


class Act(argparse.Action):
    """Puts an act behind those asked for so far."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: Any,
        option: str | None = None,
    ) -> None:
        name = str(self.option_strings[0]).removeprefix("--")
        value = "" if values in (None, []) else typed(f"--{name}", str(values))
        namespace.acts = [*(getattr(namespace, "acts", None) or ()), Asked(name, value)]


class Also(argparse.Action):
    """Adds one more key to the act before it. `--for`, `--on-day` and `--because` are short for it."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: Any,
        option: str | None = None,
    ) -> None:
        name = str(self.option_strings[0]).removeprefix("--")
        key, value = split(name, str(values)) if name == "also" else (name.replace("-", "_"), str(values))
        asked: Sequence[Asked] = getattr(namespace, "acts", None) or ()
        if not asked:
            raise BadInput(f"--{name} belongs to the act before it; put it behind one")
        act = asked[-1]
        takes = ALSO.get(act.option, ())
        if key not in takes:
            raise BadInput(f"--{act.option} takes no {key!r}; it takes {', '.join(takes) or 'nothing more'}")
        act.also[key] = typed(key, value)


def split(option: str, text: str) -> tuple[str, str]:
    """`KEY=VALUE` taken apart at the first sign of equality."""
    key, equals, value = text.partition("=")
    if not equals or not key.strip() or not value.strip():
        raise BadInput(f"--{option} wants NAME=VALUE, not {text!r}")
    return key.strip(), value


def add_options(parser: argparse.ArgumentParser) -> None:
    """The options of `record`."""
    group = parser.add_argument_group("acts, all in one entry")
    for option, metavar, help in WITH_VALUE:
        group.add_argument(f"--{option}", metavar=metavar, action=Act, help=help)
    for option, metavar, help in MAYBE_VALUE:
        group.add_argument(f"--{option}", metavar=metavar, nargs="?", action=Act, help=help)
    for option, help in PLAIN:
        group.add_argument(f"--{option}", nargs=0, action=Act, help=help)
    for option, metavar, help in MORE:
        group.add_argument(f"--{option}", metavar=metavar, action=Also, help=help)


ALSO: dict[str, tuple[str, ...]] = {
    "reading": ("with", "doubt", "mistyped"),
    "met": ("part", "text"),
    "torque": ("with",),
    "weld": ("volts", "minutes", "rod"),
    "part": ("fate",),
    "buying": ("from", "due", "price"),
    "opens": ("member",),
    "settle": ("whose",),
    "add-step": ("after", "before"),
    "worked": ("for", "on_day"),
    "agreed": ("how", "amount"),
    "not-needed": ("because",),
    "stands": ("because",),
    "stop-job": ("because",),
    "close-job": ("differently", "tool_lacked", "broke"),
}
"""The keys that may be added to each act."""

WITH_VALUE = (
    ("reading", "ID=VALUE", "a measured value; again for repeats; --also mistyped=yes corrects a slip"),
    ("tick", "ID=yes|no", "a check looked at"),
    ("given", "[VEHICLE.]NAME=VALUE", "something known; ? is don't know yet"),
    ("note", "TEXT", "a note"),
    ("private-note", "TEXT", "a note that stays off the sheets"),
    ("mark", "TEXT", "where inside the step: bolt 3, second stage"),
    ("met", "WHAT", f"something met that endangers nobody: {', '.join(MET)}; --also part=... text=..."),
    ("torque", "ID[.MEMBER]=STAGE[:VALUE]", "a fastener's stage: finger, snug, 1, 2, final"),
    ("weld", "ID=RUN[:AMPS]", "a weld run"),
    ("part", "ID=QUANTITY", "a part used; --also fate=..."),
    ("buying", "ID=STATE", "asked, ordered, here, wrong or going back"),
    ("place", "ID=WHERE", "where a part or a tool is"),
    ("photo", "FILE", "a photo, copied beside the job"),
    ("opens", "ID|TEXT", "something unsafe or unfinished, by id or in your own words"),
    ("closes", "ID[.MEMBER]", "close an open condition by name"),
    ("settle", "ID=VALUE", "which value counts in a disagreement; --also whose=NAME"),
    ("add-step", "ID=TITLE", "a step that the template doesn't have; --also before=STEP or after=STEP"),
    ("clock", "on|off|break", "your clock in this job"),
    ("worked", "HOURS", "hours typed afterwards"),
    ("agreed", "WHO=TEXT", "what somebody agreed to; --also how=... --also amount=..."),
    ("due-done", "ID", "something due afterwards, done"),
    ("take-in", "HASH", "take in an altered entry, its acts typed again in this call"),
)
MAYBE_VALUE = (
    ("not-needed", "REASON", "the step isn't needed"),
    ("stands", "REASON", "looked at again, and still right, because"),
    ("stop-job", "REASON", "the job is stopped, not finished"),
    ("undo", "ENTRY", "take back your own last entry; again goes one further back; or one by its id"),
)
PLAIN = (
    ("finished", "the step is finished, on the values as they count now"),
    ("release-hold", "release the hold after the step"),
    ("swap", "left and right were swapped: the readings change sides"),
    ("take-over", "take over the job, having seen all that is open"),
    ("close-job", "close the job"),
)
MORE = (
    ("for", "NAME", "whose hours (behind --worked)"),
    ("on-day", "DATE", "for which day (behind --worked)"),
    ("because", "TEXT", "the reason (behind --not-needed, --stands, --stop-job)"),
    ("also", "KEY=VALUE", "one more key for the act before it"),
)
