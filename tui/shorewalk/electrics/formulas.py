"""Every function of the arithmetic with how it reads on paper: what trees use, and what `calc` adds.

Those of one idea stand together. A walk loads `using` alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from types import MappingProxyType

from . import conductors, cord, loads, park, people, sag, split
from .formula import Formula, formula
from .using import FUNCTIONS

WIRE: Mapping[str, Formula] = {
    "gauge_mm2": formula(conductors.gauge_mm2, "mm2", "pi/4 x (0.127 mm x 92^((36 - {gauge})/39))^2"),
    "ohms_per_1000_ft": formula(
        conductors.ohms_per_1000_ft,
        "ohm/1000 ft",
        "rho x {lay} x 304.8 [m] / {mm2} [mm2] x (1 + a x ({celsius} - 20) [K])",
    ),
    "class_5_per_1000_ft": formula(
        conductors.class_5_per_1000_ft,
        "ohm/1000 ft",
        "table for {mm2} [mm2] x 0.3048 x (1 + a x ({celsius} - 20) [K])",
    ),
    "cord_ohms": formula(cord.cord_ohms, "ohm", "2 x {feet} [ft] x {per_1000_ft} [ohm] / 1000 [ft]"),
    "cord_drop": formula(
        cord.cord_drop, "V", "{amps} [A] x 2 x {feet} [ft] x {per_1000_ft} [ohm] / 1000 [ft]"
    ),
    "leg_drop": formula(
        cord.leg_drop,
        "V",
        "(2 x {own_amps} - {other_amps}) [A] x {feet} [ft] x {per_1000_ft} [ohm] / 1000 [ft]",
    ),
    "drop_percent": formula(cord.drop_percent, "%", "100 x {volts_lost} [V] / {volts} [V]"),
}
JOINTS: Mapping[str, Formula] = {
    "neutral_resistance": formula(
        sag.neutral_resistance,
        "ohm",
        "({other_loaded} - {other_unloaded}) [V] / {amps} [A]",
        small=True,
    ),
    "neutral_resistance_208y": formula(
        partial(sag.neutral_resistance, degrees=120.0),
        "ohm",
        "(sqrt({other_loaded}^2 - 3/4 x {other_unloaded}^2) - {other_unloaded} / 2) [V] / {amps} [A]",
        small=True,
    ),
    "hot_resistance": formula(
        sag.hot_resistance,
        "ohm",
        "({unloaded} - {loaded}) [V] / {amps} [A] - {neutral_ohms} [ohm] of the neutral",
        small=True,
    ),
    "joint_watts": formula(sag.joint_watts, "W", "({amps} [A])^2 x ({ohms} - {expected}) [ohm]"),
}
LEGS: Mapping[str, Formula] = {
    "leg_angle": formula(
        split.leg_angle,
        "degrees",
        "arccos(({hot1}^2 + {hot2}^2 - {hot_hot}^2) / (2 x {hot1} x {hot2}))",
    ),
    "leg_ratio": formula(split.leg_ratio, "1", "{hot_hot} [V] / ({hot1} + {hot2}) [V]"),
    "open_neutral_volts": formula(
        split.open_neutral_volts,
        "V",
        "{hot_hot} [V] x {own_ohms} [ohm] / ({own_ohms} + {other_ohms}) [ohm]",
    ),
    "loose_neutral_volts": formula(
        split.loose_neutral_volts,
        "V",
        "{hot_hot} [V] / 2 x |1 - (1/{own_ohms} - 1/{other_ohms}) / "
        "(1/{own_ohms} + 1/{other_ohms} + 1/{neutral_ohms})|",
    ),
    "neutral_current": formula(
        split.neutral_current,
        "A",
        "sqrt({amps1}^2 + {amps2}^2 + 2 x {amps1} x {amps2} x cos {degrees})",
    ),
}
USE: Mapping[str, Formula] = {
    "load_amps": formula(loads.load_amps, "A", "{watts} [W] (at 120 V) fed with {volts} [V]"),
    "load_watts": formula(loads.load_watts, "W", "{watts} [W] (at 120 V) fed with {volts} [V]"),
    "heater_ohms": formula(loads.heater_ohms, "ohm", "(120 V)^2 / {watts} [W]"),
    "share_percent": formula(loads.share_percent, "%", "100 x {amps} [A] / {rating} [A]"),
    "demand_percent": formula(park.demand_percent, "%", "table for {sites} sites"),
    "connected_va": formula(
        park.connected_va, "VA", "{sites_50} x {va_50} + {sites_30} x 3600 + {sites_20} x 2400 [VA]"
    ),
    "demand_va": formula(
        park.demand_va,
        "VA",
        "({sites_50} x {va_50} + {sites_30} x 3600 + {sites_20} x 2400) [VA] x demand factor",
    ),
    "demand_amps": formula(park.demand_amps, "A", "{va} [VA] / {volts} [V]"),
    "body_milliamps": formula(people.body_milliamps, "mA", "{volts} [V] / {ohms} [ohm]"),
}
FORMULAS: Mapping[str, Formula] = MappingProxyType({**FUNCTIONS, **WIRE, **JOINTS, **LEGS, **USE})
