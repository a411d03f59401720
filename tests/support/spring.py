"""A small job with parts of its own, parts of a step and tools: a spring hung on either side of a hay trailer."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from jobtrack.store.file.beginning import first_acts
from jobtrack.store.file.writer import JobFile, create
from tests.support.invented_jobs import NOW

TEMPLATE: dict[str, Any] = {
    "format": 1, "id": "spring", "title": "Spring hung", "set": {"side": ["left", "right"]},
    "condition": {"hanging": {"text": "Spring hung on one pin", "tag": "ONE PIN"}},
    "stage": {"hang": {"title": "Hang it", "for_each": "side"}, "after": {"title": "Afterwards"}},
    "part": {"pins": {"count": 4, "from": "new", "before": "hang", "say": "Spring pins"},
             "shackle": {"from": "from the donor"}},
    "step": {
        "spring": {"stage": "hang", "title": "Hang the spring", "tools": ["long bar"], "opens": ["hanging"],
                   "part": {"pins": {"count": 2}, "bush": {"count": 2}},
                   "tick": {"in": {"ask": "Both pins in?"}}},
        "clean": {"stage": "after", "title": "Clean up"},
    },
}  # fmt: skip


def spring(path: Path) -> JobFile:
    """The job, begun by somebody."""
    file = create(path, "spring", "Spring on the hay trailer", TEMPLATE)
    draft = first_acts(file.job, [], "Hob Tansley", NOW)
    file.append(draft.done(), draft.by, draft.at, id=draft.id)
    return file


NAUGHTY = [
    "rod \u202eend\u2066 M12", "pin\u200b\u200d\ufeff", "o\u0308\u0301\u0330 ring",
    "seal \U0001f527\U0001f3fd\U0001f468\u200d\U0001f469", "clip\x1b[2J\x07\x9b31m",
    "[b]nut[/b] [@click=app.quit]x[/] [/", "a = 1 # no comment \"\"\" '''", "\u05e9\u05dc \u0633\u0644 \u87ba\u6bcd",
    "x\ty\u2028z", "n" * 10_000,
]  # fmt: skip
"""What a person or a paste may put into a field: turned round, unseen, stacked, pictures, control, markup, long."""
