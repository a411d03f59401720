"""What is recorded in words or by name: a condition closed, a hold released, a disagreement settled."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.screens.choose import ChooseScreen
from jobtrack.app.screens.on_job import OnJob
from jobtrack.app.widgets.entry import SecondKey
from jobtrack.job.compose import conditions, people, steps
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.conditions import ASK_FIRST, OpenCondition
from jobtrack.job.state.history import Done
from jobtrack.pages.job.conditions import condition_sentence
from jobtrack.pages.step.items import Item, items, standing
from jobtrack.sheets.words.readings import one_measured
from jobtrack.sheets.words.sentences import worst_first


class ByName(OnJob):
    """Acts of a step that ask for words, or for the name of who does them and a second key."""

    step: str

    def words_for(self, label: str, fill: Callable[[Draft, str], None], empty: bool = False) -> None:
        """Ask for words and record them; what is refused keeps the text."""

        def typed(text: str) -> str | None:
            if not text.strip() and not empty:
                return "Nothing is typed; Escape cancels."
            told = self.put(self.step, lambda made: fill(made, text.strip()))
            if not told.taken:
                self.ask(label, typed, start=text)
                self.entry.say(told.text)
            return None

        self.with_name(lambda: self.ask(label, typed))

    # Conditions

    def close(self) -> None:
        """Choose a condition, then its name and second key."""
        conditions = worst_first(self.job)
        if not conditions:
            self.entry.say("No open condition is recorded; there is none to close.")
            return

        def chosen(number: int | None) -> None:
            if number is not None:
                self._close(conditions[number])

        texts = [condition_sentence(one) for one in conditions]
        self.app.push_screen(ChooseScreen("Which condition is closed?", texts), chosen)

    def _close(self, one: OpenCondition) -> None:
        if one.id == ASK_FIRST:
            self.ask(
                "Who was asked?",
                lambda who: self._asked(one, who),
                [condition_sentence(one)],
                "Enter goes on, Escape cancels.",
            )
            return
        about = [f"Closes: {condition_sentence(one)}"]
        self.by_name("Who closes it?", "c", about, lambda made: conditions.closes(made, one.name))

    def _asked(self, one: OpenCondition, who: str) -> str | None:
        if not who.strip():
            return "Type who was asked; Escape leaves it open."

        def answered(answer: str) -> str | None:
            def fill(made: Draft) -> None:
                people.agreed(made, who.strip(), answer.strip())
                conditions.closes(made, one.name)

            about = [f"Closes: {condition_sentence(one)}", f"Asked: {who.strip()}. Answer: {answer.strip()}"]
            self.by_name("Who closes it?", "c", about, fill)
            return None

        self.ask(
            "When, and what was the answer, in their words?", answered, hint="Enter goes on, Escape cancels."
        )
        return None

    def by_name(self, label: str, key: str, about: list[str], fill: Callable[[Draft], None]) -> None:
        """Ask the name of who does it, then wait for the second key."""

        def named(name: str) -> None:
            said = [*about, f"By {name} (as typed)."]
            self.entry.confirm(SecondKey(said, key, lambda: self._put_by(fill, name)))

        self.ask_name(label, named, about)

    def _put_by(self, fill: Callable[[Draft], None], name: str) -> None:
        self.put(self.step, fill, name)

    # Disagreements

    def settle(self) -> None:
        """Choose which of the values in disagreement counts."""
        here = self.job.steps[self.step]
        apart = [one for one in items(self.job, here) if not standing(self.job, here, one).agreed]
        if not apart:
            self.entry.say("No disagreement is recorded in this step.")
            return
        self.with_name(lambda: self._settle(apart[0], list(standing(self.job, here, apart[0]).acts)))

    def _settle(self, one: Item, acts: list[Done]) -> None:
        shown = [f"{_value(done, one)} ({done.entry.by})" for done in acts]

        def chosen(number: int | None) -> None:
            if number is not None and number < len(acts):
                whose = acts[number].entry.by
                self.put(self.step, lambda made: steps.settle(made, one.name, "", whose))
            elif number is not None:
                self.words_for(
                    f"{one.label}: the value that counts:",
                    lambda made, text: steps.settle(made, one.name, text),
                )

        title = f"Disagreement: {one.label}. Which value counts?"
        self.app.push_screen(ChooseScreen(title, [*shown, "another value: type it"]), chosen)


def _value(done: Done, one: Item) -> str:
    """A value in disagreement as it was typed."""
    plain = done.act.as_dict()
    if one.kind == "tick":
        return "yes" if plain.get("yes", plain.get("value")) else "no"
    return one_measured(done, one.unit) or str(plain.get("typed", plain.get("value", "not known yet")))
