"""What `--json` prints, as pydantic models: scripts rely on these names and shapes, so keys are added, never renamed.

Only `jobtrack schema` and the tests import this module; what is printed is put together without it, and the tests
hold both to each other.
"""

from __future__ import annotations

import re
from types import GenericAlias
from typing import Annotated, Any, Literal, get_type_hints

from pydantic import BaseModel, ConfigDict, Field, create_model

from jobtrack.job.acts.base import IN_STEP, OF_JOB, Act, keys
from jobtrack.sheets.as_json.beside import NAMES, listed_kinds

Plain = float | int | str | bool
Worked = Plain | list[Plain | list[Plain]]
"""A result: a list has the unit of its items."""
Instant = Annotated[str, Field(json_schema_extra={"format": "date-time"})]
"""With its offset from UTC."""
Verdict = Literal["within", "outside", "too close to call", "none"]
State = Literal["to come", "next", "in hand", "finished", "not needed", "look again"]


class Printed(BaseModel):
    """An object in which every key is always there, and no other."""

    model_config = ConfigDict(extra="forbid", strict=True, use_attribute_docstrings=True)


MADE = {"use_attribute_docstrings": False}
"""A class that is made has no source of its own to look through for the texts under its keys."""


class Said(Printed):
    """Who recorded something, and when it was done."""

    by: str
    at: Instant


class Given(Printed):
    """Something known from the start."""

    value: Plain | None
    """Null: not known yet, or two values that disagree."""
    unit: str | None
    typed: str | None
    """Word for word as it was typed."""


class About(Printed):
    """The job itself."""

    id: str
    title: str
    template: str
    ended: Literal["closed", "stopped"] | None
    givens: dict[str, Given]
    """By name; a vehicle's own as VEHICLE.NAME."""


class Hold(Printed):
    """Where the work stops until a named person has looked; who released it, and when."""

    ask: str
    state: Literal["to come", "released", "released before a change"]
    by: str | None
    at: Instant | None


class OtherReading(Said):
    """What else was measured in the place of a reading: replaced by it, or in disagreement with it."""

    act: str
    """ENTRY/INDEX."""
    value: Plain | list[float] | None
    unit: str | None
    typed: str | list[str] | None


class Reading(Printed):
    """A reading as it counts now, all numbers in `unit`."""

    value: float | None
    """Null: nothing recorded, no number, or a disagreement; the mean where several were asked for."""
    unit: str | None
    typed: str | list[str] | None
    bound: Literal["about", "over", "under", "range", "none"] | None
    low: float | None
    high: float | None
    word: str | None
    """What was said in the place of a number: can't reach, seized."""
    target: float | None
    off_by: float | None
    at_least: float | None
    at_most: float | None
    doubt: float | None
    """Expanded uncertainty, k = 2."""
    with_: str | None = Field(alias="with")
    """The instrument: the one that was used, else the one that is asked for."""
    verdict: Verdict
    by: str | None
    at: Instant | None
    others: list[OtherReading]


class TorqueStage(Said):
    """The stage at which a bolt stands."""

    stage: str
    value: float | None
    unit: str | None
    typed: str | None
    with_: str | None = Field(alias="with")


class OtherAct(Said):
    """What has no list of its own, in words."""

    act: str
    kind: str
    words: str


class Recorded(Said):
    """An act with all that it says, null where nothing was said."""

    act: str
    """ENTRY/INDEX."""
    step: str | None


def _recorded(act: type[Act]) -> type[Recorded]:
    """The table of an act: its own keys, in the words of its class, and who recorded it."""
    kinds, (told, *rest) = get_type_hints(act), (act.__doc__ or "").split("\n\n")
    words = dict(re.findall(r"^ *(\w+): (.+)$", "\n".join(rest), re.MULTILINE))
    own: dict[str, Any] = {
        key.attribute: (kinds[key.attribute], Field(alias=name, description=words.get(name)))
        for name, key in keys(act).items()
        if name not in NAMES
    }
    return create_model(
        f"{act.kind.title()}Table", __base__=Recorded, __doc__=told, __cls_kwargs__=MADE, **own
    )


def _lists(under: str) -> Any:
    """The lists of what stands in its step, or of the job."""
    return {kind.listed: (GenericAlias(list, _recorded(kind)), ...) for kind in listed_kinds(under)}


class _Step(Printed):
    """A step, spread over its member where it is repeated."""

    id: str
    stage: str
    title: str
    state: State
    problems: list[str]
    """What was out of order, in words."""
    hazard: list[Annotated[list[str], Field(min_length=4, max_length=4)]]
    """Signal word, the hazard, what it does, how to avoid it."""
    hold: Hold | None
    readings: dict[str, Reading]
    ticks: dict[str, bool | None]
    """Null: not answered; a disagreement counts as no."""
    torques: dict[str, dict[str, str]]
    """The stage of each bolt of a torque line."""
    torque_stages: dict[str, dict[str, TorqueStage]]
    """The same with figure, instrument, who and when."""
    others: list[OtherAct]


Step = create_model("Step", __base__=_Step, __cls_kwargs__=MADE, **_lists(IN_STEP))


class Result(Printed):
    """What a working-out of the job gives, and how sure it is (k = 2)."""

    value: Worked | None
    """Null where it can't be given."""
    unit: str | None
    doubt: float | None


class Condition(Printed):
    """Something recorded as unsafe or unfinished."""

    id: str
    member: str | None
    step: str | None
    text: str
    since: Instant | None
    by: str | None
    tag: str | None


class Due(Printed):
    """To be done after the job is closed."""

    id: str
    text: str
    done: bool


class JobHours(Printed):
    """Labour hours of this job alone."""

    total_hours: float
    by_person: dict[str, float]
    by_step: dict[str, float]
    """What belongs to no step stands under "(no step)"."""
    running: list[str]
    """Whose clock runs."""


class Gone(Printed):
    """An entry that this machine has seen and that the file doesn't hold."""

    id: str
    at: Instant
    by: str
    file: str
    """Where it was seen last."""


class _Job(Printed):
    """The state of a job, as `jobtrack show JOBFILE --json` prints it."""

    job: About
    steps: list[Step]  # type: ignore[valid-type]
    workings_out: dict[str, dict[str, Result]]
    """By step and NAME.RESULT."""
    open_conditions: list[Condition]
    """An empty list is no sign that all is well."""
    tags: list[str]
    next_steps: list[str]
    due_afterwards: list[Due]
    hours: JobHours
    problems: list[str]
    others: list[OtherAct]
    gone: list[Gone]


Show = create_model(
    "Job", __base__=_Job, __doc__=_Job.__doc__, __cls_kwargs__=MADE, **_lists(OF_JOB), **_lists(IN_STEP)
)


class Group(Printed):
    """The hours of one step, stage, person, vehicle, job, template or month."""

    key: str
    hours: float
    estimated_hours: float | None
    """Three-point means of the steps that aren't *not needed*; null where the template gives none."""


class Hours(Printed):
    """Labour hours over jobs, as `jobtrack hours PATH --json` prints them."""

    total_hours: float
    groups: list[Group]


class Input(Printed):
    """What went in, defaults too."""

    value: Worked | None
    unit: str | None
    typed: str | None
    """Null: a default."""


class Output(Printed):
    """What came out."""

    value: Worked | None
    """Null where it can't be given."""
    unit: str | None


class WorkOut(Printed):
    """One working-out, as `jobtrack work-out NAME KEY=VALUE --json` prints it."""

    name: str
    inputs: dict[str, Input]
    results: dict[str, Output]
    source: Annotated[str, Field(min_length=1)]
    hazards: list[str]
    remarks: list[str]


WorkingsOut = dict[str, list[str]]
"""The names of all workings-out by topic, as `jobtrack work-out --json` prints them."""


class TemplateFile(Printed):
    """A template that a job can be begun from."""

    id: str
    title: str
    steps: int
    file: str
    where: Literal["own", "jobs", "shipped"]
    """In the user's own folder, in the folder of the jobs, or with the program."""
    instead_of: list[str]
    """The files of the same id in whose place it stands."""


Templates = list[TemplateFile]


class Finding(Printed):
    """Something found in a template, with its place; lines and columns count from 1."""

    file: str
    line: int
    column: int
    kind: Literal["mistake", "remark"]
    key: str
    """Dotted, as written in the file; empty where no key is concerned."""
    why: str
    mend: str


Proofread = list[Finding]
