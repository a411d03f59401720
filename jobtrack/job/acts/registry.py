"""Every kind of act there is. A class in the file of a family is a kind; nothing else lists them."""

from __future__ import annotations

from collections.abc import Iterator
from types import ModuleType

from jobtrack.job.acts import conditions, doing, ending, mending, people, said, steps, values
from jobtrack.job.acts.base import Act, Option

FAMILIES = (values, said, doing, conditions, steps, people, ending, mending)
"""In the order of `record --help` and of the contributors' table."""


def _declared(family: ModuleType) -> Iterator[type[Act]]:
    """The acts that a family's file declares, from top to bottom."""
    for one in vars(family).values():
        if isinstance(one, type) and issubclass(one, Act) and one.__module__ == family.__name__:
            yield one


KINDS: dict[str, type[Act]] = {act.kind: act for family in FAMILIES for act in _declared(family)}
"""By the key that tells each in the file."""
OPTIONS: dict[str, tuple[Option, type[Act]]] = {
    option.name: (option, act) for act in KINDS.values() for option in act.options
}
"""The options of `record` by name, and the act that each makes."""
