"""What nobody had planned in a job: parts that were needed, and what was met; put into its template."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.authoring.change import CHECK, PART, Making
from jobtrack.job.acts.conditions import OpensAct
from jobtrack.job.acts.doing import BuyingAct, PartAct
from jobtrack.job.acts.said import MetAct
from jobtrack.job.compose.steps import id_of
from jobtrack.job.doing.parts import PartOf, fitted, parts_of
from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import Job

LONGEST = 120
"""Characters of what was met that go into a check."""
NOT_KEPT = {"wrong", "going back"}


def add_parts(job: Job, making: Making) -> None:
    """Each part that nobody had planned, in the step that it was needed in; of whom and at what price stays out."""
    taken = {one.name for one in parts_of(job)}
    for part in parts_of(job):
        if part.planned is not None or not (part.buying or part.became):
            continue
        many = fitted(part.became)
        if not many and (not part.buying or part.states <= NOT_KEPT):
            making.left_out.append(f"the part “{part.name}”: it was neither fitted nor kept on order")
            continue
        id = id_of(part.name, taken)
        taken.add(id)
        _add_part(part, id, max(many, 1), making)


def _add_part(part: PartOf, id: str, many: int, making: Making) -> None:
    step = making.step(next((done.entry.step for done in _acts(part) if making.step(done.entry.step)), None))
    table = {"count": many, **({"from": "new"} if part.buying else {}), "say": part.name}
    (making.data if step is None else step).setdefault("part", {})[id] = table
    where = f"“{step['title']}”" if step is not None else "the whole job"
    making.did(PART, f"Part added to {where}: {part.name}, {many}.")


def _acts(part: PartOf) -> Iterator[Done]:
    yield from (done for done in part.became if isinstance(done.act, PartAct))
    yield from (done for done in part.buying if isinstance(done.act, BuyingAct))


def add_checks(job: Job, making: Making) -> None:
    """For each surprise a check in its step, so that the next one looks there."""
    declared = {*job.plan.template.condition, ASK_FIRST}
    met = [(done, _met(done.act)) for done in job.view.of_kind(MetAct) if isinstance(done.act, MetAct)]
    opened = [
        (done, done.act.opens) for done in job.view.of_kind(OpensAct)
        if isinstance(done.act, OpensAct) and done.act.opens not in declared
    ]  # fmt: skip
    for done, what in sorted((*met, *opened), key=lambda one: one[0].order):
        _add_check(done, " ".join(what.split()), making)


def _met(act: MetAct) -> str:
    """On what, and how it was: "stud (sheared), front left"."""
    named = act.part or act.text or ""
    more = f", {act.text}" if act.part and act.text else ""
    return f"{named} ({act.met}){more}" if named else act.met


def _add_check(done: Done, what: str, making: Making) -> None:
    step = making.step(done.entry.step)
    if step is None:
        making.left_out.append(f"“{what}”: it was met in no step")
        return
    short = what if len(what) <= LONGEST else f"{what[: LONGEST - 1]}…"
    ask = f"Looked at, since it was met once: {short.rstrip('.?!')}?"
    ticks = step.get("tick", {})
    if ask in (one["ask"] for one in ticks.values()):
        return
    taken = {name for table in ("reading", "tick", "work_out") for name in step.get(table, {})}
    step["tick"] = {**ticks, id_of(f"met {_first_words(what)}", taken): {"ask": ask}}
    making.did(CHECK, f"Check added to “{step['title']}”: {ask}")


def _first_words(text: str, most: int = 3) -> str:
    return " ".join(_plain(text.split())[:most])


def _plain(words: Iterable[str]) -> list[str]:
    return [one for one in words if any(sign.isalnum() for sign in one)]
