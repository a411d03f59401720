"""The few questions from which a template is begun, one after the other, each asked again until its answer fits."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence

from msgspec import Struct

from jobtrack.job.compose.steps import id_of
from jobtrack.template.checks.words import DOES
from jobtrack.template.model import ASK_FIRST

Ask = Callable[[str], str]
"""Gives the answer to a question; raises where none comes any more."""
Say = Callable[[str], None]
Takes = Callable[[str], str | None]
"""Why an answer isn't taken; None where it is."""

MOST = 100
"""Characters of a title."""
NO_APPROVAL = {"battery", "solvent"}
"""Kinds of work about which nobody is asked first."""
TRIES = 50
"""So many answers to one question that don't fit are no slips of typing any more."""
ONCE = "once"
VEHICLES = ("recipient", "donor")
SIDES = ("left", "right")
OVER = {"side": "once for each side", "vehicle": "once for each vehicle"}
BEGIN = (
    "Some questions, then the file is written. Enter alone takes what stands behind “Enter:”. Ctrl-C ends it, and "
    "nothing is written before the last answer."
)
ASKED = f"What is asked of others first? (Enter: {ASK_FIRST})"
TOUCHES = "Does it touch axle, frame, steering, brakes, suspension, fuel or gas?"
ALL_THE_SAME = (
    "Whether others are to be asked is asked first in each job all the same: the kinds of work want it."
)
TWO = (
    f"Are there two vehicles, one that gets something ({VEHICLES[0]}) and one that gives it ({VEHICLES[1]})?"
)
ALIKE = "Is something done on the left and on the right alike?"
EXAMPLE = "Write an example of a reading and of a check into the first step?"
ALL_KINDS = ", ".join(DOES)
KINDS = "What does it do? (kinds of work as above; Enter: none of them)"


class TooManyTries(Exception):
    """Nobody is answering these questions."""


class StepAnswer(Struct, frozen=True):
    """A step: its title, and the kinds of work in it."""

    title: str
    does: tuple[str, ...]


class StageAnswer(Struct, frozen=True):
    """A stage, the set that it is repeated over (else empty), and its steps."""

    title: str
    over: str
    steps: tuple[StepAnswer, ...]


class Answers(Struct, frozen=True):
    """All that was answered."""

    title: str
    id: str
    for_: str
    asks: bool
    ask_first: str
    """The question to others in somebody's own words; empty: the usual one."""
    two: bool
    sides: bool
    stages: tuple[StageAnswer, ...]
    example: bool


def questions(ask: Ask, say: Say) -> Answers:
    """Ask all of them. Raises what `ask` raises, and TooManyTries."""
    return _Asking(ask, say).all()


def others_are_asked(asks: bool, stages: Sequence[StageAnswer]) -> bool:
    """Whether a job begins with the question to others: where somebody has said so, or the kinds of work want it."""
    return asks or any(set(step.does) - NO_APPROVAL for stage in stages for step in stage.steps)


class _Asking:
    def __init__(self, ask: Ask, say: Say) -> None:
        self._ask = ask
        self._say = say

    def all(self) -> Answers:
        self._say(BEGIN)
        title = self._words("What is the job called? (as: Water pump renewed)", ())
        id = id_of(title, ())
        self._say(f"  Its id: {id}")
        for_ = self._ask("For which vehicles? (Enter: not said)")
        asks = self._yes(TOUCHES, True)
        ask_first = self._ask(ASKED) if asks else ""
        two = self._yes(TWO, False)
        sides = self._yes(ALIKE, False)
        sets = [name for name, there in (("side", sides), ("vehicle", two)) if there]
        stages = self._stages(sets)
        if not asks and others_are_asked(asks, stages):
            self._say(ALL_THE_SAME)
        example = self._yes(EXAMPLE, True)
        return Answers(title, id, for_, asks, ask_first, two, sides, stages, example)

    # One question

    def _until(self, question: str, takes: Takes) -> str:
        """Ask until the answer is taken; why it isn't is said."""
        for _ in range(TRIES):
            text = self._ask(question)
            why = takes(text)
            if why is None:
                return text
            self._say(f"  {why}")
        raise TooManyTries(question)

    def _yes(self, question: str, usual: bool) -> bool:
        words = {"y": True, "yes": True, "n": False, "no": False, "": usual}

        def takes(text: str) -> str | None:
            return None if text.casefold() in words else "Type y or n."

        answer = self._until(f"{question} (y, n; Enter: {'y' if usual else 'n'})", takes)
        return words[answer.casefold()]

    def _words(self, question: str, there: Collection[str], may_end: bool = False) -> str:
        """A title that isn't there yet."""
        known = {one.casefold() for one in there}

        def takes(text: str) -> str | None:
            if not text:
                return None if may_end else "Type a few words."
            if len(text) > MOST:
                return f"At most {MOST} characters: shorten it."
            if not any(sign.isalnum() for sign in text):
                return "A title has a letter or a digit in it."
            return "It stands there already: call this one otherwise." if text.casefold() in known else None

        return self._until(question, takes)

    # Stages and steps

    def _stages(self, sets: Sequence[str]) -> tuple[StageAnswer, ...]:
        self._say("The stages of the work in their order, a line each; Enter alone ends them.")
        titles: list[str] = []
        while title := self._words(f"Stage {len(titles) + 1}:", titles, may_end=bool(titles)):
            titles.append(title)
        self._say(f"The kinds of work that are asked for with each step: {ALL_KINDS}.")
        steps: list[str] = []
        return tuple(self._stage(title, sets, steps) for title in titles)

    def _stage(self, title: str, sets: Sequence[str], there: list[str]) -> StageAnswer:
        over = self._over(title, sets) if sets else ""
        self._say(f"The steps of “{title}” in their order, a line each; Enter alone ends them.")
        steps: list[StepAnswer] = []
        while name := self._words(f"Step {len(steps) + 1}:", there, may_end=bool(steps)):
            there.append(name)
            steps.append(StepAnswer(name, self._kinds()))
        return StageAnswer(title, over, tuple(steps))

    def _over(self, title: str, sets: Sequence[str]) -> str:
        offered = ", ".join(f"{one} ({OVER[one]})" for one in sets)

        def takes(text: str) -> str | None:
            return None if text.casefold() in ("", ONCE, *sets) else f"Type {ONCE}, {' or '.join(sets)}."

        text = self._until(
            f"How often is “{title}” done? ({ONCE}, {offered}; Enter: {ONCE})", takes
        ).casefold()
        return "" if text == ONCE else text

    def _kinds(self) -> tuple[str, ...]:
        def takes(text: str) -> str | None:
            strange = [one for one in _apart(text) if one not in DOES]
            return f"{strange[0]} is none of them: {ALL_KINDS}." if strange else None

        return tuple(dict.fromkeys(_apart(self._until(KINDS, takes))))


def _apart(text: str) -> list[str]:
    """The words of an answer, by blanks or commas."""
    return text.casefold().replace(",", " ").split()
