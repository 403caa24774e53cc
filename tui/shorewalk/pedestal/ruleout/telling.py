"""Which reading would tell most: after it, the fewest faults would stay possible on average."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from shorewalk.pedestal.stand import Switched
from shorewalk.tree.model import Measure, Node
from shorewalk.walk.outlook import all_ways
from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import says_measure

from .seen import Seen
from .table import Table

GAINS = 0.1
"""A reading that leaves fewer by less than this tells nothing."""


@dataclass(frozen=True, slots=True)
class Telling:
    """A reading that a walk may still ask for, and how many faults would be left after it, on average."""

    says: str
    left: float


def most_telling(table: Table, walk: Walk, outlet: str) -> Telling | None:
    """Return the reading that would tell most, of those that may come; None where none would tell anything."""
    possible = len({hypothesis.name for hypothesis in table.hypotheses})
    found = [
        Telling(says_measure(node, walk.ledger.standing, walk.library.site), left)
        for node in to_come(walk)
        if (left := _left(table, node, stood(node, outlet), walk)) is not None
    ]
    best = min(found, key=lambda one: one.left, default=None)
    return best if best and best.left < possible - GAINS else None


def to_come(walk: Walk) -> Iterator[Measure]:
    """Yield the measurements that may come in this tree, the open one first, each kind once."""
    nodes = walk.library.tree(walk.now.tree).nodes
    ahead: list[Node] = [walk.now.node]
    reached, asked = {walk.now.node.name}, set()
    for node in ahead:
        if isinstance(node, Measure) and node.what == "ac-volts":
            kind = (node.place, node.from_, node.to, node.load.amount, node.meter)
            if kind not in asked:
                asked.add(kind)
                yield node
        for name in all_ways(node):
            if name in nodes and name not in reached:
                reached.add(name)
                ahead.append(nodes[name])


def stood(node: Measure, outlet: str) -> Switched:
    """Return how all will stand when a reading is taken, as far as its place and its load tell."""
    loaded = node.load.amount != "none"
    if node.place.startswith("pedestal-"):
        load = "pedestal-20" if loaded else None
        return Switched(breaker=True, load=load, load_on=loaded)
    if node.place == "rig-skin":
        return Switched(breaker=True, cord=outlet)
    load = "rig" if loaded else None
    return Switched(breaker=True, cord=outlet, main=True, branches="test-only", load=load, load_on=loaded)


def _left(table: Table, node: Measure, now: Switched, walk: Walk) -> float | None:
    """Return how many faults stay possible after a reading, the mean over all that is possible now."""
    seen = Seen(node.place, node.from_, node.to, now, node.meter == "low-impedance", 0.0, 0.0)
    given = table.given(seen)
    if given is None:
        return None
    meter = walk.now.meter
    off = meter.counts * meter.step("V")
    fits = table.low <= table.high
    ratio = np.argmax(fits, axis=0)
    columns = np.flatnonzero(fits.any(axis=0))
    at = ratio[columns], columns
    volts = given[at] * (table.low[at] + table.high[at]) / 2
    return _mean_left(volts, table.names(columns), off)


def _mean_left(volts: np.typing.NDArray[np.float64], names: Iterable[str], off: float) -> float:
    """Return the mean number of names within reach of a reading; every name counts alike."""
    order = {name: number for number, name in enumerate(dict.fromkeys(names))}
    mine = np.array([order[name] for name in names])
    width = 2 * off
    cells = np.floor(volts / width).astype(int)
    _, cells = np.unique(cells, return_inverse=True)
    there = np.zeros((len(order), int(cells.max(initial=0)) + 1), dtype=bool)
    there[mine, cells] = True
    in_reach = there.sum(axis=0)[cells]
    return float(np.mean([in_reach[mine == number].mean() for number in range(len(order))]))
