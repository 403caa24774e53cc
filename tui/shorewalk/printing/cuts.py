"""Limits as they stand on paper: moved to the safe side by what a plain meter may be off.

The walk knows the meter in hand; paper does not. So a stretch is judged as the walk judges it, once for each meter
of `walk.meter`, and the worst counts: whatever of these meters is read, paper is never milder than the walk.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from shorewalk.tree.facts import Limit
from shorewalk.tree.model import Band, Condition
from shorewalk.tree.record import record
from shorewalk.walk.interval import Amount, Base, alone
from shorewalk.walk.judge import Limits, condition_met, judge_bands, limits_of, rank
from shorewalk.walk.meter import PROFILES, Meter

SMALL = 20.0
"""V; a limit under it can only be held to by a meter that shows tenths (`walk.evidence.too_coarse`)."""

METERS = tuple(Meter(name, *PROFILES[name], tenths) for name in PROFILES for tenths in (True, False))


@record()
class Kind:
    """What is compared: `step` is the grid of its numbers on paper, `off` how far a result may be off."""

    unit: str
    what: str = ""  # of a reading; "" for what was worked out
    off: float = 0.0

    def step(self, limit: Limit) -> float:
        """Return the step in which numbers near a limit are printed: no finer than a hand meter shows."""
        if self.unit in ("ohm", "1") or self.what == "dc-volts":
            return 0.01
        return 1.0 if self.what == "ac-volts" and limit.kind == "hazard" and limit.value >= SMALL else 0.1

    def amounts(self, value: float) -> Iterator[Amount]:
        """Yield a number as each meter could have shown it, with what it may be off."""
        if not self.what:
            for off in (0.0, self.off):
                yield Amount(value, self.unit, (value, value), (value - off, value + off))
            return
        for meter in METERS:
            if meter.tenths or value >= SMALL:
                count = meter.step(self.unit, self.what)
                base = Base(value, value, value, percent=meter.percent, counts=meter.counts * count)
                yield alone("", base, self.unit)


@record()
class Stretch:
    """A stretch of a line from `low` up to but without `high`; `None` where it has no end."""

    index: int
    low: float | None
    high: float | None

    def words(self, unit: str) -> str:
        """Return `under 111 V`, `111 to under 127 V`, `127 V or more`."""
        unit = "" if unit == "1" else f" {unit}"
        if self.low is None:
            return "any number" if self.high is None else f"under {self.high:g}{unit}"
        if self.high is None:
            return f"{self.low:g}{unit} or more"
        return f"{self.low:g} to under {self.high:g}{unit}"


def band_stretches(bands: Sequence[Band], kind: Kind, limits: Limits) -> list[Stretch]:
    """Return for each stretch of the line the band to take there."""
    named = [limits[name] for band in bands if (name := band.below or band.upto or "") in limits]

    def band_at(value: float) -> int:
        judged = [judge_bands(bands, amount, limits) for amount in kind.amounts(value)]
        return max(judged, key=lambda found: rank(found.grade)).index

    return _stretches(band_at, kind, named)


def condition_stretches(condition: Condition, kind: Kind, limits: Limits) -> list[Stretch]:
    """Return where the condition may be met (`index` 1)."""
    named = [limits[name] for name in limits_of(condition) if name in limits]

    def met(value: float) -> int:
        return int(any(condition_met(condition, amount, limits) for amount in kind.amounts(value)))

    return [found for found in _stretches(met, kind, named) if found.index]


def _stretches(what: Callable[[float], int], kind: Kind, limits: Sequence[Limit]) -> list[Stretch]:
    """Return the runs of what is the same, between numbers that can stand on paper."""
    points = sorted({point for limit in limits for point in _near(limit, kind)})
    if not points:
        return [Stretch(what(0.0), None, None)]
    starts = [(point, what(point)) for point in points]
    runs = [starts[0], *(one for before, one in pairwise(starts) if one[1] != before[1])]
    ends = [*(start for start, _ in runs[1:]), None]
    lows = [None, *ends[:-1]]
    return [Stretch(index, low, high) for (_, index), low, high in zip(runs, lows, ends, strict=True)]


def _near(limit: Limit, kind: Kind) -> Iterator[float]:
    """Yield the numbers of the grid around every place where a judgement about a limit can turn."""
    step = kind.step(limit)
    for amount in kind.amounts(limit.value):
        off = 0.0 if limit.kind == "supply" else amount.off_by * 1.1  # a little more than at the limit itself
        first, last = math.floor((limit.value - off) / step) - 1, math.ceil((limit.value + off) / step) + 1
        yield from (round(at * step, 4) for at in range(first, last + 1))


def whole_condemns(test: Callable[[Amount], bool], highest: float = 300) -> float | None:
    """Return the least whole number that a meter without tenths condemns, whatever it is off."""
    meter = next(meter for meter in METERS if meter.name == "basic" and not meter.tenths)
    for value in range(int(highest) + 1):
        base = Base(value, value, value, percent=meter.percent, counts=meter.counts)
        if test(alone("", base, "V")):
            return float(value)
    return None
