"""Replays a value file, a call of the command line each, and remakes the sample jobs from them."""

from __future__ import annotations

import shutil
import sys
import tomllib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any
from unittest.mock import patch

from jobtrack.cli.main import main
from jobtrack.store.machine import now

HERE = Path(__file__).parent
SAMPLES = HERE.parents[1] / "sample_jobs"
Call = Mapping[str, Any]


class CallFailedError(AssertionError):
    """A call of a value file that didn't end with status 0."""


def values(name: str) -> dict[str, Any]:
    """A value file; where it reuses another's calls, those come first."""
    data = tomllib.loads((HERE / name).read_text(encoding="utf-8"))
    if "reuse" in data:
        before = values(data["reuse"])
        return {**data, "begin": before["begin"], "call": before["call"] + data["call"]}
    return data


def replay(
    name: str, out: Path, after_each: Callable[[Path], None] = lambda path: None, until: str | None = None
) -> Path:
    """Begin the job of a value file at `out` and make its calls; `until`: those before the first in that step."""
    data = values(name)
    begin = data["begin"]
    with _clock(begin["at"]):
        _run(
            [
                "begin",
                begin["template"],
                "--out",
                str(out),
                "--by",
                begin["by"],
                "--title",
                begin["title"],
                *begin["args"],
            ]
        )
    for call in data["call"]:
        if until is not None and call.get("step") == until:
            break
        _make(call, out)
        after_each(out)
    return out


def _make(call: Call, out: Path) -> None:
    if "take_copy" in call:
        shutil.copyfile(out, _copy(out, call["take_copy"]))
    elif "merge" in call:
        joined = out.with_name("joined.job.toml")
        _run(["merge", str(out), str(_copy(out, call["merge"])), "--out", str(joined)])
        joined.replace(out)
    elif "handover_to" in call:
        with _clock(call["at"]):
            _run(["handover", str(out), "--by", call["by"], "--to", call["handover_to"]])
    else:
        path = _copy(out, call["on_copy"]) if "on_copy" in call else out
        step = [call["step"]] if "step" in call else []
        _run(["record", str(path), *step, "--by", call["by"], "--at", call["at"], *call["args"]])


def _copy(out: Path, name: str) -> Path:
    return out.with_name(f"{name}.job.toml")


def _run(arguments: list[str]) -> None:
    if main(arguments) != 0:
        raise CallFailedError(" ".join(arguments))


@contextmanager
def _clock(at: str) -> Iterator[None]:
    """The machine's clock at another time."""
    with patch.object(now, "local_now", lambda: datetime.fromisoformat(at)):
        yield


def make_samples() -> None:
    """Write the sample jobs anew."""
    for name, sample in (("half_done_values.toml", "half-done"), ("finished_values.toml", "finished")):
        out = SAMPLES / f"axle-exchange-{sample}.job.toml"
        out.unlink(missing_ok=True)
        replay(name, out)
        for left in (*SAMPLES.glob("*.lock"), SAMPLES / "second.job.toml"):
            left.unlink(missing_ok=True)


if __name__ == "__main__":
    make_samples()
    sys.exit(0)
