"""The loose ends of a file, kept while it grows: what nothing follows yet, at a cost that follows what was added."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct, field

from jobtrack.job.acts.base import replace
from jobtrack.job.acts.entry import Entry
from jobtrack.job.state.damage import Damage


class LooseEnds(Struct):
    """What the next entry follows, and its number."""

    header: str
    """The header's hash, which the first entry follows."""
    largest: int = 0
    """The largest `n` so far."""
    loose: dict[str, Entry] = field(default_factory=dict)
    ids: dict[str, str] = field(default_factory=dict)
    """The ids that are there, each with the hash under which it came first."""
    hashes: set[str] = field(default_factory=set)
    followed: set[str] = field(default_factory=set)

    def add(self, entry: Entry) -> None:
        """Take in an entry, in any order."""
        self.largest = max(self.largest, entry.n)
        self.ids.setdefault(entry.id, entry.hash)
        self.hashes.add(entry.hash)
        self.followed.update(entry.follows)
        for parent in entry.follows:
            self.loose.pop(parent, None)
        if entry.hash not in self.followed:
            self.loose[entry.hash] = entry

    def place(self, entry: Entry, damaged: Iterable[Damage]) -> Entry:
        """The entry behind all loose ends; `damaged` is what can't be read, a loose end by its written hash.

        Lost entries may have followed one another; each may have had the next number.
        """
        lost = [one.hash for one in damaged if not one.header and not one.names & self.followed]
        follows = tuple(sorted([*self.loose, *lost])) or (self.header,)
        return replace(entry, n=1 + self.largest + len(lost), follows=follows)
