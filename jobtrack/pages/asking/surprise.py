"""The page of a surprise: what was met, on what, whether it endangers somebody, and what follows."""

from __future__ import annotations

from collections.abc import Mapping

from jobtrack.job.state.job import Job
from jobtrack.literal import visible
from jobtrack.pages.asking.choices import MOST
from jobtrack.pages.own_keys import named
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import raised, step_name
from jobtrack.template.plan import PlannedStep

LETTERS: Mapping[str, str] = {
    "h": "sheared", "e": "seized", "c": "cracked", "m": "missing", "w": "worn", "o": "other",
}  # fmt: skip
"""What may be met, by its key. The s that opens the page is none of them, so that tapped twice it chooses nothing."""


def part_names(job: Job, planned: PlannedStep) -> list[str]:
    """Parts that may be meant, those of the step before those of the job, each by what it is called."""
    parts = {**planned.step.part, **job.plan.template.part}
    return list(dict.fromkeys(one.say or name for name, one in parts.items()))[:MOST]


def met_words(met: str, on: str) -> str:
    """ "Seized: spring pin nut"; without words "Seized"."""
    return f"{raised(met)}: {on}" if on else raised(met)


def head_lines(planned: PlannedStep, width: int) -> list[Line]:
    """Where somebody stands."""
    return [*wrap(f"A surprise in “{step_name(planned)}”", width, "strong"), line()]


def what_lines(width: int) -> list[Line]:
    """What may be met, a letter each."""
    rows = [line(f"  {named(letter, f'met-{met}')}: {met}") for letter, met in LETTERS.items()]
    return [*wrap("What did you meet? One letter.", width, "strong"), line(), *rows]


def name_lines(names: list[str], width: int) -> list[Line]:
    """The parts that are offered, each behind its number."""
    if not names:
        return []
    rows = [row for number, name in enumerate(names, 1) for row in wrap(f"  {number}: {name}", width, "", 5)]
    return [*wrap("Parts of this job; the number alone is enough:", width), line(), *rows]


def danger_lines(met: str, on: str, width: int) -> list[Line]:
    """The question that decides what is recorded."""
    return [
        *wrap(visible(met_words(met, on)), width, "strong"),
        line(),
        *wrap("Does it endanger somebody?", width, "strong"),
        line(),
        *wrap(f"  {named('y', 'endangers-yes')}: yes, it is recorded as open, in your words", width, "", 5),
        *wrap(f"  {named('n', 'endangers-no')}: no, it is recorded as met, at once", width, "", 5),
    ]


def follows_lines(met: str, on: str, width: int) -> list[Line]:
    """What may follow, each by a key, and each may be left."""
    return [
        *wrap(visible(met_words(met, on)), width, "strong"),
        line(),
        *wrap("What follows? Each may be left.", width, "strong"),
        line(),
        line(f"  {named('p', 'part')}: a part is needed: asked for"),
        line(f"  {named('f', 'step-before')}: a step more, before this one"),
        line(f"  {named('a', 'step-after')}: a step more, after this one"),
        line(f"  {named('t', 'note')}: a note"),
        line(),
        line("  Enter: back to the step"),
    ]
