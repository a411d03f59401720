"""Fasteners: how much thread has to be engaged. Lengths in mm."""

from __future__ import annotations

import math
from typing import NamedTuple

from jobtrack.shopmath.catalogue import Number, WorkingOutError, at_least, gives, takes, working_out
from jobtrack.shopmath.common.tables import ENGAGEMENT_LIMITS
from jobtrack.shopmath.common.threads import INCH, read_thread


class ThreadEngagement(NamedTuple):
    """The least engaged length for parts of equal strength, mm."""

    length: Number


@working_out(
    "thread-engagement",
    topic="fasteners",
    inputs=[takes("thread", "text")],
    results=gives(length=at_least("mm")),
    formula="2 times stress area, divided by: pi times threads an inch times the nut's largest minor "
    "diameter times (half the pitch plus 0.57735 times (the bolt's smallest pitch diameter less that minor "
    "diameter)); inches",
    source="FED-STD-H28 with the limits of ASME B1.1, classes 2A and 2B (both from memory); "
    "results as printed on a page about bolts and engagement (sizes.com)",
    sentence="{thread}: {length} of full thread engaged, for bolt and nut of equal strength, by FED-STD-H28.",
    example={"thread": "1/2-13"},
    remarks=(
        "Holds for equal strength of bolt and tapped part: a weaker part needs more.",
        "Rules of thumb disagree: 1 diameter in steel of equal strength, 1.25 in steel or iron, 1.5 in "
        "steel, 2 in aluminium (three pages).",
    ),
)
def thread_engagement(thread: str) -> ThreadEngagement:
    """Length of engagement at which the bolt's thread shears no sooner than the bolt breaks, mm.

    L = 2 A / (pi n K (1/(2 n) + 0.57735 (E - K))) in inches: A tensile stress area, n threads an inch, E
    the bolt's smallest pitch diameter, K the nut's largest minor diameter. Source: FED-STD-H28, from
    memory; seven published lengths agree, and measuring the drawn thread is the independent route. Valid
    for the eight UNC threads with listed limits. Refuses every other thread.
    """
    read = read_thread(thread)
    if read.name not in ENGAGEMENT_LIMITS:
        raise WorkingOutError(
            f"thread: no limits of {read.name} are listed; accepted: {', '.join(ENGAGEMENT_LIMITS)}"
        )
    pitch_diameter, minor_diameter = ENGAGEMENT_LIMITS[read.name]
    threads = INCH / read.pitch
    area = read.stress_area / float(INCH) ** 2
    width = 1 / (2 * threads) + (pitch_diameter - minor_diameter) / math.sqrt(3)
    return ThreadEngagement(float(INCH) * 2 * area / (math.pi * threads * minor_diameter * width))
