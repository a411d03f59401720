"""The template as data: one frozen class a table of the TOML file, keys as in the file.

A key that is a Python keyword has an underscore at its end here (`for_`, `from_`, `with_`).
Nothing in this module reads, checks or expands: `load.py`, `proofread.py` and `plan.py` do. The annotations
say how each key is written, to the reader and to the published schema alike (`jobtrack/schema/marks.py`).
"""

from typing import Annotated

from msgspec import Struct, field

from jobtrack.schema.marks import Formerly, Grouped, Id, InOrder, Keys, OneOrMore, Only, Rest, Says, TrueFor

FORMAT = 1
"""The format of templates that this program reads and writes."""

ASK_FIRST = "Not yet asked: does this need an approval, a licensed person, an inspection?"
"""What `ask_first = true` stands for."""

OLD_THEN = "follows"
"""How a comparison's key `then` was called; read in its place for one more version, and remarked on."""

MOST_BOLTS = 24
"""So many bolts of one line may a given say; common practice, no source: no cover of a light vehicle has more."""

Name = Annotated[str, Id()]
"""An id."""

Scalar = float | int | str
"""A number in the unit of its table, or a name to look up."""

PerMember = dict[str, Scalar]
"""One scalar a member of the step's set; a member may be left out."""

Answers = Annotated[tuple[str | bool, ...], OneOrMore()]
"""The answers to a given that meet a condition; one may stand without a list."""


class Hazard(Struct, frozen=True):
    """A hazard message: signal word (ANSI Z535.6), the hazard, what it does, how to avoid it."""

    signal: str
    hazard: str
    does: str
    avoid: str


HazardRow = Annotated[
    Hazard,
    InOrder("a hazard message", '["WARNING", "the hazard", "what it does", "how to avoid it"]'),
]


class Given(Struct, frozen=True):
    """Something known at the start. Exactly one of `unit`, `choose`, `kind` is set."""

    ask: str
    unit: str | None = None
    choose: tuple[str, ...] = ()
    kind: str | None = None
    """text, yes/no or date."""
    default: float | int | str | bool | None = None
    only_when: dict[str, Answers] = field(default_factory=dict)


class Condition(Struct, frozen=True):
    """Something unsafe or unfinished that a step may leave."""

    text: str
    tag: str | None = None
    passes_to: str | None = None
    """The due-afterwards line that it becomes when the job is closed."""
    answered: str | None = None
    """Why a remark of `proofread` on this table stands."""


class Stage(Struct, frozen=True):
    """A part of the job that its steps name; `after` holds the stages that should be settled before it."""

    title: str
    after: Annotated[tuple[str, ...], OneOrMore()] = ()
    for_each: str | None = None
    one_by_one: bool = False
    only_when: dict[str, Answers] = field(default_factory=dict)


class Reading(Struct, frozen=True):
    """A measured value and its limits. Limits are numbers in `unit`, names, or one of these a member."""

    unit: str | None = None
    """None: a plain number."""
    with_: str | None = None
    """The instrument."""
    doubt: float | int | None = None
    """Expanded uncertainty (k = 2), half-width, in `unit`."""
    target: Scalar | PerMember | None = None
    at_least: Scalar | PerMember | None = None
    at_most: Scalar | PerMember | None = None
    off_by: float | int | str | None = None
    """Tolerance either way round the target, in `unit`, or a share of it as "1 %"."""
    over_by: float | int | None = None
    under_by: float | int | None = None
    strict: bool = False
    """Decide by ISO 14253-1: within and outside only where the uncertainty leaves no doubt."""
    times: int | None = None
    """How many repeats are asked for; their mean counts."""
    record_only: bool = False
    from_: str | None = None
    """The result of a working-out that this reading shows; nothing is typed."""
    say: str | None = None
    source: str | None = None
    """Whose limit it is; None: the template author's own."""
    answered: str | None = None
    """Why a remark of `proofread` on this table stands."""


class Wait(Struct, frozen=True):
    """How long after the last entry of a step a check is answered *yes* at the soonest, as a fire watch asks."""

    minutes: float | int
    since: str
    """The step, seen from the one that waits: the same member of the same set, else every member."""


class Tick(Struct, frozen=True):
    """A thing looked at; *yes* is what is wanted."""

    ask: str
    wait: Wait | None = None
    answered: str | None = None
    """Why a remark of `proofread` on this table stands."""


class WorkOut(Struct, frozen=True):
    """A working-out of `shopmath` and what goes into it: numbers, texts or names."""

    use: Annotated[str, Says("the name of the working-out")]
    inputs: Annotated[dict[str, float | int | str | bool], Rest()] = field(default_factory=dict)


class CompareRow(Struct, frozen=True):
    """One line of the table that sets the two vehicles side by side."""

    of: str
    """STEP.READING of a step that is repeated over `vehicle`."""
    say: str | None = None
    by: str | None = None
    """The result of a working-out that says by how much."""
    then: Annotated[str | None, Formerly(OLD_THEN)] = None
    """The given (with `choose`) in which the person says what follows."""


class Part(Struct, frozen=True):
    """A part that a step, or the job as a whole, needs."""

    count: int = 1
    from_: str | None = None
    """new, re-used, from the donor, made here."""
    before: str | None = None
    """The stage that should not begin before it is on the bench."""
    say: str | None = None


class Torque(Struct, frozen=True):
    """Fasteners tightened alike: what they are, how many, in which stages, and whose figure."""

    thread: str | None = None
    grade: str | None = None
    finish: str | None = None
    bolts: int | str = 1
    """How many there are, or the given that holds the number, where it hangs on the vehicle."""
    stages: tuple[float | int, ...] = ()
    """Shares of the figure in percent, rising to 100."""
    figure: Annotated[
        dict[str, str] | str,
        Keys(
            "value", "source",
            why="a figure needs its value and its source",
            mend='Write { value = "55 N*m", source = "…" }',
        ),
    ] = "ask the maker"  # fmt: skip
    """`{ value, source }`, or "ask the supplier", "ask the maker", "work out"."""
    given: str | None = None
    """The given that holds the figure once whoever is to be asked has said it."""
    again: str | None = None
    answered: str | None = None
    """Why a remark of `proofread` on this table stands."""


class Weld(Struct, frozen=True):
    """A weld as it is to be made; texts are shown as they stand."""

    process: str | None = None
    rod: str | None = None
    fillet: str | None = None
    runs: int = 1
    order: str | None = None
    prepare: str | None = None
    before_next: str | None = None
    answered: str | None = None
    """Why a remark of `proofread` on this table stands."""


class Hold(Struct, frozen=True):
    """Work should stop here until a named person has looked."""

    ask: str


class Step(Struct, frozen=True):
    """One thing to do. With a set in `for_each`, its own or its stage's, there is one for each member of it."""

    stage: str
    title: str
    do: str = ""
    for_each: str | None = None
    after: Annotated[tuple[str, ...] | None, OneOrMore()] = None
    """None: the step before it in its stage. Empty: nothing."""
    only_when: dict[str, Answers] = field(default_factory=dict)
    does: tuple[str, ...] = ()
    hazard: tuple[HazardRow, ...] = ()
    tools: tuple[str, ...] = ()
    consumables: tuple[str, ...] = ()
    people: int = 1
    hoist: bool = False
    helper_alone: bool = False
    minutes: tuple[float | int, ...] = ()
    """Short, likely, long."""
    opens: tuple[str, ...] = ()
    closes: tuple[str, ...] = ()
    not_while: tuple[str, ...] = ()
    not_beside: tuple[str, ...] = ()
    hold: Hold | None = None
    go_or_stop: Hold | None = None
    again: str | None = None
    """How often the step is to be repeated, in words."""
    about: str | None = None
    """The vehicle that it is about, where that isn't the template's and it isn't repeated over `vehicle`."""
    answered: dict[str, str] = field(default_factory=dict)
    """By a key of the step, why the remark of `proofread` on that key stands; a key here answers no other."""
    reading: dict[Name, Reading] = field(default_factory=dict)
    tick: dict[Name, Tick] = field(default_factory=dict)
    work_out: dict[Name, WorkOut] = field(default_factory=dict)
    compare: dict[Name, CompareRow] = field(default_factory=dict)
    part: dict[Name, Part] = field(default_factory=dict)
    torque: dict[Name, Torque] = field(default_factory=dict)
    weld: dict[Name, Weld] = field(default_factory=dict)


class DueAfterwards(Struct, frozen=True):
    """Something to be done once the job is closed, so far on or so many days later."""

    after: str
    """A distance or a number of days, as written."""
    step: str | None = None
    say: str | None = None


class Exchanged(Struct, frozen=True):
    """A part that a vehicle gets in the place of its own, and the two ratings: numbers of one kind."""

    vehicle: str
    own: str
    """The given that holds the rating of its own part."""
    gets: str
    """The given that holds the rating of the part that it gets."""
    say: str
    """What the part is called inside a sentence: "rear axle"."""
    only_when: dict[str, Answers] = field(default_factory=dict)


class Template(Struct, frozen=True):
    """The whole file: what a job of this kind consists of, as its author wrote it."""

    format: Annotated[int, Only(FORMAT)]
    id: str
    title: str
    version: str = "1"
    for_: str | None = None
    ask_first: Annotated[str | None, TrueFor(ASK_FIRST, "the question as a text in quotes, or true")] = None
    """The question that must be asked of others first; it opens the condition `ask-first`."""
    hazard: tuple[HazardRow, ...] = ()
    answered: str | None = None
    """Why the remarks of `proofread` on what belongs to no step stand."""
    vehicle: dict[Name, str] = field(default_factory=dict)
    """Vehicle id and what it is; `vehicle` is a set by itself."""
    about: str | None = None
    """The vehicle that those steps are about which are repeated over no vehicle; None: the job as a whole."""
    exchanged: dict[Name, Exchanged] = field(default_factory=dict)
    """By which vehicle what is got in the place of what, and how both are rated."""
    given: Annotated[dict[Name, Given], Grouped()] = field(default_factory=dict)
    """By name; a vehicle's own as `VEHICLE.NAME`."""
    set: dict[Name, tuple[Name, ...]] = field(default_factory=dict)
    condition: dict[Name, Condition] = field(default_factory=dict)
    stage: dict[Name, Stage] = field(default_factory=dict)
    step: dict[Name, Step] = field(default_factory=dict)
    part: dict[Name, Part] = field(default_factory=dict)
    due_afterwards: dict[Name, DueAfterwards] = field(default_factory=dict)
