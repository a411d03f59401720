"""Opening and closing of conditions as somebody asks for it, by id or in their own words; and its refusals."""

from __future__ import annotations

from jobtrack.job.acts.conditions import ClosesAct, OpensAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import Refused, all_known, known


def opens(draft: Draft, text: str, member: str | None = None) -> None:
    """Open a condition of the template by its id, or one in somebody's own words."""
    members = dict.fromkeys(one.member for one in draft.job.steps.values() if one.member)
    if member is not None and member not in members:
        raise Refused(f"no member {member!r} in this job{all_known(members)}")
    own = draft.planned.member if draft.step and text in draft.job.plan.template.condition else None
    draft.add(OpensAct(text, member or own))


def closes(draft: Draft, name: str) -> None:
    """Close by name what can be seen open: an id, ID.MEMBER, an opening's name or a lost entry's hash."""
    found = [one for one in draft.job.all_open if name in (one.id, one.name, *one.openings)]
    if not found:
        raise Refused(f"no open condition {name!r}{known(one.name for one in draft.job.all_open)}")
    draft.add(ClosesAct(tuple(opening for one in found for opening in one.openings)))
