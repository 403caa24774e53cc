"""How soon a ground-fault outlet trips: UL 943 Class A."""

from __future__ import annotations

import math

from .needs import within

MUST_HOLD, MUST_TRIP = 4.0, 6.0
LAST = 264.0
"""mA; the formula ends here, and 0.025 s stands from there on."""


def trip_seconds(milliamps: float) -> tuple[float, float]:
    """Return the shortest and the longest time in s until it trips at a leak of `milliamps` to ground.

    UL 943 Class A (found): it must not trip below 4 mA (`math.inf`), must at 6 mA, and takes at most
    T = (20 / I)^1.43 s from there to 264 mA. No shortest time is named. Raise `ValueError` for a
    negative current or one over 10 A.
    """
    within(milliamps, "A leak", "mA", 0, 10_000)
    if milliamps < MUST_HOLD:
        return (math.inf, math.inf)
    if milliamps < MUST_TRIP:
        return (0.0, math.inf)
    return (0.0, (20 / min(milliamps, LAST)) ** 1.43)
