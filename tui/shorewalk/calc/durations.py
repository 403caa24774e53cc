"""Bands of time in words: a standard gives corners, not a moment."""

from __future__ import annotations

import math

from shorewalk.electrics.breaker import hold_seconds
from shorewalk.walk.interval import Amount


def time_words(seconds: float) -> str:
    """Return a time as one says it."""
    if seconds >= 3600:
        return f"{seconds / 3600:g} h"
    if seconds >= 60:
        return f"{seconds / 60:g} min"
    return f"{seconds:.3g} s"


def band_words(shortest: float, longest: float, verb: str = "trips") -> str:
    """Return a band of time in words."""
    if math.isinf(shortest):
        return "must not trip"
    if math.isinf(longest):
        return "may trip, or hold for ever"
    return f"{verb} within {time_words(longest)}"


def held(amps: Amount, rating: float) -> tuple[float, float]:
    """Return the shortest and longest time a breaker may hold a current, with the current's own error."""
    ends = [hold_seconds(max(0.0, end), rating) for end in amps.span]
    return min(end[0] for end in ends), max(end[1] for end in ends)


def held_words(amps: Amount, rating: float) -> str:
    """Return how long a breaker may hold a current, in a sentence."""
    words = band_words(*held(amps, rating))
    return f"A sound {rating:g} A breaker {words} (UL 489). One that is hot or worn trips sooner."
