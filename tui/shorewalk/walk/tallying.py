"""Adding up what was running, or taking it from a display in the rig."""

from __future__ import annotations

import re
from collections.abc import Mapping

from shorewalk.electrics.loads import NOMINAL, load_amps
from shorewalk.tree.facts import Site

from .interval import Amount, Base, Known, alone, of_function
from .meter import Meter
from .reading import read
from .refused import Refused

VOLTS = "at voltage"
DISPLAY_PERCENT, DISPLAY_COUNTS = 3.0, 1.0
"""How far a display built into a rig may be off: a share, and counts of its last digit (common practice)."""
TENTHS = re.compile(r"[.,](\d+)")


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


def displayed_amps(key: str, text: str, meter: Meter) -> Amount:
    """Return the amps that a display in the rig shows; raise `Refused` where that is no reading of a load."""
    reading = read(text, "amps", None, meter)
    if reading.over or reading.low <= 0:
        raise Refused(
            "A load takes more than 0 A. Look at the display while it runs, or say that you are not sure."
        )
    digits = TENTHS.search(text)
    error = reading.high * DISPLAY_PERCENT / 100 + DISPLAY_COUNTS * 10.0 ** -(len(digits[1]) if digits else 0)
    base = Base(value=reading.value, low=max(0.0, reading.low - error), high=reading.high + error)
    return alone(f"{key}/display", base, reading.unit)
