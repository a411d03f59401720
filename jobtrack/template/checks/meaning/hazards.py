"""Checks: each danger of a step is in one of its hazard messages, and what holds and who may drive is said."""

from __future__ import annotations

from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.checks.meaning.kinds import HOT, KINDS, pattern, sparks
from jobtrack.template.checks.meaning.own_words import sentences, things
from jobtrack.template.kept import kept
from jobtrack.template.model import Step
from jobtrack.template.plan import Plan

_SPARKS, _FUME = ("sparks?", "fires?", "spatter"), ("fumes?", "smoke", "gas", "lungs?", r"breath\w*")
_WELDING = {
    "arc light": ("arc", "flash", "ultraviolet"),
    "sparks or fire": _SPARKS,
    "electric shock": (r"shock\w*", r"electr\w+", "live"),
    "fume": _FUME,
}
_OTHER_HOT = {
    "sparks or fire": _SPARKS,
    "the disc or burns": ("discs?", "blades?", "saws?", "bits?", r"burn\w*", "hot", "flames?", r"torch\w*"),
    "dust or fume": (*_FUME, "dust", "grit", "mask"),
}
_ROAD = ("on the road", r"\d+(?:\.\d+)? (?:km|miles?)(?! ?/ ?h)")
_FOR_THE_ROAD = {
    "inspection": (r"inspect\w*", "ask-first"),
    "plates": ("plates?",),
    "insurance": (r"insur\w+",),
}


def messages(step: Step) -> str:
    """All hazard messages of a step as one text."""
    return " . ".join(f"{one.hazard}, {one.does}, {one.avoid}" for one in step.hazard)


def hot(step: Step) -> list[str]:
    """The kinds of hot work that a step does; cutting that throws no sparks isn't hot."""
    kinds = [kind for kind in step.does if kind in HOT]
    cold = kinds == ["cuts"] and not sparks(f"{sentences(step)} {things(step)}")
    return [] if cold else kinds


def check_covered(plan: Plan) -> Iterator[Problem]:
    """Each kind of work in `does` is covered by a hazard message of the step."""
    for base, step in plan.template.step.items():
        text = messages(step)
        for name in step.does if text else ():
            kind = KINDS.get(name)
            if kind is not None and not kind.covered_by(text):
                yield remark(
                    ("step", base, "hazard"), f"it {kind.phrase}, and no hazard message of the step covers that",
                    f"Add a message, or words to one, about {kind.danger}",
                )  # fmt: skip


def check_hot_covered(plan: Plan) -> Iterator[Problem]:
    """Welding names arc, sparks, shock and fume; other hot work sparks, what cuts or burns, and dust or fume."""
    for base, step in plan.template.step.items():
        kinds, text = hot(step), messages(step)
        wanted, as_ = (
            (_WELDING, "Arc, hot metal, live rod holder")
            if "welds" in kinds
            else (_OTHER_HOT, "Disc, sparks, dust")
        )
        missing = [what for what, words in wanted.items() if not pattern(words).search(text)]
        if kinds and text and missing:
            yield remark(
                ("step", base, "hazard"),
                f"it {KINDS[kinds[0]].phrase}, and no hazard message names {_listed(missing)}",
                f"Add it; one message may name several, as “{as_}”",
            )  # fmt: skip


def _listed(names: list[str]) -> str:
    return ", ".join(names)


@kept
def on_stands(plan: Plan) -> set[str]:
    """The conditions that say that the vehicle stands on stands."""
    stands, axle = pattern(("stands?",)), pattern(("axle",))
    return {
        name
        for name, one in plan.template.condition.items()
        if stands.search(one.text) and not axle.search(one.text)
    }


def check_chocked(plan: Plan) -> Iterator[Problem]:
    """Where a vehicle goes on stands or off them, that step or one before it in its stage speaks of chocks."""
    stands, chocked = on_stands(plan), set()
    for base, step in plan.template.step.items():
        if pattern((r"chock\w*",)).search(f"{sentences(step)} {things(step)} {messages(step)}"):
            chocked.add(step.stage)
        elif (
            set(step.does) & {"lifts", "lowers"}
            and stands & {*step.opens, *step.closes}
            and step.stage not in chocked
        ):
            yield remark(
                ("step", base, "do"), "the vehicle goes on its stands or off them, and nothing is said of chocks",
                "Say which wheels are chocked before, and whether the chocks stay",
            )  # fmt: skip


def check_on_the_road(plan: Plan) -> Iterator[Problem]:
    """A step that drives on the road asks first for inspection, plates and insurance: a test is use as well."""
    for base, step in plan.template.step.items():
        if "drives" not in step.does or not (found := pattern(_ROAD).search(step.do)):
            continue
        said = f"{sentences(step)} {messages(step)} {' '.join(step.not_while)}"
        missing = [what for what, words in _FOR_THE_ROAD.items() if not pattern(words).search(said)]
        if missing:
            yield remark(
                ("step", base, "do"), f"“{found[0]}” is driven, and nothing is said of {_listed(missing)}",
                "Say what is asked for before it goes on the road; a test there is use, so private ground comes first",
            )  # fmt: skip
