"""Lifting by hand, and stands under a load. Mass in kg, reach and heights in cm, turns in degrees."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from jobtrack.shopmath.catalogue import (
    A_HUNDREDTH,
    A_TENTH,
    Number,
    WorkingOutError,
    at_least,
    at_most,
    gives,
    may_take,
    takes,
    working_out,
)
from jobtrack.shopmath.common.checks import above_zero, between, magnitude, not_below_zero, plain
from jobtrack.shopmath.lifting.tables import (
    COUPLING,
    FARTHEST_REACH,
    FREQUENCY,
    HIGHEST,
    KNUCKLES,
    LEAST_TRAVEL,
    LOAD_CONSTANT,
    MOST_TURN,
    NEAREST_REACH,
    RATES,
)


def reach_factor(reach: Number) -> Number:
    """HM = 25 / H."""
    return Fraction(NEAREST_REACH) / Fraction(max(reach, NEAREST_REACH))


def height_factor(height: Number) -> Number:
    """VM = 1 - 0.003 |V - 75|."""
    return 1 - Fraction(3, 1000) * abs(Fraction(height) - KNUCKLES)


def travel_factor(travel: Number) -> Number:
    """DM = 0.82 + 4.5 / D."""
    return Fraction("0.82") + Fraction("4.5") / Fraction(max(travel, LEAST_TRAVEL))


def turn_factor(turn: Number) -> Number:
    """AM = 1 - 0.0032 A."""
    return 1 - Fraction("0.0032") * Fraction(turn)


def frequency_factor(rate: Number, duration: str, high: bool) -> Number:
    """FM from the table, in a straight line between its rows; below 0.2 a minute as 0.2."""
    column = FREQUENCY[duration, high]
    place = bisect_left(RATES, rate)
    if place == 0:
        return column[0]
    below, above = RATES[place - 1], RATES[place]
    share = (Fraction(rate) - below) / (above - below)
    return column[place - 1] + share * (column[place] - column[place - 1])


class WeightLimit(NamedTuple):
    """Recommended weight limit, kg, and load over it, at the start and at the end; None where not worked out."""

    rwl: Number
    index_: Number
    rwl_at_end: Number | None
    index_at_end: Number | None
    remarks: tuple[str, ...] = ()


@working_out(
    "recommended-weight-limit",
    topic="lifting",
    inputs=[
        takes("load", "kg"),
        takes("reach", "cm"),
        takes("from_height", "cm"),
        may_take("to_height", "cm"),
        may_take("to_reach", "cm"),
        may_take("turn", "deg", 0),
        may_take("lifts_per_minute", "ratio", Fraction(1, 5)),
        may_take("duration", "short|moderate|long", "short"),
        may_take("grip", "good|fair|poor", "good"),
        may_take("where", "open|under a vehicle", "open"),
    ],
    results=gives(
        rwl=at_most("kg", step=A_TENTH, against=("load",)),
        index=at_least("ratio", step=A_HUNDREDTH, against=("1", "3")),
        rwl_at_end=at_most("kg", step=A_TENTH, against=("load",)),
        index_at_end=at_least("ratio", step=A_HUNDREDTH, against=("1", "3")),
    ),
    formula="23 kg times 25 / reach, times 1 - 0.003 |height - 75|, times 0.82 + 4.5 / travel, times "
    "1 - 0.0032 turn, times the tables' factors for lifts a minute and grip; index = load / limit",
    source="revised NIOSH lifting equation, DHHS (NIOSH) 94-110, reissued 2021, metric form, tables 5 and 7, "
    "as transcribed twice in a public repository",
    sentence="Load {load}; recommended weight limit {rwl} (NIOSH 94-110), index {index}; "
    "at the end {rwl_at_end}, index {index_at_end}.",
    example={"load": "12", "reach": "25", "from_height": "55", "to_height": "150", "grip": "fair"},
    hazards=(
        "WARNING: Heavy part. A lift above the limit can injure the back for life. "
        "Use a hoist, a jack or a second person.",
    ),
    remarks=(
        "The manual's aim is an index of at most 1; above 1 it sees more risk for some, above 3 for nearly all.",
        "Not for one hand, seated or kneeling, restricted space, carrying, unstable loads or a slippery floor.",
        "turn counts at the start; at the end it counts as 0.",
    ),
)
def recommended_weight_limit(
    load: Number,
    reach: Number,
    from_height: Number,
    to_height: Number | None = None,
    to_reach: Number | None = None,
    turn: Number = 0,
    lifts_per_minute: Number = Fraction(1, 5),
    duration: str = "short",
    grip: str = "good",
    where: str = "open",
) -> WeightLimit:
    """RWL = 23 kg HM VM DM AM FM CM at full precision, and load / RWL; at the end with its reach and height.

    Reach H and heights V in cm, turn A in degrees. FM takes the column of the starting height, CM that of each
    end. Without to_height there is no travel factor. Source: NIOSH 94-110, factors in `tables_lifting`; the
    manual's and a course's worksheets are in the tests, with an own US form as the independent route.
    Refuses under a vehicle; a load not above 0; reach above 63, heights outside 0 to 175, turns outside 0 to 135,
    lifts outside 0 to 15 or where the table ends at 0; to_reach without to_height.
    """
    if where == "under a vehicle":
        raise WorkingOutError(
            "where: the equation does not hold in restricted space, such as under a vehicle; give open, or take a "
            "hoist or trolley and two people"
        )
    above_zero(load=load)
    _refuse_beyond(reach, from_height, to_height, to_reach, turn)
    often = _often(lifts_per_minute, duration, from_height >= KNUCKLES)
    travel = 1 if to_height is None else travel_factor(magnitude(to_height - from_height))
    common = LOAD_CONSTANT * often * travel
    limit = common * _at(reach, from_height, grip) * turn_factor(turn)
    if to_height is None:
        return WeightLimit(limit, load / limit, None, None)
    end = common * _at(reach if to_reach is None else to_reach, to_height, grip)
    return WeightLimit(limit, load / limit, end, load / end)


def _at(reach: Number, height: Number, grip: str) -> Number:
    return reach_factor(reach) * height_factor(height) * COUPLING[grip, height >= KNUCKLES]


def _refuse_beyond(
    reach: Number, from_height: Number, to_height: Number | None, to_reach: Number | None, turn: Number
) -> None:
    if to_reach is not None and to_height is None:
        raise WorkingOutError(
            "to_height: missing; to_reach says where a lift ends, give its height in cm too"
        )
    for key, value in (("reach", reach), ("to_reach", to_reach)):
        _within(key, value, FARTHEST_REACH, "cm")
    for key, value in (("from_height", from_height), ("to_height", to_height)):
        _within(key, value, HIGHEST, "cm")
    _within("turn", turn, MOST_TURN, "deg")


def _within(key: str, value: Number | None, most: int, unit: str) -> None:
    if value is None:
        return
    not_below_zero(**{key: value})
    if value > most:
        raise WorkingOutError(
            f"{key}: at {plain(value)} {unit} the limit is 0, it cannot be lifted by this equation; "
            f"give at most {most} {unit}"
        )


def _often(rate: Number, duration: str, high: bool) -> Number:
    between("lifts_per_minute", rate, 0, RATES[-1])
    factor = frequency_factor(rate, duration, high)
    if factor == 0:
        column = FREQUENCY[duration, high]
        last = RATES[max(place for place, each in enumerate(column) if each)]
        raise WorkingOutError(
            f"lifts_per_minute: at {plain(rate)} a minute the limit is 0, it cannot be lifted by this equation; "
            f"the table ends at {plain(last)} for this duration and height"
        )
    return factor


SCALES_TELL = 2
"""Percent of a load that scales and two stands can't tell. Common practice, no source."""

TEAM_SHARE = {2: Fraction(2, 3), 3: Fraction(1, 2)}
"""Of the sum of what each lifts alone: HSE L23, paragraphs 119 and 120. None is published for four."""


class TeamLift(NamedTuple):
    """What the team lifts together, kg, and who was given more than one person's limit."""

    together: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "team-lift",
    topic="lifting",
    inputs=[takes("each", "list kg")],
    results=gives(together=at_most("kg")),
    formula="two people: two thirds of the sum of what each lifts alone; three: half of it",
    source="HSE guidance L23, paragraphs 119 and 120, in copies",
    sentence="Alone {each}; together {together} by HSE L23.",
    example={"each": "20, 20"},
    hazards=(
        "CAUTION: Uneven load. On steps and slopes most of it comes on the lower person. Agree who calls the lift.",
    ),
    remarks=("EN 1005-2 has 0.85 for two people (from memory).",),
)
def team_lift(each: Sequence[Number]) -> TeamLift:
    """Two people 2/3, three 1/2 of the sum of what each lifts alone, kg.

    Source: HSE L23; three figures from two safety pages are in the tests (two of them cut off, not rounded).
    No second way: a published share is taken of a sum, and only one of the figures is printed whole.
    Refuses fewer than two people and more than three (no factor is published for four), and a mass not above 0.
    """
    for mass in each:
        above_zero(each=mass)
    if len(each) not in TEAM_SHARE:
        raise WorkingOutError(
            f"each: {len(each)} given; two or three people are accepted, no factor is published for other numbers"
        )
    return TeamLift(TEAM_SHARE[len(each)] * sum(each), _above_one_person(each))


def _above_one_person(each: Sequence[Number]) -> tuple[str, ...]:
    above = [f"{plain(mass)} kg" for mass in each if mass > LOAD_CONSTANT]
    if not above:
        return ()
    return (
        f"{', '.join(above)}: above the {plain(LOAD_CONSTANT)} kg that NIOSH 94-110 gives one person at the "
        "very best; what each lifts alone comes from recommended-weight-limit.",
    )


class StandLoad(NamedTuple):
    """What comes on each of two stands and what each is rated for, kg, and whether it is more than that."""

    on_each: Number
    rated_each: Number
    over_rating: bool
    remarks: tuple[str, ...] = ()


@working_out(
    "stand-load",
    topic="lifting",
    inputs=[takes("load", "kg"), takes("marked", "kg"), takes("marked_for", "pair|each")],
    results=gives(
        on_each=at_least("kg", against=("rated_each",)), rated_each=at_most("kg"), over_rating="yes/no"
    ),
    formula="half of the load on each of two stands; a rating marked for a pair is halved",
    source="stands are rated by the pair since ASME PASE-2014, as quoted on a tool page (agradetools.com)",
    sentence="{on_each} on each of two stands; {rated_each} each by the stand maker's mark.",
    example={"load": "5180 lb", "marked": "6000 lb", "marked_for": "pair"},
    hazards=(
        "DANGER: Vehicle falls. A vehicle held by a jack alone, or on stands that slip, crushes who is under it. "
        "Use stands on level hard ground, chock the wheels, shake the vehicle before going under.",
    ),
    remarks=(
        "The load is taken to be shared equally; off centre one stand carries more.",
        "load is what the stands carry, the axle's or the end's load, not always the whole vehicle's.",
    ),
)
def stand_load(load: Number, marked: Number, marked_for: str) -> StandLoad:
    """load / 2 on each of two stands against the mark, halved when it is for the pair, kg.

    Source: ASME PASE-2014 as quoted; its pair of 3 tons is in the tests, and a beam on two supports is the
    independent route. Refuses masses not above 0.
    """
    above_zero(load=load, marked=marked)
    on_each = Fraction(load) / 2
    rated = Fraction(marked) / (2 if marked_for == "pair" else 1)
    return StandLoad(on_each, rated, on_each > rated, _at_the_mark(on_each, rated))


def _at_the_mark(on_each: Fraction, rated: Fraction) -> tuple[str, ...]:
    """What is said of a load over the mark, and of one that the scales can't tell from it; none below."""
    over = ("The load on each is above the stand maker's mark.",) if on_each > rated else ()
    if abs(on_each - rated) > rated * SCALES_TELL / 100:
        return over
    return (
        *over,
        f"Within {SCALES_TELL} % of the mark: weighing and an uneven share can't tell it from more than the mark "
        "(common practice, no source). Count it as above, or weigh with a finer scale.",
    )
