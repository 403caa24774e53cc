"""A loop of a park as a circuit: service, feeder, neighbours, one pedestal with its outlets, a rig.

Modest numbers: 122 V at the source, about 0.11 ohm of hot and 0.045 ohm of neutral to the
pedestal, 60 pF between the conductors of one branch, 10 nF along the feeder.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from itertools import combinations

from .solver import Circuit

HEATER = 9.6  # ohm: 1,500 W at 120 V
BRANCH_F = 60e-12
FEEDER_F = 10e-9
CONTACT = 0.004

OUTLETS = {"50": ("L1", "L2", "N", "G"), "30": ("L", "N", "G"), "20": ("L", "N", "G")}


def phasor(volts: float, degrees: float) -> complex:
    return cmath.rect(volts, math.radians(degrees))


@dataclass(frozen=True)
class Park:
    """What a sound loop is made of. `leg2` None: a loop of one hot, with no 50 A outlet."""

    leg1: complex = 122.4
    leg2: complex | None = -121.7
    neighbour1: float | None = 16.0  # ohm from leg 1 to neutral, at the loop
    neighbour2: float | None = 15.0
    leg_of_30: str = "L1"
    leg_of_20: str = "L2"
    rod: float | None = 20.0  # ohm from the service's ground to earth
    own_rod: float | None = None  # at the pedestal
    rig_rod: float = 5e7  # ohm from the rig's tires and jacks to earth
    peg: float = 300.0  # ohm of the earth peg

    @property
    def hots(self) -> tuple[str, ...]:
        return ("L1",) if self.leg2 is None else ("L1", "L2")

    def leg(self, outlet: str, slot: str) -> str:
        """Return the bus that a slot is fed from."""
        if slot != "L":
            return slot
        leg = self.leg_of_30 if outlet == "30" else self.leg_of_20
        return leg if leg in self.hots else "L1"

    @property
    def outlets(self) -> tuple[str, ...]:
        return tuple(name for name in OUTLETS if name != "50" or self.leg2 is not None)


def couple(circuit: Circuit, name: str, nodes: list[str], farads: float) -> None:
    """Lay wires beside each other: the same capacitance between each two."""
    for one, other in combinations(nodes, 2):
        circuit.add(f"{name}.{one}~{other}", one, other, farads=farads)


def build(park: Park) -> Circuit:
    """Return the loop up to the empty slots, every breaker closed; nothing plugged in."""
    circuit = Circuit()
    wires = [*park.hots, "N", "G"]
    circuit.add("source.L1", "center", "service.L1", 0.03, volts=park.leg1)
    if park.leg2 is not None:
        circuit.add("source.L2", "center", "service.L2", 0.03, volts=park.leg2)
    circuit.add("source.N", "center", "service.N", 0.002)
    circuit.add("bond", "service.N", "service.G", 0.002)
    if park.rod is not None:
        circuit.add("rod", "service.G", "earth", park.rod)
    for wire in wires:
        circuit.add(f"feeder.{wire}", f"service.{wire}", f"loop.{wire}", 0.035)
        circuit.add(f"drop.{wire}", f"loop.{wire}", f"pedestal.{wire}", 0.025 if wire != "N" else 0.008)
    couple(circuit, "feeder", [f"loop.{wire}" for wire in wires], FEEDER_F)
    circuit.add("feeder.soil", "loop.G", "earth", farads=FEEDER_F / 8)
    if park.own_rod is not None:
        circuit.add("own_rod", "pedestal.G", "earth", park.own_rod)
    for leg, ohms in zip(park.hots, (park.neighbour1, park.neighbour2), strict=False):
        if ohms is not None:
            circuit.add(f"neighbour.{leg}", f"loop.{leg}", "loop.N", ohms)
    circuit.add("peg", "peg", "earth", park.peg)
    for outlet in park.outlets:
        for slot in OUTLETS[outlet]:
            bus = f"pedestal.{park.leg(outlet, slot)}"
            start = bus
            if slot.startswith("L"):
                start = f"{outlet}.{slot}.breaker"
                circuit.add(f"breaker.{outlet}.{slot}", bus, start, 0.01)
            circuit.add(f"branch.{outlet}.{slot}", start, f"{outlet}.{slot}", 0.004)
        couple(circuit, f"branch.{outlet}", [f"{outlet}.{slot}" for slot in OUTLETS[outlet]], BRANCH_F)
    return circuit
