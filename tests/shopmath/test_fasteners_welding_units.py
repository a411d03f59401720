"""Fasteners and welding: the same quantities typed in other units give exactly the same results."""

from __future__ import annotations

import shlex

import pytest

from jobtrack.workings.answers import answer

SAME = [
    ("stress-area", "thread=M10", "thread='m10 x 1.50'"),
    ("proof-load", "thread=3/4-16 grade=5", "thread=3/4-16UNF grade='SAE grade 5'"),
    (
        "bolt-clamp",
        "torque=49.03325 nut_factor=0.2 diameter=12.7",
        "torque='5 kgf·m' nut_factor='20 %' diameter='1/2 in'",
    ),
    ("torque-stages", "torque=98.0665 shares=50;100", "torque='10 kgf·m' shares='50 %; 100 %'"),
    ("tightening-order", "bolts=8", "bolts=8.0"),
    (
        "adapter-setting",
        "torque=98.0665 wrench=254 adapter=101.6 angle=60",
        "torque='10 kgf·m' wrench='10 in' adapter='4 in' angle='60 deg'",
    ),
    ("fillet-minimum", "thickness=12.7", "thickness='1/2 in'"),
    (
        "fillet-strength",
        "leg=6.35 length=101.6 electrode=E70",
        "leg='1/4 in' length='4 in' electrode='e 7018'",
    ),
    ("weld-group", "shape='two lines' width=50.8 depth=101.6", "shape=Two-Lines width='2 in' depth='4 in'"),
    (
        "perch-weld",
        "line=127 spacing=63.5 leg=6.35 electrode=E70 force=9806.65 height=101.6 twist=490.3325 all_round=no",
        "line='5 in' spacing='2 1/2 in' leg='1/4 in' electrode=E7018 force='1000 kgf' height='4 in' "
        "twist='50 kgf·m'",
    ),
    (
        "heat-input",
        "volts=23 amps=120 travel=150 k=0.8",
        "volts='23 V' amps='120 amps' travel='2.5 mm/s' k='80 %'",
    ),
    ("travel-speed", "length=127 time=60", "length='5 in' time='1 min'"),
    ("carbon-equivalent", "C=0.2 Mn=0.8", "C='0.2 %' Mn='0.8 percent' Cr=0"),
    (
        "duty-cycle",
        "rated_current=200 rated_duty=25 duty=60",
        "rated_current='200 A' rated_duty='25 %' duty='60 %'",
    ),
    (
        "rods-needed",
        "leg=6.35 length=304.8 rod=3.175 rod_length=355.6 stub=50.8 extra=15",
        "leg='1/4 in' length='1 ft' rod='1/8 in' rod_length='14 in' stub='2 in' extra='15 %'",
    ),
    ("wire-settings", "thickness=3.175 wire=0.9", "thickness='1/8 in' wire='0.035 in'"),
    ("electrode-current", "electrode=E7018 diameter=3.2", "electrode=7018 diameter='1/8 in'"),
    ("eye-shade", "process='plasma cutting' current=60", "process=Plasma_Cutting current='60 A'"),
]


@pytest.mark.parametrize(("name", "bare", "other"), SAME, ids=[name for name, _, _ in SAME])
def test_other_units_of_these_topics_change_nothing(name: str, bare: str, other: str) -> None:
    """A bare number in the catalogue's unit and the same quantity in another unit give the same results."""
    one, same = (dict(word.split("=", 1) for word in shlex.split(line)) for line in (bare, other))
    assert answer(name, one).outcome.values == answer(name, same).outcome.values
