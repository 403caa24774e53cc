"""What an appliance draws, for a table to tick: amps from the low and the high figure of its label."""

from __future__ import annotations

import math

from shorewalk.electrics.loads import NOMINAL, load_amps
from shorewalk.tree.facts import Appliance

LOADED_VOLTS = 110.0
"""The least that a sheet lets pass with a load on (`loaded-low`, 104 V, less what a plain meter may be off)."""
LEAST_VOLTS = 104.0
"""The least that appliances are made for (`utilization-b-low` in `trees/site/limits.yaml`)."""


def amps_of(load: Appliance) -> str:
    """Return `a kettle: 7.6 to 12.5 A`: the least at any voltage it is measured at, the most at any it is made for."""
    return f"{load.says}: {least_amps(load):g} to {most_amps(load):g} A"


def least_amps(load: Appliance) -> float:
    """Return the least amps by its label; a heater draws less where the voltage is low."""
    volts = LOADED_VOLTS if load.follows == "resistive" else NOMINAL
    return math.floor(round(load_amps(load.watts[0], volts, load.follows) * 10, 6)) / 10


def most_amps(load: Appliance) -> float:
    """Return the most amps by its label; what keeps its power draws more where the voltage is low."""
    volts = NOMINAL if load.follows == "resistive" else LEAST_VOLTS
    return math.ceil(round(load_amps(load.watts[1], volts, load.follows) * 10, 6)) / 10
