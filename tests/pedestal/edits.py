"""The faults of a pedestal, each an edit on the circuit of a sound one."""

from __future__ import annotations

from collections.abc import Callable

from .solver import Circuit

Edit = Callable[[Circuit, str], None]


def nothing(circuit: Circuit, outlet: str) -> None:
    """Leave all as it is."""


def hot(outlet: str) -> str:
    return "L1" if outlet == "50" else "L"


def opened(*names: str) -> Edit:
    """Break conductors; `{o}` is the outlet in use, `{h}` its hot slot."""

    def edit(circuit: Circuit, outlet: str) -> None:
        for name in names:
            circuit.open(name.format(o=outlet, h=hot(outlet)))

    return edit


def ohms(name: str, value: float) -> Edit:
    def edit(circuit: Circuit, outlet: str) -> None:
        circuit.set_ohms(name.format(o=outlet, h=hot(outlet)), value)

    return edit


def swapped(one: str, other: str) -> Edit:
    def edit(circuit: Circuit, outlet: str) -> None:
        circuit.swap(*(f"branch.{outlet}.{slot.format(h=hot(outlet))}" for slot in (one, other)))

    return edit


def tied(circuit: Circuit, outlet: str) -> None:
    circuit.add("tie", f"{outlet}.N", f"{outlet}.G", 0.002)


def false_ground(circuit: Circuit, outlet: str) -> None:
    """Hot and neutral reversed, the ground slot tied to the neutral slot, the ground wire not connected."""
    swapped("{h}", "N")(circuit, outlet)
    circuit.open(f"branch.{outlet}.G")
    tied(circuit, outlet)


def false_ground_upstream(circuit: Circuit, _: str) -> None:
    """The same before the pedestal: no ground of it stands in for the earth."""
    circuit.swap("drop.L1", "drop.N")
    circuit.open("drop.G")
    circuit.add("tie", "pedestal.N", "pedestal.G", 0.002)


def ground_live(circuit: Circuit, outlet: str) -> None:
    """The loop's ground is open, and a neighbour leaks to it from the leg of this outlet."""
    circuit.open("feeder.G")
    circuit.add("leak", f"loop.{_leg(circuit, outlet)}", "loop.G", 150.0)


def no_bond(circuit: Circuit, outlet: str) -> None:
    """Neutral and ground are not bonded at the service; at a neighbour a hot of the other leg is grounded."""
    circuit.open("bond")
    other = "L2" if _leg(circuit, outlet) == "L1" else "L1"
    circuit.add("leak", f"loop.{other}", "loop.G", 0.5)


def _leg(circuit: Circuit, outlet: str) -> str:
    return circuit.elements[f"breaker.{outlet}.{hot(outlet)}"].a.split(".")[1]


def wired_for_240(circuit: Circuit, outlet: str) -> None:
    """The neutral slot is fed from the other leg, through the second pole of the breaker."""
    other = "L2" if _leg(circuit, outlet) == "L1" else "L1"
    circuit.add(f"breaker.{outlet}.N", f"pedestal.{other}", f"{outlet}.N.breaker", 0.01)
    circuit.move(f"branch.{outlet}.N", a=f"{outlet}.N.breaker")


def back_fed(load: float | None) -> Edit:
    """Leg 2 is lost before the loop; a neighbour's 240 V appliance feeds what hangs on it."""

    def edit(circuit: Circuit, _: str) -> None:
        circuit.open("source.L2")
        if load is None:
            if "neighbour.L2" in circuit.elements:
                circuit.open("neighbour.L2")
        else:
            circuit.set_ohms("neighbour.L2", load)
        circuit.add("appliance", "loop.L1", "loop.L2", 12.9)

    return edit


def one_leg_twice(circuit: Circuit, _: str) -> None:
    circuit.move("breaker.50.L2", a="pedestal.L1")


def generator(circuit: Circuit, _: str) -> None:
    """A floating neutral: no bond, no rod, and filters that hold the ground half way."""
    circuit.open("bond")
    circuit.open("rod")
    circuit.add("filter.hot", "service.L1", "service.G", farads=1e-7)
    circuit.add("filter.neutral", "service.N", "service.G", farads=1e-7)
