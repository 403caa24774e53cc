"""Which faults of the library could still give all readings so far: consistency, no probabilities."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from shorewalk.pedestal.faults import NOTHING, Fault
from shorewalk.walk.walk import Walk

from .nearer import found_nearer
from .seen import UNKNOWN_OUTLET, Seen, Watcher, outlet_at, outlet_of
from .table import Table
from .telling import Telling, most_telling
from .variants import Hypothesis, spread

VARIANTS = 400
"""Variants of each hypothesis to begin with; where none is left, some are looked for between them."""


@dataclass(frozen=True, slots=True)
class Left:
    """What is possible after some readings, and what is ruled out, in the order of the library.

    `elsewhere`: of what is possible only at another outlet than the one in use, at which.
    """

    possible: tuple[Fault, ...]
    out: tuple[Fault, ...]
    elsewhere: Mapping[str, str] = field(default_factory=dict)

    def in_words(self, fault: Fault) -> str:
        """Return a fault as part of a list, with its outlet where that is another one."""
        says = fault.says.rstrip(".")
        return f"{says} (at the {self.elsewhere[fault.id]} A outlet)" if fault.id in self.elsewhere else says


@dataclass
class RuleOut:
    """Follows one walk and tells what its readings leave possible."""

    faults: Mapping[str, Fault]
    variants: int = VARIANTS
    _watcher: Watcher = field(default_factory=Watcher)
    _table: Table | None = None
    _taken: list[Seen] = field(default_factory=list)
    _outlets: tuple[str, ...] = ()
    _asked: list[Hypothesis] = field(default_factory=list)

    def follow(self, walk: Walk) -> Left:
        """Return what is left after the answers of a walk."""
        seen = self._watcher.see(walk)
        table = self._table_for(walk, seen)
        for number in range(len(self._taken), len(seen)):
            _narrow(table, seen[: number + 1])
        self._taken = seen
        fits = table.hypotheses
        here = {one.name for one in fits if one.outlet == self._outlets[0] or not at_an_outlet(one.fault)}
        elsewhere = {one.name: one.outlet for one in fits if one.name not in here}
        every = (NOTHING, *self.faults.values())
        possible = tuple(fault for fault in every if fault.id in here or fault.id in elsewhere)
        return Left(possible, tuple(fault for fault in every if fault not in possible), elsewhere)

    def look_ahead(self, walk: Walk) -> None:
        """Work out what the open question will ask of the circuits, while somebody measures."""
        if self._table is not None and (seen := self._watcher.ahead(walk)):
            self._table.given(seen)

    def what_would_tell(self, walk: Walk) -> Telling | None:
        """Return the reading that would tell most of those that may still come; `follow` has seen this walk."""
        if self._table is None or not self._outlets:
            return None
        return most_telling(self._table, walk, self._outlets[0])

    def _table_for(self, walk: Walk, seen: list[Seen]) -> Table:
        """Return the table that took the readings before; another where an answer was changed or an outlet is new."""
        outlets = outlets_of(seen, walk)
        gain = walk.now.meter.percent / 100
        wanted = hypotheses_of(self.faults, outlets)
        table = self._table
        if table is None or self._taken != seen[: len(self._taken)] or not _only_more(self._outlets, outlets):
            table, self._taken, self._asked = Table([], gain), [], []
        if new := [hypothesis for hypothesis in wanted if hypothesis not in self._asked]:
            more = Table(spread(new, outlets, self.variants), gain)
            for number in range(len(self._taken)):
                _narrow(more, seen[: number + 1])
            table.add(more)
        self._table, self._outlets, self._asked = table, outlets, wanted
        return table


def _only_more(before: tuple[str, ...], now: tuple[str, ...]) -> bool:
    """Tell whether variants made for some outlets hold beside the new ones: a third says which legs matter."""
    return now[: len(before)] == before and (now == before or len(now) < 3)


def _narrow(table: Table, seen: list[Seen]) -> None:
    """Take the last reading; where a hypothesis has no variant left, look for one between those it had."""
    before = table.hypotheses
    table.take(seen[-1])
    nearer = found_nearer(table, before - table.hypotheses, seen)
    table.drop_lost()
    if nearer:
        table.add(nearer)


def outlets_of(seen: Iterable[Seen], walk: Walk) -> tuple[str, ...]:
    """Return the outlets a walk is about: the one in use, or to be used, then others that were read."""
    read = [outlet for one in seen if (outlet := outlet_at(one.place))]
    first = next((one.now.cord for one in seen if one.now.cord), None) or outlet_of(walk)
    return tuple(dict.fromkeys([*([first] if first else []), *read])) or (UNKNOWN_OUTLET,)


def hypotheses_of(faults: Mapping[str, Fault], outlets: tuple[str, ...]) -> list[Hypothesis]:
    """Return each fault at each outlet that was read and can have it; what is ours at the first alone."""
    found: list[Hypothesis] = []
    for fault in (NOTHING, *faults.values()):
        at = [outlet for outlet in outlets if outlet in fault.outlets]
        one = fault.side != "park" or fault.contacts or not at_an_outlet(fault)
        found += [Hypothesis(fault.id, outlet, fault) for outlet in (at[:1] if one else at)]
    return found


def at_an_outlet(fault: Fault) -> bool:
    """Tell whether a fault sits at one outlet, and not before the pedestal."""
    names = [*fault.stuck, *(name for edit in fault.edits for name in edit.names)]
    return any("{outlet}" in name or "{hot}" in name for name in names)
