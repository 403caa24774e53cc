"""Loops that nothing is wrong with, over all of Range A: feeders of any length, neighbours even and lopsided, 208 V."""

from __future__ import annotations

import math
from dataclasses import replace
from random import Random

from shorewalk.pedestal.park import Park, build, usual

LOW, HIGH = 114.0, 126.0
"""Volts at the empty outlet: ANSI C84.1-2020, service voltage, Range A."""


def range_a(chance: Random) -> Park:
    """Return a sound loop whose empty outlets all read within Range A."""
    while True:
        volts = chance.uniform(LOW, HIGH + 2)
        park = replace(
            usual(chance),
            volts1=volts + chance.uniform(-0.6, 0.6),
            volts2=volts + chance.uniform(-0.6, 0.6),
            neighbour1=_neighbour(chance),
            neighbour2=_neighbour(chance),
            feeder=math.exp(chance.uniform(math.log(0.005), math.log(0.06))),
        )
        solved = build(park).solve()
        legs = [float(solved.read(f"pedestal.{leg}", "pedestal.N")[0]) for leg in park.hots]
        if all(LOW <= leg <= HIGH for leg in legs):
            return park


def _neighbour(chance: Random) -> float:
    """Return the ohms of what neighbours run on one leg: nothing, a lamp or up to 50 A."""
    return chance.choice([0.0, math.exp(chance.uniform(math.log(2.4), math.log(60.0)))])
