"""The first version of the axle exchange and two jobs begun from it, as they were shipped: what tests stand on.

They don't change with what is shipped now: a job begun from an earlier version of a template has to go on opening.
"""

from pathlib import Path

EXCHANGE = Path(__file__).with_name("axle-exchange.toml")
HALF_DONE = Path(__file__).with_name("axle-exchange-half-done.job.toml")
FINISHED = Path(__file__).with_name("axle-exchange-finished.job.toml")
SAMPLES = (HALF_DONE, FINISHED)
