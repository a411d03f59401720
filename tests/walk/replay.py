"""Replays a value file, a call of the command line each."""

from __future__ import annotations

import io
import shlex
import shutil
import tomllib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from datetime import datetime
from pathlib import Path
from typing import Any
from unittest.mock import patch

from jobtrack.cli.main import main
from jobtrack.store.machine import now
from tests.support.exchange import EXCHANGE

HERE = Path(__file__).parent
Call = Mapping[str, Any]


class CallFailedError(AssertionError):
    """A call of a value file that didn't end with status 0, and what it said."""

    def __init__(self, arguments: list[str], said: str) -> None:
        super().__init__(f"{shlex.join(arguments)}\n{said}")
        self.said = said


def values(name: str) -> dict[str, Any]:
    """A value file."""
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def replay(
    name: str,
    out: Path,
    after_each: Callable[[Path], None] = lambda path: None,
    until: str | None = None,
) -> Path:
    """Begin the job of a value file at `out` and make its calls; `until`: those before the first in that step.

    Of the first version of the exchange.
    """
    data = values(name)
    begin({**data["begin"], "template": str(EXCHANGE)}, out)
    for call in data["call"]:
        if until is not None and call.get("step") == until:
            break
        make(call, out)
        after_each(out)
    return out


def begin(table: Call, out: Path) -> None:
    """Begin a job as the table of a value file says. Raises CallFailedError, as `make` does."""
    named = ["--by", table["by"], "--title", table["title"]]
    _run(table["at"], ["begin", table["template"], "--out", str(out), *named, *table["args"]])


def make(call: Call, out: Path) -> None:
    """Make one call of a value file on the job."""
    if "take_copy" in call:
        shutil.copyfile(out, copy_of(out, call["take_copy"]))
    elif "merge" in call:
        joined = out.with_name("joined.job.toml")
        copy = str(copy_of(out, call["merge"]))
        _run(call.get("at"), ["merge", str(out), copy, "--out", str(joined)])
        joined.replace(out)
    elif "handover_to" in call:
        _run(call["at"], ["handover", str(out), "--by", call["by"], "--to", call["handover_to"]])
    else:
        path = copy_of(out, call["on_copy"]) if "on_copy" in call else out
        step = [call["step"]] if "step" in call else []
        who = ["--by", call["by"], "--at", call["at"]]
        _run(call["at"], ["record", str(path), *step, *who, *call["args"]])


def copy_of(out: Path, name: str) -> Path:
    """Where a copy of the job lies that was laid aside under a name."""
    return out.with_name(f"{name}.job.toml")


def _run(at: str | None, arguments: list[str]) -> None:
    said = io.StringIO()
    with _clock(at), redirect_stdout(io.StringIO()), redirect_stderr(said):
        status = main(arguments)
    if status != 0:
        raise CallFailedError(arguments, said.getvalue().strip())


@contextmanager
def _clock(at: str | None) -> Iterator[None]:
    """The machine's clock at another time; None: as it is."""
    if at is None:
        yield
        return
    with patch.object(now, "local_now", lambda: datetime.fromisoformat(at)):
        yield
