"""The ohms of a gauge as typed, for all that asks for a cord."""

from __future__ import annotations

from shorewalk.electrics.conductors import SMALLEST
from shorewalk.walk.interval import Amount

from .calculation import Input
from .results import compute, exact

GAUGE = Input("gauge", "the gauge of the wire, like 10, 1/0 or 2.5mm2", kind="gauge")
METAL = Input("metal", "what the wire is of", kind="choice", choices=("copper", "aluminum"), default="copper")
TEMPERATURE = Input(
    "temperature", "how warm the conductor is; 75 C is that of the tables", "C", -40, 150, default="75C"
)


def feet(default: str | None = None) -> Input:
    """Return the length of a cord, one way."""
    return Input("feet", "the length of the cord, one way", "ft", 0.1, 10_000, default=default)


def gauge(default: str | None = None) -> Input:
    """Return the gauge of a wire."""
    return Input("gauge", GAUGE.says, kind="gauge", default=default)


def area_of(name: str) -> Amount:
    """Return the cross-section of a gauge in mm2."""
    if name.endswith("mm2"):
        return exact(float(name.removesuffix(" mm2")), "mm2")
    return compute("gauge_mm2", {"gauge": exact(awg_number(name))})


def awg_number(name: str) -> float:
    """Return the number of an AWG gauge; 1/0 is 0, 2/0 is -1."""
    size = name.removesuffix(" AWG")
    return float(1 - int(size[0]) if size.endswith("/0") else min(int(size), SMALLEST))


def per_1000_ft(
    name: str, celsius: Amount | None = None, metal: str = "copper", lay: float = 1.02
) -> tuple[str, dict[str, Amount], Amount]:
    """Return the formula, what goes into it and the ohms of 1000 ft of one conductor.

    mm2 sizes are flexible copper by IEC 60228 class 5; gauges are computed.
    """
    warm = celsius or exact(75.0, "C")
    if name.endswith("mm2") and metal == "copper":
        inputs = {"mm2": area_of(name), "celsius": warm}
        return "class_5_per_1000_ft", inputs, compute("class_5_per_1000_ft", inputs)
    inputs = {"mm2": area_of(name), "celsius": warm, "lay": exact(lay)}
    return "ohms_per_1000_ft", inputs, compute("ohms_per_1000_ft", inputs, metal=metal)


def sound_cord(name: str, length: Amount) -> Amount:
    """Return the ohms of a sound cord, both ways."""
    return compute("cord_ohms", {"feet": length, "per_1000_ft": per_1000_ft(name)[2]})
