"""From what was typed behind an option of `record` to a call of the function that makes its acts."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jobtrack.cli.record.options import Asked, split
from jobtrack.cli.saying import BadInput
from jobtrack.job.acts.base import Option, keys
from jobtrack.job.acts.registry import OPTIONS
from jobtrack.job.compose import conditions, doing, ending, mending, people, said, steps, values
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import NoReason, Wants

FAMILIES = {
    one.__name__.rpartition(".")[2]: one
    for one in (values, said, doing, conditions, steps, people, ending, mending)
}


def composer(option: str) -> Callable[..., object]:
    """The function of an option: it has its name, in the file of the act's family.

    It takes a draft, what is typed behind the option, and what `--also` adds.
    """
    family = OPTIONS[option][1].__module__.rpartition(".")[2]
    found: Callable[..., object] = getattr(FAMILIES[family], option.replace("-", "_"))
    return found


def put(draft: Draft, same: Sequence[Asked]) -> None:
    """Put an act that was asked for, with all its repeats, into the draft. Raises BadInput, Refused, UnitError."""
    option, act = OPTIONS[same[0].option]
    also = {key: text for one in same for key, text in one.also.items()}
    parts = _parts(option, same, also)
    try:
        composer(option.name)(draft, *parts, **{keys(act)[key].attribute: also[key] for key in also})
    except NoReason:
        name = option.name
        raise BadInput(
            f"--{name} wants a reason: --{name}={option.text}, or --because TEXT behind it"
        ) from None
    except Wants as wanted:
        raise BadInput(f"--{wanted}") from None


def _parts(option: Option, same: Sequence[Asked], also: dict[str, str]) -> list[str | list[str]]:
    """What was typed, taken apart where the option's text shows a sign; a reason may stand behind the option."""
    value = same[0].value
    if not option.text:
        return []
    if option.may_be_bare:
        return [value or also.pop("because", "")]
    if "=" not in option.text:
        return [value]
    if "whose" in also and value.rstrip().endswith("="):
        return [value.rstrip(" =").strip(), ""]
    name, rest = split(option.name, value)
    if option.repeats:
        return [name, [split(option.name, one.value)[1] for one in same]]
    if "[:" not in option.text:
        return [name, rest]
    first, _, last = rest.partition(":")
    return [name, first.strip(), last]
