"""The workings-out against figures that somebody else printed, row by row from `published.toml`."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import tomli

from jobtrack.shopmath.fasteners import PSI, proof_stress
from jobtrack.shopmath.threads import INCH, Thread, read_thread
from jobtrack.units import convert
from jobtrack.workings import answer

PUBLISHED = tomli.loads((Path(__file__).parent / "published.toml").read_text(encoding="utf-8"))
KINDS = {"found", "from memory", "arithmetic only"}


def rows(table: str) -> list[Any]:
    """Each row of a table, with its set, as one test."""
    return [
        pytest.param(group, row, id=f"{group['id']}-{number}")
        for group in PUBLISHED[table]
        for number, row in enumerate(group["rows"], 1)
    ]


def worked(group: dict[str, Any], row: list[Any]) -> list[tuple[float, float]]:
    """What is worked out for each expected result, in the printed unit, and how far it may be off."""
    typed = dict(zip(group["inputs"], row, strict=False))
    done = answer(group["work"], typed)
    figures = []
    for key, unit, within in group["expect"]:
        value = done.outcome.values[key]
        assert isinstance(value, int | float | Fraction)
        figures.append((float(convert(Fraction(value), done.work.result(key).unit, unit)), within))
    return figures


@pytest.mark.parametrize(("group", "row"), rows("set"))
def test_a_printed_figure_is_reproduced(group: dict[str, Any], row: list[Any]) -> None:
    """The result lies as near to the printed figure as its digits tell."""
    expected = row[len(group["inputs"]) :]
    for (figure, within), wanted in zip(worked(group, row), expected, strict=True):
        assert figure == pytest.approx(wanted, rel=0, abs=within)


@pytest.mark.parametrize(("group", "row"), rows("misprint"))
def test_a_misprint_is_not_reproduced(group: dict[str, Any], row: list[Any]) -> None:
    """The result is what the printed inputs give, and not the figure that was printed."""
    after = row[len(group["inputs"]) :]
    corrected, printed = after[: len(after) // 2], after[len(after) // 2 :]
    for (figure, within), right, wrong in zip(worked(group, row), corrected, printed, strict=True):
        assert figure == pytest.approx(right, rel=0, abs=within)
        assert abs(figure - wrong) > 10 * within


def listed(table: str) -> list[Any]:
    """Each row of a table of areas or proof loads as one test."""
    return [
        pytest.param(group, row, id=f"{row[0]}-{number}")
        for number, group in enumerate(PUBLISHED[table])
        for row in group["rows"]
    ]


@pytest.mark.parametrize(("group", "row"), listed("area"))
def test_a_stress_area_agrees_with_its_table(group: dict[str, Any], row: list[Any]) -> None:
    """The formula gives the published stress area within 0.5 %."""
    area = read_thread(row[0]).stress_area / (float(INCH) ** 2 if group["unit"] == "in²" else 1)
    assert area == pytest.approx(row[1], rel=0.005)


@pytest.mark.parametrize(("group", "row"), listed("proof"))
def test_a_proof_load_agrees_with_its_table(group: dict[str, Any], row: list[Any]) -> None:
    """Proof stress times area gives the published proof load within 0.65 %, also across the 16 mm step."""
    thread = read_thread(row[0])
    for grade, load in zip(("8.8", "10.9", "12.9"), row[1:], strict=True):
        assert float(proof_stress(thread, grade)) * thread.stress_area == pytest.approx(load, rel=0.0065)


@pytest.mark.parametrize(("group", "row"), listed("grade"))
def test_a_grade_changes_its_proof_stress_with_size(group: dict[str, Any], row: list[Any]) -> None:
    """Each size belongs to the published row of its grade, the steps at 3/4 and 1 in included."""
    grade, size, psi = row
    bolt = Thread("drawn", False, Fraction(size) * INCH, INCH / 10)
    assert Fraction(proof_stress(bolt, grade)) == psi * PSI


def test_each_set_says_where_its_figures_come_from() -> None:
    """Every table of figures names its source and its kind, and no id stands twice."""
    for table in ("set", "area", "proof", "grade"):
        assert all(group["kind"] in KINDS for group in PUBLISHED[table])
    groups = [group for table in PUBLISHED.values() for group in table]
    ids = [group["id"] for group in groups if "id" in group]
    assert all(group["source"] for group in groups)
    assert len(ids) == len(set(ids))
