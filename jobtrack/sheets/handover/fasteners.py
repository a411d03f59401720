"""How far each bolt is tightened, bolt by bolt, and which of them nothing is recorded for."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.doing.tightening import EARLY, NOTHING, Bolt, Tightening, far, stages_of, tightening
from jobtrack.job.state.history import Done
from jobtrack.job.state.job import FINISHED, IN_HAND, LOOK_AGAIN, Job
from jobtrack.job.values.stage_torque import known_figure
from jobtrack.sheets.drawings.bolts import bolts as drawn
from jobtrack.sheets.handover.handing import Handing, points
from jobtrack.sheets.paper.blocks import Block, Paragraph, Picture, Section, Table
from jobtrack.sheets.words.doing.bolts import counted, uncounted_words
from jobtrack.sheets.words.doing.recorded import in_step
from jobtrack.sheets.words.doing.torques import setting_words, torque_words
from jobtrack.sheets.words.named import Names
from jobtrack.sheets.words.sentences import raised, step_name
from jobtrack.template.model import Torque
from jobtrack.template.plan import PlannedStep

TITLE = "Fasteners, bolt by bolt"
NONE = (
    "No fastener is recorded, and no step with one is begun. What is tight on the vehicle wasn't looked at."
)
HEAD = ("Bolt", "How far", "Figure", "By, when")
DRAWN_FROM = 3
"""Bolts from which on there is an order to see."""
APART = "disagreement, the lower counts: "


class Fastener(Struct, frozen=True):
    """A torque line of a step that is begun."""

    planned: PlannedStep
    name: str
    found: Tightening | None
    """None: the template has no such line any more, or never had."""
    others: tuple[Done, ...]
    """Acts that the line's bolts don't come by: at a stage that the template doesn't have."""

    @property
    def title(self) -> str:
        """The step with its side, and the line."""
        return f"{step_name(self.planned)}, {self.name}"

    @property
    def tight(self) -> bool:
        """Whether the last stage is recorded of every bolt, and nothing else is there to say."""
        found = self.found
        if found is None or self.others or not found.counted:
            return False
        return not found.left and not found.beyond and not any(bolt.apart for bolt in found.bolts)


def fasteners(job: Job) -> list[Fastener]:
    """Each torque line of the steps that were begun, and whatever else was recorded of bolts in a step."""
    return [
        _fastener(job, planned, name, done)
        for planned in job.steps.values()
        for done in [[one for one in in_step(job, planned.id) if isinstance(one.act, TorqueAct)]]
        if done or job.state(planned.id) in (IN_HAND, FINISHED, LOOK_AGAIN)
        for name in dict.fromkeys([*planned.step.torque, *(_line(one) for one in done)])
    ]


def _fastener(job: Job, planned: PlannedStep, name: str, done: list[Done]) -> Fastener:
    mine = [one for one in done if _line(one) == name]
    if name not in planned.step.torque:
        return Fastener(planned, name, None, tuple(mine))
    found = tightening(job, planned, name)
    odd = tuple(one for one in mine if far(found.line, _act(one).stage) == NOTHING)
    return Fastener(planned, name, found, odd)


def _act(done: Done) -> TorqueAct:
    assert isinstance(done.act, TorqueAct)
    return done.act


def _line(done: Done) -> str:
    return _act(done).torque


def fasteners_section(giving: Handing) -> Section:
    """Those not all at the last stage first, a row a bolt; then in one row each those that are."""
    found = fasteners(giving.job)
    tight = [_tight(giving, one) for one in found if one.tight]
    loose = tuple(_loose(giving, one) for one in found if not one.tight)
    done = [Section("All at the last stage, as recorded", tuple(points(tight)))] if tight else []
    return Section(TITLE, () if found else (Paragraph(NONE),), (*loose, *done))


def _loose(giving: Handing, one: Fastener) -> Section:
    bolts = one.found.every if one.found is not None else ()
    rows = [_bolt(giving, one, bolt) for bolt in bolts if bolt.reached != NOTHING or bolt.apart]
    rows += [_odd(giving, done) for done in one.others]
    return Section(one.title, tuple(_blocks(giving, one, rows)))


def _blocks(giving: Handing, one: Fastener, rows: list[tuple[str, ...]]) -> Iterator[Block]:
    if one.found is not None:
        yield Paragraph(raised(f"{torque_words(giving.job, one.planned, one.name, giving.shown)}."))
        yield from _settings(giving, one.planned, one.name, one.found)
    if rows:
        yield Table(HEAD, tuple(rows))
        yield from _order(giving, one)
    yield from points(_untouched(giving.job, one))


def _settings(giving: Handing, planned: PlannedStep, name: str, found: Tightening) -> Iterator[Block]:
    """What the wrench is set to at each stage, where the figure is known and there is more than one."""
    if found.stages > 1 and known_figure(giving.job.now, planned, name) is not None:
        said = (
            f"stage {stage}: {setting_words(giving.job, planned, name, stage, giving.shown)}"
            for stage in range(1, found.stages + 1)
        )
        yield Paragraph(f"Wrench, {'; '.join(said)}.", "strong")


def _order(giving: Handing, one: Fastener) -> Iterator[Block]:
    """The bolts by their numbers, which of them are done in the stage that goes on and which is next."""
    if one.found is None or len(one.found.bolts) < DRAWN_FROM:
        return
    drawing, note = drawn(giving.job, one.planned, one.name, giving.shown)
    if drawing is not None:
        yield Picture(drawing, "The order in which they are turned", note, "small")


def _bolt(giving: Handing, one: Fastener, bolt: Bolt) -> tuple[str, ...]:
    """A bolt, how far it is, with which torque, by whom and when."""
    assert one.found is not None
    done = bolt.done.get(bolt.reached)
    act = _act(done) if done is not None else None
    apart = APART if bolt.apart else ""
    return (
        bolt.name,
        f"{apart}{_far(one.found.line, bolt.reached)}",
        _torque(act) if act is not None else "",
        giving.who(done) if done is not None else "",
    )


def _torque(act: TorqueAct) -> str:
    return f"{act.value_words() or ''}{f' with {act.with_}' if act.with_ else ''}".strip()


def _far(line: Torque, reached: int) -> str:
    """ "finger", "snug", "stage 2 of 3", "final", "nothing recorded"."""
    early = {stage: word for word, stage in EARLY.items()} | {NOTHING: "nothing recorded"}
    if reached in early:
        return early[reached]
    return "final" if reached >= stages_of(line) else f"stage {reached} of {stages_of(line)}"


def _odd(giving: Handing, done: Done) -> tuple[str, ...]:
    """An act at a stage, or of a line, that the template doesn't have."""
    act = _act(done)
    stage = f"stage {act.stage}" if act.stage.isdecimal() else act.stage
    return act.member or "", f"{stage}, not in the template", _torque(act), giving.who(done)


def _untouched(job: Job, one: Fastener) -> Iterator[str]:
    """The bolts of a line that nothing is recorded for; where nobody knows how many there are, that."""
    if one.found is None:
        return
    left = [bolt.name for bolt in one.found.bolts if bolt.reached == NOTHING and not bolt.apart]
    if left:
        yield f"Nothing recorded: {counted('bolt', left)}"
    if not one.found.counted and one.found.given:
        yield uncounted_words(job, one.found.given, Names(job))


def _tight(giving: Handing, one: Fastener) -> str:
    """ "Nuts on, nuts: bolts 1 to 4 final, 55 N·m with beam wrench (Wim, 2 Apr 09:41)"."""
    assert one.found is not None
    alike: dict[str, list[str]] = {}
    for bolt in one.found.bolts:
        alike.setdefault(_how(giving, bolt.done[bolt.reached]), []).append(bolt.name)
    said = [f"{counted('bolt', names)} final{how}" for how, names in alike.items()]
    return f"{one.title}: {'; '.join(said)}"


def _how(giving: Handing, done: Done) -> str:
    torque = _torque(_act(done))
    return f"{torque and f', {torque}'} ({giving.who(done)})"
