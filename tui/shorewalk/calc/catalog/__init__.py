"""Every calculation there is, by group, in the order they are listed."""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.calc.calculation import Calculation

from . import cords, devices, joints, legs, loads, neutral, parks, sag, supply

GROUPS: Mapping[str, tuple[Calculation, ...]] = {
    "Volts lost under a load": sag.CALCULATIONS + joints.CALCULATIONS,
    "Wire": cords.CALCULATIONS,
    "Two legs and a neutral": legs.CALCULATIONS + neutral.CALCULATIONS,
    "What is running": loads.CALCULATIONS,
    "Breakers, ground faults, people": devices.CALCULATIONS,
    "The supply and the battery": supply.CALCULATIONS + parks.CALCULATIONS,
}
CALCULATIONS: Mapping[str, Calculation] = {each.name: each for group in GROUPS.values() for each in group}
