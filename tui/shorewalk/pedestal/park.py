"""A loop of a park as a circuit: service, feeder, neighbours, one pedestal with its outlets.

Modest, invented numbers about a usual loop: a service of 120 V a leg, some 0.1 ohm of hot to the pedestal, 60 pF
between the wires of one branch and 10 nF along the feeder (common practice; no source gives a typical one).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from itertools import combinations
from random import Random

import numpy as np

from .circuit import EARTH, Circuit, Element, Value

OUTLETS = {"50": ("L1", "L2", "N", "G"), "30": ("L", "N", "G"), "20": ("L", "N", "G")}
"""The slots of each outlet."""

BRANCH_FARADS, FEEDER_FARADS = 60e-12, 10e-9
ANGLES = {"split-phase": 180.0, "208": 120.0, "high-leg": 90.0}
"""Degrees between the two hots of a service."""


@dataclass(frozen=True, slots=True)
class Park:
    """What a sound loop is made of: volts at the service; ohms of wires, neighbours (0: none) and earth.

    `service`: one-hot (no 50 A outlet), split-phase, 208 or high-leg.
    """

    service: str = "split-phase"
    volts1: float = 122.4
    volts2: float = 121.7
    neighbour1: float = 16.0
    neighbour2: float = 15.0
    feeder: float = 0.035
    drop: float = 0.025
    drop_neutral: float = 0.008
    leg_of_30: str = "L1"
    leg_of_20: str = "L2"
    rod: float = 20.0
    peg: float = 300.0
    tires: float = 5e7
    leak: float = 0.0

    @property
    def hots(self) -> tuple[str, ...]:
        """Return the hot wires of the loop."""
        return ("L1",) if self.service == "one-hot" else ("L1", "L2")

    @property
    def outlets(self) -> tuple[str, ...]:
        """Return the outlets of the pedestal."""
        return tuple(name for name in OUTLETS if name != "50" or len(self.hots) == 2)

    def fed_by(self, outlet: str, slot: str) -> str:
        """Return the wire of the loop that feeds a slot."""
        if slot != "L":
            return slot
        leg = self.leg_of_30 if outlet == "30" else self.leg_of_20
        return leg if leg in self.hots else "L1"


def usual(chance: Random) -> Park:
    """Return a sound loop as one may come upon it: within the usual volts, wires long or short, neighbours or none."""

    def between(low: float, high: float) -> float:
        return math.exp(chance.uniform(math.log(low), math.log(high)))

    volts = chance.uniform(119.0, 124.0)
    return Park(
        service=chance.choice(["split-phase", "split-phase", "split-phase", "208", "one-hot"]),
        volts1=volts + chance.uniform(-0.4, 0.4),
        volts2=volts + chance.uniform(-0.4, 0.4),
        neighbour1=chance.choice([0.0, between(4.0, 60.0)]),
        neighbour2=chance.choice([0.0, between(4.0, 60.0)]),
        feeder=between(0.01, 0.04),
        drop=between(0.01, 0.03),
        drop_neutral=between(0.005, 0.02),
        leg_of_30=chance.choice(["L1", "L2"]),
        leg_of_20=chance.choice(["L1", "L2"]),
        rod=between(5.0, 100.0),
        peg=between(50.0, 3000.0),
        leak=chance.choice([0.0, between(20e3, 200e3)]),
    )


def build(park: Park) -> Circuit:
    """Return the loop up to the empty slots, every breaker closed, nothing plugged in.

    Nodes: `service.X`, `loop.X` and `pedestal.X` of each wire, `OUTLET.SLOT`, `peg`.
    """
    wires = [*park.hots, "N", "G"]
    parts = {
        "source.L1": Element("center", "service.L1", 0.03, volts=park.volts1),
        "source.N": Element("center", "service.N", 0.002),
        "bond": Element("service.N", "service.G", 0.002),
        "rod": Element("service.G", EARTH, park.rod),
        "soil": Element("loop.G", EARTH, farads=FEEDER_FARADS / 8),
        "peg": Element("peg", EARTH, park.peg),
    }
    if len(park.hots) == 2:
        phasor = park.volts2 * cmath.rect(1.0, math.radians(-ANGLES[park.service]))
        parts["source.L2"] = Element("center", "service.L2", 0.03, volts=phasor)
    for wire in wires:
        parts[f"feeder.{wire}"] = Element(f"service.{wire}", f"loop.{wire}", park.feeder)
        ohms = park.drop_neutral if wire == "N" else park.drop
        parts[f"drop.{wire}"] = Element(f"loop.{wire}", f"pedestal.{wire}", ohms)
    parts |= beside("feeder", [f"loop.{wire}" for wire in wires], FEEDER_FARADS)
    for leg, ohms in zip(park.hots, (park.neighbour1, park.neighbour2), strict=False):
        parts[f"neighbour.{leg}"] = Element(f"loop.{leg}", "loop.N", _or_open(ohms))
    parts["neighbour.leak"] = Element("loop.L1", "loop.G", _or_open(park.leak))
    for outlet in park.outlets:
        for slot in OUTLETS[outlet]:
            begins = f"pedestal.{park.fed_by(outlet, slot)}"
            if slot.startswith("L"):
                parts[f"breaker.{outlet}.{slot}"] = Element(begins, f"{outlet}.{slot}.breaker", 0.01)
                begins = f"{outlet}.{slot}.breaker"
            parts[f"branch.{outlet}.{slot}"] = Element(begins, f"{outlet}.{slot}", 0.004)
        parts |= beside(f"branch.{outlet}", [f"{outlet}.{slot}" for slot in OUTLETS[outlet]], BRANCH_FARADS)
    return Circuit(parts)


def _or_open(ohms: Value) -> Value:
    return np.where(ohms, ohms, math.inf) if np.ndim(ohms) else ohms or math.inf


def beside(name: str, nodes: list[str], farads: float) -> dict[str, Element]:
    """Return wires that lie beside each other: the same capacitance between each two."""
    return {f"{name}.{a}~{b}": Element(a, b, farads=farads) for a, b in combinations(nodes, 2)}
