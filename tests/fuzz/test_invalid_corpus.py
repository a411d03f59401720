"""The invalid documents that a TOML library tests itself with, each refused as a template.

They are fetched, not kept here: `JOBTRACK_CORPUS=fetch pytest -m corpus`, or JOBTRACK_CORPUS names a folder.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tarfile
from pathlib import Path

import pytest

from jobtrack.cli.main import main
from tests.support.cli_calls import one_line

pytestmark = pytest.mark.corpus
WANTED = os.environ.get("JOBTRACK_CORPUS", "")


@pytest.fixture(scope="module")
def corpus(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The invalid documents, in order."""
    if not WANTED:
        pytest.skip("JOBTRACK_CORPUS isn't set to `fetch` or to a folder of invalid documents")
    place = _fetched(tmp_path_factory.mktemp("corpus")) if WANTED == "fetch" else Path(WANTED)
    return sorted(path for path in place.rglob("*.toml") if "invalid" in path.parts)


def _fetched(place: Path) -> Path:
    fetch = [
        sys.executable,
        "-m",
        "pip",
        "download",
        "--no-deps",
        "--no-binary",
        ":all:",
    ]
    subprocess.run([*fetch, "-q", "-d", str(place), "tomlkit"], check=True, capture_output=True)
    [archive] = place.glob("tomlkit-*.tar.gz")
    with tarfile.open(archive) as opened:
        opened.extractall(place, filter="data")
    return place


def test_every_invalid_document_is_refused(corpus: list[Path], capsys: pytest.CaptureFixture[str]) -> None:
    """`proofread` names file and line of each, one printable line a finding; `begin` refuses it on one."""
    assert len(corpus) > 300
    for path in corpus:
        capsys.readouterr()
        assert main(["proofread", str(path)]) == 1, path
        for line in capsys.readouterr().out.splitlines():
            assert re.fullmatch(rf"{re.escape(str(path))}:[1-9]\d*: [^\x00-\x1f\x7f-\x9f]{{10,}}", line), line
        out = path.with_suffix(".job.toml")
        assert main(["begin", str(path), "--out", str(out), "--by", "Wim"]) == 2, path
        refused = one_line(capsys.readouterr().err)
        assert re.match(rf"{re.escape(str(path))}:[1-9]\d*: ", refused), refused
        assert not out.exists()
    print(f"{len(corpus)} invalid documents refused")
