"""What the vehicle's own part was rated and what the one is rated that it gets stands first."""

from __future__ import annotations

import pytest

from jobtrack.sheets.paper.blocks import Message, Paragraph, Section, Sheet, Shout
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


def large(sheet: Sheet) -> str:
    """The large words under it."""
    return next(plain(one.text) for one in first(sheet).blocks if isinstance(one, Paragraph))


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
    assert shouts(lower) == ["STEP RATED LOWER"]
    assert large(lower).startswith(
        "The step that it gets: 700 kg. Its own: 900 kg. That is 200 kg (441 lb) less"
    )
    assert [one.signal for one in first(lower).blocks if isinstance(one, Message)] == ["DANGER"]
    own, gets = rows(first(lower))
    assert own == ("its own", "900 kg (1984 lb)", "900", OF.format("recipient"), "Wim, 1 Apr 2031 08:00")
    assert gets == ("the one it gets", "700 kg (1543 lb)", "700", OF.format("donor"), "Wim, 1 Apr 2031 08:00")
    assert shouts(higher) == []
    assert large(higher).startswith("The step that it gets is rated higher than its own.")


OF = "from “Load on its plate ({})”"


@pytest.mark.parametrize("known", [(), (("recipient.load", HEAVIER),), (("donor.load", LIGHTER),)])
def test_what_is_not_known_is_said_first(known: tuple[tuple[str, str], ...]) -> None:
    """That it isn't known which is lower, and which rating is missing."""
    sheet = record(exchange(*known).job)
    assert shouts(sheet) == ["STEP: RATING NOT KNOWN"]
    assert large(sheet).startswith("It isn't known which step is rated lower.")
    missing = {"recipient", "donor"} - {name.partition(".")[0] for name, _ in known}
    assert all(OF.format(one).removeprefix("from ") in large(sheet) for one in missing)


def test_a_rating_in_disagreement_counts_as_not_known() -> None:
    """Both that were typed stand in the table."""
    copy = exchange(("donor.load", LIGHTER))
    other = copy.split("other")
    other.job = type(copy.job).fold(copy.job.about, copy.entries)
    copy.call(None, given("recipient.load", "900"))
    other.call(None, given("recipient.load", "800"), by="Ada")
    job = type(copy.job).fold(copy.job.about, {*copy.entries, *other.entries})
    assert shouts(record(job)) == ["STEP: RATING NOT KNOWN"]
    assert set(next(iter(rows(first(record(job)))))[2].split(" / ")) == {"900", "800"}


def test_alike_is_neither() -> None:
    """Typed in two units, the same."""
    copy = exchange(("recipient.load", "1000 kg"), ("donor.load", "1 t"))
    assert "is rated as its own" in large(record(copy.job))


def test_other_units_are_said_first_where_they_are_chosen() -> None:
    """Pounds, beside what was typed."""
    copy = exchange(("recipient.load", "2000 lb"), ("donor.load", LIGHTER))
    assert large(record(copy.job, shown=Chosen(US))).startswith(
        "The step that it gets: 1543 lb. Its own: 2000 lb."
    )


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
