"""Small templates with one mistake each, made of a sound one and the table of mistakes beside it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import msgspec
import tomli

FOLDER = Path(__file__).parents[1] / "template"
SOUND = FOLDER / "no_mistake.toml"


@dataclass(frozen=True)
class Mistake:
    """A template, the line and column of its one finding, and the kind and words of that."""

    name: str
    text: str
    at: str
    finds: str

    def written(self, folder: Path) -> Path:
        """The template as a file in that folder."""
        path = folder / f"{self.name}.toml"
        path.write_text(self.text, encoding="utf-8")
        return path


class Change(msgspec.Struct, forbid_unknown_fields=True):
    """What is put into a template in the place of something, behind a line, or at the end."""

    put: str = ""
    instead_of: str = ""
    behind: str = ""

    def made(self, text: str) -> str:
        """The text with this change in it; what is replaced, or stood behind, stands there exactly once."""
        if self.instead_of:
            before, after = text.split(self.instead_of)
            return before + self.put + after
        lines = self.put.removesuffix("\n") + "\n"
        if not self.behind:
            return text + lines
        before, after = text.split(f"{self.behind}\n")
        return f"{before}{self.behind}\n{lines}{after}"


class Row(Change, kw_only=True, forbid_unknown_fields=True):
    """A row of the table: a change, perhaps a second one, or another text altogether; what is found, and where."""

    at: str
    finds: str
    also: Change | None = None
    text: str = ""

    def template(self, sound: str) -> str:
        """The template with the mistake in it."""
        text = self.text or self.made(sound)
        return self.also.made(text) if self.also else text


def _mistakes() -> list[Mistake]:
    table = tomli.loads((FOLDER / "one_mistake.toml").read_text(encoding="utf-8"))
    rows = msgspec.convert(table, dict[str, Row])
    sound = SOUND.read_text(encoding="utf-8")
    return [Mistake(name, row.template(sound), row.at, row.finds) for name, row in rows.items()]


MISTAKES = _mistakes()
