"""The functions a `work` node may use, by the name that stands behind `using:`.

Each takes readings by name, in the units its formula says, and gives one number. `small` marks
a difference of near-equal readings: a meter without tenths cannot judge it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from inspect import signature
from types import MappingProxyType

from . import sag, split


@dataclass(frozen=True, slots=True)
class Formula:
    """A function with the names of its arguments, its unit, and how it reads on paper."""

    args: tuple[str, ...]
    unit: str
    small: bool
    fn: Callable[..., float]
    says: str


def _formula(fn: Callable[..., float], unit: str, says: str, *, small: bool = True) -> Formula:
    return Formula(tuple(signature(fn).parameters), unit, small, fn, says)


FUNCTIONS: Mapping[str, Formula] = MappingProxyType(
    {
        "difference": _formula(sag.difference, "V", "|a - b|"),
        "triangle_excess": _formula(split.triangle_excess, "V", "largest - sum of the other two"),
        "ground_disagreement": _formula(
            split.ground_disagreement, "V", "|hot-ground - hot-neutral| - neutral-ground"
        ),
        "hot_earth_gap": _formula(split.hot_earth_gap, "V", "|hot-earth - hot-neutral|"),
        "leg_difference": _formula(split.leg_difference, "V", "|V1 - V2|"),
        "leg_cosine": _formula(
            split.leg_cosine, "1", "cos a = (V1^2 + V2^2 - V12^2) / (2 V1 V2)", small=False
        ),
        "rise": _formula(sag.rise, "V", "V loaded - V unloaded"),
        "rise_scaled": _formula(sag.rise_scaled, "V", "(V loaded - V unloaded) x 12.5 A / amps"),
        "sag_percent": _formula(sag.sag_percent, "%", "100 x (V unloaded - V loaded) / V unloaded"),
        "sag_percent_scaled": _formula(
            sag.sag_percent_scaled, "%", "100 x (V unloaded - V loaded) / V unloaded x 12.5 A / amps"
        ),
        "sag_resistance": _formula(sag.sag_resistance, "ohm", "(V unloaded - V loaded) / amps"),
        "rise_over_fall": _formula(sag.rise_over_fall, "1", "rise of the other leg / fall of this leg"),
        "neutral_share": _formula(sag.neutral_share, "1", "rise of neutral-ground / fall of hot-neutral"),
        "own_share": _formula(sag.own_share, "ohm", "(fall in the rig - fall at the pedestal) / amps"),
    }
)
