"""Which of the numbers typed moves a result how far."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from shorewalk.walk.interval import Amount, Base


def parts_of(amount: Amount) -> list[tuple[str, float]]:
    """Return how far each number typed alone moves a result either way, the most first.

    The gain of a meter counts as one, because its readings share it.
    """
    found: list[tuple[str, float]] = []
    fixed = {key: Base(base.value, base.value, base.value) for key, base in amount.bases.items()}
    gains = {base.gain for base in amount.bases.values() if base.gain}
    for key, base in amount.bases.items():
        ends = (base.low - base.count, base.high + base.count)
        found.append((key, _reach(amount, [{key: end} for end in ends], fixed)))
    for gain in gains:
        shares = [
            (1 + sign * base.percent / 100)
            for base in amount.bases.values()
            if base.gain == gain
            for sign in (-1, 1)
        ]
        scaled = [
            {key: base.value * share for key, base in amount.bases.items() if base.gain == gain}
            for share in shares
        ]
        found.append((f"the gain on {gain.replace('-', ' ')}", _reach(amount, scaled, fixed)))
    return sorted(found, key=lambda part: -part[1])


def _reach(amount: Amount, changes: Sequence[Mapping[str, float]], fixed: Mapping[str, Base]) -> float:
    middle = {key: base.value for key, base in fixed.items()}
    moved = [abs(amount.compute({**middle, **change}) - amount.value) for change in changes]
    return max((each for each in moved if math.isfinite(each)), default=0.0)
