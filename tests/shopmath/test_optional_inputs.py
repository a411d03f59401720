"""No optional input is ignored in silence: given beside what is wanted, it changes something or is refused."""

from __future__ import annotations

from itertools import product

import pytest

from jobtrack.shopmath.catalogue import Quantity, WorkingOut, WorkingOutError, by_topic, find
from jobtrack.workings.answers import answer

TRIED = {
    "mm": ("1", "7", "50", "400"),
    "kg": ("1", "55", "900"),
    "cm": ("30", "80", "120"),
    "deg": ("1", "5", "-3"),
    "count": ("1", "2", "3", "4"),
    "ratio": ("0.1", "0.25", "0.5", "2", "3"),
    "percent": ("0.01", "5", "40"),
    "rpm": ("500", "3000"),
    "N*m": ("5", "200"),
    "A": ("60", "100"),
    "number": ("0.1", "1", "5"),
    "yes/no": ("yes", "no"),
    "list percent": ("50; 100", "20; 40; 100"),
}
"""What is typed for an optional input of each unit; a choice has its choices, a text what its refusal accepts."""
BESIDE = {
    "second-pattern": {"first_circle": "100"},
    "bolt-circle": {"hole": "12"},
    "verdict": {"high": "3 deg"},
}
"""One of several optional inputs without which nothing is worked out."""
NOT_FELT = {
    ("bolt-circle", "hole"): "between centres and same edges it only refuses holes that would overlap",
    ("recommended-weight-limit", "lifts_per_minute"): "0.2 a minute and fewer count alike in the tables",
    ("verdict", "low"): "a limit further off than the uncertainty reaches leaves every figure as it is",
}
"""Optional inputs of which not every value changes something, and why. At least one value has to."""
EVERY = [
    (name, quantity.key)
    for names in by_topic().values()
    for name in names
    for quantity in find(name).inputs
    if quantity.optional
]


def _outcome(name: str, typed: dict[str, str]) -> object:
    """Results, remarks and limit; or the refusal."""
    try:
        done = answer(name, typed)
    except WorkingOutError as refusal:
        return str(refusal)
    return done.outcome.values, done.remarks, done.outcome.limit


def _tried(work: WorkingOut, quantity: Quantity, typed: dict[str, str]) -> list[str]:
    """What is typed for an optional input, but for what counts anyhow."""
    texts = [*TRIED.get(quantity.unit, ()), *quantity.choices]
    if quantity.key in work.example:
        texts.append(work.example[quantity.key])
    if quantity.unit == "text":
        texts += str(_outcome(work.name, typed | {quantity.key: "?"})).rpartition("accepted: ")[2].split(", ")
    return [text for text in texts if not _counts_anyhow(work, quantity, text, typed)]


def _counts_anyhow(work: WorkingOut, quantity: Quantity, text: str, typed: dict[str, str]) -> bool:
    try:
        used = answer(work.name, typed | {quantity.key: text}).outcome.inputs[quantity.key]
    except WorkingOutError:
        return False
    return used == quantity.default


def _beside(work: WorkingOut, key: str) -> list[dict[str, str]]:
    """What is wanted, from the example, with each choice that has to be made."""
    wanted = {each.key: work.example[each.key] for each in work.inputs if not each.optional}
    wanted |= {other: text for other, text in BESIDE.get(work.name, {}).items() if other != key}
    choices = {each.key: each.choices for each in work.inputs if each.choices and not each.optional}
    return [wanted | dict(zip(choices, chosen, strict=True)) for chosen in product(*choices.values())]


@pytest.mark.parametrize(("name", "key"), EVERY)
def test_an_optional_input_is_felt(name: str, key: str) -> None:
    """Each value of each optional input changes a result, a remark or the limit, or is refused."""
    work = find(name)
    felt = []
    for typed in _beside(work, key):
        without = _outcome(name, typed)
        felt += [
            _outcome(name, typed | {key: text}) != without for text in _tried(work, work.input(key), typed)
        ]
    assert felt
    assert any(felt)
    assert all(felt) or (name, key) in NOT_FELT
    assert not all(felt) or (name, key) not in NOT_FELT


def test_the_exceptions_are_inputs_of_the_catalogue() -> None:
    """No exception stands here for an input that is gone."""
    assert set(NOT_FELT) <= set(EVERY)


def test_single_tyres_with_a_second_index_say_so() -> None:
    """The second index read off a tyre isn't used for two single tyres, and the answer says so."""
    said = "dual_index isn't used: two single tyres carry by the first index; for four give dual=yes."
    assert said in answer("tyre-axle-load", {"index": "104", "dual_index": "101"}).remarks
    assert said not in answer("tyre-axle-load", {"index": "104", "dual_index": "101", "dual": "yes"}).remarks
