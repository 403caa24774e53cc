"""How far a sum may be off: worked out once for readings as they usually are, by the walk's own arithmetic.

The walk does it for the readings in hand. On paper a usual amount is taken off every limit of the sum.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cache

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.walk.interval import Base, alone, of_function
from shorewalk.walk.meter import PROFILES, Meter

METER = Meter("basic", *PROFILES["basic"], tenths=True)
"""Whole volts cannot tell so small a difference; the walk asks for tenths (`walk.working`)."""

USUAL: Mapping[str, float] = {
    "unloaded": 122, "loaded": 117, "a": 120, "b": 121, "c": 240,
    "hot_ground": 120, "hot_neutral": 120, "neutral_ground": 1, "hot_earth": 116,
    "hot1": 120, "hot2": 120, "hot_hot": 208,
    "rise_unloaded": 120, "rise_loaded": 123, "fall_unloaded": 120, "fall_loaded": 116,
    "ng_unloaded": 0.5, "ng_loaded": 3, "ln_unloaded": 121, "ln_loaded": 116,
    "rig_unloaded": 121, "rig_loaded": 115, "outlet_unloaded": 121, "outlet_loaded": 118,
    "amps": 10, "ohms": 0.4, "volts": 12.4,
}  # fmt: skip
"""Readings near where sums are judged, in V, A and ohm (common practice)."""

AMPS_OFF = 0.05
"""The share that amps from labels may be off, one way (common practice; `trees/site/loads.yaml` has the span)."""


@cache
def slack_of(using: str) -> float:
    """Return how far the result of a function may be off, in its unit, rounded up to two digits."""
    formula = FUNCTIONS[using]
    inputs = {arg: alone(arg, _base(arg, using), "V") for arg in formula.args}
    amount = of_function(lambda known: formula.fn(**known), inputs, formula.unit)
    off = amount.off_by
    if not math.isfinite(off) or off <= 0:
        return 0.0
    digits = 1 - math.floor(math.log10(off))
    return math.ceil(round(off * 10.0**digits, 6)) / 10.0**digits


def _base(arg: str, using: str) -> Base:
    value = float(USUAL.get(arg, 120))
    if arg == "amps":
        return Base(value, value * (1 - AMPS_OFF), value * (1 + AMPS_OFF))
    if arg == "ohms":
        return Base(value, value, value)
    what = "dc-volts" if "charge" in using or "used" in using else "ac-volts"
    count = METER.step("V", what)
    return Base(value, value, value, what, METER.percent, count, METER.counts * count)
