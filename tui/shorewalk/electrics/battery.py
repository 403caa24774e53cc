"""What a rested 12 V battery's voltage says of its charge, and where it says nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise

from .needs import within

TABLES: Mapping[str, tuple[tuple[float, float], ...]] = {
    # V at rest, percent. Flooded: makers' tables (found), which differ by 0.1 V. AGM: a vehicle maker's owner's manual,
    # its table for charging (found); its empty end, 11.8 V, from memory.
    "flooded": ((11.6, 0), (12.0, 25), (12.2, 50), (12.4, 75), (12.6, 100)),
    "agm": ((11.8, 0), (12.0, 25), (12.3, 50), (12.6, 75), (12.8, 100)),
}
CHEMISTRIES = (*TABLES, "lifepo4")
TABLES_DIFFER = 0.1
NOT_RESTED = 13.0
"""V; a lead battery above this is being charged, or was a short while ago (common practice)."""

LITHIUM_LEVEL = 12.9, 13.3
"""V; over most of its charge LiFePO4 (4 cells) rests here (found)."""
LITHIUM_FULL, LITHIUM_LOW = 13.4, 12.5
"""V; as told by sellers' charts: 90 % at 13.4 V, 20 % at 12.8 V, 10 % at 12.0 V. Where to cut is common practice."""
NO_TELLING = (0.0, 100.0)
"""%; the charge of which the voltage says nothing."""


def charge_band(volts: float, chemistry: str = "flooded", off_by: float = 0.0) -> tuple[float, float] | None:
    """Return the least and the most charge in percent; None where the voltage cannot tell.

    `volts` at rest (hours without charge or load), 8 to 16 V; `off_by` the meter's error in V, to
    which the tables' own difference of 0.1 V is added. Between rows the charge is read off a straight
    line. LiFePO4 tells only its ends. Raise `ValueError` for another chemistry or voltage.
    """
    within(volts, "A 12 V battery", "V", 8, 16)
    if chemistry not in CHEMISTRIES:
        raise ValueError(f"'{chemistry}' is no chemistry here: {', '.join(CHEMISTRIES)} are.")
    low, high = volts - off_by, volts + off_by
    if chemistry == "lifepo4":
        return _lithium(low, high)
    if high > NOT_RESTED:
        return None
    table = TABLES[chemistry]
    return (_along(table, low - TABLES_DIFFER), _along(table, high + TABLES_DIFFER))


def charge_at_least(chemistry: str) -> Callable[[float], float]:
    """Return the function of V at rest that gives the charge in percent a battery has for certain.

    0 where the voltage cannot tell. Raise `ValueError` as `charge_band` does.
    """

    def at_least(volts: float) -> float:
        return (charge_band(volts, chemistry) or NO_TELLING)[0]

    return at_least


def used_at_least(chemistry: str) -> Callable[[float], float]:
    """Return the function of V at rest that gives the charge in percent that is gone for certain.

    0 where the voltage cannot tell. Raise `ValueError` as `charge_band` does.
    """

    def at_least(volts: float) -> float:
        return 100 - (charge_band(volts, chemistry) or NO_TELLING)[1]

    return at_least


def _lithium(low: float, high: float) -> tuple[float, float] | None:
    if low >= LITHIUM_FULL:
        return (90.0, 100.0)
    return (0.0, 20.0) if high < LITHIUM_LOW else None


def _along(table: tuple[tuple[float, float], ...], volts: float) -> float:
    for (v0, p0), (v1, p1) in pairwise(table):
        if volts <= v1:
            return max(p0, p0 + (p1 - p0) * (volts - v0) / (v1 - v0))
    return table[-1][1]
