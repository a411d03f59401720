"""The page of parts in words, and the part lines of a step: what is seen of which part where."""

from __future__ import annotations

from pathlib import Path

import pytest

from jobtrack.job.compose import doing
from jobtrack.job.state.job import Job
from jobtrack.pages.job.parts import head_of, kept, more_lines, title_words, to_buy_page
from jobtrack.pages.step.page import step_page
from tests.job.doing.test_parts import Bench, bought

LEFT, RIGHT = "spring.left", "spring.right"


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(tmp_path)


def page(job: Job, step: str | None, width: int = 76) -> list[str]:
    """Headings, titles and what stands under them, the first one chosen."""
    listed = kept(job, step)
    rows = []
    for number, one in enumerate(listed):
        rows += [head] if (head := head_of(job, step, listed, number)) else []
        rows += [title_words(one), *(row.plain for row in more_lines(job, step, one, width, number == 0))]
    return rows


def test_headings_and_how_many(bench: Bench) -> None:
    """Those of the step with its own count, and before what they are wanted where that is said."""
    nothing = "      nothing recorded"
    assert page(bench.file.job, LEFT) == [
        "Parts of “Hang the spring (left)”",
        "2 × Spring pins, new (4 in the whole job)", nothing, "      wanted on the bench before “Hang it”",
        "2 × bush (4 in the whole job)", nothing,
        "Other parts of the job", "1 × shackle, from the donor", nothing,
        "Tools", "long bar", nothing,
    ]  # fmt: skip
    assert page(bench.file.job, "clean")[0] == "Parts of the job"
    assert page(bench.file.job, None)[0] == "Parts of the job"


def test_what_became_of_a_part_is_said_with_its_other_step(bench: Bench) -> None:
    """Two are fitted on the left: on the right that isn't read as if it were there."""
    bench.call(LEFT, lambda made: doing.part(made, "pins", "2", "fitted"))
    assert "      fitted 2 (Hob, 14 May 09:41)" in page(bench.file.job, LEFT)
    assert "      fitted 2 in “Hang the spring (left)” (Hob, 14 May 09:41)" in page(bench.file.job, RIGHT)


def test_the_step_says_how_far_each_of_its_parts_is(bench: Bench) -> None:
    bench.call(None, bought("pins", "ordered", from_="Ilse", due="Friday"))
    bench.call(LEFT, lambda made: doing.part(made, "pins", "2", "fitted"))
    bench.call(None, lambda made: doing.place(made, "bush", "blue tray"))

    def parts(step: str) -> list[str]:
        rows = [row.plain for row in step_page(bench.file.job, bench.file.job.steps[step], 120, None, False)]
        return [row for row in rows if row.startswith("Part: ")]

    assert parts(LEFT) == [
        "Part: 2 × Spring pins, new (4 in the whole job): ordered, from Ilse, due Friday; fitted 2",
        "Part: 2 × bush (4 in the whole job): lies in blue tray",
    ]
    assert (
        parts(RIGHT)[0] == "Part: 2 × Spring pins, new (4 in the whole job): ordered, from Ilse, due Friday"
    )


@pytest.mark.parametrize("width", [20, 36, 76, 116])
def test_no_row_is_wider_than_the_page(bench: Bench, width: int) -> None:
    """Long words and names that nobody planned are broken, none of them cut."""
    name = "nut [b]" + "long" * 30
    bench.call(None, bought(name, "asked"), lambda made: doing.place(made, "bar", "x" * 200))
    rows = [
        row.plain
        for one in kept(bench.file.job, LEFT)
        for row in more_lines(bench.file.job, LEFT, one, width, True)
    ]
    rows += [row.plain for row in to_buy_page(bench.file.job, width)]
    assert all(len(row) <= width for row in rows)
    assert name.replace(" ", "") in "".join(rows).replace(" ", "")
