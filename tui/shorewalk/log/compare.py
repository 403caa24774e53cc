"""The same reading at other times: what one finds out by reading again in the evening, or the year after."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .kept import Kept, Reading
from .stays import Site
from .working_out import work_out

Key = tuple[str, str, str, str, str]
MAIN = ("rig-hot-neutral", "hot-neutral", "cord-end-hot-neutral")
"""Quantities that are looked at first: how many volts there are."""


@dataclass(frozen=True, slots=True)
class Row:
    """Readings taken together in one walk: at rest, with a load on, or both."""

    walk: int
    rest: Reading | None = None
    loaded: Reading | None = None

    @property
    def time(self) -> str:
        """When the first of them was taken."""
        return min(reading.time for reading in (self.rest, self.loaded) if reading)


@dataclass(frozen=True, slots=True)
class Part:
    """The rows of one stay, in the order of their times."""

    began: str | None
    rows: tuple[Row, ...]

    def change(self, row: Row) -> float | None:
        """Return how far a row at rest is off the first one at rest of this stay; None for that one."""
        first = next((each.rest for each in self.rows if each.rest), None)
        if first is None or row.rest is None or row.rest is first:
            return None
        return _value(row.rest) - _value(first)


@dataclass(frozen=True, slots=True)
class Group:
    """All readings of one pair at one place, with the cord in one outlet."""

    about: str
    outlet: str | None
    unit: str
    quantity: str
    parts: tuple[Part, ...]

    def readings(self, *, loaded: bool) -> list[Reading]:
        """Return the readings at rest, or those with a load on."""
        rows = (row for part in self.parts for row in part.rows)
        return [reading for row in rows if (reading := row.loaded if loaded else row.rest)]

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return sum(len(part.rows) for part in self.parts)

    @property
    def count(self) -> int:
        """How many readings there are."""
        return len(self.readings(loaded=False)) + len(self.readings(loaded=True))


def compared(site: Site) -> list[Group]:
    """Return the readings of a site, grouped: volts between hot and neutral first, then as they were taken.

    Readings with the breaker off are left out: what they show is that nothing is there.
    """
    work_out(site.walks)
    found: dict[Key, dict[str | None, list[Row]]] = {}
    heads: dict[Key, tuple[Reading, str | None]] = {}
    for stay in site.stays:
        for walk in stay.walks:
            for key, readings in _by_pair(walk).items():
                heads.setdefault(key, (readings[0], key[-1] or None))
                rows = found.setdefault(key, {}).setdefault(stay.began, [])
                rows += _rows(walk.entry.id, readings)
    groups = [_group(*heads[key], found[key]) for key in found]
    return sorted(groups, key=lambda group: (_rank(group.quantity), -group.count))


def _by_pair(walk: Kept) -> dict[Key, list[Reading]]:
    pairs: dict[Key, list[Reading]] = {}
    for reading in walk.readings:
        if not reading.dead:
            known = reading.known
            through = (walk.where.outlet or "") if _in_the_rig(walk, known.place) else ""
            key = (known.place or "", known.from_ or "", known.to or "", known.unit or "", through)
            pairs.setdefault(key, []).append(reading)
    return pairs


def _in_the_rig(walk: Kept, place: str | None) -> bool:
    """Tell whether a reading there depends on which outlet the cord is in."""
    fact = walk.facts.places.get(place or "") if walk.facts else None
    return fact is not None and fact.at == "rig"


def _rows(walk: int, readings: Sequence[Reading]) -> Iterator[Row]:
    """Yield rows: a reading with a load on stands beside the one at rest before it."""
    open_row: Row | None = None
    for reading in readings:
        if reading.loaded and open_row is not None:
            yield Row(walk, open_row.rest, reading)
            open_row = None
            continue
        if open_row is not None:
            yield open_row
            open_row = None
        if reading.loaded:
            yield Row(walk, None, reading)
        else:
            open_row = Row(walk, reading)
    if open_row is not None:
        yield open_row


def _group(head: Reading, outlet: str | None, rows: dict[str | None, list[Row]]) -> Group:
    parts = (Part(began, tuple(sorted(there, key=lambda row: row.time))) for began, there in rows.items())
    quantity = (head.known.quantity or "").removesuffix("-loaded")
    return Group(head.about, outlet, head.known.unit or "", quantity, tuple(parts))


def _rank(quantity: str) -> int:
    return MAIN.index(quantity) if quantity in MAIN else len(MAIN)


def _value(reading: Reading) -> float:
    return reading.known.value or 0.0
