"""One call of somebody: the acts that it did, and what it follows."""

from __future__ import annotations

from datetime import datetime

from jobtrack.job.acts.base import Act, Struct


class Entry(Struct, frozen=True):
    """One block in the file.

    id: 16 characters of a to z and 2 to 7, made at random before the first try and kept through retries.
    n: one more than the largest that the person could see.
    at: when it was done, with its offset from UTC.
    by: who recorded it.
    did: the acts, in order.
    follows: the hashes of the entries that nothing followed yet; the header's for the first.
    hash: of the block as it is written.
    step: the step in which it was done, `STEP.MEMBER` where it has a side or a vehicle.
    typed_at: when it was entered, if later than `at`.
    """

    id: str
    n: int
    at: datetime
    by: str
    did: tuple[Act, ...]
    follows: tuple[str, ...]
    hash: str = ""
    step: str | None = None
    typed_at: datetime | None = None

    @property
    def order(self) -> tuple[int, str, str]:
        """The key by which entries stand in the file and are shown; no clock in it."""
        return (self.n, self.id, self.hash)

    def name(self, index: int) -> str:
        """The name of one of its acts."""
        return f"{self.id}/{index}"
