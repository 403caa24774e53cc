"""Every function against a way of its own: circuits solved node by node (numpy), phasors, tables looked up."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable

import numpy as np
import pytest

from shorewalk.electrics.battery import CHEMISTRIES
from shorewalk.electrics.extension import LENGTHS, TABLE_8
from shorewalk.electrics.formulas import FORMULAS

from .solver import Circuit

HEATER = 9.6
"""Ohm; 1,500 W at 120 V."""
SPLIT, THREE_PHASE = -1.0, cmath.rect(1, math.radians(120))
LEG_OHMS, NEUTRAL_OHMS, CORD_OHMS = 0.13, 0.21, 0.08

Pair = tuple[float, float]


def fn(name: str, **values: float) -> float:
    return FORMULAS[name].fn(**values)


def pedestal(loaded: float = math.inf, *, other: float = math.inf, phase: complex = SPLIT) -> Circuit:
    """Return two legs from earth, a neutral to earth, and a cord on leg 1 that ends at the load `loaded`."""
    circuit = Circuit()
    for leg, turn in (("1", 1.0), ("2", phase)):
        circuit.add(f"leg{leg}", "earth", f"hot{leg}", LEG_OHMS, volts=120 * turn)
    circuit.add("neutral", "earth", "n", NEUTRAL_OHMS)
    circuit.add("cord", "hot1", "rig", CORD_OHMS / 2)
    circuit.add("back", "n", "rig-n", CORD_OHMS / 2)
    circuit.add("load", "rig", "rig-n", loaded)
    circuit.add("other", "hot2", "n", other)
    return circuit


OFF, ON = pedestal(), pedestal(HEATER)
START = pedestal(HEATER / 4)
ON_208 = pedestal(HEATER, phase=THREE_PHASE)
AMPS, AMPS_208 = ON.amps("load"), ON_208.amps("load")


def read(a: str, b: str, *, off: Circuit = OFF, on: Circuit = ON) -> tuple[float, float]:
    return off.read(a, b), on.read(a, b)


def sag() -> list[Pair]:
    off, on = read("hot1", "n")
    pair = {"unloaded": off, "loaded": on}
    loop = LEG_OHMS + NEUTRAL_OHMS
    share = 100 * loop / (loop + CORD_OHMS + HEATER)  # of a divider
    return [
        (fn("sag_resistance", **pair, amps=AMPS), loop),
        (fn("sag_percent", **pair), share),
        (fn("sag_percent_scaled", **pair, amps=AMPS), share * 12.5 / AMPS),
        (fn("difference", a=off, b=on), AMPS * loop),
        (fn("volts_with", unloaded=off, ohms=loop, amps=AMPS), on),
        (fn("volts_at_start", unloaded=off, ohms=loop, amps=START.amps("load") / 4), START.read("hot1", "n")),
    ]


def neutral_moves() -> list[Pair]:
    off, on = read("hot2", "n")
    fell = read("hot1", "n")
    moved = read("n", "earth")
    rose = {"unloaded": off, "loaded": on}
    share = NEUTRAL_OHMS / (NEUTRAL_OHMS + LEG_OHMS)
    names = ("rise_unloaded", "rise_loaded", "fall_unloaded", "fall_loaded")
    over = fn("rise_over_fall", **dict(zip(names, (off, on, *fell), strict=True)))
    names = ("ng_unloaded", "ng_loaded", "ln_unloaded", "ln_loaded")
    part = fn("neutral_share", **dict(zip(names, (*moved, *fell), strict=True)))
    found = fn("neutral_resistance", other_unloaded=off, other_loaded=on, amps=AMPS)
    hot = fn("hot_resistance", unloaded=fell[0], loaded=fell[1], amps=AMPS, neutral_ohms=found)
    return [
        (fn("rise", **rose), AMPS * NEUTRAL_OHMS),
        (fn("rise_scaled", **rose, amps=AMPS), 12.5 * NEUTRAL_OHMS),
        (over, share),
        (part, share),
        (found, NEUTRAL_OHMS),
        (hot, LEG_OHMS),
    ]


def neutral_of_208() -> list[Pair]:
    off, on = read("hot2", "n", off=pedestal(phase=THREE_PHASE), on=ON_208)
    found = fn("neutral_resistance_208y", other_unloaded=off, other_loaded=on, amps=AMPS_208)
    return [(found, NEUTRAL_OHMS)]


def own_share() -> list[Pair]:
    names = ("rig_unloaded", "rig_loaded", "outlet_unloaded", "outlet_loaded")
    readings = dict(zip(names, (*read("rig", "rig-n"), *read("hot1", "n")), strict=True))
    return [(fn("own_share", **readings, amps=AMPS), CORD_OHMS)]


def joint() -> list[Pair]:
    across = abs(ON.volts("hot1", "rig"))
    return [(fn("joint_watts", amps=AMPS, ohms=CORD_OHMS / 2 + 0.02, expected=0.02), across * AMPS)]


def legs() -> list[Pair]:
    pairs = []
    for phase in (SPLIT, THREE_PHASE, 1j, 1.0):
        circuit = pedestal(phase=phase)
        three = {
            "hot1": circuit.read("hot1", "n"),
            "hot2": circuit.read("hot2", "n"),
            "hot_hot": circuit.read("hot1", "hot2"),
        }
        angle = math.degrees(abs(cmath.phase(phase)))
        pairs += [
            (fn("leg_cosine", **three), math.cos(math.radians(angle))),
            (fn("leg_ratio", **three), abs(1 - phase) / 2),
            (math.cos(math.radians(fn("leg_angle", **three))), math.cos(math.radians(angle))),
        ]
    return pairs


def triangles() -> list[Pair]:
    grounded = ON.read("hot1", "earth"), ON.read("hot1", "n"), ON.read("n", "earth")
    hots = {"hot1": ON.read("hot1", "n"), "hot2": ON.read("hot2", "n")}
    return [
        (fn("triangle_excess", a=grounded[0], b=grounded[1], c=grounded[2]), 0),
        (fn("triangle_excess", a=hots["hot1"], b=hots["hot2"], c=ON.read("hot1", "hot2")), 0),
        (
            fn(
                "ground_disagreement",
                hot_ground=grounded[0],
                hot_neutral=grounded[1],
                neutral_ground=grounded[2],
            ),
            0,
        ),
        (fn("hot_earth_gap", hot_earth=grounded[0], hot_neutral=grounded[1]), AMPS * NEUTRAL_OHMS),
        (fn("leg_difference", **hots), AMPS * (LEG_OHMS + 2 * NEUTRAL_OHMS)),
    ]


def loose_neutral() -> list[Pair]:
    circuit = Circuit()
    circuit.add("leg1", "earth", "hot1", 1e-6, volts=120)
    circuit.add("leg2", "earth", "hot2", 1e-6, volts=-120)
    circuit.add("load1", "hot1", "n", HEATER)
    circuit.add("load2", "hot2", "n", 48)
    circuit.add("neutral", "n", "earth", 1.0)
    ohms = {"hot_hot": 240.0, "own_ohms": HEATER, "other_ohms": 48.0}
    loose = (fn("loose_neutral_volts", **ohms, neutral_ohms=1), circuit.read("hot1", "n"))
    circuit.open("neutral")
    return [loose, (fn("open_neutral_volts", **ohms), circuit.read("hot1", "n"))]


def neutral_carries() -> list[Pair]:
    pairs = []
    for degrees in (180.0, 120.0, 0.0):
        phase = cmath.rect(1, math.radians(degrees))
        circuit = pedestal(6.0, other=4.0, phase=phase)
        # Loose enough wire turns the currents a little; the solver's own angle between them is put in.
        one, two = circuit.volts("rig", "rig-n") / 6, circuit.volts("hot2", "n") / 4
        turned = math.degrees(cmath.phase(two / one))
        found = fn("neutral_current", amps1=abs(one), amps2=abs(two), degrees=turned)
        pairs.append((found, circuit.amps("neutral")))
    return pairs


def wire() -> list[Pair]:
    # ASTM B258: 10 AWG is 0.1019 in; IACS copper has 10.371 ohm for a circular mil and foot (computed)
    mils = 101.9**2
    area = np.pi / 4 * (0.1019 * 25.4) ** 2
    warm = np.interp(75, [20, 120], [1, 1.393])  # 0.393 % for each kelvin
    cold_class_5 = 7.98 * 0.3048
    return [
        (fn("gauge_mm2", gauge=10), float(area)),
        (fn("ohms_per_1000_ft", mm2=float(area), celsius=20, lay=1), 10371 / mils),
        (fn("ohms_per_1000_ft", mm2=float(area)), 10371 / mils * float(warm) * 1.02),
        (fn("class_5_per_1000_ft", mm2=2.5), cold_class_5 * float(warm)),
    ]


def cords() -> list[Pair]:
    circuit = Circuit()
    for foot in range(10):  # a cord of 10 ft as a chain, there and back
        circuit.add(f"out{foot}", f"o{foot}", f"o{foot + 1}", 0.00124)
        circuit.add(f"back{foot}", f"b{foot}", f"b{foot + 1}", 0.00124)
    circuit.add("source", "earth", "o0", 1e-9, volts=120)
    circuit.add("return", "b0", "earth", 1e-9)
    circuit.add("load", "o10", "b10", 4)
    amps, there = circuit.amps("load"), circuit.read("o10", "b10")
    lost = fn("cord_drop", amps=amps, feet=10, per_1000_ft=1.24)
    return [
        (lost, 120 - there),
        (fn("cord_ohms", feet=10, per_1000_ft=1.24), (120 - there) / amps),
        (fn("drop_percent", volts_lost=lost, volts=120), 100 - there / 1.2),
    ]


def extensions() -> list[Pair]:
    found: list[Pair] = []
    for gauge, per_1000_ft in ((14, 3.14), (12, 1.98), (10, 1.24)):  # NEC Chapter 9 Table 8, stranded (found)
        for feet in (50, 100):
            circuit = Circuit()
            circuit.add("out", "earth", "end", per_1000_ft * feet / 1000, volts=120)
            circuit.add("back", "end-n", "earth", per_1000_ft * feet / 1000)
            circuit.add("load", "end", "end-n", HEATER)
            lost = fn(f"drop_{gauge}_awg_{feet}_ft", amps=circuit.amps("load"))
            found.append((lost, 120 - circuit.read("end", "end-n")))
    return found


def feeder() -> list[Pair]:
    circuit = Circuit()
    for leg, volts in (("1", 120), ("2", -120)):
        circuit.add(f"leg{leg}", "earth", f"hot{leg}", 0.124, volts=volts)
        circuit.add(f"load{leg}", f"hot{leg}", "n", 4 if leg == "1" else 11)
    circuit.add("neutral", "earth", "n", 0.124)
    one, two = circuit.amps("load1"), circuit.amps("load2")
    length = {"feet": 100.0, "per_1000_ft": 1.24}
    return [
        (fn("leg_drop", own_amps=one, other_amps=two, **length), 120 - circuit.read("hot1", "n")),
        (fn("leg_drop", own_amps=two, other_amps=one, **length), 120 - circuit.read("hot2", "n")),
    ]


def running() -> list[Pair]:
    heater = Circuit()
    heater.add("source", "earth", "hot", 1e-9, volts=104)
    heater.add("load", "hot", "earth", HEATER)
    roots = np.roots([1, -1500 / 104])  # I = P / V
    return [
        (fn("heater_ohms", watts=1500), HEATER),
        (fn("load_amps", watts=1500, volts=104), heater.amps("load")),
        (fn("load_watts", watts=1500, volts=104), heater.amps("load") ** 2 * HEATER),
        (FORMULAS["load_amps"].fn(1500, 104, "constant-power"), float(roots[0])),
        (FORMULAS["load_watts"].fn(1500, 104, "constant-power"), 1500),
        (fn("share_percent", amps=24, rating=30), float(np.divide(24, 30)) * 100),
    ]


def park() -> list[Pair]:
    va = np.dot([6, 12, 3], [12_000, 3_600, 2_400])
    first = np.array([1, 2, 3, 4, 5, 6, 7, 10, 13, 16, 19, 22, 25, 36])
    factor = [100, 90, 80, 75, 65, 60, 55, 50, 48, 47, 45, 43, 42, 41][
        int(np.searchsorted(first, 21, "right")) - 1
    ]
    counted = {"sites_50": 6.0, "sites_30": 12.0, "sites_20": 3.0}
    return [
        (fn("connected_va", **counted), float(va)),
        (fn("demand_percent", sites=21), factor),
        (fn("demand_va", **counted), float(va) * factor / 100),
        (fn("demand_amps", va=48_000), float(np.linalg.solve([[240.0]], [48_000.0])[0])),
    ]


def neighbours() -> list[Pair]:
    wanted = []
    for sites, percent in ((3, 80), (9, 55), (20, 45)):
        circuit = Circuit()
        circuit.add("service", "earth", "hot", 0.02, volts=114)  # 6 V low of itself
        amps = sites * 12_000 * percent / 100 / 240
        circuit.add("sites", "hot", "earth", 114 / amps - 0.02)
        wanted.append((fn(f"beyond_{sites}_sites", unloaded=circuit.read("hot", "earth"), ohms=0.02), 6.0))
    return wanted


def body() -> list[Pair]:
    circuit = Circuit()
    circuit.add("skin", "earth", "metal", 1e-6, volts=50)
    circuit.add("person", "metal", "earth", 1000)
    return [(fn("body_milliamps", volts=50, ohms=1000), 1000 * circuit.amps("person"))]


def battery() -> list[Pair]:
    volts, charge = (11.6, 12.0, 12.2, 12.4, 12.6), (0, 25, 50, 75, 100)  # flooded, rested (found)
    glass_mat, its_charge = (11.8, 12.0, 12.3, 12.6, 12.8), (0, 25, 50, 75, 100)  # a manual (found)
    return [
        (fn("flooded_charge_at_least", volts=12.55), float(np.interp(12.45, volts, charge))),
        (fn("flooded_used_at_least", volts=11.9), 100 - float(np.interp(12.0, volts, charge))),
        (fn("agm_charge_at_least", volts=12.6), float(np.interp(12.5, glass_mat, its_charge))),
        (fn("agm_used_at_least", volts=12.1), 100 - float(np.interp(12.2, glass_mat, its_charge))),
        (fn("lifepo4_charge_at_least", volts=13.5), 90),  # sellers' charts (as told)
        (fn("lifepo4_used_at_least", volts=12.2), 80),  # the same
    ]


CHECKS: tuple[tuple[Callable[[], list[Pair]], tuple[str, ...]], ...] = (
    (
        sag,
        (
            "sag_resistance",
            "sag_percent",
            "sag_percent_scaled",
            "difference",
            "volts_with",
            "volts_at_start",
        ),
    ),
    (
        neutral_moves,
        ("rise", "rise_scaled", "rise_over_fall", "neutral_share", "neutral_resistance", "hot_resistance"),
    ),
    (neutral_of_208, ("neutral_resistance_208y",)),
    (own_share, ("own_share",)),
    (joint, ("joint_watts",)),
    (legs, ("leg_cosine", "leg_angle", "leg_ratio")),
    (triangles, ("triangle_excess", "ground_disagreement", "hot_earth_gap", "leg_difference")),
    (loose_neutral, ("loose_neutral_volts", "open_neutral_volts")),
    (neutral_carries, ("neutral_current",)),
    (wire, ("gauge_mm2", "ohms_per_1000_ft", "class_5_per_1000_ft")),
    (cords, ("cord_drop", "cord_ohms", "drop_percent")),
    (extensions, tuple(f"drop_{gauge}_awg_{feet}_ft" for gauge in TABLE_8 for feet in LENGTHS)),
    (feeder, ("leg_drop",)),
    (running, ("heater_ohms", "load_amps", "load_watts", "share_percent")),
    (
        park,
        (
            "connected_va",
            "demand_percent",
            "demand_va",
            "demand_amps",
        ),
    ),
    (neighbours, tuple(f"beyond_{sites}_sites" for sites in (3, 9, 20))),
    (body, ("body_milliamps",)),
    (
        battery,
        tuple(f"{name}_{what}_at_least" for name in CHEMISTRIES for what in ("charge", "used")),
    ),
)


@pytest.mark.parametrize("check", [check for check, _ in CHECKS], ids=lambda check: check.__name__)
def test_a_function_gives_what_the_circuit_gives(check: Callable[[], list[Pair]]) -> None:
    """Readings solved node by node go in; out comes what the circuit was made of."""
    for found, expected in check():
        assert found == pytest.approx(expected, rel=1e-3, abs=2e-4)


def test_every_formula_is_checked() -> None:
    """None is left to itself."""
    assert {name for _, names in CHECKS for name in names} == set(FORMULAS)
