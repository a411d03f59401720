"""`record`: each option lands in the file as the act that it is."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from jobtrack.store.machine.jobs_folder import shipped
from tests.support.cli_calls import AT, Shop, entries, name

DONOR, RECIPIENT, LEFT = "spacing.donor", "spacing.recipient", "plate.left"


def test_one_call_is_one_entry(shop: Shop) -> None:
    """All acts of a call stand in one entry with its step, name and time, behind the one before."""
    acts = shop.record(
        DONOR, "--reading", "holes=1012", "--note", "Rain.", "--finished", "--at", AT, by="  Ada   P "
    )
    entry = entries(shop.job)[-1]
    assert [next(iter(one)) for one in acts] == ["reading", "note", "finished"]
    assert (entry["n"], entry["by"], entry["step"]) == (2, "Ada P", DONOR)
    assert entry["at"] == datetime.fromisoformat(AT)
    assert entry["follows"] == [entries(shop.job)[0]["hash"]]
    assert acts[2]["on"] == {f"{DONOR}.holes": 1012.0}


@pytest.mark.parametrize(
    ("typed", "act"),
    [
        ("1012", {"value": 1012.0, "unit": "mm", "typed": "1012"}),
        ("37 15/16 in", {"value": 963.6125, "unit": "mm", "typed": "37 15/16 in"}),
        ("~965", {"value": 965.0, "unit": "mm", "typed": "~965", "bound": "about"}),
        (">965", {"unit": "mm", "typed": ">965", "bound": "over", "low": 965.0}),
        ("<965", {"unit": "mm", "typed": "<965", "bound": "under", "high": 965.0}),
        (
            "1012..1014",
            {"unit": "mm", "typed": "1012..1014", "bound": "range", "low": 1012.0, "high": 1014.0},
        ),
        ("can't reach", {"unit": "mm", "typed": "can't reach", "word": "can't reach"}),
    ],
)
def test_a_reading_keeps_what_was_typed(shop: Shop, typed: str, act: dict[str, object]) -> None:
    """A reading stands in the template's unit, as typed, with its bound or its word."""
    assert shop.record(DONOR, "--reading", f"holes={typed}") == [{"reading": "holes", **act, "replaces": []}]


def test_a_reading_names_all_that_it_replaces(shop: Shop) -> None:
    """A value taken again names every earlier one of its place, replaced ones too."""
    shop.record(DONOR, "--reading", "holes=1012")
    first = name(shop.job, 0)
    shop.record(DONOR, "--reading", "holes=1013")
    second = name(shop.job, 0)
    [act] = shop.record(DONOR, "--reading", "holes=1014")
    assert act["replaces"] == [first, second]


def test_repeats_of_a_reading_are_one_act(shop: Shop) -> None:
    """The same reading named again is a repeat, whatever stands between."""
    acts = shop.record(LEFT, "--reading", "thick=8", "--tick", "scribed=yes", "--reading", "thick=8.1",
                       "--reading", "thick=5/16 in")  # fmt: skip
    assert [one for one in acts if "reading" in one] == [
        {
            "reading": "thick",
            "value": [8.0, 8.1, 7.9375],
            "unit": "mm",
            "typed": ["8", "8.1", "5/16 in"],
            "replaces": [],
        }
    ]


def test_another_instrument_goes_beside_its_reading(shop: Shop) -> None:
    """`--also` adds a key to the act before it."""
    [reading, _note] = shop.record(DONOR, "--reading", "holes=1012", "--also", "with=folding rule",
                                   "--also", "doubt=2", "--note", "Tape gone.")  # fmt: skip
    assert (reading["with"], reading["doubt"]) == ("folding rule", 2.0)


def test_a_slip_in_typing_says_so(shop: Shop) -> None:
    """`mistyped=yes` stands in the act that puts it right; it replaces like any other."""
    shop.record(DONOR, "--reading", "holes=1021", "--finished")
    wrong = name(shop.job, 0)
    [act] = shop.record(DONOR, "--reading", "holes=1012", "--also", "mistyped=yes")
    assert (act["value"], act["mistyped"], act["replaces"]) == (1012.0, True, [wrong])
    [act] = shop.record(DONOR, "--reading", "holes=1013", "--also", "mistyped=no")
    assert "mistyped" not in act


@pytest.mark.parametrize(("typed", "yes"), [("yes", True), ("no", False), ("YES", True)])
def test_a_check_is_yes_or_no(shop: Shop, typed: str, yes: bool) -> None:
    """Both answers are written out."""
    [act] = shop.record(LEFT, "--tick", f"scribed={typed}")
    assert act == {"tick": "scribed", "yes": yes, "replaces": []}


PLAIN_ACTS = [
    (["--note", "Left one is bent."], {"note": "Left one is bent."}),
    (["--private-note", "He owes me."], {"note": "He owes me.", "private": True}),
    (["--mark", "bolt 3, second stage"], {"mark": "bolt 3, second stage"}),
    (["--met", "seized"], {"met": "seized"}),
    (["--met", "sheared", "--also", "part=eye bolt", "--also", "text=flush with the bracket"],
     {"met": "sheared", "part": "eye bolt", "text": "flush with the bracket"}),
    (["--part", "bolts=3", "--also", "fate=scrapped"],
     {"part": "bolts", "quantity": "3", "fate": "scrapped"}),
    (
        ["--buying", "bolts=ordered", "--also", "from=Quilby", "--also", "due=2031-05-21",
         "--also", "price=4.20"],
        {"part": "bolts", "buying": "ordered", "from": "Quilby", "due": "2031-05-21", "price": "4.20",
         "replaces": []},
    ),
    (["--place", "bolts=jam jar"], {"place": "jam jar", "part": "bolts", "replaces": []}),
    (["--place", "long bar=the door"], {"place": "the door", "tool": "long bar", "replaces": []}),
    (["--opens", "Petrol on the floor"], {"opens": "Petrol on the floor"}),
    (["--opens", "nuts-new", "--also", "member=left"], {"opens": "nuts-new", "member": "left"}),
    (["--clock", "on"], {"clock": "on"}),
    (["--worked", "1 h 30 min"], {"worked": 1.5}),
    (["--worked", "2.5", "--for", "Teo B", "--on-day", "2031-04-01"],
     {"worked": 2.5, "for": "Teo B", "on_day": "2031-04-01"}),
    (["--agreed", "Ruth Dole=wants to see it", "--also", "how=by phone", "--also", "amount=20"],
     {"agreed": "Ruth Dole", "what": "wants to see it", "how": "by phone", "amount": "20"}),
    (["--due-done", "nuts"], {"due": "nuts", "due_done": True}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("options", "act"), PLAIN_ACTS, ids=[" ".join(options)[:30] for options, _ in PLAIN_ACTS]
)
def test_what_belongs_to_the_job(shop: Shop, options: list[str], act: dict[str, object]) -> None:
    """An act of the job as a whole stands in an entry without a step."""
    assert shop.record(*options) == [act]
    assert "step" not in entries(shop.job)[-1]


def test_a_buying_and_a_place_replace_the_one_before(shop: Shop) -> None:
    """What was asked and is here now, what lay there and lies here: the later names the earlier."""
    shop.record("--buying", "bolts=asked", "--place", "bolts=shelf 2")
    [buying, place] = shop.record("--buying", "bolts=here", "--place", "bolts=jam jar")
    assert buying["replaces"] == [name(shop.job, 0, -2)]
    assert place["replaces"] == [name(shop.job, 1, -2)]


def test_a_given_replaces_the_one_before(shop: Shop) -> None:
    """A given typed later, in a vehicle's step without the vehicle's name."""
    [act] = shop.record(DONOR, "--given", "plate=300 lb")
    assert act == {"given": "donor.plate", "value": pytest.approx(136.0777, abs=1e-4), "unit": "kg",
                   "typed": "300 lb", "replaces": [name(shop.job, 1, 0)]}  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "act"),
    [
        ("nuts=snug", {"torque": "nuts", "stage": "snug"}),
        ("nuts.3=1", {"torque": "nuts", "member": "3", "stage": "1"}),
        ("nuts.3=final:55", {"torque": "nuts", "member": "3", "stage": "final", "value": 55.0, "unit": "N*m",
                             "typed": "55"}),
    ],
)  # fmt: skip
def test_a_torque_has_bolt_and_stage(shop: Shop, typed: str, act: dict[str, object]) -> None:
    """A fastener's stage, with its bolt and figure where they were typed."""
    assert shop.record("nuts", "--torque", typed)[-1] == act


def test_a_torque_in_foot_pounds_is_kept_in_newton_metres(shop: Shop) -> None:
    """1 lbf ft is 1.355818 N·m (NIST SP 811, B.8), and what was typed stays beside it."""
    act = shop.record("nuts", "--torque", "nuts.3=final:40 ft lb", "--also", "with=beam torque wrench")[-1]
    assert act["value"] == pytest.approx(40 * 1.355818, rel=1e-6)
    assert (act["typed"], act["with"]) == ("40 ft lb", "beam torque wrench")


def test_a_weld_run_has_its_currents(shop: Shop) -> None:
    """Run, current and what `--also` adds, as numbers where they are numbers."""
    *_, act = shop.record("tack", "--weld", "hook=2:95", "--also", "volts=22", "--also", "minutes=4",
                          "--also", "rod=oven 2")  # fmt: skip
    assert act == {"weld": "hook", "run": "2", "amps": 95.0, "volts": 22.0, "minutes": 4.0, "rod": "oven 2"}


def test_a_steps_first_act_opens_its_conditions(shop: Shop) -> None:
    """The entry with the first act of a step also holds its openings; a note is no such act."""
    assert shop.record("tack", "--note", "Rods in the oven.") == [{"note": "Rods in the oven."}]
    assert shop.record("tack", "--tick", "looked=yes")[0] == {"opens": "hook-loose"}
    assert len(shop.record("tack", "--tick", "looked=no")) == 1


def test_finished_closes_by_name(shop: Shop) -> None:
    """*Finished* of a step that closes a condition names every opening of it."""
    shop.record("tack", "--tick", "looked=yes", "--finished")
    opening = name(shop.job, 0)
    *_, closes = shop.record("nuts", "--tick", "painted=yes", "--finished")
    assert closes == {"closes": [opening]}


def test_a_condition_is_closed_by_its_id(shop: Shop) -> None:
    """`--closes` names the openings that it could see."""
    assert shop.record("--closes", "ask-first") == [{"closes": [name(shop.job, 2, 0)]}]


def test_what_is_closed_asks_whether_its_tag_is_off(shop: Shop) -> None:
    """Behind what it closed, by *finished* and by name; what had no tag, or closes nothing, asks nothing."""
    asked = "Tag HOOK LOOSE: is it off the steering wheel?"
    opened = shop.done("record", shop.job, "tack", "--by", "Wim", "--tick", "looked=yes", "--finished")
    assert "is it off" not in opened.out
    finished = shop.done("record", shop.job, "nuts", "--by", "Wim", "--tick", "painted=yes", "--finished")
    rows = finished.out.splitlines()
    assert rows.index(asked) > rows.index("recorded as closed: Hook only tacked")
    by_name = shop.done("record", shop.job, "--by", "Wim", "--closes", "ask-first")
    assert by_name.out.splitlines()[-1] == "Tag ASK FIRST: is it off the steering wheel?"


def test_a_photo_is_copied_beside_the_job(shop: Shop) -> None:
    """The photo lies in the job's own folder under a name made of its content."""
    photo = shop.folder / "weld.JPG"
    photo.write_bytes(b"\xff\xd8\xff\xe0 and so on")
    [act] = shop.record("tack", "--photo", photo)
    copy = shop.folder / "hook.photos" / act["photo"]
    assert copy.read_bytes() == photo.read_bytes()
    assert act["photo"] == f"{act['hash']}.jpg"
    assert shop.record("tack", "--photo", photo) == [act]


def test_a_photo_of_a_refused_call_is_not_copied(shop: Shop) -> None:
    """A call that is refused leaves no picture behind."""
    (shop.folder / "weld.jpg").write_bytes(b"picture")
    shop.refused("tack", "--photo", "weld.jpg", "--reading", "nothing=5")
    shop.refused("--photo", "weld.jpg", "--close-job")
    assert not (shop.folder / "hook.photos").exists()


def test_what_works_itself_out_outside_is_said_once(shop: Shop) -> None:
    """A reading that nobody types, outside its limits since this call, stands below it; said once, not at every call.

    11 mm on a track of 1488 mm: atan(11 / 1488) = 0.42 deg, against 0.0 plus or minus 0.2 deg (trade bulletin).
    """
    job = _springs(shop)
    shop.done("record", job, "square", "--reading", "track=1488", "--by", "Wim")
    shop.done("record", job, "settled", "--reading", "eye-left=1221", "--by", "Wim")
    said = shop.done("record", job, "settled", "--reading", "eye-right=1210", "--by", "Wim").out
    assert "settled: Thrust angle: 0.42 deg is outside (-0.2 deg to 0.2 deg)\n" in said
    again = shop.done("record", job, "settled", "--reading", "rear-left=410", "--by", "Wim").out
    assert "Thrust angle" not in again


def test_work_in_a_step_that_something_open_forbids_is_said_once(shop: Shop) -> None:
    """It is taken all the same, and the answer names what was open; said once, not at every call."""
    job = _springs(shop)
    shop.done("record", job, "u-bolts-on.left", "--tick", "bend=yes", "--by", "Wim")
    said = shop.done("record", job, "try", "--tick", "straight=yes", "--by", "Wim").out
    assert "\n  straight yes\n" in said
    assert "\ntry: done while this was open: " in said
    assert "U-bolts drawn down only, not to the figure: it isn't moved (left)" in said
    assert "done while" not in shop.done("record", job, "try", "--tick", "quiet=yes", "--by", "Wim").out


def _springs(shop: Shop) -> Path:
    """A job of the shipped leaf springs, just begun."""
    job = shop.folder / "springs.job.toml"
    shop.done("begin", shipped("job_templates") / "leaf-springs.toml", "--out", job, "--by", "Wim")
    return job
