"""What the vehicle's own part was rated and what the one is rated that it gets stands first."""

from __future__ import annotations

import pytest

from jobtrack.sheets.paper.blocks import Message, Section, Sheet, Shout
from jobtrack.sheets.vehicle_record.sheet import PLAIN_WORDS
from jobtrack.store.machine.jobs_folder import shipped
from jobtrack.template.load import load
from jobtrack.units.chosen import US, Chosen
from tests.sheets.vehicle_record.made import exchange, forms, plain, record, rows
from tests.support.builders import given

LIGHTER, HEAVIER = "700", "900"


def first(sheet: Sheet) -> Section:
    """What stands behind the head."""
    return sheet.sections[0]


def shouts(sheet: Sheet) -> list[str]:
    return [one.words for one in first(sheet).blocks if isinstance(one, Shout)]


def test_the_plain_words_come_before_all_else() -> None:
    """Word by word, on each record, in each form."""
    sheet = record(exchange().job)
    assert plain(sheet.head[0]) == PLAIN_WORDS
    for text in forms(sheet):
        assert "It is no inspection certificate, approval or warranty." in " ".join(text.split())


def test_the_one_with_the_lower_rated_part_has_that_first_and_large() -> None:
    """Both figures as they were typed, by whom and from which question; the other's record says that it is higher."""
    copy = exchange(("recipient.load", HEAVIER), ("donor.load", LIGHTER), ("owner-there", "yes"))
    lower, higher = record(copy.job, "recipient"), record(copy.job, "donor")
    assert first(lower).title == first(higher).title == "The rating of its step"
    assert shouts(lower) == ["STEP RATED LOWER: 700 kg, ITS OWN 900 kg"]
    assert [one.signal for one in first(lower).blocks if isinstance(one, Message)] == ["DANGER"]
    own, gets = rows(first(lower))
    assert own == ("its own", "900 kg (1984 lb)", "900", OF.format("recipient"), "Wim, 1 Apr 2031 08:00")
    assert gets == ("the one it gets", "700 kg (1543 lb)", "700", OF.format("donor"), "Wim, 1 Apr 2031 08:00")
    assert shouts(higher) == []
    assert plain(first(higher).blocks[0].text).startswith("The step that it gets is rated higher")  # type: ignore[union-attr]


OF = "from “Load on its plate ({})”"


@pytest.mark.parametrize("known", [(), (("recipient.load", HEAVIER),), (("donor.load", LIGHTER),)])
def test_what_is_not_known_is_said_first(known: tuple[tuple[str, str], ...]) -> None:
    """That it isn't known which is lower, and which rating is missing."""
    sheet = record(exchange(*known).job)
    assert shouts(sheet) == ["STEP: NOT KNOWN WHICH IS RATED LOWER"]
    [shout] = [one for one in first(sheet).blocks if isinstance(one, Shout)]
    missing = {"recipient", "donor"} - {name.partition(".")[0] for name, _ in known}
    assert all(OF.format(one).removeprefix("from ") in shout.under[0] for one in missing)


def test_a_rating_in_disagreement_counts_as_not_known() -> None:
    """Both that were typed stand in the table."""
    copy = exchange(("donor.load", LIGHTER))
    other = copy.split("other")
    other.job = type(copy.job).fold(copy.job.about, copy.entries)
    copy.call(None, given("recipient.load", "900"))
    other.call(None, given("recipient.load", "800"), by="Ada")
    job = type(copy.job).fold(copy.job.about, {*copy.entries, *other.entries})
    assert shouts(record(job)) == ["STEP: NOT KNOWN WHICH IS RATED LOWER"]
    assert set(next(iter(rows(first(record(job)))))[2].split(" / ")) == {"900", "800"}


def test_alike_is_neither() -> None:
    """Typed in two units, the same."""
    copy = exchange(("recipient.load", "1000 kg"), ("donor.load", "1 t"))
    assert "is rated as its own" in plain(first(record(copy.job)).blocks[0].text)  # type: ignore[union-attr]


def test_other_units_are_said_first_where_they_are_chosen() -> None:
    """Pounds, beside what was typed."""
    copy = exchange(("recipient.load", "2000 lb"), ("donor.load", LIGHTER))
    assert shouts(record(copy.job, shown=Chosen(US))) == ["STEP RATED LOWER: 1543 lb, ITS OWN 2000 lb"]


@pytest.mark.parametrize(
    ("answer", "there"),
    [("yes", True), ("no", False), (None, True)],
    ids=["gets one", "gets none", "not known"],
)
def test_a_vehicle_that_gets_none_has_no_rating_on_its_record(answer: str | None, there: bool) -> None:
    """By what was answered; where nothing was, the figures stand and the question with them."""
    givens = [
        ("recipient.load", LIGHTER),
        ("donor.load", HEAVIER),
        *([("owner-there", answer)] if answer else []),
    ]
    sheet = record(exchange(*givens).job, "donor")
    assert (first(sheet).title == "The rating of its step") is there
    assert any("isn't known: “Is the owner there?” isn't answered" in text for text in forms(sheet)) is (
        answer is None
    )


def test_both_axle_exchanges_say_what_goes_over() -> None:
    """Each vehicle gets the other's; the other vehicle gets the axle of the first."""
    one, _ = load(shipped("job_templates") / "axle-exchange.toml")
    other, _ = load(shipped("job_templates") / "axle-exchange-other-vehicle.toml")
    plates = {part.vehicle: (part.own, part.gets) for part in one.exchanged.values()}
    assert plates == {
        "recipient": ("recipient.rear-plate", "donor.rear-plate"),
        "donor": ("donor.rear-plate", "recipient.rear-plate"),
    }
    [part] = other.exchanged.values()
    assert (part.vehicle, part.own, part.gets) == ("other", "other.rear-plate", "axle.rear-plate")
