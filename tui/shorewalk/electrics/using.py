"""The functions a `work` node may use, by the name that stands behind `using:`.

Each takes readings by name, in the units its formula says, and gives one number.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from . import battery, extension, neighbours, sag, split
from .formula import Formula, formula

PERCENT = "100 x ({unloaded} - {loaded}) [V] / {unloaded} [V]"

FUNCTIONS: Mapping[str, Formula] = MappingProxyType(
    {
        "difference": formula(sag.difference, "V", "|{a} - {b}| [V]", small=True),
        "triangle_excess": formula(
            split.triangle_excess, "V", "largest of ({a}, {b}, {c}) [V] - sum of the other two", small=True
        ),
        "ground_disagreement": formula(
            split.ground_disagreement,
            "V",
            "|{hot_ground} - {hot_neutral}| [V] - {neutral_ground} [V]",
            small=True,
        ),
        "hot_earth_gap": formula(split.hot_earth_gap, "V", "|{hot_earth} - {hot_neutral}| [V]", small=True),
        "leg_difference": formula(split.leg_difference, "V", "|{hot1} - {hot2}| [V]", small=True),
        "leg_cosine": formula(
            split.leg_cosine, "1", "cos a = ({hot1}^2 + {hot2}^2 - {hot_hot}^2) / (2 x {hot1} x {hot2})"
        ),
        "rise": formula(sag.rise, "V", "{loaded} - {unloaded} [V]", small=True),
        "rise_scaled": formula(
            sag.rise_scaled, "V", "({loaded} - {unloaded}) [V] x 12.5 A / {amps} [A]", small=True
        ),
        "sag_percent": formula(sag.sag_percent, "%", PERCENT, small=True),
        "sag_percent_scaled": formula(
            sag.sag_percent_scaled, "%", PERCENT + " x 12.5 A / {amps} [A]", small=True
        ),
        "sag_resistance": formula(
            sag.sag_resistance, "ohm", "({unloaded} - {loaded}) [V] / {amps} [A]", small=True
        ),
        "rise_over_fall": formula(
            sag.rise_over_fall,
            "1",
            "rise / fall = ({rise_loaded} - {rise_unloaded}) / ({fall_unloaded} - {fall_loaded})",
            small=True,
        ),
        "neutral_share": formula(
            sag.neutral_share,
            "1",
            "rise of neutral-ground / fall of hot-neutral = "
            "({ng_loaded} - {ng_unloaded}) / ({ln_unloaded} - {ln_loaded})",
            small=True,
        ),
        "own_share": formula(
            sag.own_share,
            "ohm",
            "(({rig_unloaded} - {rig_loaded}) - ({outlet_unloaded} - {outlet_loaded})) [V] / {amps} [A]",
            small=True,
        ),
        "volts_with": formula(sag.volts_with, "V", "{unloaded} [V] - {amps} [A] x {ohms} [ohm]"),
        "volts_at_start": formula(sag.volts_at_start, "V", "{unloaded} [V] - 4 x {amps} [A] x {ohms} [ohm]"),
        **{
            f"beyond_{sites}_sites": formula(
                neighbours.beyond_neighbours(sites),
                "V",
                f"120 [V] - {{unloaded}} [V] - {neighbours.feeder_amps(sites):g} [A] x {{ohms}} [ohm]",
            )
            for sites in neighbours.COUNTS
        },
        **{
            f"{chemistry}_{what}_at_least": formula(
                at_least(chemistry), "%", f"least {of} by the table for {chemistry}, {{volts}} [V] at rest"
            )
            for chemistry in battery.CHEMISTRIES
            for what, of, at_least in (
                ("charge", "charge", battery.charge_at_least),
                ("used", "charge gone", battery.used_at_least),
            )
        },
        **{
            f"drop_{gauge}_awg_{feet}_ft": formula(
                extension.drop_along(gauge, feet),
                "V",
                f"{{amps}} [A] x 2 x {feet} [ft] x {ohms} [ohm] / 1000 [ft]",
            )
            for gauge, ohms in extension.TABLE_8.items()
            for feet in extension.LENGTHS
        },
    }
)
