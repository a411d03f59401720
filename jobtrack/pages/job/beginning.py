"""The page on which a job is begun, and what is said once it stands there."""

from __future__ import annotations

from jobtrack.job.state.job import Job
from jobtrack.pages.job.conditions import JOB_KEY
from jobtrack.pages.own_keys import named
from jobtrack.pages.step.hazards import hazard_lines
from jobtrack.pages.typeset import Line, line, wrap
from jobtrack.pages.wording import FIRST_WORD, clock_time
from jobtrack.template.model import Template


def begin_page(template: Template, which: str, by: str, width: int) -> list[Line]:
    """What the program is and isn't, what may hurt in the whole job, which file it is, and who begins it, if known."""
    who = wrap(f"Begun by: {by}", width, "strong", 2) if by else []
    return [
        *wrap(FIRST_WORD, width),
        *hazard_lines(template.hazard, width),
        line(),
        *(wrap(which, width) if which else []),
        *wrap(later_words(), width),
        *who,
    ]


def later_words() -> str:
    """That everything but the title can wait, and where it is typed."""
    keys = f"{named(JOB_KEY, 'job-page')}, then {named('k', 'known')}"
    return (
        "A title is enough to begin. What is known of the vehicles is asked in the step that needs it; "
        f"all of it can also be typed on one page: {keys}."
    )


def begun_words(job: Job) -> str:
    """That a job is begun: when, by whom and what it is called."""
    first = job.view.entries[0]
    return f"Recorded {clock_time(first.at)}: “{job.about.title}” is begun by {first.by}."
