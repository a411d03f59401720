"""The reckoner's list: a step's own workings-out first, then the catalogue; a few letters narrow it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field

from jobtrack import units
from jobtrack.job.state.job import Job
from jobtrack.pages.step.workings_here import unit_of
from jobtrack.shopmath import catalogue
from jobtrack.shopmath.catalogue import Quantity, Value, WorkingOut, WorkingOutError
from jobtrack.template.model import WorkOut
from jobtrack.template.plan import PlannedStep, Ref


class Pick(Struct, frozen=True):
    """One working-out that can be chosen."""

    work: WorkingOut
    title: str = ""
    """What the step at hand calls it; empty for the others."""
    typed: dict[str, str] = field(default_factory=dict)
    """Its inputs as far as the job knows them."""

    @property
    def name(self) -> str:
        """The catalogue's name, behind the step's own title where it has one."""
        return f"{self.title}, {self.work.name}" if self.title else self.work.name


def picks(job: Job | None = None, planned: PlannedStep | None = None) -> list[Pick]:
    """Those of the step at hand with the job's values filled in, then the rest of the catalogue by topic."""
    own = _own(job, planned) if job is not None and planned is not None else []
    used = {one.work.name for one in own}
    names = [name for topic in catalogue.by_topic().values() for name in topic if name not in used]
    return own + [Pick(catalogue.find(name)) for name in names]


def _own(job: Job, planned: PlannedStep) -> list[Pick]:
    found = []
    for name, use in planned.step.work_out.items():
        try:
            work = catalogue.find(use.use)
        except WorkingOutError:
            continue  # a mistake of the template's, which `proofread` names
        found.append(Pick(work, name.replace("-", " "), filled(job, planned, work, use)))
    return found


def filled(job: Job, planned: PlannedStep, work: WorkingOut, use: WorkOut) -> dict[str, str]:
    """The inputs of a step's working-out as one would type them, those that are known."""
    kinds = {one.key: one for one in work.inputs}
    found = {key: _text(job, planned, kinds[key], value) for key, value in use.inputs.items() if key in kinds}
    return {key: text for key, text in found.items() if text}


def _text(job: Job, planned: PlannedStep, kind: Quantity, value: float | int | str | bool) -> str:
    ref = job.plan.resolve(value, planned) if isinstance(value, str) else None
    if ref is not None:
        return _of_job(job, kind, ref)
    words = kind.choices or kind.unit in ("text", "date")
    return _typed(value, None) if words or not isinstance(value, str) else ""


def _of_job(job: Job, kind: Quantity, ref: Ref) -> str:
    unit = unit_of(job, ref)
    if kind.items and ref.kind == "reading":
        return "; ".join(_typed(one, unit) for one in job.places.reading(ref.step or "", ref.item).values)
    return _typed(job.now.value(ref), unit)


def _typed(value: Value, unit: str | None) -> str:
    """A value as one would type it; what isn't known is empty."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    return units.show(units.exact(value), unit) if value is not None and not isinstance(value, tuple) else ""


def matching(found: Sequence[Pick], text: str) -> list[Pick]:
    """Those that hold every word typed; names that begin with them first, then other names, then other words."""
    words = _plain(text).split()
    ranked = [(rank, one) for one in found if (rank := _rank(one, words)) is not None]
    return [one for _, one in sorted(ranked, key=lambda pair: pair[0])]


def _rank(one: Pick, words: list[str]) -> int | None:
    name = _plain(one.name)
    if name.startswith(" ".join(words)):
        return 0
    if all(word in name for word in words):
        return 1
    keys = [quantity.key for quantity in (*one.work.inputs, *one.work.results)]
    everything = _plain(" ".join((name, one.work.topic, one.work.formula, *keys)))
    return 2 if all(word in everything for word in words) else None


def _plain(text: str) -> str:
    return text.casefold().replace("-", " ").replace("_", " ").strip()
