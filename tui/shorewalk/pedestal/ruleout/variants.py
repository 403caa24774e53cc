"""Variants of every fault of the library, as columns of one mesh.

A hypothesis is a fault at an outlet. Its variants are spread evenly over the fault's ranges and over wide ranges of
the loop (LOOPS): wider than a usual loop, since a pedestal that is like none of them must not clear a fault.
"""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shorewalk.pedestal.circuit import Element, Value
from shorewalk.pedestal.faults import Fault, Span, fits, stand_drawn
from shorewalk.pedestal.park import Park
from shorewalk.pedestal.stand import Switched

from .mesh import SOURCES, Mesh

Array = NDArray[Any]

LOOPS = {
    "feeder": (0.008, 0.08),
    "drop": (0.008, 0.04),
    "drop_neutral": (0.004, 0.03),
    "rod": (3.0, 150.0),
    "peg": (30.0, 5000.0),
}
"""Ohms of a loop's wires and earths, from a service next door to the far end of a long loop (common practice)."""

NEIGHBOURS = (3.0, 120.0)
"""Ohms of what neighbours run on one leg, where they run anything."""

LEAKS = (15e3, 300e3)
"""Ohms of all leaks of the neighbours to ground together, where they leak at all."""

IDLE = 0.25
"""How many variants have a neighbour that runs nothing, or no leaks."""

VOLTS = 120.0
SUPPLY = (104.0, 130.0)
"""Volts that a service may have (common practice)."""

BEYOND = {"high": (0.97, 1.08), "low": (0.85, 1.04)}
"""How far beyond its range a supply that is too high or too low may be, as shares of its volts."""

JOINT = (0.15, 5.0)
"""Ohms of a joint that is bad: from the mildest, 23 W with a heater on (common practice)."""

LEAK, MILDER = 1000.0, 3.0
"""Ohms from which a fault is a leak, and how many times as many the mildest has."""

COORDINATES = 18
"""More than any fault has ranges, with those of the loop."""

SEED = 1


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """That this is wrong, at this outlet."""

    name: str
    outlet: str
    fault: Fault = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Wiring:
    """A hypothesis on a loop that is wired in one way. `tripped`: the breaker trips as soon as the cord is in."""

    hypothesis: Hypothesis
    park: Park
    tripped: bool = False


class Point:
    """Variants as points of the unit cube: each range that is asked for takes the next coordinate of all."""

    def __init__(self, points: Array) -> None:
        self._left = iter(points)

    def span(self, span: Span) -> Any:
        """Return a value of a range for each variant, evenly by its logarithm."""
        low, high = span
        return low if low == high else low * np.exp(next(self._left) * math.log(high / low))

    def or_none(self, span: Span) -> Array:
        """Return ohms of what may be there, and 0 where it is not: for a part of the cube, beside the high end."""
        at = next(self._left)
        low, high = span
        return np.where(at < IDLE, 0.0, high * np.exp((at - IDLE) / (1 - IDLE) * math.log(low / high)))


class Block:
    """Variants of one wiring: `points` (coordinates x variants), the pedestals they are, as one `Stand`."""

    __slots__ = ("_known", "points", "stand", "wiring")

    def __init__(self, wiring: Wiring, points: Array) -> None:
        self.wiring, self.points = wiring, points
        self._known: dict[str, tuple[Element, Value]] = {}
        at = Point(points)
        values: dict[str, Any] = {name: at.span(span) for name, span in LOOPS.items()}
        values |= {"neighbour1": at.or_none(NEIGHBOURS), "neighbour2": at.or_none(NEIGHBOURS)}
        values["leak"] = at.or_none(LEAKS)
        fault, outlet = wiring.hypothesis.fault, wiring.hypothesis.outlet
        self.stand = stand_drawn(
            fault, replace(wiring.park, **values), outlet, lambda span: at.span(to_the_mildest(span))
        )

    @property
    def scales(self) -> Span:
        """Between which shares of its volts the supply may be."""
        volts = self.wiring.hypothesis.fault.park.get("volts1")
        if volts is None:
            return SUPPLY[0] / VOLTS, SUPPLY[1] / VOLTS
        return BEYOND["high" if volts[0] > VOLTS else "low"]

    @property
    def size(self) -> int:
        """How many variants there are."""
        return int(self.points.shape[1])

    def elements(self, now: Switched) -> Iterator[tuple[str, Element, Value]]:
        """Yield the elements, switched so, each with its siemens; those that stay are worked out once."""
        idle = self.wiring.hypothesis.fault.idle > 0 or (self.wiring.tripped and now.cord is not None)
        vain = now.breaker and idle
        for name, element in self.stand.wired(replace(now, vain=vain)).elements.items():
            known = self._known.get(name)
            if known is None or known[0] is not element:
                known = self._known[name] = element, element.siemens
            yield name, *known

    def only(self, which: Array) -> Block:
        """Return the block with some of its variants."""
        return Block(self.wiring, self.points[:, which])


def to_the_mildest(span: Span) -> Span:
    """Return the ohms of a fault from the mildest on that is still one: what is only mild is not ruled out."""
    low, high = span
    if JOINT[0] < low < JOINT[1]:
        return JOINT[0], high
    return (low, high * MILDER) if low >= LEAK else span


def loops(outlets: Container[str]) -> Iterator[Park]:
    """Yield each way a loop may be wired: its service, and the legs of the 30 and of the 20.

    Where the 30 is not looked at, its leg does not matter.
    """
    yield Park("one-hot", VOLTS, VOLTS)
    for service in ("split-phase", "208"):
        for thirty in ("L1", "L2") if "30" in outlets else ("L1",):
            for twenty in ("L1", "L2"):
                yield Park(service, VOLTS, VOLTS, leg_of_30=thirty, leg_of_20=twenty)


def spread(hypotheses: Iterable[Hypothesis], outlets: Container[str], variants: int) -> list[Block]:
    """Return about so many variants of each hypothesis, each coordinate in as many slices, one in each.

    `outlets` are those that are looked at.
    """
    made: list[Block] = []
    chance = np.random.default_rng(SEED)
    for hypothesis in hypotheses:
        fault, outlet = hypothesis.fault, hypothesis.outlet
        parks = [park for park in loops(outlets) if fits(fault, park, outlet)]
        wired = [Wiring(hypothesis, park) for park in parks]
        if may_trip(fault):
            wired += [Wiring(hypothesis, park, tripped=True) for park in parks]
        each = max(1, variants // max(1, len(parks)))
        for wiring in wired:
            cube = chance.permuted(np.tile(np.arange(each), (COORDINATES, 1)), axis=1)
            made.append(Block(wiring, (cube + chance.random(cube.shape)) / each))
    return made


def may_trip(fault: Fault) -> bool:
    """Tell whether a breaker may trip for it once the cord is in."""
    return fault.side != "park" or fault.trips_at is not None


def mesh_of(blocks: Iterable[Block], now: Switched) -> Mesh:
    """Return the circuits of all blocks, switched so, as one mesh: a column a variant."""
    each = list(blocks)
    columns = sum(block.size for block in each)
    joined: dict[tuple[str, str], Array] = {}
    fed: dict[str, Array] = {}
    end = 0
    for block in each:
        at = slice(end, end := end + block.size)
        for name, element, siemens in block.elements(now):
            key = (element.a, element.b) if element.a < element.b else (element.b, element.a)
            column = joined.get(key)
            if column is None:
                column = joined[key] = np.zeros(columns, dtype=np.complex128)
            column[at] += siemens
            source = SOURCE_NAMES.get(name)
            if source is None:
                continue
            for node, sign in ((element.a, -1.0), (element.b, 1.0)):
                amps = fed.setdefault(node, np.zeros((SOURCES, columns), dtype=np.complex128))
                amps[source, at] += sign * element.volts * siemens
    mesh = Mesh(columns)
    for (a, b), siemens in joined.items():
        mesh.join(a, b, siemens)
    for node, amps in fed.items():
        mesh.feed(node, amps)
    mesh.insulate()
    return mesh


SOURCE_NAMES = {"source.L1": 0, "source.L2": 1}
