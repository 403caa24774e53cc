"""How far a voltage moves for how many amps, and where the ohms behind it are.

Voltages in V, currents in A, resistances in ohm. Z = (V0 - V1)/I is the ordinary load test;
how a load on leg 1 of split phase parts hot from neutral follows from Kirchhoff's laws.
"""

from __future__ import annotations

TEST_AMPS = 12.5
"""The test load that limits are written for: 1,500 W at 120 V."""


def difference(a: float, b: float) -> float:
    """Return how far two readings are apart."""
    return abs(a - b)


def rise(unloaded: float, loaded: float) -> float:
    """Return by how much a reading rose with the load on; negative if it fell."""
    return loaded - unloaded


def rise_scaled(unloaded: float, loaded: float, amps: float) -> float:
    """Return the rise as it would be with the test load of 12.5 A (circuits are linear)."""
    return (loaded - unloaded) * TEST_AMPS / amps


def sag_percent(unloaded: float, loaded: float) -> float:
    """Return the sag under load, in percent of the unloaded voltage; negative if it rose."""
    return 100 * (unloaded - loaded) / unloaded


def sag_percent_scaled(unloaded: float, loaded: float, amps: float) -> float:
    """Return the sag in percent as it would be with the test load of 12.5 A."""
    return sag_percent(unloaded, loaded) * TEST_AMPS / amps


def sag_resistance(unloaded: float, loaded: float, amps: float) -> float:
    """Return the ohms of supply, contacts and wire on the way to where it was read: (V0 - V1)/I."""
    return (unloaded - loaded) / amps


def neutral_resistance(rise_of_other_leg: float, amps: float, *, three_phase: bool = False) -> float:
    """Return the neutral's ohms from the rise of the leg without load; twice that on two legs of 208Y."""
    return rise_of_other_leg / amps * (2 if three_phase else 1)


def hot_resistance(fall_of_loaded_leg: float, amps: float, neutral_ohms: float) -> float:
    """Return the hot side's ohms: all of the fall that the neutral does not explain."""
    return fall_of_loaded_leg / amps - neutral_ohms


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
    return ((rig_unloaded - rig_loaded) - (outlet_unloaded - outlet_loaded)) / amps


def joint_watts(amps: float, ohms: float) -> float:
    """Return the heat of a poor joint, P = I^2 R, in W."""
    return amps**2 * ohms
