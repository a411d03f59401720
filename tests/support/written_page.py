"""A page with blocks of TOML, of commands and of their answers, followed as a reader who types them would."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
HEADER = re.compile(r"^\[([^\]]+)\]", re.MULTILINE)


@dataclass
class Reader:
    """Types each block into one file, runs each command, and keeps what is answered."""

    folder: Path
    file: str
    parts: dict[str, str] = field(default_factory=dict)
    """What stands in the file, by the header it begins with; the head of the file has none."""
    answers: list[tuple[str, str, str]] = field(default_factory=list)
    """The commands, what the page says they answer, what they did."""

    def follow(self, page: str) -> Reader:
        """From the top of the page to its end."""
        commands = ""
        for kind, text in BLOCK.findall(page):
            if kind == "toml":
                self._write(text)
            elif kind == "sh":
                commands = text
            elif kind == "text":
                self.answers.append((commands, text, self.run(commands)))
        return self

    def _write(self, text: str) -> None:
        """A block that begins as another one does takes its place; any other comes behind the rest."""
        starts = [0, *(found.start() for found in HEADER.finditer(text) if found.start())]
        for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
            part = text[start:end].strip()
            header = HEADER.match(part)
            self.parts[header[1] if header else ""] = part
        (self.folder / self.file).write_text(self.text, "utf-8")

    @property
    def text(self) -> str:
        """The whole file."""
        return "\n\n".join(self.parts.values()) + "\n"

    def run(self, commands: str) -> str:
        """What the commands print, one after the other."""
        homes = {
            name: str(self.folder / "home")
            for name in ("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")
        }
        path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
        shell = ["bash", "-c", commands]
        environment = {**os.environ, **homes, "PATH": path, "COLUMNS": "120"}
        done = subprocess.run(
            shell, cwd=self.folder, env=environment, capture_output=True, text=True, check=False
        )
        return done.stdout + done.stderr
