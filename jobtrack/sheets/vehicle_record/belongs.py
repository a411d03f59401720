"""What of a job belongs on the record of which vehicle.

A step that is repeated over `vehicle` is about its member, another about the vehicle that it names, else about the one
that its template names, else, where the template has one vehicle alone, about that; else about the job as a whole,
which stands on every record. What was recorded in a step goes with it, and what was recorded in none goes with the
vehicle that the template is about.
"""

from __future__ import annotations

from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.conditions import OpenCondition
from jobtrack.job.state.job import Job
from jobtrack.template.plan import VEHICLE_SET, Plan, PlannedStep

THE_ONE = "vehicle"
"""What the one vehicle of a template goes by that names none."""


def vehicles(plan: Plan) -> tuple[str, ...]:
    """The vehicles of a job, by their ids."""
    return tuple(plan.template.vehicle) or (THE_ONE,)


def about(plan: Plan, planned: PlannedStep) -> str | None:
    """The vehicle that a step is about; None: the job as a whole."""
    if planned.set == VEHICLE_SET:
        return planned.member
    own = planned.step.about
    return own if own in plan.template.vehicle else main_vehicle(plan)


def main_vehicle(plan: Plan) -> str | None:
    """The vehicle that all is about of which nothing else is said; None: none of several."""
    known, named = vehicles(plan), plan.template.about
    if not known[1:]:
        return known[0]
    return named if named in known else None


def vehicle_name(job: Job, vehicle: str) -> str:
    """What the vehicle is called: as typed; the only one of a job by the job's title; else by its id."""
    standing = job.places.given(f"{vehicle}.name") if f"{vehicle}.name" in job.plan.givens else None
    if standing is not None and standing.value is not None:
        return str(standing.value)
    return vehicle if vehicles(job.plan)[1:] else job.about.title


class OnRecord:
    """Which steps, entries, givens and open conditions of a job belong to one vehicle."""

    def __init__(self, job: Job, vehicle: str) -> None:
        self.job, self.vehicle = job, vehicle
        self.steps = [one for one in job.steps.values() if about(job.plan, one) in (vehicle, None)]
        self._ids = {one.id for one in self.steps}

    @property
    def whole(self) -> bool:
        """Whether what is about the job as a whole belongs to this vehicle."""
        return main_vehicle(self.job.plan) in (self.vehicle, None)

    def step(self, id: str) -> bool:
        """Whether a step of the job does."""
        return id in self._ids

    def entry(self, entry: Entry) -> bool:
        """Whether what an entry did does."""
        return self.place(entry.step)

    def place(self, step: str | None) -> bool:
        """Whether what was done in a step does, or in none, or in one that isn't there any more."""
        return self.step(step) if step in self.job.steps and step is not None else self.whole

    def given(self, name: str) -> bool:
        """Whether something known does: the vehicle's own, or nobody's."""
        owner = name.rpartition(".")[0]
        return owner == self.vehicle or (not owner and self.whole)

    def condition(self, one: OpenCondition) -> bool:
        """Whether something open does. In doubt it does: only what is another vehicle's is left off."""
        if one.member in self.job.plan.template.vehicle:
            return one.member == self.vehicle
        return one.step not in self.job.steps or self.step(one.step or "")
