"""Checks: a torque that is given as a figure is one that a bolt of that size and grade could bear."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from fractions import Fraction

from jobtrack import units
from jobtrack.schema.problem import Problem, remark
from jobtrack.shopmath import catalogue
from jobtrack.template.model import Torque
from jobtrack.template.plan import Plan

LEAST, MOST = Fraction(1, 3), Fraction(4, 3)
"""Shares of T = K D F (nut factor 0.2, three quarters of proof) within which a figure is plausible: oil, plating and
soft threads make it less, locking nuts and what a maker knows more. Common practice, no source."""


def check_plausible(plan: Plan) -> Iterator[Problem]:
    """A figure far from what thread and grade give is mostly a slip of a digit or a unit: a remark."""
    for base, step in plan.template.step.items():
        for name, torque in step.torque.items():
            figure, usual = _figure(torque), _usual(torque)
            if figure is not None and usual is not None and not LEAST * usual <= figure <= MOST * usual:
                yield remark(
                    ("step", base, "torque", name, "figure"),
                    f"{float(figure):.0f} N·m is far from the {float(usual):.0f} N·m that {torque.thread} of grade "
                    f"{torque.grade} gives dry",
                    "Look at digits and unit again, or say whose figure it is under answered",
                )


def _figure(torque: Torque) -> Fraction | None:
    """The figure that stands there, N m."""
    if isinstance(torque.figure, dict):
        with suppress(units.UnitError):
            return units.read(torque.figure["value"], "N*m").value
    return None


def _usual(torque: Torque) -> Fraction | None:
    """What an ordinary dry bolt of this thread and grade is tightened to, N m; None where no table has it."""
    if torque.thread and torque.grade:
        with suppress(catalogue.WorkingOutError):
            inputs = {"thread": torque.thread, "grade": torque.grade}
            return Fraction(str(catalogue.calculate("tightening-torque", inputs).values["torque"]))
    return None
