"""Readings as a walk may know them: where the limits it is compared with lie, and on which sides a meter may see it.

A display may wander and a meter may be off, so a reading is four numbers: the lowest it may be, the lowest and the
highest shown, the highest it may be. Which of them are possible together follows from the widest error of a meter
and the widest wander that the walk takes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations_with_replacement

from shorewalk.tree.facts import Limit
from shorewalk.tree.model import Measure
from shorewalk.walk.interval import Amount
from shorewalk.walk.meter import MOST_COUNTS, MOST_PERCENT, Meter
from shorewalk.walk.reading import widest_wander

from .rows import cells, value_in

UNITS = {"ac-volts": "V", "dc-volts": "V", "hertz": "Hz", "ohms": "ohm", "amps": "A"}

Cell = tuple[float, float]


def spread(
    node: Measure, cuts: Iterable[str], limits: Mapping[str, Limit], *, coarse: bool
) -> Iterator[Amount]:
    """Yield amounts of each kind that may differ at these limits.

    `coarse`: the meter may show whole volts only, so that a count is a volt.
    """
    line = cells(limits[cut].value for cut in cuts if cut in limits)
    meter = Meter("widest", MOST_PERCENT, MOST_COUNTS, tenths=not coarse)
    yield from _readings(line, meter, UNITS.get(node.what, ""), node.what)


def _readings(line: list[Cell], meter: Meter, unit: str, what: str) -> Iterator[Amount]:
    count = meter.counts * meter.step(unit, what)

    def off(value: float) -> float:
        return abs(value) * meter.percent / 100 + count

    for ends in combinations_with_replacement(range(len(line)), 4):
        low, least, most, high = (line[end] for end in ends)
        if _gap(least, most) > widest_wander(_least(most)):
            continue
        if _gap(low, least) > off(_least(least)) or _gap(most, high) > off(_most(most)):
            continue
        for shown in range(ends[1], ends[2] + 1):
            yield _amount(low, least, line[shown], most, high)


def _gap(one: Cell, other: Cell) -> float:
    """Return how far apart the nearest numbers of two cells are."""
    return max(0.0, other[0] - one[1])


def _least(cell: Cell) -> float:
    return cell[0] if math.isfinite(cell[0]) else cell[1]


def _most(cell: Cell) -> float:
    return cell[1] if math.isfinite(cell[1]) else cell[0]


def _amount(*ends: Cell) -> Amount:
    """Return an amount whose numbers lie in these cells, in rising order."""
    low, least, shown, most, high = map(value_in, ends)
    return Amount(shown, "", (least, most), (low, high))
