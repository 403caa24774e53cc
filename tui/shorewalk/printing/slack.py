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

USUAL_AMPS = USUAL["amps"]
AMPS_OFF = 0.05
"""The share that amps may be off, one way: of a display with tenths (`walk.tallying`). Labels give both ends."""

PER_AMP: Mapping[str, float] = {"rise_scaled": -0.5, "sag_percent_scaled": 0.7, "sag_resistance": 0.7}
"""V; how far volts fall for each ampere about where these sums are judged: 4 V, 7 % (`trees/site/limits.yaml`)."""


@cache
def slack_of(using: str, amps: float = USUAL_AMPS) -> float:
    """Return how far the result of a function may be off, in its unit, rounded up to two digits.

    `amps`: the least that the step's loads draw. Where they are divided by, a count of the meter then moves more.
    """
    off = max(_off_by(using, USUAL_AMPS), _off_by(using, amps))
    if not math.isfinite(off) or off <= 0:
        return 0.0
    digits = 1 - math.floor(math.log10(off))
    return math.ceil(round(off * 10.0**digits, 6)) / 10.0**digits


def _off_by(using: str, amps: float) -> float:
    formula = FUNCTIONS[using]
    inputs = {arg: alone(arg, _base(arg, using, amps), "V") for arg in formula.args}
    return of_function(lambda known: formula.fn(**known), inputs, formula.unit).off_by


def _base(arg: str, using: str, amps: float) -> Base:
    value = amps if arg == "amps" else float(USUAL.get(arg, 120))
    if arg == "loaded" and using in PER_AMP:
        value = USUAL["unloaded"] - PER_AMP[using] * amps
    if arg == "amps":
        return Base(value, value * (1 - AMPS_OFF), value * (1 + AMPS_OFF))
    if arg == "ohms":
        return Base(value, value, value)
    what = "dc-volts" if "charge" in using or "used" in using else "ac-volts"
    count = METER.step("V", what)
    return Base(value, value, value, what, METER.percent, count, METER.counts * count)
