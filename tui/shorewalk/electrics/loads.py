"""What an appliance draws at the voltage that is there; watts on labels are at 120 V."""

from __future__ import annotations

from .needs import positive, within

NOMINAL = 120.0
FOLLOWS = ("resistive", "constant-power", "motor")


def load_amps(watts: float, volts: float, follows: str = "resistive") -> float:
    """Return the current in A of a load of `watts` (at 120 V) fed with `volts`.

    A resistive load (heater, kettle) draws in proportion to the voltage, I = (P / 120) x (V / 120).
    One of constant power (microwave, converter) draws more as it falls, I = P / V. A motor lies
    between, and the greater of the two is taken, the cautious side (common practice). Raise
    `ValueError` for volts of 0 or less, watts outside 0 to 100,000, or a load that follows nothing known.
    """
    if not volts > 0:
        raise ValueError(f"{volts:g} V feed no load; more than 0 V do.")
    within(watts, "A load", "W", 0, 100_000)
    if follows not in FOLLOWS:
        raise ValueError(f"'{follows}' is no way of a load: {', '.join(FOLLOWS)} are.")
    falls, rises = watts / NOMINAL * volts / NOMINAL, watts / volts
    return falls if follows == "resistive" else rises if follows == "constant-power" else max(falls, rises)


def load_watts(watts: float, volts: float, follows: str = "resistive") -> float:
    """Return the power in W that it then takes: a heater's goes with the square of the voltage."""
    return load_amps(watts, volts, follows) * volts


def heater_ohms(watts: float) -> float:
    """Return the ohms of a resistive load of `watts` at 120 V: V^2 / P."""
    return NOMINAL**2 / positive(watts, "A load", "W")


def share_percent(amps: float, rating: float) -> float:
    """Return a current in percent of what a breaker is rated for."""
    return 100 * amps / positive(rating, "A rating", "A")
