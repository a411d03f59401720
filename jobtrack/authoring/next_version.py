"""The next version of a template, from a job that has come to its end.

A template in a job file is data: its comments stayed in its own file. What people wrote for themselves (notes,
private or not), what was paid, and who did what go into no template.
"""

from __future__ import annotations

import copy
import difflib
import re
from typing import Any

from msgspec import field

from jobtrack.authoring.added_steps import add_steps
from jobtrack.authoring.change import TIME, Making, summary
from jobtrack.authoring.found import add_checks, add_parts
from jobtrack.authoring.layout import template_text
from jobtrack.authoring.times import RULE, take_times
from jobtrack.job.state.job import Job

Data = dict[str, Any]
COMMENTS = "comments of the version before aren't in a job file: take over from there what is still wanted"


class NextVersion(Making):
    """The new version, and what it was made from."""

    before: Data = field(default_factory=dict)
    """The template's data as they stand in the job file."""

    @property
    def text(self) -> str:
        """The file of the new version."""
        head = f"{self.data['title']}, version {self.data['version']}, made from a job; {COMMENTS}."
        return template_text(self.data, {(): [head]})

    def difference(self) -> list[str]:
        """The two versions side by side, both laid out alike: a unified difference, a line each."""
        old, new = (template_text(one).splitlines() for one in (self.before, self.data))
        was, is_ = (f"version {one.get('version', '1')}" for one in (self.before, self.data))
        return list(difflib.unified_diff(old, new, was, is_, n=1, lineterm=""))

    def words(self) -> list[str]:
        """What has changed: counted, then a sentence each, the rule of the times, and what is left out."""
        rule = [RULE] if any(one.kind == TIME for one in self.changes) else []
        left = [f"Left out: {one}." for one in self.left_out]
        made_from = (
            f"Made from version {self.before.get('version', '1')}, as it stands in the job: where there is a later one "
            "by now, take the changes over into that."
        )
        return [f"{summary(self.changes)}.", *(one.words for one in self.changes), *rule, *left, made_from]


def next_version(job: Job, data: Data) -> NextVersion:
    """What the template of a job becomes; `data` is the template as it stands in the job file."""
    made = NextVersion(copy.deepcopy(data), before=data)
    made.steps.update({id: planned.base for id, planned in job.steps.items() if not planned.added})
    for take in (add_steps, add_parts, add_checks, take_times):
        take(job, made)
    made.data["version"] = after(str(data.get("version", "1")))
    return made


def after(version: str) -> str:
    """The version behind this one: its last number raised by one, or a 2 put behind a word."""
    found = re.search(r"\d+(?!.*\d)", version)
    if found is None:
        return f"{version} 2".strip()
    return f"{version[: found.start()]}{int(found.group()) + 1}{version[found.end() :]}"
