"""What an appliance draws, for a table to tick: amps from the low and the high figure of its label."""

from __future__ import annotations

import math

from shorewalk.electrics.loads import NOMINAL, load_amps
from shorewalk.tree.facts import Appliance

LEAST_VOLTS = 104.0
"""The least that appliances are made for (`utilization-b-low` in `trees/site/limits.yaml`)."""


def amps_of(load: Appliance) -> str:
    """Return `a kettle: 8.3 to 12.5 A`: the least at 120 V, the most at any voltage an appliance is made for."""
    low, high = load.watts
    volts = NOMINAL if load.follows == "resistive" else LEAST_VOLTS
    least = math.floor(load_amps(low, NOMINAL, load.follows) * 10) / 10
    most = math.ceil(round(load_amps(high, volts, load.follows) * 10, 6)) / 10
    return f"{load.says}: {least:g} to {most:g} A"
