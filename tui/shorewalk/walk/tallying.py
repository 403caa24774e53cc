"""Adding up what was running."""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.electrics.loads import NOMINAL, load_amps
from shorewalk.tree.facts import Site

from .interval import Amount, Base, Known, alone, of_function

VOLTS = "at voltage"


def total_amps(key: str, running: Mapping[str, int], volts: Amount | None, site: Site) -> Amount:
    """Return the amps of all that was running, from the low to the high figure of each label.

    `running`: how many of each load; `volts`: at what voltage, else the nominal one. Loads are
    added by how their current follows the voltage, so that few numbers are left to vary.
    """
    watts: dict[str, tuple[float, float]] = {}
    for name, count in running.items():
        load = site.loads[name]
        low, high = watts.get(load.follows, (0.0, 0.0))
        watts[load.follows] = (low + count * load.watts[0], high + count * load.watts[1])
    inputs = {
        kind: alone(f"{key}/{kind}", Base(value=(low + high) / 2, low=low, high=high), "W")
        for kind, (low, high) in watts.items()
    }
    if volts is not None:
        inputs[VOLTS] = volts

    def compute(known: Known) -> float:
        at = known.get(VOLTS, NOMINAL)
        return sum(load_amps(known[kind], at, kind) for kind in watts)

    return of_function(compute, inputs, "A")
