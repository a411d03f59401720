"""The handover as a browser prints it: nothing cut off, no page with a few rows, contrast, headings in order."""

from __future__ import annotations

import pytest

from jobtrack.store.file.writer import JobFile
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.store.machine.practice import SAMPLE
from tests.support.browser import CHECKS, rendered
from tests.support.browser.printed import Paper
from tests.support.exchange import HALF_DONE
from tests.support.handed import handed

BY, TO = "Teo Banfield", "Ada Prosser"
FIRST = ("Recorded as open, right now", "Don't press", "What holds it up", "Where inside", "Stopped at")
FIRST_TWO = ("Hazards of the whole job", "Fasteners, bolt by bolt", "What can be begun next")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_handover_of_the_half_done_sample_is_whole(paper: Paper) -> None:
    """Every check; what may not be done, what holds it up and where inside stand on the first page of A4.

    On the lower page of Letter what doesn't go on it stands on the second, with the hazards and the fasteners.
    """
    job = JobFile(shipped("sample_jobs") / SAMPLE).job
    printed = rendered(handed(job, BY, TO, ".html"), paper)
    print(f"{paper}: {len(printed.pages)} pages")
    assert [fault for check in CHECKS for fault in check(printed)] == []
    first, second = (" ".join(page.text.split()) for page in printed.pages[:2])
    assert paper == "Letter" or [title for title in FIRST if title not in first] == []
    assert [title for title in (*FIRST, *FIRST_TWO) if title not in first + second] == []
    assert len(printed.pages) <= 6
    *_, last = printed.pages
    assert last.text.index("cut here") < last.text.index("Return slip")


def test_the_short_one_is_whole() -> None:
    """For the morning."""
    printed = rendered(handed(JobFile(HALF_DONE).job, BY, BY, ".html"))
    assert [fault for check in CHECKS for fault in check(printed)] == []
    assert len(printed.pages) <= 2
