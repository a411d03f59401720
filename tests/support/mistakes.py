"""Small templates with one mistake each, made of a sound one and the tables of mistakes in `tests/template/broken`.

A row is one broken template: what is put in the place of what stands there once (`instead_of`), behind a line
(`behind`) or at the end; a second change under `also`; or another text altogether (`text`). `at` is the line and column
at which it is said, `finds` what. `python -m tests.support.mistakes FOLDER` writes each as a file of its own.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import msgspec
import tomli

FOLDER = Path(__file__).parents[1] / "template"
SOUND = FOLDER / "no_mistake.toml"
BROKEN = FOLDER / "broken"


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
    tables = [tomli.loads(path.read_text(encoding="utf-8")) for path in sorted(BROKEN.glob("*.toml"))]
    names = [name for table in tables for name in table]
    if len(set(names)) < len(names):
        raise ValueError("a row's name stands in two files of the folder of broken templates")
    rows = msgspec.convert({name: row for table in tables for name, row in table.items()}, dict[str, Row])
    sound = SOUND.read_text(encoding="utf-8")
    return [Mistake(name, row.template(sound), row.at, row.finds) for name, row in rows.items()]


MISTAKES = _mistakes()

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for mistake in MISTAKES:
        print(f"{mistake.written(folder)}:{mistake.at}: {mistake.finds}")
