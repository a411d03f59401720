"""The page of the catalogue: every working-out with its formula, units, source and a worked example, in Markdown.

All of it comes out of the catalogue, so the page says what the program does.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jobtrack.sheets.markdown import md
from jobtrack.sheets.words import sentences as lines
from jobtrack.shopmath.catalogue import WorkingOut, by_topic, find
from jobtrack.workings.answers import Answer, answer
from jobtrack.workings.words import told

TYPING = (
    "A bare number takes the unit written here; any unit of the same kind can be typed, as 38 in or 90 lb. "
    "Items of a list stand between commas, or between semicolons, and a decimal there has its dot. "
    "A maker's own figure wins over every rule on this page."
)


def catalogue_markdown(name: str | None = None) -> str:
    """The whole catalogue topic by topic, or one working-out. Raises WorkingOutError for an unknown name."""
    parts = [_one_page(find(name))] if name is not None else [*_heading(), *_topics()]
    first_word = f"*{md(lines.FIRST_WORD)}*"
    title = f"# Workings-out{'' if name is None else f': {md(name)}'}"
    return "\n\n".join([title, first_word, *parts, first_word]) + "\n"


def _one_page(work: WorkingOut) -> str:
    return "\n\n".join([md(TYPING), *_entry(work)])


def _heading() -> Iterator[str]:
    topics = by_topic()
    count = sum(len(names) for names in topics.values())
    yield f"{lines.counted(count, 'working-out', 'workings-out')} in {lines.counted(len(topics), 'topic')}."
    yield md(TYPING)
    yield _block(f"- [{topic}](#{topic}): {', '.join(map(_link, names))}" for topic, names in topics.items())


def _link(name: str) -> str:
    return f"[{md(name)}](#{name})"


def _topics() -> Iterator[str]:
    for topic, names in by_topic().items():
        yield f"## {md(topic)}"
        for name in names:
            yield from _entry(find(name))


def _entry(work: WorkingOut) -> Iterator[str]:
    done = answer(work.name, work.example)
    yield f"### {md(work.name)}"
    yield f"In words: {md(work.formula)}."
    yield _table(("Goes in", "as"), ((quantity.key, told(quantity)) for quantity in work.inputs))
    yield _table(("Comes out", "in"), ((quantity.key, told(quantity)) for quantity in work.results))
    yield f"Source: {md(work.source)}."
    yield from (f"**{md(hazard)}**" for hazard in work.hazards)
    if done.remarks:
        yield _block(f"- {md(remark)}" for remark in done.remarks)
    yield from _example(done)


def _example(done: Answer) -> Iterator[str]:
    """The example as it is typed, and what the program gives for it."""
    yield "Example:"
    yield f"    {done.work.example_call()}"
    yield _table(("Result", "figure"), done.figures())
    yield md(done.sentence())


def _table(heads: tuple[str, str], rows: Iterable[tuple[str, str]]) -> str:
    cells = (f"| {md(left)} | {md(right)} |" for left, right in rows)
    return _block([f"| {heads[0]} | {heads[1]} |", "|---|---|", *cells])


def _block(parts: Iterable[str]) -> str:
    return "\n".join(parts)
