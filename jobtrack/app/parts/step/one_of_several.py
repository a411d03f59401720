"""What is chosen from several: a condition that is closed, and which of two values counts."""

from __future__ import annotations

from jobtrack.app.parts.desks.step_desk import StepDesk
from jobtrack.app.parts.questions import GOES_ON, Questions
from jobtrack.app.parts.step.words import Words
from jobtrack.app.session import Fill
from jobtrack.job.compose import conditions, people, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import ASK_FIRST, OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.items import Item, standing
from jobtrack.sheets.words.sentences import tag_questions, worst_first
from jobtrack.sheets.words.values.readings import one_measured


class Closing:
    """Closes a condition: chosen by its words, then a name and a second key."""

    def __init__(self, desk: StepDesk, asks: Questions) -> None:
        self._desk = desk
        self._asks = asks

    def close(self) -> None:
        """Choose a condition, then its name and second key."""
        screen, listed = self._desk.screen, worst_first(self._desk.job)
        if not listed:
            screen.entry.say(
                f"No open condition is recorded that could be closed; {named('a', 'unsafe')} opens one."
            )
            return
        texts = [condition_sentence(one) for one in listed]
        screen.app.opening.choose(
            "Which condition is closed?", texts, lambda number: self._close(listed[number])
        )

    def _close(self, one: OpenCondition) -> None:
        about = condition_sentence(one)
        if one.id == ASK_FIRST:
            self._asks.ask("Who was asked?", lambda who: self._asked(one, who), [about], GOES_ON)
        else:
            self._by_name(self._closes(one), lambda made: conditions.closes(made, one.name))

    def _closes(self, one: OpenCondition) -> list[str]:
        """What the second key closes, and what it says of the tag."""
        left = [other for other in self._desk.job.all_open if other.name != one.name]
        return [f"Closes: {condition_sentence(one)}", *tag_questions([one], left)]

    def _asked(self, one: OpenCondition, who: str) -> str | None:
        if not who.strip():
            return "Type who was asked; Escape leaves it open."

        def answered(answer: str) -> str | None:
            def fill(made: Draft) -> None:
                people.agreed(made, who.strip(), answer.strip())
                conditions.closes(made, one.name)

            said = f"Asked: {who.strip()}. Answer: {answer.strip()}"
            self._by_name([*self._closes(one), said], fill)
            return None

        self._asks.ask("When, and what was the answer, in their words?", answered, hint=GOES_ON)
        return None

    def _by_name(self, about: list[str], fill: Fill) -> None:
        self._asks.second_key(
            "Who closes it?", named("c", "close"), about, lambda by: self._put(fill, by), about
        )

    def _put(self, fill: Fill, by: str) -> None:
        self._desk.put(self._desk.at.step, fill, by)


class Settling:
    """Says which of the values in disagreement counts."""

    def __init__(self, desk: StepDesk, asks: Questions, words: Words) -> None:
        self._desk = desk
        self._asks = asks
        self._words = words

    def settle(self) -> None:
        """The first disagreement of the step."""
        at = self._desk.at
        apart = [one for one in at.items if not standing(at.job, at.here, one).agreed]
        if not apart:
            self._desk.screen.entry.say(
                f"No disagreement is recorded in this step; {named('o', 'outline')} shows the others."
            )
            return
        acts = list(standing(at.job, at.here, apart[0]).acts)
        self._asks.with_name(lambda: self._settle(apart[0], acts))

    def _settle(self, one: Item, acts: list[Done]) -> None:
        shown = [f"{_value(done, one)} ({done.entry.by})" for done in acts]

        def chosen(number: int) -> None:
            if number < len(acts):
                whose = acts[number].entry.by
                self._desk.put(self._desk.at.step, lambda made: steps.settle(made, one.name, "", whose))
            else:
                label = f"{one.label}: the value that counts:"
                self._words.record(label, lambda made, text: steps.settle(made, one.name, text))

        title = f"Disagreement: {one.label}. Which value counts?"
        self._desk.screen.app.opening.choose(title, [*shown, "another value: type it"], chosen)


def _value(done: Done, one: Item) -> str:
    """A value in disagreement as it was typed."""
    plain = done.act.as_dict()
    if one.kind == "tick":
        return "yes" if plain.get("yes", plain.get("value")) else "no"
    return one_measured(done, one.unit) or str(plain.get("typed", plain.get("value", "not known yet")))
