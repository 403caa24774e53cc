"""What a length of wire takes away: a cord both ways, and a feeder whose neutral carries the difference.

Lengths in ft one way, ohms for each 1000 ft of one conductor (`conductors`), currents in A, volts in V.
A length or ohms of 0 or less, or a current outside 0 to 400 A, is a `ValueError` of one line.
"""

from __future__ import annotations

from .needs import positive, within


def cord_ohms(feet: float, per_1000_ft: float) -> float:
    """Return the ohms of a cord there and back: 2 x length x R (Ohm's law in series)."""
    return 2 * positive(feet, "A length", "ft") / 1000 * positive(per_1000_ft, "A resistance", "ohm/1000 ft")


def cord_drop(amps: float, feet: float, per_1000_ft: float) -> float:
    """Return the volts lost along a cord with one hot and a neutral: 2 x R x L x I."""
    return within(amps, "A current", "A", 0, 400) * cord_ohms(feet, per_1000_ft)


def leg_drop(own_amps: float, other_amps: float, feet: float, per_1000_ft: float) -> float:
    """Return the volts one leg of split phase loses along a feeder; negative where it gains.

    Its hot carries I1, the shared neutral I1 - I2 (Kirchhoff): R x L x (2 I1 - I2). Resistive loads;
    neutral of the hots' gauge.
    """
    amps = 2 * within(own_amps, "A current", "A", 0, 400) - within(other_amps, "A current", "A", 0, 400)
    return amps * cord_ohms(feet, per_1000_ft) / 2


def drop_percent(volts_lost: float, volts: float) -> float:
    """Return the volts lost in percent of the volts there would be."""
    return 100 * volts_lost / positive(volts, "A supply", "V")
