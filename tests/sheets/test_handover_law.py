"""The law of the handover: of any job it names each open condition, each step in hand, each reading outside and each
bolt that isn't at its final stage: nothing missing, nothing twice. What there is, is recounted from the entries by
`support/oracle.py`, which knows who had seen what and none of the names that acts carry.
"""

from __future__ import annotations

import html
import re
from collections import Counter
from collections.abc import Iterator

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from jobtrack.job.acts.doing import TorqueAct
from jobtrack.job.compose.draft import Draft
from jobtrack.job.state.job import Job
from jobtrack.sheets.handover import against, fasteners, inside, open_now
from jobtrack.sheets.paper.blocks import Block, Points, Section, Strong, Table
from tests.support.builders import DONOR, RECIPIENT, Do, finish, opens, tick, undo
from tests.support.handed import handed, sheet_of, unescaped
from tests.support.histories import SIDES, Move, Script, moves, play
from tests.support.oracle import FINAL, NO_STAGE, NUTS, Oracle

OWN = "Petrol drips"
"""A condition in somebody's own words: each opening of it is one of its own."""
STEPS = {
    "mark.left": "Mark the new place (left)", "mark.right": "Mark the new place (right)",
    DONOR: "Spacing of the bracket pins (donor)", RECIPIENT: "Spacing of the bracket pins (recipient)",
    NUTS: "Nuts on",
}  # fmt: skip
FAR = {NO_STAGE: "nothing recorded", -1: "finger", 0: "snug", 1: "stage 1 of 2", FINAL: "final"}
LINE = "Nuts on, nuts"
TITLES = (open_now.TITLE, inside.TITLE, against.TITLE, fasteners.TITLE)
REACHED = (
    "KEEP THE MARKS (left):", "RE-CHECK NUTS:", f"{OWN}.", "in hand", "look again", "finger", "snug", "stage 1 of 2",
    "all final", "nothing recorded", "moved, “Mark the new place (left)”",
)  # fmt: skip
"""What at least three of the histories have to come to, or the law would say nothing of it."""
Named = Counter[str]
"""How often each thing is named in its section."""


def turn(bolt: str | None, stage: str) -> Do:
    def do(draft: Draft) -> None:
        draft.add(TorqueAct("nuts", bolt, stage))

    return do


turned = st.tuples(
    st.sampled_from(("1", "1", "2", "2", None)), st.sampled_from(("finger", "snug", "1", "2", "final"))
)
others: list[tuple[str | None, tuple[Do, ...]]] = [
    (NUTS, (finish,)), (NUTS, (tick("painted", False),)), (NUTS, (tick("painted"),)), (None, (opens(OWN),)),
    (None, (undo,)),
]  # fmt: skip


@st.composite
def more(draw: st.DrawFn, copies: int) -> Move:
    """A nut turned, its step checked or finished, something opened in one's own words; in which copy, by whom."""
    act = turned.map(lambda those: (NUTS, (turn(*those),)))
    step, do = draw(st.one_of(act, act, st.sampled_from(others)))
    copy = draw(st.integers(0, copies - 1))
    return copy, ("Wim", "Ada", "Jo")[copy], step, do


@st.composite
def scripts(draw: st.DrawFn) -> Script:
    copies = draw(st.integers(1, 3))
    return Script(copies, draw(st.lists(st.one_of(moves(copies), more(copies)), min_size=4, max_size=14)), [])


def recounted(oracle: Oracle) -> dict[str, Named]:
    """What the sheet has to name, by section."""
    sides = {oracle.events[name].entry.step or "" for name in oracle.open_marks()}
    conditions = Counter(f"KEEP THE MARKS ({side.partition('.')[2]}):" for side in sides)
    conditions["RE-CHECK NUTS:"] = bool(oracle.openings("nuts-new"))
    conditions[f"{OWN}."] = len(oracle.openings(OWN))
    steps = Counter(
        f"{STEPS[step]}: {'look again' if oracle.finished(step) else 'in hand'}" for step in oracle.in_hand()
    )
    outside = Counter(f"moved, “{STEPS[side]}”" for side in SIDES if oracle.outside(side))
    return {
        open_now.TITLE: +conditions,
        inside.TITLE: steps,
        against.TITLE: outside,
        fasteners.TITLE: bolts(oracle),
    }


def bolts(oracle: Oracle) -> Named:
    """Each nut with how far it is, or that the line is all at its final stage; nothing while its step isn't begun."""
    if not any(
        event.entry.step == NUTS and any(act.work for act in event.entry.did) for event in oracle.counting
    ):
        return Counter()
    far = oracle.bolts()
    if set(far.values()) == {FINAL}:
        return Counter([f"{LINE}: all final"])
    return Counter(f"{name}: {FAR[reached]}" for name, reached in far.items())


# What the sheet says


def named(job: Job) -> dict[str, Named]:
    """What the sheet's data names, by section."""
    found = {one.title: one for one in sheet_of(job).sections}
    rows = [row for table in tables(found[against.TITLE]) for row in table.rows]
    return {
        open_now.TITLE: Counter(strong(found[open_now.TITLE])),
        inside.TITLE: Counter(one.title for one in found[inside.TITLE].sections),
        against.TITLE: Counter(str(row[0]) for row in rows),
        fasteners.TITLE: Counter(told(found[fasteners.TITLE])),
    }


def blocks(one: Section) -> Iterator[Block]:
    yield from one.blocks
    for inner in one.sections:
        yield from blocks(inner)


def tables(one: Section) -> list[Table]:
    return [block for block in blocks(one) if isinstance(block, Table)]


def strong(one: Section) -> Iterator[str]:
    """What stands strong in each row; of a row for several sides each side by itself."""
    for table in tables(one):
        for what, *_ in table.rows:
            assert isinstance(what[0], Strong)
            yield from each_side(what[0].text)


def each_side(text: str) -> list[str]:
    """ "KEEP THE MARKS (left, right):" is two: that of the left and that of the right side."""
    found = re.fullmatch(r"(.* \()(\w+(?:, \w+)*)(\).*)", text)
    return [f"{found[1]}{side}{found[3]}" for side in found[2].split(", ")] if found else [text]


def told(one: Section) -> Iterator[str]:
    """Each bolt of a table, those that nothing is recorded of, and the lines all at their final stage."""
    for table in tables(one):
        for bolt, far, *_ in table.rows:
            yield f"{bolt}: {str(far).removeprefix(fasteners.APART)}"
    for block in blocks(one):
        for point in block.points if isinstance(block, Points) else ():
            yield from said_of_bolts(str(point.text))


def said_of_bolts(text: str) -> Iterator[str]:
    if text.startswith("Nothing recorded: "):
        yield from (f"{number}: nothing recorded" for number in re.findall(r"\d+", text))
    elif text.startswith(f"{LINE}: "):
        assert set(re.findall(r"\d(?=[^(]* final)", text)) == {"1", "2"}
        yield f"{LINE}: all final"


# The forms, as text


def in_form(job: Job, ending: str) -> dict[str, str]:
    """The sections of a form, each as its words in a row; of a table in rows of text the columns by themselves."""
    text = handed(job, ending=ending)
    if ending == ".html":
        found = re.findall(r"<h2[^>]*>(.*?)</h2>(.*?)(?=<h2|<footer)", text, re.S)
        return {words(title): words(body) for title, body in found}
    if ending == ".md":
        found = re.findall(r"^## (.*?)\n(.*?)(?=^## |\Z)", text, re.S | re.M)
        return {unescaped(title): unescaped(" ".join(body.split())) for title, body in found}
    every = [one.title for one in sheet_of(job).sections]
    starts = [text.index(f"\n{title}\n---") for title in every]
    ends = [*starts[1:], len(text)]
    return {title: in_columns(text[start:end]) for title, start, end in zip(every, starts, ends, strict=True)}


def words(markup: str) -> str:
    return " ".join(html.unescape(re.sub("<[^>]*>", " ", markup)).split())


def in_columns(text: str) -> str:
    """Rows of text, then the first columns of its tables, one behind the other."""
    cells = [line.split("|") for line in text.splitlines() if "|" in line]
    columns = [" ".join(cell[number].strip() for cell in cells if len(cell) > number) for number in range(2)]
    rest = " ".join(line for line in text.splitlines() if "|" not in line)
    return " ".join(" ".join([rest, *columns]).split())


def _side_by_side(row: re.Match[str]) -> str:
    return " ".join(each_side(row[0]))


def check_forms(job: Job, wanted: dict[str, Named]) -> None:
    """Each name as often in each form as the record has it; of the bolts the words for how far they are."""
    states = [f"{name}: {state}" for name in STEPS.values() for state in ("in hand", "look again")]
    names = {
        open_now.TITLE: ["KEEP THE MARKS (left):", "KEEP THE MARKS (right):", "RE-CHECK NUTS:", f"{OWN}."],
        inside.TITLE: states,
        against.TITLE: [f"moved, “{STEPS[side]}”" for side in SIDES],
        fasteners.TITLE: [LINE],
    }
    any_bolt = Counter({LINE: 1} if wanted[fasteners.TITLE] else {})
    for ending in (".md", ".txt", ".html"):
        found = in_form(job, ending)
        for title, those in names.items():
            if title == open_now.TITLE:
                found[title] = re.sub(r"KEEP THE MARKS \([^)]*\):", _side_by_side, found[title])
            counted = +Counter({name: found[title].count(name) for name in those})
            assert counted == (any_bolt if title == fasteners.TITLE else wanted[title]), (ending, title)
        for word in ("finger", "snug", "stage 1 of 2"):
            times = sum(
                count for name, count in wanted[fasteners.TITLE].items() if name.endswith(f": {word}")
            )
            assert found[fasteners.TITLE].count(word) == times, (ending, word)


def test_the_handover_names_all_that_is_open_in_hand_outside_and_not_tight() -> None:
    """Over random histories of up to three copies, joined: in the sheet's data and in each of its forms."""
    met: Named = Counter()

    @settings(max_examples=80, derandomize=True, database=None, deadline=None, phases=(Phase.generate, Phase.shrink),
              suppress_health_check=[HealthCheck.too_slow])  # fmt: skip
    @given(scripts())
    def run(script: Script) -> None:
        played = play(script)
        job, wanted = played.merged, recounted(played.oracle())
        assert named(job) == wanted
        check_forms(job, wanted)
        met.update(name.partition(": ")[2] or name for those in wanted.values() for name in those)

    run()
    print(dict(met))
    assert [name for name in REACHED if met[name] < 3] == []
