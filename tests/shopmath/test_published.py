"""The workings-out against figures that somebody else printed, row by row from the files `published*.toml`.

An `expect` is a result, its printed unit, how far the printed digits let it be off, and perhaps a factor for
a printed unit that nobody types (turns a mile). Texts, dates, yes or no and lists are compared as they are;
"none" is a result that is not given.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import tomli

from jobtrack.shopmath.catalogue import Quantity, Value, WorkingOutError, by_topic
from jobtrack.shopmath.common.grades import PSI, proof_stress
from jobtrack.shopmath.common.threads import INCH, Thread, read_thread
from jobtrack.units import convert
from jobtrack.workings.answers import answer

KINDS = ("found", "from memory", "arithmetic only")

TABLES = ("residual", "fraction", "loose", "drill", "beside-drill", "tap-inch", "tap-formula")
"""Tables of a key and its figures a row, which the tests of driveline and flange read."""


def _published() -> dict[str, list[dict[str, Any]]]:
    tables: dict[str, list[dict[str, Any]]] = {}
    for file in sorted(Path(__file__).parent.glob("published*.toml")):
        for table, groups in tomli.loads(file.read_text(encoding="utf-8")).items():
            tables.setdefault(table, []).extend(groups)
    return tables


PUBLISHED = _published()


def rows(table: str) -> list[Any]:
    """Each row of a table, with its set, as one test."""
    return [
        pytest.param(group, row, id=f"{group['id']}-{number}")
        for group in PUBLISHED.get(table, [])
        for number, row in enumerate(group["rows"], 1)
    ]


def worked(group: dict[str, Any], row: list[Any]) -> list[tuple[Any, float]]:
    """What is worked out for each expected result, in the printed unit, and how far it may be off."""
    typed = dict(zip(group["inputs"], row, strict=False))
    done = answer(group["work"], typed)
    return [
        (printed(done.outcome.values[key], done.work.result(key), unit, *factor), within)
        for key, unit, within, *factor in group["expect"]
    ]


def printed(value: Value, result: Quantity, unit: str, factor: float = 1) -> Any:
    """A result in the unit it is printed in; what is no number as it is."""
    if isinstance(value, tuple) and result.items:
        return [printed(each, result.items, unit, factor) for each in value]
    if isinstance(value, bool) or not isinstance(value, int | float | Fraction):
        return "none" if value is None else value
    return float(convert(Fraction(value), result.unit, unit)) * factor


@pytest.mark.parametrize(("group", "row"), rows("set"))
def test_a_printed_figure_is_reproduced(group: dict[str, Any], row: list[Any]) -> None:
    """The result lies as near to the printed figure as its digits tell."""
    expected = row[len(group["inputs"]) :]
    for (figure, within), wanted in zip(worked(group, row), expected, strict=True):
        exactly = isinstance(wanted, bool | str)
        assert figure == (wanted if exactly else pytest.approx(wanted, rel=0, abs=within))


@pytest.mark.parametrize(("group", "row"), rows("misprint"))
def test_a_misprint_is_not_reproduced(group: dict[str, Any], row: list[Any]) -> None:
    """The result is what the printed inputs give, and not the figure that was printed."""
    after = row[len(group["inputs"]) :]
    corrected, printed = after[: len(after) // 2], after[len(after) // 2 :]
    for (figure, within), right, wrong in zip(worked(group, row), corrected, printed, strict=True):
        assert figure == pytest.approx(right, rel=0, abs=within)
        assert abs(figure - wrong) > 10 * within


def test_the_figures_are_counted(capsys: pytest.CaptureFixture[str]) -> None:
    """How many figures somebody published, how many come from memory and how many are arithmetic only."""
    counts = dict.fromkeys(KINDS, 0)
    for group in PUBLISHED["set"]:
        counts[group["kind"]] += len(group["rows"]) * len(group["expect"])
    counts["found"] += sum(
        len(group["rows"]) for table in ("area", "proof", "grade") for group in PUBLISHED[table]
    )
    for table in TABLES:
        for group in PUBLISHED.get(table, []):
            counts[group["kind"]] += sum(len(row) - 1 for row in group["rows"])
    misprints = sum(len(group["rows"]) for table in ("misprint", "cut-drill") for group in PUBLISHED[table])
    names = {name for topic in by_topic().values() for name in topic}
    figures = ", ".join(f"{count} {kind}" for kind, count in counts.items())
    with capsys.disabled():
        print(f"\nworkings-out: {len(names)}; figures: {figures}; misprints met: {misprints}; ", end="")
        print(
            f"kinds of figure that no working-out gives, each with the reason: {len(PUBLISHED['left_out'])}"
        )
    assert {group["work"] for group in PUBLISHED["set"]} <= names
    assert all(counts.values())


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


def test_a_figure_left_out_says_why() -> None:
    """A published figure that no working-out gives is listed with its source and the reason."""
    for group in PUBLISHED.get("left_out", []):
        assert group["source"]
        assert group["why"]
        assert group["figures"]


def test_each_set_says_where_its_figures_come_from() -> None:
    """Every table of figures names its source and its kind, and no id stands twice."""
    for table in ("set", "area", "proof", "grade"):
        assert all(group["kind"] in KINDS for group in PUBLISHED[table])
    groups = [group for table in PUBLISHED.values() for group in table]
    ids = [group["id"] for group in groups if "id" in group]
    assert all(group["source"] for group in groups)
    assert len(ids) == len(set(ids))


def test_published_examples_are_seldom_asked_about() -> None:
    """Of what others printed and is worked out here, under one row in twenty lies outside what is usual."""
    groups = [group for table in PUBLISHED.values() for group in table if "work" in group]
    asked = [_asked(group, row) for group in groups for row in group["rows"]]
    taken = [one for one in asked if one is not None]
    assert len(taken) > 1000
    assert sum(taken) < len(taken) / 20


def _asked(group: dict[str, Any], row: list[Any]) -> bool | None:
    """Whether an input of a published row is asked about; None where the row is there to be refused."""
    try:
        done = answer(group["work"], dict(zip(group["inputs"], row, strict=False)))
    except WorkingOutError:
        return None
    return any("meant? Usual is " in remark for remark in done.remarks)
