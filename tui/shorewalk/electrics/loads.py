"""What an appliance draws at the voltage that is there; watts on labels are at 120 V."""

from __future__ import annotations

NOMINAL = 120.0


def load_amps(watts: float, volts: float, follows: str = "resistive") -> float:
    """Return the current in A of a load of `watts` (at 120 V) fed with `volts`.

    A resistive load (heater, kettle) draws in proportion to the voltage. One of constant power
    (microwave, converter) draws more as it falls; a motor lies between and is taken as that,
    which is the cautious side below 120 V. Raise `ValueError` for volts of 0 or less.
    """
    if volts <= 0:
        raise ValueError(f"{volts:g} V feed no load; more than 0 V do.")
    return watts / NOMINAL * volts / NOMINAL if follows == "resistive" else watts / volts


def load_watts(watts: float, volts: float, follows: str = "resistive") -> float:
    """Return the power in W that it then takes: a heater's goes with the square of the voltage."""
    return load_amps(watts, volts, follows) * volts
