"""How long a breaker may hold a current: UL 489 gives corners, so the answer is a band."""

from __future__ import annotations

import math

from .needs import within

HOUR, SMALL_TRIP, LARGE_TRIP = 3600.0, 120.0, 240.0
HOLDS, HOUR_TRIP, QUICK_TRIP = 1.0, 1.35, 2.0
"""UL 489, of the rating: holds 100 %; trips within 1 h at 135 % (50 A and under) (found)."""


def hold_seconds(amps: float, rating: float) -> tuple[float, float]:
    """Return the shortest and the longest time in s that a breaker of 15 to 50 A may hold `amps`.

    UL 489: it holds 100 % for ever; at 135 % it trips within 1 h; at 200 % within 2 min up to 30 A
    (found), 4 min from 31 to 50 A (from memory). Between the corners the milder one holds. The
    standard names no shortest time, so that end is 0; `math.inf` is for ever. A hot enclosure, or
    a worn breaker, trips sooner. Raise `ValueError` for another breaker, or a current outside 0 to 20
    times its rating.
    """
    within(rating, "A breaker", "A", 15, 50)
    share = within(amps, "A current", "A", 0, 20 * rating) / rating
    if share <= HOLDS:
        return (math.inf, math.inf)
    if share < HOUR_TRIP:
        return (0.0, math.inf)
    if share < QUICK_TRIP:
        return (0.0, HOUR)
    return (0.0, SMALL_TRIP if rating <= 30 else LARGE_TRIP)
