"""Units as people type them, each with what makes it the one that is counted in.

A small table, because that is all there is: a library of units takes longer to load than all the
arithmetic here.
"""

from __future__ import annotations

from collections.abc import Mapping

FEET_IN_METRE = 1 / 0.3048  # by definition
Scale = tuple[float, float]
"""Factor, and what is added after it."""

UNITS: Mapping[str, Mapping[str, Scale]] = {
    "V": {"v": (1, 0), "volt": (1, 0), "volts": (1, 0), "mv": (1e-3, 0), "kv": (1e3, 0)},
    "A": {"a": (1, 0), "amp": (1, 0), "amps": (1, 0), "ma": (1e-3, 0)},
    "mA": {"ma": (1, 0), "a": (1e3, 0), "ua": (1e-3, 0)},
    "ohm": {"ohm": (1, 0), "ohms": (1, 0), "mohm": (1e-3, 0), "kohm": (1e3, 0)},
    "W": {"w": (1, 0), "watt": (1, 0), "watts": (1, 0), "kw": (1e3, 0)},
    "ft": {
        "ft": (1, 0), "feet": (1, 0), "foot": (1, 0), "'": (1, 0),
        "m": (FEET_IN_METRE, 0), "metres": (FEET_IN_METRE, 0), "meters": (FEET_IN_METRE, 0),
    },
    "C": {"c": (1, 0), "f": (5 / 9, -160 / 9)},
    "sites": {"sites": (1, 0), "site": (1, 0)},
}  # fmt: skip


SHOWN: Mapping[str, str] = {
    "V": "V, mV or kV",
    "A": "A or mA",
    "mA": "mA, A or uA",
    "ohm": "ohm, mohm or kohm",
    "W": "W or kW",
    "ft": "ft or m",
    "C": "C or F",
}


def scale(unit: str, typed: str) -> Scale:
    """Return how a number in `typed` becomes one in `unit`; raise `ValueError` for a unit of another kind."""
    word = typed.strip().lower().replace("°", "").replace("deg", "")
    if not word:
        return (1, 0)
    known = UNITS.get(unit, {})
    if word not in known:
        raise ValueError(f"'{typed.strip()}' is no unit here: {allowed(unit) or 'none'} is.")
    return known[word]


def allowed(unit: str) -> str:
    """Return the units that may be typed, in words."""
    return SHOWN.get(unit, unit)
