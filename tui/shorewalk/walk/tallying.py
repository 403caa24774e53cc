"""Adding up what was running."""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.tree.facts import Appliance, Site

from .interval import Amount, Base, Known, alone, of_function

NOMINAL = 120.0  # V; loads.yaml gives watts at this


def amps_of(appliance: Appliance, watts: float, volts: float) -> float:
    """Return the current of a load of `watts` at 120 V, when fed with `volts`.

    A resistive load draws in proportion to the voltage; one of constant power, in inverse
    proportion. A motor lies between and is taken as the second, which gives more under 120 V.
    """
    if volts <= 0:
        return float("nan")
    if appliance.follows == "resistive":
        return watts / NOMINAL * volts / NOMINAL
    return watts / volts


def total_amps(key: str, running: Mapping[str, int], volts: Amount | None, site: Site) -> Amount:
    """Return the amps of all that was running, from the low to the high figure of each label."""
    inputs: dict[str, Amount] = {}
    for name, count in running.items():
        low, high = site.loads[name].watts
        base = Base(value=(low + high) / 2, low=low, high=high)
        if not count:
            continue
        inputs[name] = alone(f"{key}/{name}", base, "W")
    if volts is not None:
        inputs["volts"] = volts

    def compute(known: Known) -> float:
        at = known.get("volts", NOMINAL)
        return sum(
            running[name] * amps_of(site.loads[name], known[name], at) for name in known if name != "volts"
        )

    return of_function(compute, inputs, "A")
