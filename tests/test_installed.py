"""What is tested: the package as it was installed, here and in every program that a test starts."""

from __future__ import annotations

import subprocess
import sys
from importlib.metadata import PackageNotFoundError, distribution
from json import loads
from pathlib import Path

import pytest

import jobtrack

CHECKOUT = Path(__file__).parents[1]


def test_programs_import_the_same_package() -> None:
    """Whatever lies in the folder where they are started."""
    code = [sys.executable, "-c", "import jobtrack; print(jobtrack.__file__)"]
    said = subprocess.run(code, capture_output=True, text=True, check=True, cwd=CHECKOUT).stdout
    assert said.strip() == jobtrack.__file__


def test_an_installed_wheel_is_what_is_tested() -> None:
    """The checkout, in which the tests lie, doesn't take its place."""
    try:
        installed = distribution("jobtrack")
    except PackageNotFoundError:
        pytest.skip("jobtrack isn't installed")
    origin = loads(installed.read_text("direct_url.json") or "{}")
    if origin.get("dir_info", {}).get("editable"):
        pytest.skip("installed so that the checkout is what is imported")
    package = Path(str(installed.locate_file("jobtrack")))
    assert Path(jobtrack.__file__).parent == package.resolve()
    assert package.resolve() != CHECKOUT / "jobtrack"
