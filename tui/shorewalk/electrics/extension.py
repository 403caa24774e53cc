"""What an extension cord of a usual gauge and length takes away."""

from __future__ import annotations

from collections.abc import Callable

from .cord import cord_drop

TABLE_8 = {14: 3.14, 12: 1.98, 10: 1.24}
"""Ohm for each 1000 ft of one conductor by AWG: NEC Chapter 9 Table 8, stranded copper at 75 C (found)."""

LENGTHS = (50, 100)
"""ft one way, as such cords are sold."""


def drop_along(gauge: int, feet: float) -> Callable[[float], float]:
    """Return the function of A that gives the volts lost there and back; `gauge` is one of `TABLE_8`.

    The function raises `ValueError` as `cord_drop` does.
    """
    per_1000_ft = TABLE_8[gauge]

    def drop(amps: float) -> float:
        return cord_drop(amps, feet, per_1000_ft)

    return drop
