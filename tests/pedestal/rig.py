"""Our side of the plug: contacts, protector, cord, main, branches, neutral and ground of a rig."""

from __future__ import annotations

from .park import BRANCH_F, CONTACT, OUTLETS, Park, couple
from .solver import Circuit

CORD_OHMS = {"50": 0.02, "30": 0.03, "20": 0.04}  # a conductor: cord, protector and inlet


def plug_in(circuit: Circuit, park: Park, outlet: str) -> None:
    """Put the cord into an outlet: contact, cord, main, and the rig's busbars."""
    slots = OUTLETS[outlet]
    for slot in slots:
        circuit.add(f"contact.{slot}", f"{outlet}.{slot}", f"plug.{slot}", CONTACT)
        circuit.add(f"cord.{slot}", f"plug.{slot}", f"inlet.{slot}", CORD_OHMS[outlet])
    couple(circuit, "cord", [f"inlet.{slot}" for slot in slots], BRANCH_F)
    for slot in slots:
        if slot.startswith("L"):
            circuit.add(f"main.{slot}", f"inlet.{slot}", f"panel.{slot}", 0.008)
            circuit.add(f"filter.{slot}", f"panel.{slot}", "inlet.G", 1e7, farads=2e-10)
    circuit.add("skin.soil", "inlet.G", "earth", park.rig_rod, farads=1e-9)


def panel_of(place: str, outlet: str) -> str:
    """Return the leg that a rig outlet is on: `a` shares the test load's, `b` the other."""
    if outlet != "50":
        return "panel.L"
    return "panel.L1" if place == "rig-outlet-a" else "panel.L2"
