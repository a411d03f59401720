"""What can be done now, on the command line: the rows of the page, by names."""

from __future__ import annotations

from jobtrack.pages.look_up.what_now import entries, sentence
from jobtrack.sheets.words.sentences import step_name
from jobtrack.store.file.writer import JobFile
from tests.support.cli_calls import Shop
from tests.support.exchange import EXCHANGE


def test_show_now_says_each_step_under_its_heading(empty_shop: Shop) -> None:
    """Every row of the page, and the sentence that promises nothing; nothing else goes with it."""
    job = empty_shop.folder / "new.job.toml"
    empty_shop.done("begin", EXCHANGE, "--out", job, "--by", "Wim")
    said = empty_shop.done("show", job, "--now").out
    state = JobFile(job).job
    assert said.splitlines()[0] == sentence(state)
    for one in entries(state):
        assert f"  {step_name(state.steps[one.step])}" in said
        assert one.head in said
        assert one.more in said
    assert "Recorded as open" not in said


def test_it_is_either_this_or_json(empty_shop: Shop) -> None:
    """The two together are refused in one line."""
    job = empty_shop.folder / "new.job.toml"
    empty_shop.done("begin", EXCHANGE, "--out", job, "--by", "Wim")
    assert empty_shop.run("show", job, "--now", "--json").status == 2
