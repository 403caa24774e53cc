"""How far a reading, or arithmetic on readings, may be from the truth.

A meter's error is a gain, a share of what it shows, and some counts of its last digit. One
reading carries both as its maker states them. Readings of one meter share the gain, so in a
difference most of it cancels: arithmetic takes the gain once for all of them and one count for
each, at every corner (JCGM 100 for the two parts; the single count is common practice).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from itertools import product
from typing import TYPE_CHECKING

from shorewalk.tree.record import record

from .meter import Meter

if TYPE_CHECKING:
    from .reading import Reading

Known = Mapping[str, float]
"""The value taken for each base, by its key."""

Span = tuple[float, float]
ANYTHING: Span = (-math.inf, math.inf)
CORNERS = 20_000  # more than that, and the middle of each base is left out; else anything is possible


@record()
class Base:
    """A number somebody gave: as shown, lowest and highest shown, and the meter's part in it."""

    value: float
    low: float
    high: float
    gain: str = ""  # bases of one gain share it; "" has none
    percent: float = 0.0
    count: float = 0.0  # one count of the last digit
    counts: float = 0.0  # the counts of the maker's statement, for a reading judged alone

    def apart(self, counts: float) -> Span:
        """Return how far it may be, judged alone with this much absolute error."""
        if math.isinf(self.value):
            return (self.value, self.value)
        share = self.percent / 100
        return (self.low - abs(self.low) * share - counts, self.high + abs(self.high) * share + counts)


@record()
class Amount:
    """A reading or a result. `shown`: without the meter's error; `span`: with it.

    `bases` and `compute` remember where it came from, so that arithmetic on results still
    shares the gain of the readings below them.
    """

    value: float
    unit: str
    shown: Span
    span: Span
    bases: Mapping[str, Base] = field(default_factory=dict)
    compute: Callable[[Known], float] = field(default=lambda _: math.nan, compare=False)

    @property
    def off_by(self) -> float:
        """How far the meter may be off, one way."""
        return max(self.span[1] - self.value, self.value - self.span[0])


def finite(value: float) -> float | None:
    """Return a number, or None for what is none."""
    return value if math.isfinite(value) else None


def alone(key: str, base: Base, unit: str) -> Amount:
    """Return one number judged by itself."""
    return Amount(
        base.value,
        unit,
        (base.low, base.high),
        base.apart(base.counts),
        {key: base},
        lambda known: known[key],
    )


def of_reading(key: str, reading: Reading, meter: Meter, what: str) -> Amount:
    """Return a reading taken by `meter`, with the whole error its maker states."""
    count = meter.step(reading.unit, what)
    base = Base(
        value=reading.value,
        low=reading.low,
        high=reading.high,
        gain=what,
        percent=meter.percent,
        count=count,
        counts=meter.counts * count,
    )
    return alone(key, base, reading.unit)


def of_function(compute: Callable[[Known], float], inputs: Mapping[str, Amount], unit: str) -> Amount:
    """Return `compute` of `inputs` (by argument) with its error: all corners, the gain shared.

    Where the function has no value at a corner, anything is possible there.
    """
    bases: dict[str, Base] = {}
    for amount in inputs.values():
        bases.update(amount.bases)

    def whole(known: Known) -> float:
        return _value(compute, {name: amount.compute(known) for name, amount in inputs.items()})

    value = whole({key: base.value for key, base in bases.items()})
    shown = _span(whole(known) for known in _corners(bases, meter=False))
    span = _span(whole(known) for known in _corners(bases, meter=True))
    return Amount(value, unit, shown, span, bases, whole)


def _value(compute: Callable[[Known], float], arguments: Known) -> float:
    if any(math.isnan(value) for value in arguments.values()):
        return math.nan
    try:
        return round(float(compute(arguments)), 9)
    except (ArithmeticError, ValueError, TypeError):
        return math.nan


def _span(values: Iterable[float]) -> Span:
    found = list(values)
    if not found or any(math.isnan(value) for value in found):
        return ANYTHING
    return (min(found), max(found))


def _corners(bases: Mapping[str, Base], *, meter: bool) -> list[dict[str, float]]:
    """Every corner of the box of what may be true, and the middles between (a difference is least there)."""
    gains = {base.gain: base.percent / 100 for base in bases.values() if base.gain} if meter else {}
    if 2 ** (len(bases) + len(gains)) > CORNERS:
        return []
    full = 3 ** (len(bases) + len(gains)) <= CORNERS
    points: list[list[float]] = []
    for base in bases.values():
        count = base.count if meter else 0.0
        around = [base.low - count, base.value, base.high + count]
        points.append(sorted(set(around)) if full else sorted({around[0], around[2]}))
    shares = [sorted({-share, 0.0, share}) for share in gains.values()]
    return [
        {
            key: value * share.get(base.gain, 1.0)
            for (key, base), value in zip(bases.items(), corner, strict=True)
        }
        for share in (
            {name: 1 + by for name, by in zip(gains, gain, strict=True)} for gain in product(*shares)
        )
        for corner in product(*points)
    ]
