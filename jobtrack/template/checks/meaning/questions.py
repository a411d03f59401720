"""Checks on checks: each asks one thing, and *yes* is the answer that is wanted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from jobtrack.schema.problem import Problem, remark
from jobtrack.template.plan import Plan

_PAIRS = re.compile(
    r"\b(?:left and right|right and left|L and R|front and (?:rear|back)|up and down|in and out|inside and outside"
    r"|top and bottom|hot and cold|bump and droop|nose up and nose down|old and new|push and pull|on and off"
    r"|name and date|open and closed|forwards? and (?:reverse|back\w*)|nuts? and (?:bolt|washer)s?|bolts? and nuts?)\b",
    re.IGNORECASE,
)
"""Two that are one thing."""
_OF_BOTH = re.compile(
    r"\b(?:of|from|between|against|for|to) (?:the |its |their )?[\w-]+ and (?:the )?[\w-]+|\bdrive, coast and float\b"
)
"""Two that one thing is held against, and the three ways in which a drive line is listened to."""
_GOES_ON = re.compile(
    r", (?:with|by|as|in|on|at|from|for|to|until|before|after|then|so|each|not|or|even|while|if|where|when|all|both"
    r"|what|who|which|how|than|that|nothing else)\b"
)
"""A comma that adds to what stands before it."""
_TOLD = re.compile(r"(?<=list|told|note):.*|(?<=written down):.*|(?<=asked):.*")
"""A list of words that somebody wrote or said is looked at as one."""
_LIST = re.compile(r",|;|\band\b")
_PAIR_FIRST = re.compile(r"[^,;]*\band\b(?:(?!\band\b)[^,;])*,(?:(?!\band\b)[^,;])*")
"""A and B, C: two things, and something of both."""

_BAD = "(?:leak|crack|drip|play|rattle|noise|knock|smell|crease|rust|damage|wear|smoke|fluid|oil)"
_GOES_WRONG = "(?:leak|drip|sink|rub|touch|bind|smoke|knock|rattle|slip|pull|drag|grab|jam|stick|rock)"
_WANTS_NO = re.compile(
    rf"(?:is there |are there |do you see )?(?:any|anything|anybody|something|some)\b(?: {_BAD}s?\b)?"
    rf"|(?:is|are) there (?:a |an )?{_BAD}s?\b|(?:is|are|does|do|has|have) any(?:thing|body)?\b"
    rf"|does (?:it|the \w+|either \w+) {_GOES_WRONG}\b|{_BAD}(?:s|ed|ing)?\?",
    re.IGNORECASE,
)
"""The beginning of a question to which a mechanic hopes for a no."""


def check_one_thing(plan: Plan) -> Iterator[Problem]:
    """A check that lists three things hides two of them."""
    for base, step in plan.template.step.items():
        for name, tick in step.tick.items():
            if asks_several(tick.ask):
                yield remark(
                    ("step", base, "tick", name), "the check asks several things at once: one no hides among the yes",
                    "Split it: a check for each thing that is looked at by itself",
                )  # fmt: skip


def asks_several(ask: str) -> bool:
    """Whether a question lists three things or more: two commas, two times *and*, or a comma and then an *and*.

    A colon begins anew, fixed pairs are one thing, and so is what a comma only adds (", with date").
    """
    ask = _TOLD.sub(" ", ask)
    plain = _GOES_ON.sub(" ", _PAIRS.sub(" ", _OF_BOTH.sub(" ", ask)).replace(", and ", " and "))
    return any(len(_LIST.findall(part)) > 1 and not _PAIR_FIRST.fullmatch(part) for part in plain.split(":"))


def check_wanted(plan: Plan) -> Iterator[Problem]:
    """*Yes* is the answer that is wanted of each check."""
    for base, step in plan.template.step.items():
        for name, tick in step.tick.items():
            if found := _WANTS_NO.match(tick.ask.strip()):
                yield remark(
                    ("step", base, "tick", name, "ask"), f"“{found[0]}” asks for a no, and yes is what counts as right",
                    "Turn it round, as “No leak at any joint?”",
                )  # fmt: skip
