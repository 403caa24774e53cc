"""How far a voltage moves for how many amps, and where the ohms behind it are.

Voltages in V, currents in A, resistances in ohm. Z = (V0 - V1)/I is the ordinary load test;
how a load on one of two legs parts hot from neutral follows from Kirchhoff's laws. A current or a
voltage that is divided by has to be more than 0, else `ValueError` says so in one line.
"""

from __future__ import annotations

import math

from .needs import positive

TEST_AMPS = 12.5
"""The test load that limits are written for: 1,500 W at 120 V."""
MOTOR_START = 4.0
"""How many times its running current a motor may draw as it starts."""


def difference(a: float, b: float) -> float:
    """Return how far two readings are apart."""
    return abs(a - b)


def rise(unloaded: float, loaded: float) -> float:
    """Return by how much a reading rose with the load on; negative if it fell."""
    return loaded - unloaded


def rise_scaled(unloaded: float, loaded: float, amps: float) -> float:
    """Return the rise as it would be with the test load of 12.5 A (circuits are linear)."""
    return (loaded - unloaded) * TEST_AMPS / positive(amps, "A current", "A")


def sag_percent(unloaded: float, loaded: float) -> float:
    """Return the sag under load, in percent of the unloaded voltage; negative if it rose."""
    return 100 * (unloaded - loaded) / positive(unloaded, "An unloaded voltage", "V")


def sag_percent_scaled(unloaded: float, loaded: float, amps: float) -> float:
    """Return the sag in percent as it would be with the test load of 12.5 A."""
    return sag_percent(unloaded, loaded) * TEST_AMPS / positive(amps, "A current", "A")


def sag_resistance(unloaded: float, loaded: float, amps: float) -> float:
    """Return the ohms of supply, contacts and wire on the way to where it was read: (V0 - V1)/I."""
    return (unloaded - loaded) / positive(amps, "A current", "A")


def volts_with(unloaded: float, ohms: float, amps: float) -> float:
    """Return the volts that are left with a load of `amps`: V0 - I R, the load test read the other way."""
    return unloaded - amps * ohms


def volts_at_start(unloaded: float, ohms: float, amps: float) -> float:
    """Return the volts that are left while a motor of `amps` (running) starts.

    A roof air conditioner draws up to 4 times its running current for a moment (19 to 60 A; DOE and
    university extension tables). A motor that starts is nearly a plain load, so V0 - I R holds.
    """
    return volts_with(unloaded, ohms, MOTOR_START * amps)


def neutral_resistance(
    other_unloaded: float, other_loaded: float, amps: float, degrees: float = 180.0
) -> float:
    """Return the neutral's ohms from the leg without load: how far the load drags the neutral, over I.

    The other leg stands `degrees` from the loaded one (180: split phase; 120: two legs of 208Y), so
    V'^2 = V^2 + d^2 - 2 V d cos(degrees) for a move d of the neutral (law of cosines; the load is
    resistive). Split phase: d is the rise. 208Y: about twice the rise. Raise `ValueError` where no
    move of the neutral gives these readings.
    """
    along = positive(other_unloaded, "An unloaded voltage", "V") * math.cos(math.radians(degrees))
    under_root = other_loaded**2 - other_unloaded**2 + along**2
    if under_root < 0:
        raise ValueError(
            f"{other_unloaded:g} V and {other_loaded:g} V are no readings of one leg {degrees:g} degrees away."
        )
    return (along + math.sqrt(under_root)) / positive(amps, "A current", "A")


def hot_resistance(unloaded: float, loaded: float, amps: float, neutral_ohms: float) -> float:
    """Return the hot side's ohms: all of the loaded leg's fall that the neutral does not explain."""
    return sag_resistance(unloaded, loaded, amps) - neutral_ohms


def rise_over_fall(
    rise_unloaded: float, rise_loaded: float, fall_unloaded: float, fall_loaded: float
) -> float:
    """Return the other leg's rise over this leg's fall; 0 where this leg did not fall.

    Near 1, all the ohms are in the neutral.
    """
    fall = fall_unloaded - fall_loaded
    return (rise_loaded - rise_unloaded) / fall if fall > 0 else 0.0


def neutral_share(ng_unloaded: float, ng_loaded: float, ln_unloaded: float, ln_loaded: float) -> float:
    """Return the neutral's part of the fall where there is one hot only; 0 where nothing fell."""
    return rise_over_fall(ng_unloaded, ng_loaded, ln_unloaded, ln_loaded)


def own_share(
    rig_unloaded: float, rig_loaded: float, outlet_unloaded: float, outlet_loaded: float, amps: float
) -> float:
    """Return the ohms between the outlet's supply side and the rig outlet: contacts, plug and cord."""
    fall = (rig_unloaded - rig_loaded) - (outlet_unloaded - outlet_loaded)
    return fall / positive(amps, "A current", "A")


def joint_watts(amps: float, ohms: float, expected: float = 0.0) -> float:
    """Return the heat of a poor joint in W: P = I^2 (R - R expected), all ohms that are not wire (Joule)."""
    return amps**2 * (ohms - expected)
