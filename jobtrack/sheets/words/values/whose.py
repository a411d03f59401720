"""Whose a limit is: a published source's, a person's who typed what it stands on, or the template's author's."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime

from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job
from jobtrack.job.values.depends_on import bases, under
from jobtrack.sheets.words.named import own_name, ref_name
from jobtrack.sheets.words.sentences import OWN_LIMIT, day_and_clock, joined, raised, step_name
from jobtrack.template.model import Reading, Scalar
from jobtrack.template.plan import PlannedStep, Ref

When = Callable[[datetime], str]
"""How a time is said: on a sheet that is kept for years with its year and zone."""
NOT_KNOWN = "limit not known yet"
"""Said where a limit is a name that nothing stands behind so far."""


def limit_source(job: Job, planned: PlannedStep, name: str, when: When = day_and_clock) -> str:
    """Whose limit a reading is held against: a source, who typed what it stands on, or the template's author."""
    reading = planned.step.reading[name]
    if reading.source:
        return reading.source
    whose = {which: _whose(job, planned, limit, when) for which, limit in _limits(planned, reading)}
    if len(set(whose.values())) > 1:
        return "; ".join(f"{which}: {words}" for which, words in whose.items())
    return next(iter(whose.values()), OWN_LIMIT)


def source_sentences(job: Job, planned: PlannedStep, *, unknown: bool = True) -> Iterator[str]:
    """Whose the limits of a step are: published sources where the template names some, else the template's own.

    `unknown`: also of which readings the limit isn't known yet.
    """
    limited = {name: one.say or name for name, one in planned.step.reading.items()
               if job.now.limits(planned.id, name).wanted}  # fmt: skip
    whose = {name: limit_source(job, planned, name) for name in limited}
    for source in dict.fromkeys(whose.values()):
        if source != OWN_LIMIT and (unknown or source != NOT_KNOWN):
            yield _limits_of([limited[name] for name, one in whose.items() if one == source], source)
    if own := sum(one == OWN_LIMIT for one in whose.values()):
        yield f"{_of_template(own, len(limited))}."


def _limits_of(names: Sequence[str], source: str) -> str:
    """Whose the limits of these readings are."""
    return f"{'Limits' if names[1:] else 'Limit'} of {joined([f'“{name}”' for name in names])}: {source}."


def _of_template(own: int, limited: int) -> str:
    """That so many of the limits of a step are the template's own."""
    if own < limited:
        return f"Limits of the others: {OWN_LIMIT}"
    return f"Limits: each a {OWN_LIMIT}" if own > 1 else raised(OWN_LIMIT)


def _limits(planned: PlannedStep, reading: Reading) -> Iterator[tuple[str, Scalar]]:
    named = {"target": reading.target, "at least": reading.at_least, "at most": reading.at_most}
    for which, limit in named.items():
        if (mine := planned.limit(limit)) is not None:
            yield which, mine


def _whose(job: Job, planned: PlannedStep, limit: Scalar, when: When) -> str:
    """Whose one limit is, from a number or a name as the template writes it."""
    if not isinstance(limit, str):
        return OWN_LIMIT
    ref = job.plan.resolve(limit, planned)
    if ref is None or job.now.value(ref) is None:
        return NOT_KNOWN
    typed = _typed(job, ref)
    if not typed:
        return OWN_LIMIT
    works = [one for one in under(job.plan, ref) if one.kind == "result"]
    return _worked_out(job, ref, works, typed, when) if works else _direct(job, typed, when)


def _typed(job: Job, ref: Ref) -> dict[Ref, Done]:
    """What was typed of all that a name stands on, but for what still is as the template put it in."""
    acts = {base: job.now.source.standing(base).last for base in bases(job.plan, ref)}
    return {base: done for base, done in acts.items() if done and not _as_begun(job, base, done)}


def _as_begun(job: Job, base: Ref, done: Done) -> bool:
    """Whether a given still is what the template puts in by itself when a job is begun."""
    default = job.plan.givens[base.name].default if base.kind == "given" else None
    written = job.now.source.standing(base).written
    return default is not None and done.entry.n == 1 and written == default


def _direct(job: Job, typed: dict[Ref, Done], when: When) -> str:
    """A limit that is itself what somebody typed."""
    [(ref, done)] = typed.items()
    return f"limit typed by {done.entry.by} from “{ref_name(job, ref)}”, {when(done.entry.at)}"


def _worked_out(job: Job, ref: Ref, works: list[Ref], typed: dict[Ref, Done], when: When) -> str:
    """A limit that is the result of workings-out: of which, and what was typed that went into them."""
    from_ = list(_by_entry(job, typed, when))
    if any(_has_figures(job, one) for one in works) or len(typed) < len(list(bases(job.plan, ref))):
        from_.append("figures set in this template")
    return f"limit worked out by {_workings(job, works)} from {', and from '.join(from_)}"


def _by_entry(job: Job, typed: dict[Ref, Done], when: When) -> Iterator[str]:
    """What was typed at one time by one person for one step, in a row; then by whom and when."""
    groups: dict[tuple[str, str | None], list[Ref]] = {}
    for ref, done in typed.items():
        groups.setdefault((done.entry.hash, ref.step), []).append(ref)
    for refs in groups.values():
        entry = typed[refs[0]].entry
        yield f"{values_words(job, refs)}, typed by {entry.by}, {when(entry.at)}"


def values_words(job: Job, refs: Sequence[Ref]) -> str:
    """What givens, or values of one step, are called, the step that several readings share said once."""
    step = job.steps.get(refs[0].step or "") if refs[1:] else None
    if step is None:
        return joined([f"“{ref_name(job, one)}”" for one in refs])
    return f"{joined([f'“{own_name(job, one)}”' for one in refs])} in “{step_name(step)}”"


def _has_figures(job: Job, ref: Ref) -> bool:
    """Whether the template itself writes a figure into a working-out."""
    inputs = job.steps[ref.step or ""].step.work_out[ref.item].inputs.values()
    return any(isinstance(one, int | float) and not isinstance(one, bool) for one in inputs)


def _workings(job: Job, works: list[Ref]) -> str:
    """The working-out that gives the limit, and those whose results went into it, each with its source."""
    first, *behind = dict.fromkeys(_working(job, one) for one in works)
    results = f"the {'result' if len(behind) == 1 else 'results'} of {joined(behind)}"
    return f"{first}, with {results}," if behind else first


def _working(job: Job, ref: Ref) -> str:
    outcome = job.now.outcome(ref.step or "", ref.item)
    use = job.steps[ref.step or ""].step.work_out[ref.item].use
    return f"{use} ({outcome.source})" if outcome else use
