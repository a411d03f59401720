"""Recording of a part how far its buying is, what became of it and where it lies; and where a tool was left."""

from __future__ import annotations

from collections.abc import Callable

from jobtrack.app.parts.desks.job_desk import JobDesk
from jobtrack.app.parts.questions import GOES_ON, RECORDS, Questions
from jobtrack.app.session import Fill, Told
from jobtrack.job.acts.doing import ASKED, ORDERED, BuyingAct
from jobtrack.job.compose import doing
from jobtrack.job.compose.doing import PART_LIMIT
from jobtrack.job.compose.draft import Draft
from jobtrack.job.doing.parts import PartOf, ToolAt, parts_of
from jobtrack.job.state.job import IN_HAND
from jobtrack.sheets.words.doing.parts import part_name

Takes = Callable[[str], str | None]
ORDER = (("from_", "from", "From whom"), ("due", "due", "Due when"), ("price", "price", "At what price"))
"""The keys of an order, what each is called when it is said back, and how it is asked for."""
MAY_BE_EMPTY = f"It may be left empty. {GOES_ON}"
NOTHING_TYPED = "Nothing is typed; Escape cancels."


class Keeping:
    """Asks what there is to ask of the marked part or tool, and records it."""

    def __init__(self, desk: JobDesk, asks: Questions, step: str | None) -> None:
        self._desk = desk
        self._asks = asks
        self._step = step

    # Buying

    def buying(self, one: PartOf, state: str) -> None:
        """How far the buying is, by one key; of whom and at what price stays as it was said."""
        one = self._meant(one)
        if one.states == {state}:
            self._desk.screen.entry.say(f"{part_name(one)} is recorded as {state} already: choose another.")
            return
        kept = {key: text for key, text in _order(one).items() if key != "due" and state != ASKED}
        self._asks.with_name(lambda: self._buying(one, state, kept))

    def _meant(self, one: PartOf) -> PartOf:
        """The part with what is still on its way to the disk."""
        found = parts_of(self._desk.file.meant, self._step)
        return next((each for each in found if each.name == one.name), one)

    def _buying(self, one: PartOf, state: str, order: dict[str, str | None]) -> None:
        says = "".join(f", {said} {order[key]}" for key, said, _ in ORDER if order.get(key))
        fill: Fill = lambda made: doing.buying(made, one.name, state, **order)  # noqa: E731
        self._put(self._in_hand, fill, f"{part_name(one)}: {state}{says}")

    def ordered(self, one: PartOf) -> None:
        """Three short questions, then the order with what was typed."""
        self._asks.with_name(lambda: self._order_next(one, {}))

    def _order_next(self, one: PartOf, typed: dict[str, str | None]) -> None:
        if len(typed) == len(ORDER):
            self._buying(one, ORDERED, typed)
            return
        key, _, question = ORDER[len(typed)]

        def answered(text: str) -> str | None:
            self._order_next(one, {**typed, key: text.strip() or None})
            return None

        label = f"{question}? ({len(typed) + 1} of {len(ORDER)}) {part_name(one)}, ordered"
        hint = MAY_BE_EMPTY if len(typed) + 1 < len(ORDER) else f"It may be left empty. {RECORDS}"
        self._asks.ask(label, answered, hint=hint, start=_order(one)[key] or "")

    def another(self, then: Callable[[str], None]) -> None:
        """A part that nobody planned, by any name; `then` gets the name when it is recorded."""

        def needed(text: str) -> str | None:
            if not (name := text.strip()) or len(name) > PART_LIMIT:
                return f"A part wants a name of at most {PART_LIMIT} characters; Escape cancels."
            self._put(
                self._in_hand,
                lambda made: doing.buying(made, name, ASKED),
                f"{name}: asked",
                lambda: then(name),
            )
            return None

        self._asks.with_name(
            lambda: self._asks.ask("What is needed? The part by name, as one asks for it:", needed)
        )

    # What became of it

    def fate(self, one: PartOf, fate: str) -> None:
        """How many, then what became of them."""
        self._how_many(one, fate, lambda many: self._became(one, many, fate))

    def kept(self, one: PartOf) -> None:
        """How many, then where they are kept."""

        def where(many: str) -> None:
            self._where(part_name(one), "kept", lambda place: self._became(one, many, "kept", place))

        self._how_many(one, "kept", where)

    def _how_many(self, one: PartOf, fate: str, then: Callable[[str], None]) -> None:
        usual = str(one.of_step or one.wanted or 1)

        def answered(text: str) -> str | None:
            if text.strip() and not any(one.isdigit() for one in text):
                return f"How many? Enter alone takes {usual}."
            then(text.strip() or usual)
            return None

        label = f"{part_name(one)}: how many {fate}?"
        self._asks.with_name(lambda: self._asks.ask(label, answered, hint=f"Enter alone: {usual}. {GOES_ON}"))

    def _became(self, one: PartOf, many: str, fate: str, place: str | None = None) -> None:
        def fill(made: Draft) -> None:
            doing.part(made, one.name, many, fate)
            if place is not None:
                doing.place(made, one.name, place)

        step = self._step if one.of_step is not None else self._in_hand
        self._put(step, fill, f"{part_name(one)}: {many} {fate}{f' at {place}' if place else ''}")

    # Where it lies

    def lies(self, one: PartOf | ToolAt) -> None:
        """Where a part or a tool lies."""
        name = one.name if isinstance(one, ToolAt) else part_name(one)
        self._asks.with_name(
            lambda: self._where(name, "left", lambda place: self._lies(one.name, name, place))
        )

    def tool(self) -> None:
        """A tool by any name, and where it was left."""

        def named(text: str) -> str | None:
            if not (name := text.strip()):
                return NOTHING_TYPED
            self._where(name, "left", lambda place: self._lies(name, name, place))
            return None

        self._asks.with_name(lambda: self._asks.ask("Which tool?", named, hint=GOES_ON))

    def _where(self, name: str, what: str, then: Callable[[str], None]) -> None:
        def answered(text: str) -> str | None:
            if not text.strip():
                return NOTHING_TYPED
            then(text.strip())
            return None

        self._asks.ask(f"{name}: {what} where? (blue tray)", answered)

    def _lies(self, name: str, said: str, place: str) -> None:
        self._put(self._in_hand, lambda made: doing.place(made, name, place), f"{said}: lies in {place}")

    # Recording

    @property
    def _in_hand(self) -> str | None:
        """The step at hand, where somebody has begun on it: what is bought or put away begins none."""
        begun = self._step is not None and self._desk.file.meant.state(self._step) == IN_HAND
        return self._step if begun else None

    def _put(self, step: str | None, fill: Fill, said: str, then: Callable[[], None] | None = None) -> None:
        def told(what: Told) -> None:
            self._desk.tell(what.of(f"{said}."), what.kept)
            if then is not None:
                then()

        self._desk.put(step, fill, then=told)


def _order(one: PartOf) -> dict[str, str | None]:
    """Of whom, due when, at what price, as it was said last."""
    last = one.buying[-1].act if one.buying else None
    return {key: getattr(last, key) if isinstance(last, BuyingAct) else None for key, _, _ in ORDER}
