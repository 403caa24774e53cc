"""Readings as a walk may know them: where the limits it is compared with lie, and on which sides a meter may see it.

A display may wander and a meter may be off, so a reading is four numbers: the lowest it may be, the lowest and the
highest shown, the highest it may be. Which of them are possible together follows from the widest error of a meter
and the widest wander that the walk takes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations_with_replacement

from shorewalk.tree.facts import Limit
from shorewalk.tree.model import Condition, Measure
from shorewalk.walk.interval import Amount
from shorewalk.walk.judge import condition_met, judge_bands, limits_of
from shorewalk.walk.meter import MOST_COUNTS, MOST_PERCENT, Meter
from shorewalk.walk.reading import widest_wander

from ..rows import cells, value_in

UNITS = {"ac-volts": "V", "dc-volts": "V", "hertz": "Hz", "ohms": "ohm", "amps": "A"}

Cell = tuple[float, float]


Line = tuple[tuple[Amount, bool], ...]
"""Amounts that bands and judges tell apart, and whether a meter that shows tenths can give them."""


class Kinds:
    """The amounts of readings, worked out once for each kind of reading: what it is and what it is compared with."""

    def __init__(self, limits: Mapping[str, Limit]) -> None:
        self.limits = limits
        self._lines: dict[tuple[object, ...], Line] = {}
        self._classes: dict[tuple[object, ...], list[int]] = {}

    def line(self, node: Measure, conditions: Sequence[Condition]) -> Line:
        """Return an amount for each kind that its bands and these conditions tell apart."""
        bands = tuple((band.below, band.upto, band.way.grade) for band in node.bands)
        key = (node.what, bands, tuple(map(_written, conditions)))
        if key not in self._lines:
            found: dict[tuple[object, ...], tuple[Amount, bool]] = {}
            for shown in (True, False):
                for amount in self._amounts(node, conditions, coarse=not shown):
                    band = judge_bands(node.bands, amount, self.limits).index if node.bands else 0
                    found.setdefault((band, self._met(amount, conditions)), (amount, shown))
            self._lines[key] = tuple(found.values())
        return self._lines[key]

    def classes(self, amounts: tuple[Amount, ...], conditions: Sequence[Condition]) -> list[int]:
        """Return these amounts as bits, those together that no condition tells apart."""
        key = (tuple(map(id, amounts)), tuple(map(_written, conditions)))
        if key not in self._classes:
            found: dict[tuple[bool, ...], int] = {}
            for at, amount in enumerate(amounts):
                met = self._met(amount, conditions)
                found[met] = found.get(met, 0) | 1 << at
            self._classes[key] = list(found.values())
        return self._classes[key]

    def _met(self, amount: Amount, conditions: Sequence[Condition]) -> tuple[bool, ...]:
        return tuple(condition_met(asked, amount, self.limits) for asked in conditions)

    def _amounts(self, node: Measure, conditions: Sequence[Condition], *, coarse: bool) -> Iterator[Amount]:
        """Yield amounts of each kind that may differ; `coarse`: a count may be a whole volt."""
        cuts = {cut for asked in conditions for cut in limits_of(asked)}
        cuts |= {cut for band in node.bands for cut in (band.below, band.upto) if cut}
        line = cells(mark for cut in cuts if cut in self.limits for mark in self.limits[cut].marks)
        meter = Meter("widest", MOST_PERCENT, MOST_COUNTS, tenths=not coarse)
        yield from _readings(line, meter, UNITS.get(node.what, ""), node.what)


def _written(asked: Condition) -> tuple[str | None, ...]:
    return asked.from_, asked.above, asked.below, asked.upto


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
        reach = (low[1] + count) / (1 - meter.percent / 100)  # the most that may be shown and still be `low`
        from_ = (high[0] - count) / (
            1 + meter.percent / 100
        )  # the least that may be shown and still be `high`
        first = max(most[0], from_)
        if first - widest_wander(first) > min(least[1], reach):
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
