"""What is asked of a tag when its condition is closed."""

from __future__ import annotations

from jobtrack.sheets.words.sentences import tag_questions
from tests.support.builders import close, marked, opens, read


def test_a_tag_that_another_side_has_too_stays_on() -> None:
    """Both brackets tacked: the left one closed leaves the tag to the right one; then it may come off."""
    copy = marked()
    copy.call("tack.left", read("slope", "2"))
    copy.call("tack.right", read("slope", "2"))
    before = copy.job.all_open
    copy.call(None, close("tacked.left"))
    between = copy.job.all_open
    stays = "Tag BRACKET LOOSE stays on the steering wheel: Bracket only tacked (right) is recorded as open still."
    assert tag_questions(before, between) == [stays]
    copy.call(None, close("tacked.right"))
    off = ["Tag BRACKET LOOSE: is it off the steering wheel?"]
    assert tag_questions(between, copy.job.all_open) == off
    assert tag_questions(before, copy.job.all_open) == off


def test_what_has_no_tag_asks_nothing() -> None:
    """Somebody's own words have none."""
    copy = marked()
    copy.call(None, opens("jack sinks"))
    before = copy.job.all_open
    copy.call(None, close(next(one.name for one in before if one.text == "jack sinks")))
    assert tag_questions(before, copy.job.all_open) == []
