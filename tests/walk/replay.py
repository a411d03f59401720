"""Replays a value file, a call of the command line each, and remakes the sample jobs from them."""

from __future__ import annotations

import io
import shlex
import shutil
import sys
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
ROOT = HERE.parents[1]
SAMPLES, SHIPPED = ROOT / "sample_jobs", ROOT / "job_templates" / "axle-exchange.toml"
Call = Mapping[str, Any]


class CallFailedError(AssertionError):
    """A call of a value file that didn't end with status 0, and what it said."""

    def __init__(self, arguments: list[str], said: str) -> None:
        super().__init__(f"{shlex.join(arguments)}\n{said}")
        self.said = said


def values(name: str) -> dict[str, Any]:
    """A value file; where it reuses another's calls, those come first."""
    data = tomllib.loads((HERE / name).read_text(encoding="utf-8"))
    if "reuse" in data:
        before = values(data["reuse"])
        return {**data, "begin": before["begin"], "call": before["call"] + data["call"]}
    return data


def replay(
    name: str,
    out: Path,
    after_each: Callable[[Path], None] = lambda path: None,
    until: str | None = None,
    template: Path = EXCHANGE,
) -> Path:
    """Begin the job of a value file at `out` and make its calls; `until`: those before the first in that step."""
    data = values(name)
    begin({**data["begin"], "template": str(template)}, out)
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


def make_samples() -> None:
    """Write the sample jobs anew."""
    for name, sample in (("half_done_values.toml", "half-done"), ("finished_values.toml", "finished")):
        out = SAMPLES / f"axle-exchange-{sample}.job.toml"
        out.unlink(missing_ok=True)
        replay(name, out, template=SHIPPED)
        for left in (*SAMPLES.glob("*.lock"), SAMPLES / "second.job.toml"):
            left.unlink(missing_ok=True)


if __name__ == "__main__":
    make_samples()
    sys.exit(0)
