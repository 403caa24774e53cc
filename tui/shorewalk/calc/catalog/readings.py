"""Inputs that many calculations take."""

from __future__ import annotations

from shorewalk.calc.calculation import Input


def volts(
    name: str, says: str, *, low: float = 0.0, high: float = 600.0, default: str | None = None
) -> Input:
    """Return a reading of AC volts: the meter's error counts."""
    return Input(name, says, "V", low, high, reading="ac-volts", default=default)


def amps(name: str = "amps", says: str = "the load's current", *, default: str | None = None) -> Input:
    """Return a current off a display or clamp."""
    return Input(name, says, "A", 0.0, 400.0, reading="amps", default=default)


UNLOADED = volts("unloaded", "the voltage with the load off", low=50)
LOADED = volts("loaded", "the voltage with the load on", low=1)
SYSTEM = Input(
    "system",
    "what the two legs are",
    kind="choice",
    choices=("split-phase", "208y", "one-leg"),
    default="split-phase",
)
DEGREES = {"split-phase": 180.0, "208y": 120.0, "one-leg": 0.0}
