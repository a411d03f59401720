"""The layout of a template's file: read again it is the same, and it looks as those that are shipped."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from jobtrack.authoring.layout import template_text
from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped

TEMPLATES = sorted(shipped("job_templates").glob("*.toml"))
JOBS = sorted(shipped("sample_jobs").glob("*.job.toml"))


def in_order(data: Any) -> str:
    """Data as text in which the order of keys shows."""
    return json.dumps(data)


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.stem)
def test_a_shipped_template_comes_back(path: Path) -> None:
    """The same data in the same order; and of a hundred lines ninety-five are as somebody wrote them by hand."""
    text = path.read_text(encoding="utf-8")
    data = tomli.loads(text)
    made = template_text(data)
    assert in_order(tomli.loads(made)) == in_order(data)
    lines = [line for line in made.splitlines() if line.strip() and not line.startswith("#")]
    assert sum(line in set(text.splitlines()) for line in lines) >= 0.95 * len(lines)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_the_template_in_a_job_file(path: Path) -> None:
    """It can be laid out again from its data alone."""
    data = JobFile(path).template_data()
    assert in_order(tomli.loads(template_text(data))) == in_order(data)


def test_each_reading_has_a_line_inside_its_step_and_each_stage_a_heading() -> None:
    """As in those that are shipped."""
    data = {
        "format": 1, "title": "T", "hazard": [["DANGER", "a", "b", "c"], ["NOTICE", "d", "e", "f"]],
        "stage": {"look": {"title": "Look"}},
        "step": {"see": {"stage": "look", "title": "See", "reading": {"gap": {"unit": "mm"}}, "hold": {"ask": "?"}}},
    }  # fmt: skip
    assert template_text(data, {(): ["Head"], ("step", "see", "title"): ["About the title"]}) == (
        '# Head\n\nformat = 1\ntitle = "T"\nhazard = [\n  ["DANGER", "a", "b", "c"],\n  ["NOTICE", "d", "e", "f"],\n]\n'
        '\n# ---- The order of the work ----\n\n[stage]\nlook = { title = "Look" }\n\n# ---- Look ----\n\n[step.see]\n'
        'stage = "look"\n# About the title\ntitle = "See"\nreading.gap = { unit = "mm" }\nhold = { ask = "?" }\n'
    )


TEXTS = st.text(max_size=12)
NUMBERS = st.integers(-(10**6), 10**6) | st.floats(allow_nan=False, allow_infinity=False)
LEAVES = TEXTS | NUMBERS | st.booleans()
LISTS = st.lists(LEAVES, max_size=3) | st.lists(st.lists(TEXTS, max_size=4), max_size=3)
TABLES = st.dictionaries(TEXTS, st.dictionaries(TEXTS, LEAVES | LISTS, max_size=3), max_size=3)
TOPS = st.dictionaries(st.sampled_from(["id", "title", "for", "odd key"]), LEAVES | LISTS, max_size=3)
STEPS = st.dictionaries(
    TEXTS,
    st.fixed_dictionaries(
        {"stage": TEXTS},
        optional={"reading": TABLES, "tick": TABLES, "hold": TABLES, "hazard": LISTS, "do": TEXTS},
    ),
    max_size=3,
)


@given(TOPS, TABLES, TABLES, STEPS)
def test_whatever_it_holds(top: dict[str, Any], conditions: Any, givens: Any, steps: Any) -> None:
    """Odd keys, empty tables, numbers and signs of every kind come back as they went in."""
    data = {**top, "condition": conditions, "given": givens, "step": steps}
    assert in_order(tomli.loads(template_text(data))) == in_order(data)
