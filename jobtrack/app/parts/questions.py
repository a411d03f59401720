"""Asking for words, for who is there, and for the name and second key of what isn't done by one key."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jobtrack.app.screens.base import PageScreen
from jobtrack.app.widgets.entry import Ask, SecondKey
from jobtrack.job.compose.draft import NAME_LIMIT
from jobtrack.pages.asking.choices import numbered_choice, numbered_words
from jobtrack.pages.typeset import wrap

RECORDS = "Enter records it, Escape cancels."
GOES_ON = "Enter goes on, Escape cancels."


def too_long(name: str) -> str | None:
    """Why a name or a title isn't taken, where it is too long for the record."""
    return f"At most {NAME_LIMIT} characters: shorten it, then Enter." if len(name) > NAME_LIMIT else None


class Questions:
    """Asks on the entry line of a screen."""

    def __init__(self, screen: PageScreen, hint: str = RECORDS) -> None:
        self._screen = screen
        self._entry = screen.entry
        self._hint = hint

    def ask(
        self,
        label: str,
        then: Callable[[str], str | None],
        about: Sequence[str] = (),
        hint: str = "",
        start: str = "",
    ) -> None:
        """Ask for words."""
        asked = wrap(label, self._screen.room, "strong")
        self._entry.ask(Ask(asked, then, about, start, hint=hint or self._hint))

    def name(self, label: str, then: Callable[[str], None], about: Sequence[str] = ()) -> None:
        """Ask for the name of who does something that takes a second key; Enter alone is who is there."""
        session = self._screen.session
        known = session.by

        def named(text: str) -> str | None:
            name = " ".join(text.split()) or known
            if name is None:
                return "Type a name, then Enter; Escape cancels."
            if refused := too_long(name):
                return refused
            session.by = known or name
            then(name)
            return None

        alone = f"Enter alone: {known}. " if known else ""
        self.ask(label, named, about, f"{alone}Then a second key records it; Escape cancels.")

    def second_key(
        self,
        label: str,
        key: str,
        about: Sequence[str],
        then: Callable[[str], None],
        asked: Sequence[str] = (),
    ) -> None:
        """Ask the name of who does it, then wait for the second key."""

        def named(name: str) -> None:
            said = [*about, f"By {name} (as typed)."]
            self._entry.confirm(SecondKey(said, key, lambda: then(name)))

        self.name(label, named, asked)

    def by_whom(self, names: Sequence[str]) -> None:
        """Who is here, in whose name is recorded from now on; a number alone is one of the names offered."""
        session = self._screen.session
        here = f"{session.by} is here. Who is it now?" if session.by else "Who is here?"

        def named(text: str) -> str | None:
            name = numbered_choice(text, names)
            if not name:
                return "Type a name; Escape leaves it as it is."
            if refused := too_long(name):
                return refused
            session.by = name
            self._entry.idle()
            self._screen.draw()
            self._entry.tell(f"Recorded from now on in the name of {session.by} (as typed).")
            return None

        offered = numbered_words(names)
        self.ask(here, named, [f"By number, or any other name: {offered}"] if offered else [], hint=GOES_ON)

    def with_name(self, then: Callable[[], None]) -> None:
        """Do something that records; ask first who is there, where that isn't known yet."""
        session = self._screen.session
        if session.by is not None:
            then()
            return

        def named(text: str) -> str | None:
            name = " ".join(text.split())
            if not name:
                return "Type your name: it stands beside what you record."
            if refused := too_long(name):
                return refused
            session.by = name
            self._entry.idle()
            then()
            return None

        self.ask("Who is there? Type your name as it should stand in the record.", named)
