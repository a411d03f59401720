"""Makes the sample jobs from their value files.

.venv/bin/python -m tests.shelf.samples
"""

from __future__ import annotations

import os
import secrets
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from unittest.mock import patch

from jobtrack.store.machine.jobs_folder import shipped
from tests.shelf.replay import VALUES
from tests.shelf.value_file import read
from tests.walk.replay import begin, make

FOLDER = Path(__file__).parents[2] / "sample_jobs"
SAMPLES = {
    "axle-exchange-finished.job.toml": VALUES / "axle-exchange.toml",
    "axle-exchange-half-done.job.toml": VALUES / "axle-exchange-half-done.toml",
}
"""Each sample's file, and the values that it is made from."""


def sample(name: str, folder: Path) -> Path:
    """Make a sample in a folder that is empty; the same bytes each time. Raises CallFailedError."""
    values, out = read(SAMPLES[name]), folder / name
    template = shipped("job_templates") / f"{values.template}.toml"
    with _ids(name, 0):
        begin({**values.begin, "template": str(template)}, out)
    for number, row in enumerate(values.rows, start=1):
        with _ids(name, number):
            make(row.call, out)
    return out


@contextmanager
def _ids(name: str, number: int) -> Iterator[None]:
    """The ids that are drawn at random go by the call's number, so that a change moves none but its own call's."""
    with patch.object(secrets, "choice", Random(f"{name} {number}").choice):
        yield


def main() -> None:
    """Write the samples anew."""
    for name in SAMPLES:
        with TemporaryDirectory() as place:
            os.environ["XDG_STATE_HOME"] = place
            (FOLDER / name).write_bytes(sample(name, Path(place)).read_bytes())


if __name__ == "__main__":
    main()
    sys.exit(0)
