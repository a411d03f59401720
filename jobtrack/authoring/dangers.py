"""What a template that is begun says of its dangers by itself: what opens and closes which condition, what waits."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from jobtrack.job.state.conditions import ASK_FIRST
from jobtrack.template.checks.meaning.kinds import HOT

Data = dict[str, Any]
MOVES = {"drives", "lowers"}
STANDS, FIRE = "on-stands", "fire-watch"
CONDITIONS = {
    STANDS: {"text": "Vehicle on stands", "tag": "ON STANDS"},
    FIRE: {"text": "Hot metal and sparks: somebody stays and looks", "tag": "FIRE WATCH"},
}
MINUTES = 60
"""How long the fire watch is, from the last spark: OSHA asks for 30 min, NFPA 51B for an hour, both as quoted."""


def fire_watch(stage: str, hot: str) -> Data:
    """The step at the end of a stage with hot work in it; `hot`: the last one."""
    wait = {"minutes": MINUTES, "since": hot}
    return {
        "stage": stage,
        "title": "Look where the sparks went",
        "do": "Stay an hour after the last spark; longer where the local rule says so. Look behind, below, above.",
        "closes": [FIRE],
        "tick": {
            "no-smoke": {"ask": "No smoke and no glow anywhere?", "wait": wait},
            "cold": {"ask": "Nothing warm to the back of the hand?", "wait": wait},
        },
    }


def open_and_close(steps: Data, asks: bool) -> Data:
    """The conditions, opened where the danger begins and closed where it ends; steps are told what they wait for."""
    opened: dict[str, bool] = {}
    """Each that was opened so far, and whether it is closed again by then."""
    last = max((place for place, step in enumerate(steps.values()) if _comes_down(_does(step))), default=-1)
    for place, step in enumerate(steps.values()):
        does, opens = _does(step), list(_opens(_does(step), place < last))
        # Of its own set another member may have opened the same: what a step opens itself it can't wait for.
        closed = [one for one, is_closed in opened.items() if is_closed and one not in opens]
        if waits := _waits(does, closed, asks):
            step["not_while"] = waits
        if STANDS in opened and _comes_down(does):
            step["closes"] = [STANDS]
        if opens:
            step["opens"] = opens
        opened |= dict.fromkeys(step.get("closes", ()), True) | dict.fromkeys(opens, False)
    return {one: CONDITIONS[one] for one in opened}


def _does(step: Data) -> set[str]:
    return set(step.get("does", ()))


def _comes_down(does: set[str]) -> bool:
    """Whether it stands on its wheels when the step is done."""
    return "lowers" in does and "lifts" not in does


def _opens(does: set[str], comes_down_later: bool) -> Iterable[str]:
    """Stands only where a later step takes it down: what nothing closes would keep the job open."""
    if "lifts" in does and comes_down_later:
        yield STANDS
    if does & {*HOT}:
        yield FIRE


def _waits(does: set[str], closed: Iterable[str], asks: bool) -> list[str]:
    """What must not be open: the answer of others before hot work, and all that was before it comes down or drives.

    What is open by the order of the steps themselves is left to `proofread`: no step could be reached past it.
    """
    asked = [ASK_FIRST] if asks and does & {*HOT, *MOVES} else []
    return [*asked, *(closed if does & MOVES else ())]
