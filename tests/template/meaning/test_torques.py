"""A torque given as a figure, held against what thread and grade give: T = K D F at 0.2 and three quarters of proof.

The figures beside it: a supplier's table prints 88 N m for M12 8.8 and 126 for M12 10.9 (dossier, ISO 898-1 proof as
quoted); 1/2-13 grade 5 dry 75 lbf ft = 102 N m (the same chart).
"""

from __future__ import annotations

from typing import Any

import pytest

from jobtrack.template.proofread import problems


def found(value: str, thread: str = "M12x1.75", grade: str = "8.8", **more: Any) -> list[str]:
    torque = {"thread": thread, "grade": grade, "figure": {"value": value, "source": "the maker"}, **more}
    step = {"stage": "fit", "title": "Fit it", "torque": {"clamp": torque}}
    data = {"format": 1, "id": "bench", "title": "Bench", "stage": {"fit": {"title": "Fit"}}}
    return [each.why for each in problems({**data, "step": {"fit-it": step}})]


@pytest.mark.parametrize("value", ["30 N*m", "88 N*m", "115 N*m", "65 lbf ft"])
def test_a_third_to_four_thirds_is_left_alone(value: str) -> None:
    """Oiled, plated, soft: less; locking nuts: more."""
    assert not found(value)


@pytest.mark.parametrize("value", ["8.8 N*m", "880 N*m", "28 N*m", "119 N*m", "88 lbf in"])
def test_beyond_is_asked_about(value: str) -> None:
    """A digit too few or too many, or inches for feet."""
    assert len(found(value)) == 1
    assert "88 N·m that M12x1.75 of grade 8.8 gives dry" in found(value)[0]


def test_the_maker_s_word_can_stand() -> None:
    """It is a remark: answered it is left alone."""
    assert not found("250 N*m", answered="turned by angle, the maker's page")


def test_inch_threads_and_what_no_table_has() -> None:
    """Inch sizes are compared too; a thread or a grade that no table has is not guessed."""
    assert not found("102 N*m", "1/2-13", "5")
    assert found("1020 N*m", "1/2-13", "5")
    assert not found("9 N*m", "M12x0.7", "8.8")
    assert not found("9 N*m", "M12x1.75", "soft")
