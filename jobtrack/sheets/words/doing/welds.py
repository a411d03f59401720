"""A weld in words: as it is to be made, and what was recorded of a run."""

from __future__ import annotations

from jobtrack import units
from jobtrack.job.acts.base import commas
from jobtrack.job.acts.doing import WeldAct
from jobtrack.literal import visible
from jobtrack.sheets.words.sentences import counted
from jobtrack.template.model import Weld


def weld_words(weld: Weld) -> str:
    """A weld as it is to be made, in plain words."""
    parts = (weld.process, weld.rod, f"leg {weld.fillet}" if weld.fillet else None,
             counted(weld.runs, "run"), weld.order,
             f"before it: {weld.prepare}" if weld.prepare else None,
             f"before the next run: {weld.before_next}" if weld.before_next else None)  # fmt: skip
    return "; ".join(part for part in parts if part)


def run_figures(act: WeldAct) -> str:
    """What was recorded of a run: "95 A, 22 V, 3 min, rod 3.2 mm"; empty where it is the run alone."""
    measured = ((act.amps, "A"), (act.volts, "V"), (act.minutes, "min"))
    figures = [None if value is None else units.show(value, unit) for value, unit in measured]
    return commas(*figures, act.rod and f"rod {visible(act.rod)}")
