"""Bounds that go with each result, against Monte Carlo at points a sound and a faulty supply really have.

A maker states limits of error, not a spread, and a hazard is judged by the limit: so a result's error
is its farthest ends. Random draws have to stay inside them, and draws that favour the ends of each
error (which plain draws of six errors at once hardly ever meet) have to come within 5 % of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

import numpy as np
import pytest

from shorewalk.electrics.extension import LENGTHS, TABLE_8
from shorewalk.electrics.formulas import FORMULAS
from shorewalk.walk.interval import Amount, Base, alone, of_function, of_reading
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.reading import Reading

METER = parse_meter("basic,tenths")
DRAWS = 4000
ENDS = 0.85
"""The share of draws that take an end of an error rather than a value between."""

VOLTS = {
    "a", "b", "c", "hot1", "hot2", "hot_hot", "hot_earth", "hot_ground", "hot_neutral", "neutral_ground",
    "unloaded", "loaded", "other_unloaded", "other_loaded", "rise_unloaded", "rise_loaded",
    "fall_unloaded", "fall_loaded", "ng_unloaded", "ng_loaded", "ln_unloaded", "ln_loaded",
    "rig_unloaded", "rig_loaded", "outlet_unloaded", "outlet_loaded", "volts",
}  # fmt: skip
SHARE = {"amps": 3.0, "amps1": 3.0, "amps2": 3.0, "own_amps": 3.0, "other_amps": 3.0}
"""Percent that other numbers may be off by: currents off a display. The rest 2 %, counted numbers none."""
COUNTED = {
    "gauge", "lay", "degrees", "sites", "sites_50", "sites_30", "sites_20", "va_50", "rating", "expected", "mm2",
}  # fmt: skip

SOUND: Mapping[str, dict[str, float]] = {
    "difference": {"a": 121.8, "b": 121.1},
    "triangle_excess": {"a": 121.7, "b": 121.4, "c": 243.0},
    "ground_disagreement": {"hot_ground": 121.2, "hot_neutral": 122.0, "neutral_ground": 0.6},
    "hot_earth_gap": {"hot_earth": 121.0, "hot_neutral": 122.0},
    "leg_difference": {"hot1": 122.4, "hot2": 121.4},
    "leg_cosine": {"hot1": 121.7, "hot2": 121.4, "hot_hot": 243.0},
    "leg_angle": {"hot1": 122.0, "hot2": 121.0, "hot_hot": 210.4},
    "leg_ratio": {"hot1": 121.7, "hot2": 121.4, "hot_hot": 243.0},
    "rise": {"unloaded": 121.4, "loaded": 122.0},
    "rise_scaled": {"unloaded": 121.4, "loaded": 122.0, "amps": 11.7},
    "sag_percent": {"unloaded": 121.8, "loaded": 119.6},
    "sag_percent_scaled": {"unloaded": 121.8, "loaded": 119.6, "amps": 11.7},
    "sag_resistance": {"unloaded": 121.8, "loaded": 119.6, "amps": 11.7},
    "rise_over_fall": {"rise_unloaded": 121.4, "rise_loaded": 122.0, "fall_unloaded": 121.8, "fall_loaded": 119.6},
    "neutral_share": {"ng_unloaded": 0.1, "ng_loaded": 0.6, "ln_unloaded": 122.0, "ln_loaded": 120.0},
    "own_share": {
        "rig_unloaded": 122.0, "rig_loaded": 119.8, "outlet_unloaded": 122.0, "outlet_loaded": 121.0, "amps": 12.5,
    },
    "neutral_resistance": {"other_unloaded": 121.4, "other_loaded": 122.4, "amps": 12.5},
    "neutral_resistance_208y": {"other_unloaded": 121.4, "other_loaded": 122.4, "amps": 12.5},
    "hot_resistance": {"unloaded": 121.8, "loaded": 119.6, "amps": 11.7, "neutral_ohms": 0.05},
    "joint_watts": {"amps": 12.5, "ohms": 0.08, "expected": 0.062},
    "open_neutral_volts": {"hot_hot": 243.0, "own_ohms": 14.0, "other_ohms": 14.4},
    "loose_neutral_volts": {"hot_hot": 243.0, "own_ohms": 9.6, "other_ohms": 48.0, "neutral_ohms": 0.05},
    "neutral_current": {"amps1": 20.0, "amps2": 12.0, "degrees": 120.0},
    "cord_ohms": {"feet": 25.0, "per_1000_ft": 1.24},
    "cord_drop": {"amps": 25.0, "feet": 25.0, "per_1000_ft": 1.24},
    "leg_drop": {"own_amps": 30.0, "other_amps": 12.0, "feet": 50.0, "per_1000_ft": 0.491},
    "drop_percent": {"volts_lost": 1.86, "volts": 121.8},
    "gauge_mm2": {"gauge": 10.0},
    "ohms_per_1000_ft": {"mm2": 5.26, "celsius": 75.0, "lay": 1.02},
    "class_5_per_1000_ft": {"mm2": 2.5, "celsius": 60.0},
    "load_amps": {"watts": 1500.0, "volts": 121.8},
    "load_watts": {"watts": 1500.0, "volts": 121.8},
    "heater_ohms": {"watts": 1500.0},
    "share_percent": {"amps": 20.0, "rating": 30.0},
    "demand_percent": {"sites": 18.0},
    "connected_va": {"sites_50": 6.0, "sites_30": 12.0, "sites_20": 0.0, "va_50": 12_000.0},
    "demand_va": {"sites_50": 6.0, "sites_30": 12.0, "sites_20": 0.0, "va_50": 12_000.0},
    "demand_amps": {"va": 54_144.0, "volts": 240.0},
    "volts_with": {"unloaded": 121.8, "ohms": 0.2, "amps": 25.0},
    "volts_at_start": {"unloaded": 121.8, "ohms": 0.2, "amps": 14.0},
    "beyond_3_sites": {"unloaded": 116.0, "ohms": 0.2},
    "beyond_9_sites": {"unloaded": 113.0, "ohms": 0.2},
    "beyond_20_sites": {"unloaded": 108.0, "ohms": 0.02},
    "body_milliamps": {"volts": 1.4, "ohms": 1000.0},
    "flooded_charge_at_least": {"volts": 12.55},
    "flooded_used_at_least": {"volts": 12.1},
    "agm_charge_at_least": {"volts": 12.7},
    "agm_used_at_least": {"volts": 12.1},
    "lifepo4_charge_at_least": {"volts": 13.2},
    "lifepo4_used_at_least": {"volts": 13.2},
    **{f"drop_{gauge}_awg_{feet}_ft": {"amps": 11.7} for gauge in TABLE_8 for feet in LENGTHS},
}  # fmt: skip
FAULTY: Mapping[str, dict[str, float]] = {
    "difference": {"a": 121.8, "b": 109.6},
    "triangle_excess": {"a": 68.2, "b": 68.4, "c": 243.0},
    "ground_disagreement": {"hot_ground": 25.0, "hot_neutral": 122.0, "neutral_ground": 25.0},
    "hot_earth_gap": {"hot_earth": 96.0, "hot_neutral": 122.0},
    "leg_difference": {"hot1": 137.0, "hot2": 106.0},
    "leg_cosine": {"hot1": 105.0, "hot2": 105.2, "hot_hot": 210.0},
    "leg_angle": {"hot1": 121.0, "hot2": 211.0, "hot_hot": 244.0},
    "leg_ratio": {"hot1": 122.0, "hot2": 121.0, "hot_hot": 210.4},
    "rise": {"unloaded": 121.4, "loaded": 142.6},
    "rise_scaled": {"unloaded": 121.4, "loaded": 142.6, "amps": 10.4},
    "sag_percent": {"unloaded": 121.8, "loaded": 111.0},
    "sag_percent_scaled": {"unloaded": 121.8, "loaded": 111.0, "amps": 11.7},
    "sag_resistance": {"unloaded": 121.8, "loaded": 112.4, "amps": 11.7},
    "rise_over_fall": {"rise_unloaded": 121.4, "rise_loaded": 142.6, "fall_unloaded": 122.0, "fall_loaded": 100.1},
    "neutral_share": {"ng_unloaded": 0.1, "ng_loaded": 21.2, "ln_unloaded": 122.0, "ln_loaded": 100.1},
    "own_share": {
        "rig_unloaded": 122.0, "rig_loaded": 111.0, "outlet_unloaded": 122.0, "outlet_loaded": 121.0, "amps": 12.5,
    },
    "neutral_resistance": {"other_unloaded": 121.4, "other_loaded": 142.6, "amps": 10.4},
    "neutral_resistance_208y": {"other_unloaded": 121.4, "other_loaded": 132.5, "amps": 10.4},
    "hot_resistance": {"unloaded": 122.0, "loaded": 111.0, "amps": 12.5, "neutral_ohms": 0.05},
    "joint_watts": {"amps": 30.0, "ohms": 0.8, "expected": 0.062},
    "open_neutral_volts": {"hot_hot": 243.0, "own_ohms": 9.6, "other_ohms": 48.0},
    "loose_neutral_volts": {"hot_hot": 243.0, "own_ohms": 9.6, "other_ohms": 48.0, "neutral_ohms": 2.0},
    "neutral_current": {"amps1": 40.0, "amps2": 20.0, "degrees": 0.0},
    "load_amps": {"watts": 1500.0, "volts": 104.0},
    "load_watts": {"watts": 1500.0, "volts": 132.0},
    "body_milliamps": {"volts": 65.0, "ohms": 1000.0},
}  # fmt: skip
POINTS = [*((name, "sound") for name in SOUND), *((name, "faulty") for name in FAULTY)]


def amount_of(name: str, value: float) -> Amount:
    """Return a number with the error such a number has."""
    if name in VOLTS:
        return of_reading(name, Reading("", value, value, value, "V"), METER, "ac-volts")
    off = 0.0 if name in COUNTED else value * SHARE.get(name, 2.0) / 100
    return alone(name, Base(value, value - off, value + off), "")


def drawn(inputs: Mapping[str, Amount], rng: np.random.Generator, ends: float) -> dict[str, float]:
    """Return one draw: one gain for all readings of the meter, a count for each, an error for each other number."""

    def error() -> float:
        return (1.0 if rng.random() < 0.5 else -1.0) if rng.random() < ends else 2 * rng.random() - 1

    gain = 1 + error() * METER.percent / 100
    return {
        name: (
            (amount.value + error() * 0.1) * gain
            if name in VOLTS
            else amount.value + error() * (amount.span[1] - amount.span[0]) / 2
        )
        for name, amount in inputs.items()
    }


@pytest.mark.parametrize(("name", "supply"), POINTS)
def test_bounds_agree_with_monte_carlo(name: str, supply: str) -> None:
    """No draw is outside, whatever the error's shape; the ends are met within 5 % of the span."""
    function = FORMULAS[name].fn
    inputs = {
        arg: amount_of(arg, value) for arg, value in (SOUND if supply == "sound" else FAULTY)[name].items()
    }
    result = of_function(lambda known: function(**known), inputs, "")
    low, high = result.span
    assert low <= result.value <= high
    rng = np.random.default_rng(1)
    plain = np.array([function(**drawn(inputs, rng, 0.0)) for _ in range(DRAWS // 4)])
    ends = np.array([function(**drawn(inputs, rng, ENDS)) for _ in range(DRAWS)])
    slack = 1e-6 + 1e-3 * (high - low)
    assert min(plain.min(), ends.min()) >= low - slack
    assert max(plain.max(), ends.max()) <= high + slack
    assert ends.min() - low <= 0.05 * (high - low) + 1e-6
    assert high - ends.max() <= 0.05 * (high - low) + 1e-6


def test_every_formula_has_a_sound_point() -> None:
    """None is left out; those that a fault can reach have a faulty one too."""
    assert set(SOUND) == set(FORMULAS)
    assert set(FAULTY) <= set(FORMULAS)


def test_the_gain_is_shared() -> None:
    """The error of a difference is mostly the counts: with gains apart, two equal legs would differ by 3.3 V."""
    inputs = {arg: amount_of(arg, 121.0) for arg in ("hot1", "hot2")}
    shared = of_function(lambda known: FORMULAS["leg_difference"].fn(**known), inputs, "V")
    apart = {arg: alone(arg, Base(121.0, *amount.span), "V") for arg, amount in inputs.items()}
    alone_each = of_function(lambda known: FORMULAS["leg_difference"].fn(**known), apart, "V")
    assert shared.span[1] < 0.3
    assert alone_each.span[1] > 3


def test_results_of_results_share_the_readings_below_them() -> None:
    """The hot's ohms from the neutral's: no draw of the readings is outside, and the ends are met."""
    readings = {
        "unloaded": 122.0,
        "loaded": 100.1,
        "other_unloaded": 121.8,
        "other_loaded": 142.6,
        "amps": 10.4,
    }
    given = {arg: amount_of(arg, value) for arg, value in readings.items()}
    chain = partial(of_function, unit="ohm")
    neutral = chain(
        lambda known: FORMULAS["neutral_resistance"].fn(**known),
        {arg: given[arg] for arg in ("other_unloaded", "other_loaded", "amps")},
    )
    hot = chain(
        lambda known: FORMULAS["hot_resistance"].fn(**known),
        {"neutral_ohms": neutral, **{arg: given[arg] for arg in ("unloaded", "loaded", "amps")}},
    )
    rng = np.random.default_rng(2)
    found = []
    for _ in range(DRAWS):
        known = drawn(given, rng, ENDS)
        one = FORMULAS["neutral_resistance"].fn(known["other_unloaded"], known["other_loaded"], known["amps"])
        found.append(FORMULAS["hot_resistance"].fn(known["unloaded"], known["loaded"], known["amps"], one))
    low, high = hot.span
    assert low - 1e-6 <= min(found) <= low + 0.05 * (high - low)
    assert high - 0.05 * (high - low) <= max(found) <= high + 1e-6
