"""A sheet as a browser prints it and as a telephone shows it, and what may be wrong there.

    from tests.support.browser import faults, rendered

    assert faults(html) == []                  # A4 and Letter, a telephone, every check below

    printed = rendered(html, "Letter")         # one paper alone
    assert nothing_cut_off(printed) == []      # each check gives one line for each fault; none: an empty list
    printed.pages[0].text, printed.pages[0].words, printed.save_pngs(folder, "handover")

The browser is Chromium as the system has it, started once for each test process and driven in a thread of its own, so
that tests with a loop of their own aren't in its way. Where it is missing, whoever asks for it is skipped with the
reason, and fails under CI (`.ci/run` installs it). A test that uses it is slow: half a second for each paper.
"""

from tests.support.browser.checks import (
    CHECKS,
    contrast_is_enough,
    faults,
    headings_in_order,
    no_orphan_page,
    nothing_cut_off,
    stands_by_itself,
)
from tests.support.browser.printed import Page, Printed, Word, rendered

__all__ = [
    "CHECKS",
    "Page",
    "Printed",
    "Word",
    "contrast_is_enough",
    "faults",
    "headings_in_order",
    "no_orphan_page",
    "nothing_cut_off",
    "rendered",
    "stands_by_itself",
]
