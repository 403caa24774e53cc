"""Our side of the plug as a circuit: contacts, protector, cord, transfer switch, main, branches, metal.

Nodes: `plug.S` of each slot, `lead.S` of each hot behind the protector, `inlet.S`, `transfer.S`, `panel.S`,
`circuits.S` behind the branch breakers, `skin`. Every element is there always, open where it is switched off, so
that a fault can name it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from .circuit import EARTH, Element, Value
from .park import BRANCH_FARADS, OUTLETS, beside

CONTACT = 0.004
CORD = {"50": 0.02, "30": 0.03, "20": 0.04}
"""Ohms of one conductor of cord and inlet."""

HEATER = 9.6
"""Ohms of the test load: 1,500 W at 120 V."""

RUNNING = 60.0
"""Ohms on each leg where every branch is on and nothing big runs."""

APPLIANCES = {"L": 2e-9, "L1": 2e-9, "L2": 1e-9}
"""Farads of the filters of what runs, from a hot to the rig's metal (common practice: 1 to 5 nF an appliance)."""


@dataclass(frozen=True, slots=True)
class Rigged:
    """How our side stands. `protector`: whether it lets the power through.

    `running`: ohms that run on each leg; `lopsided`: how many times as many on the second.
    """

    outlet: str
    main: bool
    branches: str
    protector: bool = True
    running: Value = RUNNING
    lopsided: float = 1.0


def rig_parts(rigged: Rigged, contacts: Mapping[str, float], tires: Value) -> dict[str, Element]:
    """Return the elements of a rig whose plug is in an outlet; `contacts` are ohms by slot where they are not usual."""
    outlet, slots = rigged.outlet, OUTLETS[rigged.outlet]
    parts = beside("cord", [f"inlet.{slot}" for slot in slots], BRANCH_FARADS)
    parts["frame"] = Element("inlet.G", "skin", 0.005)
    parts["tires"] = Element("skin", EARTH, tires, farads=1e-9)
    for slot in slots:
        begins = f"plug.{slot}"
        parts[f"contact.{slot}"] = Element(f"{outlet}.{slot}", begins, contacts.get(slot, CONTACT))
        if slot.startswith("L"):
            parts[f"protector.{slot}"] = Element(begins, f"lead.{slot}", _closed(rigged.protector, 0.001))
            begins = f"lead.{slot}"
            parts |= _hot(slot, rigged)
        parts[f"cord.{slot}"] = Element(begins, f"inlet.{slot}", CORD[outlet])
    return parts


def _hot(slot: str, rigged: Rigged) -> dict[str, Element]:
    on = rigged.branches == "on"
    runs = rigged.running * (rigged.lopsided if slot == "L2" else 1.0)
    return {
        f"transfer.{slot}": Element(f"inlet.{slot}", f"transfer.{slot}", 0.001),
        f"main.{slot}": Element(f"transfer.{slot}", f"panel.{slot}", _closed(rigged.main, 0.006)),
        f"filter.{slot}": Element(f"panel.{slot}", "inlet.G", 1e7, farads=2e-10),
        f"branches.{slot}": Element(f"panel.{slot}", f"circuits.{slot}", _closed(on, 0.01)),
        f"running.{slot}": Element(f"circuits.{slot}", "inlet.N", runs),
        f"appliances.{slot}": Element(f"circuits.{slot}", "inlet.G", farads=APPLIANCES[slot]),
    }


def _closed(closed: bool, ohms: float) -> float:  # noqa: FBT001 - a switch
    return ohms if closed else math.inf


def panel(place: str, outlet: str) -> str:
    """Return the busbar that a rig outlet is on: `rig-outlet-a` shares the test load's leg, `b` the other."""
    if outlet != "50":
        return "panel.L"
    return "panel.L1" if place == "rig-outlet-a" else "panel.L2"
