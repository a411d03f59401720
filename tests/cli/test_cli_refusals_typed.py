"""What handbooks say to refuse, as a person would type it: exit 2 and one line; the nearest good value is taken."""

from __future__ import annotations

import pytest

from tests.support.cli_calls import Shop, one_line

TYPED: list[tuple[str, str, str, str, str]] = [
    ("stress-area", "thread=1/2-1.25", "thread=1/2-13", "thread: ", "can't be read"),
    ("stress-area", "thread=M12-12", "thread=M12x1.75", "thread: ", "write it as M10x1.5"),
    ("proof-load thread=1/2-13", "grade=8.8", "grade=8", "grade: ", "2, 5, 8"),
    ("proof-load thread=M10", "grade=A4-80", "grade=8.8", "grade: ", "8.8, 10.9, 12.9"),
    ("tightening-torque thread=M10 grade=8.8", "nut_factor=0", "nut_factor=0.05", "nut_factor: ", "0.05 to 0.5"),
    ("tightening-torque thread=M10 grade=8.8", "share=95 %", "share=90 %", "share: ", "0.01 to 0.9"),
    ("bolt-clamp nut_factor=0.2 diameter=10", "torque=12 kg", "torque=12 kgf m", "torque: ", "kg is a mass"),
    ("bolt-clamp nut_factor=0.2 diameter=10", "torque=12 ft", "torque=12 ft lb", "torque: ", "ft is a length"),
    ("bolt-clamp nut_factor=0.2 diameter=10", "torque=-5", "torque=5", "torque: ", "above 0"),
    ("torque-stages torque=110", "shares=30, 60, 90", "shares=30, 60, 100", "shares: ", "end at 100"),
    ("adapter-setting torque=110 wrench=400 adapter=80", "angle=200", "angle=180", "angle: ", "0 to 180"),
    ("fillet-strength leg=6 length=240", "electrode=ER60S-6", "electrode=ER70S-6", "electrode: ", "accepted: "),
    ("wire-settings wire=0.9", "thickness=16 ga", "thickness=1/16 in", "thickness: ", "ga"),
    ("heat-input volts=23 amps=120", "travel=2.5", "travel=2.5 mm/s", "travel: ", "outside 0.1 to 5"),
    ("heat-input amps=120 travel=150", "volts=2000", "volts=45", "volts: ", "8 to 45"),
    ("duty-cycle rated_current=200 rated_duty=25", "duty=120", "duty=100", "duty: ", "1 to 100"),
    ("joint-limit", "speed=5500", "speed=5000", "speed: ", "ends at 5000 rpm"),
    ("joint-angle side_ahead=3", "side_behind=90", "side_behind=89", "side_behind: ", "-90 and 90"),
    ("shaft-critical-speed outside=76 wall=2", "length=200", "length=228", "length: ", "228"),
    ("level length=600", "gap=601", "gap=600", "gap: ", "at most the length"),
    ("bolt-circle spacing=70 measured=centres", "holes=2", "holes=3", "holes: ", "3 to 100"),
    ("flange-slip-torque bolts=4 clamp_force=25kN radius=45", "friction=1.1", "friction=1", "friction: ", "0 to 1"),
    ("u-bolt-leg stack=45;12;76;10 washer=3 nut=14", "projection=-1", "projection=0", "projection: ", "0 or more"),
    ("axle-loads items=90@1500", "wheelbase=0", "wheelbase=3000", "wheelbase: ", "above 0"),
    ("cargo-capacity rated=3500 unloaded=2890", "people=1.5", "people=1", "people: ", "whole number"),
    ("tyre-axle-load", "index=126", "index=125", "index: ", "70 to 125"),
    ("tyre-axle-load index=104 dual=yes", "dual_index=60", "dual_index=101", "dual_index: ", "70 to 125"),
    ("tyre-part-load index=98 full_pressure=350", "pressure=170", "pressure=175", "pressure: ", "175 to 350"),
    ("tyre-size", "size=195/20R14", "size=195/25R14", "size: ", "25 to 100"),
    ("tyre-age on=2026-06-30", "date_code=031", "date_code=0301", "date_code: ", "three digits"),
    ("tyre-age on=2026-06-30", "date_code=03B1", "date_code=0301", "date_code: ", "four digits"),
    ("line-pressure pedal_force=445 pedal_ratio=6", "bore=0", "bore=19", "bore: ", "above 0"),
    ("drum-wear new=254", "measured=253", "measured=253.5", "measured: ", "253.5"),
    ("recommended-weight-limit load=12 reach=30 from_height=55", "turn=180", "turn=135", "turn: ", "135"),
    ("team-lift", "each=20; 20; 20; 20", "each=20,20,20", "each: ", "two or three people"),
    ("stand-load load=2350 marked=2700", "marked_for=both", "marked_for=pair", "marked_for: ", "pair, each"),
    ("repeat-readings resolution=1", "readings=4", "readings=4;5", "readings: ", "two or more"),
    ("verdict value=2 high=3 uncertainty=0.2", "low=3", "low=1", "low: ", "not below high"),
    ("level length=600", "gap=3/0", "gap=3/1", "gap: ", "3/0"),
    ("level length=600", "gap=3 17/16 in", "gap=3 15/16 in", "gap: ", "17/16"),
    ("three-point short=4 long=12", "likely=3", "likely=4", "likely: ", "below the short time"),
    ("sum-of-times medians=2;3 log_spreads=0.2;0.3", "correlation=1.1", "correlation=1", "correlation: ", "to 1"),
]  # fmt: skip


@pytest.mark.parametrize(("call", "bad", "good", "key", "accepted"), TYPED)
def test_what_handbooks_refuse_is_refused(
    empty_shop: Shop, call: str, bad: str, good: str, key: str, accepted: str
) -> None:
    """Exit 2, nothing on stdout, one line with the key and what is accepted; beside it exit 0."""
    ended = empty_shop.run("work-out", *call.split(), bad)
    assert (ended.status, ended.out) == (2, "")
    line = one_line(ended.err)
    assert line.startswith(key)
    assert accepted in line
    assert empty_shop.done("work-out", *call.split(), good).out
