"""The options of `record` in the order typed. Its act in `job/acts/` declares each, but for `--also` and its like."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from msgspec import Struct, field

from jobtrack.cli.saying import BadInput, typed
from jobtrack.job.acts.registry import OPTIONS


class Asked(Struct):
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
        """Called by argparse where it meets the option. Raises BadInput for text that can't be typed."""
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
        """Called by argparse where it meets the option. Raises BadInput where no act before it takes the key."""
        name = str(self.option_strings[0]).removeprefix("--")
        key, value = split(name, str(values)) if name == "also" else (name.replace("-", "_"), str(values))
        asked: Sequence[Asked] = getattr(namespace, "acts", None) or ()
        if not asked:
            raise BadInput(f"--{name} belongs to the act before it; put it behind one")
        act = asked[-1]
        takes = OPTIONS[act.option][0].also
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
    """The options of `record`: those that want a text, those that may have one, those that have none."""
    group = parser.add_argument_group("acts, all in one entry")
    options = [option for option, _ in OPTIONS.values()]
    for option in sorted(options, key=lambda one: (not one.text, one.may_be_bare)):
        count = "?" if option.may_be_bare else None if option.text else 0
        metavar = option.text or None
        group.add_argument(f"--{option.name}", action=Act, help=option.help, metavar=metavar, nargs=count)
    for name, metavar, help in MORE:
        group.add_argument(f"--{name}", metavar=metavar, action=Also, help=help)


def _behind(key: str) -> str:
    """Behind which options a key may be typed."""
    return ", ".join(f"--{option.name}" for option, _ in OPTIONS.values() if key in option.also)


MORE = (
    ("for", "NAME", f"whose hours (behind {_behind('for')})"),
    ("on-day", "DATE", f"for which day (behind {_behind('on_day')})"),
    ("because", "TEXT", f"the reason (behind {_behind('because')})"),
    ("also", "KEY=VALUE", "one more key for the act before it"),
)
"""What is added to the act before it; all but the last are short for `--also`."""
