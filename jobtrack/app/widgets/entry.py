"""The line where things are typed: a number, words, a name; or a second key is waited for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import ClassVar

from rich.cells import cell_len
from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.widgets import Input, Static

from jobtrack.app.looks.content import content
from jobtrack.app.widgets.field import Field, Takes
from jobtrack.app.widgets.key_row import KeyRow
from jobtrack.job.compose.draft import TEXT_LIMIT
from jobtrack.pages.own_keys import named
from jobtrack.pages.pressing import several
from jobtrack.pages.typeset import Line, line, rule_with, wrap

TOO_LONG = f"Longer than {TEXT_LIMIT} bytes: shorten it, then Enter; the rest can go into a note."


def shortest(rows: Sequence[Line], most: int) -> list[Line]:
    """The rows, where they are too many without those of the middle: what to do stands at the end."""
    return list(rows) if len(rows) <= most else [*rows[: most - 2], line("…", "strong"), rows[-1]]


def _more() -> str:
    key = named("space", "rest")
    return f"… there is more of it: press {'the space bar' if key == 'space' else key}."


def moment() -> float:
    """Now, by the clock that key events are stamped with."""
    return Message().time


@dataclass(frozen=True, slots=True)
class Ask:
    """A question for one line of text. `then` gets the text; what it returns is said, and the text kept."""

    label: Sequence[Line]
    then: Callable[[str], str | None]
    about: Sequence[str] = ()
    start: str = ""
    echo: Callable[[str], str] | None = None
    hint: str = "Enter records it, Escape cancels."
    others: Mapping[str, Callable[[], None]] = field(default_factory=dict)
    """Keys that do something else than typing."""
    key_row: str = "Enter takes it   Escape cancels   every other key is text"
    """What the keys do here, as the row of keys says it."""


@dataclass(frozen=True, slots=True)
class SecondKey:
    """Something that takes a second key: what it would do, in words, and the key."""

    about: Sequence[str]
    key: str
    then: Callable[[], None]
    hint: str = ""
    """What the keys do, where it isn't the same key again."""
    others: Sequence[tuple[str, Callable[[], None]]] = ()
    """Other keys that mean something here."""
    key_row: str = ""
    """What the keys do here, as the row of keys says it."""
    label: Sequence[Line] = ()
    """What it is about, where that has a name."""
    back: Callable[[str], None] | None = None
    """Takes any key that means nothing here, where there is something typed to go back to; else it cancels."""

    def keys(self) -> str:
        """The row of keys while this is waited for."""
        return (
            self.key_row
            or f"{self.key.capitalize() if len(self.key) > 1 else self.key} records it   Escape cancels"
        )

    def meant(self, key: str | None) -> Callable[[], None] | None:
        """What a key does here; None: it cancels the question."""
        return dict([(self.key, self.then), *self.others]).get(key or "")


class EntryLine(Vertical):
    """The entry line. Idle, it says what was said last; asking, every key belongs to its field."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "submit", show=False),
        Binding("escape", "cancel", show=False),
        Binding("up", "instead('up')", show=False),
        Binding("down", "instead('down')", show=False),
    ]
    """What these keys do while a question for text is asked."""

    class Turned(Message):
        """Another thing is asked, or nothing any more: keys mean something else than before."""

    asking: Ask | None = None
    waiting: SecondKey | None = None
    painted: float | None = None
    """Since when the question for a second key has stood on the screen, in the time of key events."""
    hint = ""
    """What can be typed, said while nothing else is."""
    last = ""
    """What was done last, whole."""
    stays = False
    more = ""
    """All that is said about a question for a second key, where it doesn't fit."""
    _says_hint = True
    _refused: str | None = None
    """The text that Enter was pressed on last and that wasn't taken, until another stands there."""

    def __init__(self, takes: Takes, cancelled: Callable[[], None]) -> None:
        super().__init__()
        self.field = Field(takes)
        self._cancelled = cancelled

    def compose(self) -> ComposeResult:
        """From top to bottom: what was done last, what is asked, more about it, the field, and why or how."""
        yield Static(id="told", markup=False)
        yield Static(id="label", markup=False)
        yield Static(id="about", markup=False)
        with Horizontal(id="row"):
            yield Static("> ", id="pointer", markup=False)
            yield self.field
        yield KeyRow(id="said")

    def on_mount(self) -> None:
        """Nothing said and nothing asked yet."""
        self.tell("")
        self.idle()
        self.say("")

    @property
    def room(self) -> int:
        """Cells that a row of it may take."""
        return max(self.app.size.width - 3, 20)

    @property
    def _left(self) -> bool:
        """Whether the screen has been left: what the disk answers then has nowhere to stand."""
        return self.is_mounted and not self.is_attached

    def _show(self, name: str, lines: Sequence[Line]) -> None:
        if self._left:
            return
        static = self.query_one(f"#{name}", Static)
        static.update(content(lines))
        static.display = bool(lines)
        self._tidy()

    def _tidy(self) -> None:
        """The field takes no room where nothing is typed; hidden altogether, it would lose the focus."""
        self.set_class(self.asking is None, "-idle")

    def idle(self, label: Sequence[Line] = (), about: Sequence[str] = ()) -> None:
        """No question: the label names what a number would enter."""
        self._turn_to(None, None)
        self.field.value = ""
        self._label(label, about)

    def _turn_to(self, asking: Ask | None, waiting: SecondKey | None) -> None:
        """What is asked now; whoever shows what the keys do hears of it."""
        self._refused = None
        turned = asking is not self.asking or waiting is not self.waiting
        self.asking, self.waiting = asking, waiting
        self.field.open = asking is not None
        if turned:
            self.post_message(self.Turned())

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Only while text is asked for; an arrow only where the question has a use of its own for it."""
        if action == "instead":
            return self.asking is not None and parameters[0] in self.asking.others
        return self.asking is not None

    def action_submit(self) -> None:
        """Give what was typed to the question."""
        self.submit()

    def action_cancel(self) -> None:
        """What is asked is given up."""
        self._cancelled()

    def action_instead(self, key: str) -> None:
        """What an arrow does instead of typing."""
        if self.asking is not None:
            self.asking.others[key]()

    def _label(self, label: Sequence[Line], about: Sequence[str], most: int | None = None) -> None:
        """What is asked, and more about it; what doesn't fit into `most` rows of that is kept for a page of its own."""
        self._show("label", shortest(label, max(self.app.size.height // 6, 3)))
        rows = [row for text in about for row in wrap(text, self.room, "", 2)]
        long = most is not None and len(rows) > most
        self.more = "\n".join(about) if long else ""
        most_here = max(self.app.size.height // 4, 4)
        self._show(
            "about",
            [*rows[: most - 1], line(_more(), "strong")] if long and most else shortest(rows, most_here),
        )

    def say(self, text: str) -> None:
        """The line about what is asked now, or why something isn't taken; cut only where it would fill the screen."""
        if self._left:
            return
        self._says_hint = not text
        shown = text or self.hint
        fits = cell_len(shown) <= self.room  # then it stays as it is, with the gaps between its keys
        lines = [line(shown)] if fits and shown else wrap(shown, self.room) if shown else []
        lines = shortest(lines, max(self.app.size.height // 4, 4))
        self.query_one("#said", KeyRow).show(lines, [several(one.plain) for one in lines])
        self._tidy()

    def hint_anew(self) -> None:
        """What can be typed may have changed; whatever else is said or asked stays."""
        if self._says_hint and not self.busy:
            self.say("")

    def tell(self, text: str, stays: bool = False) -> None:
        """What was done last, above what is asked now and apart from it; some of it stays till the next."""
        self.last, self.stays = text, stays
        lines = rule_with(text, self.room)
        if len(lines) > (most := max(self.app.size.height // 8, 2)):
            lines = [*lines[: most - 1], line(_more(), "strong")]
        self._show("told", lines)

    def forget(self) -> None:
        """Another thing is asked or chosen: what was done last is no news any more, unless it stays."""
        if not self.stays:
            self.tell("")

    def ask(self, question: Ask) -> None:
        """Ask for a line of text."""
        self._turn_to(question, None)
        self.forget()
        self._label(question.label, question.about)
        self.field.value = question.start
        self.field.cursor_position = len(question.start)
        self.say(question.echo(question.start) if question.echo else question.hint)

    def confirm(self, second: SecondKey) -> None:
        """Wait for the second key."""
        self.idle()
        self.painted = None
        self._turn_to(None, second)
        self._label(second.label, second.about, max(self.app.size.height // 3, 4))
        self.say(second.hint or f"Press {second.key} again to record it; any other key cancels.")
        # Only a key pressed once the question has been painted answers it: until then nobody can have read it.
        self.call_after_refresh(self._stands)

    def _stands(self) -> None:
        self.painted = moment()

    def came_after(self, pressed: float) -> bool:
        """Whether a key was pressed when the question that waits stood on the screen already."""
        return self.painted is not None and pressed >= self.painted

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        if self.field.value == self._refused:
            return  # a change from before Enter that is told only now: why it was refused stays
        self._refused = None
        if self.asking and self.asking.echo:
            self.say(self.asking.echo(event.value))

    @property
    def busy(self) -> bool:
        """Whether somebody is in the middle of an answer."""
        return self.asking is not None or self.waiting is not None

    @property
    def text(self) -> str:
        """What stands in the field."""
        return self.field.value

    def submit(self) -> None:
        """Give what was typed to the question; what is refused is said, and the text stays."""
        if self.asking is None:
            return
        text = self.field.value
        refused = TOO_LONG if len(text.encode()) > TEXT_LIMIT else self.asking.then(text)
        if refused is not None:
            self._refused = text
            self.say(refused)

    def take_text(self, text: str) -> None:
        """Text that came to the screen instead of the field."""
        self.field.insert_text_at_cursor(text)
