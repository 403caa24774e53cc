"""Edits of a sound loop that the rows of the table are made of; `{o}` is the outlet in use, `{h}` its hot slot."""

from __future__ import annotations

from collections.abc import Callable

from shorewalk.pedestal.circuit import EARTH, Circuit, Element

Edit = Callable[[Circuit, str], Circuit]


def nothing(circuit: Circuit, outlet: str) -> Circuit:  # noqa: ARG001
    """Leave all as it is."""
    return circuit


def hot(outlet: str) -> str:
    return "L1" if outlet == "50" else "L"


def opened(*names: str) -> Edit:
    """Break conductors."""

    def edit(circuit: Circuit, outlet: str) -> Circuit:
        for name in names:
            circuit = circuit.open(name.format(o=outlet, h=hot(outlet)))
        return circuit

    return edit


def ohms(name: str, value: float) -> Edit:
    def edit(circuit: Circuit, outlet: str) -> Circuit:
        return circuit.change(name.format(o=outlet, h=hot(outlet)), ohms=value)

    return edit


def swapped(one: str, other: str) -> Edit:
    def edit(circuit: Circuit, outlet: str) -> Circuit:
        return circuit.swap(*(f"branch.{outlet}.{slot.format(h=hot(outlet))}" for slot in (one, other)))

    return edit


def tied(circuit: Circuit, outlet: str) -> Circuit:
    return circuit.put("tie", Element(f"{outlet}.N", f"{outlet}.G", 0.002))


def own_rod(circuit: Circuit, outlet: str) -> Circuit:  # noqa: ARG001
    """The ground is open upstream, and the pedestal has a rod of its own."""
    return circuit.open("feeder.G").put("own_rod", Element("pedestal.G", EARTH, 30.0))


def false_ground(circuit: Circuit, outlet: str) -> Circuit:
    """Hot and neutral reversed, the ground slot tied to the neutral slot, the ground wire not connected."""
    return tied(swapped("{h}", "N")(circuit, outlet).open(f"branch.{outlet}.G"), outlet)


def false_ground_upstream(circuit: Circuit, outlet: str) -> Circuit:  # noqa: ARG001
    """The same before the pedestal: no ground of it stands in for the earth."""
    turned = circuit.swap("drop.L1", "drop.N").open("drop.G")
    return turned.put("tie", Element("pedestal.N", "pedestal.G", 0.002))


def ground_live(circuit: Circuit, outlet: str) -> Circuit:
    """The loop's ground is open, and a neighbour leaks to it from the leg of this outlet."""
    leak = Element(f"loop.{_leg(circuit, outlet)}", "loop.G", 150.0)
    return circuit.open("feeder.G").put("leak", leak)


def no_bond(circuit: Circuit, outlet: str) -> Circuit:
    """Neutral and ground are not bonded at the service; at a neighbour a hot of the other leg is grounded."""
    other = "L2" if _leg(circuit, outlet) == "L1" else "L1"
    return circuit.open("bond").put("leak", Element(f"loop.{other}", "loop.G", 0.5))


def _leg(circuit: Circuit, outlet: str) -> str:
    return circuit.elements[f"breaker.{outlet}.{hot(outlet)}"].a.split(".")[1]


def wired_for_240(circuit: Circuit, outlet: str) -> Circuit:
    """The neutral slot is fed from the other leg, through the second pole of the breaker."""
    other = "L2" if _leg(circuit, outlet) == "L1" else "L1"
    pole = Element(f"pedestal.{other}", f"{outlet}.N.breaker", 0.01)
    fed = circuit.put(f"breaker.{outlet}.N", pole)
    return fed.change(f"branch.{outlet}.N", a=f"{outlet}.N.breaker")


def back_fed(load: float) -> Edit:
    """Leg 2 is lost before the loop; a neighbour's 240 V appliance feeds what hangs on it (infinite ohms: nothing)."""

    def edit(circuit: Circuit, outlet: str) -> Circuit:  # noqa: ARG001
        lost = circuit.open("source.L2").change("neighbour.L2", ohms=load)
        return lost.put("appliance", Element("loop.L1", "loop.L2", 12.9))

    return edit


def one_leg_twice(circuit: Circuit, outlet: str) -> Circuit:  # noqa: ARG001
    return circuit.change("breaker.50.L2", a="pedestal.L1")


def generator(circuit: Circuit, outlet: str) -> Circuit:  # noqa: ARG001
    """A floating neutral: no bond, no rod, and filters that hold the ground half way."""
    floating = circuit.open("bond").open("rod")
    for name, end in (("hot", "L1"), ("neutral", "N")):
        floating = floating.put(f"filter.{name}", Element(f"service.{end}", "service.G", farads=1e-7))
    return floating
