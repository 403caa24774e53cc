"""How far the neighbours on a loop can pull its voltage down, by what its feeder is made for (NEC 551.73)."""

from __future__ import annotations

from collections.abc import Callable

from .loads import NOMINAL
from .park import demand_amps, demand_va

COUNTS = (3, 9, 20)
"""Up to this many sites, as people count them at a glance."""


def feeder_amps(sites: int) -> float:
    """Return the most that a loop of so many sites carries in each leg, in A: all of 50 A, the demand of the code."""
    return demand_amps(demand_va(sites, 0, 0))


def beyond_neighbours(sites: int) -> Callable[[float, float], float]:
    """Return the function that tells by how many V an idle voltage is lower than so many sites can explain.

    They take at most the feeder's amps, over at most all the ohms between the service and us:
    120 V - V0 - I R. Over 0 the supply itself is low, or a joint of the loop is poor.
    """
    amps = feeder_amps(sites)

    def beyond(unloaded: float, ohms: float) -> float:
        return NOMINAL - unloaded - amps * ohms

    return beyond
