"""The words that would promise something, the sentences in which they may stand, and words of other programs."""

from __future__ import annotations

import re
from itertools import chain, groupby, zip_longest

PROMISES = re.compile(
    r"\b(safe(ly|ty)?|legal(ly)?|roadworthy|approv(al|e|ed|es)|certifi(ed|cate)|guarantee[ds]?|permit(s|ted)?"
    r"|permission|allow(ed|s)?|fit for|ok|okay|pass(ed|es)?|all[- ]clear|good to go)\b",
    re.IGNORECASE,
)

SENTENCES = {
    "No open condition is recorded. That does not say that the vehicle is safe: look.":
        "an empty list promises nothing",
    "No tag is recorded as due. That does not say that the vehicle is safe: look.":
        "no tag due promises nothing either",
    "It doesn't know whether the work, the parts or the vehicle are safe or allowed.":
        "at the start of each job: what the program can't know",
    "No mistake of form found. Whether the work described is right or safe was not examined.":
        "what proofreading doesn't examine",
    "Not yet asked: does this need an approval, a licensed person, an inspection?":
        "a question to be asked of others first",
    "Not yet asked: does this exchange need an approval, a licensed person, an inspection?":
        "the same, in the shipped template",
    "no inspection certificate, approval or warranty": "what a survey and a vehicle record say that they aren't",
}  # fmt: skip
"""Every sentence in which such a word may stand, with the reason."""

TITLES = {
    "Limpert, Brake Design and Safety": "the title of a book",
    "Approval tables round rims": "tables of tyre approval, quoted for how they round",
    "take the figures from the certificate of this steel": "the steel maker's paper with the analysis",
}
"""Titles and names of others' papers, in which such a word is theirs."""


def _as_read(text: str) -> str:
    """A text with a ruled table column by column, as a person reads a sentence that goes on in its cell."""
    out: list[str] = []
    for ruled, rows in groupby(text.splitlines(), key=lambda row: " | " in row):
        cells = [row.split(" | ") for row in rows]
        out += (
            [" ".join(column) for column in zip_longest(*cells, fillvalue="")] if ruled else [*chain(*cells)]
        )
    return " ".join(" ".join(out).split())


def promises(text: str) -> list[str]:
    """The words of promise that stand outside the sentences and titles listed."""
    plain = _as_read(text)
    for known in (*SENTENCES, *TITLES):
        plain = plain.replace(known, "")
    return [found[0] for found in PROMISES.finditer(plain)]


LABELS = re.compile(
    r"\b(board|lane|backlog|ticket|inbox|project|tags?|context|priority|sprint|work[- ]orders?|travell?er|operator"
    r"|route|station|sign[- ]?off|pass|fail|dashboard|timesheet|punch|idle|efficiency|utili[sz]ation|matrix|needs|role"
    r"|fact|lint|verify|tamper[- ]proof|all[- ]clear|ready)\b",
    re.IGNORECASE,
)
"""What is no label, heading, command or key here: each belongs to some known family of programs."""
