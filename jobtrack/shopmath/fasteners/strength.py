"""Fasteners: the area a thread carries load with, and its proof load. Area in mm^2, force in N."""

from __future__ import annotations

from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, at_most, gives, takes, working_out
from jobtrack.shopmath.common.grades import proof_stress, short_bolts_only
from jobtrack.shopmath.common.threads import Thread, read_thread

AREA_SOURCE = (
    "ASME B1.1 for inch threads and ISO 898-1 for metric ones, formulas from memory; the published areas "
    "that they are tested by were read in copies"
)


class StressArea(NamedTuple):
    """The tensile stress area of a thread, mm^2, and what it doesn't cover."""

    area: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "stress-area",
    topic="fasteners",
    inputs=[takes("thread", "text")],
    results=gives(area="mm^2"),
    formula="pi/4 times the square of: diameter minus 0.974279 times pitch for inch threads, "
    "diameter minus 0.938194 times pitch for metric ones",
    source=AREA_SOURCE,
    sentence="{thread}: stress area {area}.",
    example={"thread": "M10x1.5"},
    remarks=("A bolt with a waist thinner than its thread carries by its waist, not by this area.",),
)
def stress_area(thread: str) -> StressArea:
    """Tensile stress area, mm^2: pi/4 (D - 9/16 sqrt(3) P)^2 unified, pi/4 (d - 13/24 sqrt(3) P)^2 metric.

    D and d are nominal diameters, P the pitch, mm. Source: ASME B1.1 and ISO 898-1, from memory; 58
    published areas agree within their digits. Valid for the listed threads M3 to M24 and 1/4 to 1 in; M10
    alone is the coarse thread. Refuses a thread in none of the tables. Inch bolts of more than about 100
    ksi tensile have a longer formula too: a remark.
    """
    read = read_thread(thread)
    return StressArea(read.stress_area, _longer_formula(read))


def _longer_formula(thread: Thread) -> tuple[str, ...]:
    if thread.metric:
        return ()
    return (
        "For inch bolts of more than about 100 ksi tensile (grade 8) a longer formula with the least pitch "
        "diameter exists, too; trade tables use this one for them as well.",
    )


class ProofLoad(NamedTuple):
    """The load that a bolt bears without lasting stretch, N, and what it doesn't cover."""

    load: Number
    remarks: tuple[str, ...] = ()


@working_out(
    "proof-load",
    topic="fasteners",
    inputs=[takes("thread", "text"), takes("grade", "text")],
    results=gives(load=at_most("N")),
    formula="proof stress of the grade in this size, times tensile stress area",
    source="proof stress from SAE J429 or ISO 898-1 as quoted in copies; "
    "stress area by the formulas of ASME B1.1 and ISO 898-1",
    sentence="{thread} grade {grade}: proof load {load}, by SAE J429 for inch threads or ISO 898-1 for "
    "metric ones.",
    example={"thread": "M18x2.5", "grade": "8.8"},
    remarks=(
        "Holds for a bolt that carries the mark of its grade; a bolt without a mark has no figure.",
        "Printed proof loads are made with areas rounded to three figures and lie up to 0.65 % from this.",
    ),
)
def proof_load(thread: str, grade: str) -> ProofLoad:
    """Proof load, N: proof stress Sp (MPa) times stress area A (mm^2), tension in the threaded part.

    Source: SAE J429 and ISO 898-1 as quoted in copies (`tables`); 30 published metric loads agree within
    0.65 %. Valid for the listed threads M3 to M24 and 1/4 to 1 in. Refuses threads in none of the tables and
    grades of the other system. Grade 2 gets a remark: its upper row is for bolts of 6 in and shorter.
    """
    bolt = read_thread(thread)
    return ProofLoad(proof_stress(bolt, grade) * bolt.stress_area, short_bolts_only(grade))
