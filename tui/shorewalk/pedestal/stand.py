"""What stands at a make-believe pedestal and how it is switched; every reading is solved from that."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from .circuit import LOW_IMPEDANCE_OHMS, METER_OHMS, Circuit, Element, Solved
from .park import BRANCH_FARADS, OUTLETS, Park, beside

CONTACT = 0.004
CORD = {"50": 0.02, "30": 0.03, "20": 0.04}
"""Ohms of one conductor of cord, protector and inlet."""

HEATER = 9.6
"""Ohms of the test load: 1,500 W at 120 V."""

RUNNING = 60.0
"""Ohms on each leg where every branch is on."""


@dataclass(frozen=True, slots=True)
class Switched:
    """How all that can be switched or plugged stands. `cord`, `load`: where it is plugged in, or nothing.

    `vain`: the breaker was switched on, and gives no power.
    """

    breaker: bool = False
    vain: bool = False
    cord: str | None = None
    main: bool = False
    branches: str = "all-off"
    load: str | None = None
    load_on: bool = False


@dataclass
class Stand:
    """A pedestal with what is wrong with it, and one rig.

    `stuck`: breaker poles that stay closed. `contacts`: ohms of a contact of our plug, by slot. `idle`: how often the
    breaker is switched on in vain; it stands `tripped` meanwhile, or off.
    """

    park: Park
    circuit: Circuit
    stuck: frozenset[str] = frozenset()
    contacts: dict[str, float] = field(default_factory=dict)
    idle: int = 0
    tripped: bool = False
    switched: Switched = Switched()
    _solved: dict[Switched, Solved] = field(default_factory=dict)

    def follow(self, state: Mapping[str, str]) -> None:
        """Bring breaker, cord, main, branches and load to how a walk says that they stand."""
        was = self.switched
        cord = state.get("cord", "").removeprefix("pedestal-")
        plugged = {"": was.cord, "plugged": was.cord, "unplugged": None}.get(cord, cord)
        load = state.get("test-load", was.load or "off")
        breaker = state.get("pedestal-breaker", "on" if was.breaker else "off") == "on"
        self.switched = replace(
            was,
            breaker=breaker,
            vain=was.vain and breaker,
            cord=plugged,
            main=state.get("rig-main", "on" if was.main else "off") == "on",
            branches=state.get("rig-branches", was.branches),
            load=None if load == "off" else load,
            load_on=was.load_on and load != "off",
        )

    def done(self, leaves: Iterable[tuple[str, str]]) -> None:
        """A step was done that leaves this: a breaker that is switched on may be so in vain."""
        if ("pedestal-breaker", "on") in leaves:
            self.switched = replace(self.switched, breaker=True, vain=self.idle > 0)
            self.idle = max(0, self.idle - 1)

    def solve(self) -> Solved:
        """Return the circuit as it stands now, solved."""
        now = self.switched
        if now not in self._solved:
            self._solved[now] = self.wired(now).solve()
        return self._solved[now]

    def wired(self, now: Switched) -> Circuit:
        """Return the circuit with everything switched so."""
        circuit = self.circuit
        if not now.breaker or now.vain:
            for name in circuit.elements:
                if name.startswith("breaker.") and name not in self.stuck:
                    circuit = circuit.open(name)
        parts: dict[str, Element] = {}
        if now.cord:
            parts |= self._rig(now, now.cord)
        if now.load_on and now.load == "pedestal-20":
            parts["load"] = Element("20.L", "20.N", HEATER + 2 * CONTACT)
        elif now.load_on and now.load == "rig" and now.cord and now.branches != "all-off":
            parts["load"] = Element(panel("rig-outlet-a", now.cord), "inlet.N", HEATER + 0.05)
        return Circuit({**circuit.elements, **parts})

    def _rig(self, now: Switched, outlet: str) -> dict[str, Element]:
        """Return our side of the plug: contacts, cord, main, the rig's busbars and filters, its tires."""
        slots = OUTLETS[outlet]
        parts = beside("cord", [f"inlet.{slot}" for slot in slots], BRANCH_FARADS)
        parts["tires"] = Element("inlet.G", "earth", self.park.tires, farads=1e-9)
        for slot in slots:
            parts[f"contact.{slot}"] = Element(
                f"{outlet}.{slot}", f"plug.{slot}", self.contacts.get(slot, CONTACT)
            )
            parts[f"cord.{slot}"] = Element(f"plug.{slot}", f"inlet.{slot}", CORD[outlet])
            if slot.startswith("L"):
                closed = 0.008 if now.main else math.inf
                parts[f"main.{slot}"] = Element(f"inlet.{slot}", f"panel.{slot}", closed)
                parts[f"filter.{slot}"] = Element(f"panel.{slot}", "inlet.G", 1e7, farads=2e-10)
                if now.branches == "on":
                    parts[f"running.{slot}"] = Element(f"panel.{slot}", "inlet.N", RUNNING)
        return parts

    def node(self, place: str, terminal: str) -> str | None:
        """Return the node where a probe lands; nothing where no wire comes to it."""
        now = self.switched
        if terminal == "earth":
            return "peg"
        if place == "rig-skin":
            if terminal == "skin":
                return "inlet.G"
            free = (name for name in ("20", "30", "50") if name != now.cord and name in self.park.outlets)
            return f"{next(free)}.G"
        if place.startswith("pedestal-"):
            return f"{place.split('-')[1]}.{terminal}"
        if now.cord and terminal == "L":
            return panel(place, now.cord) if now.branches != "all-off" else None
        return f"inlet.{terminal}" if now.cord else None

    def read(self, place: str, one: str, other: str, *, low_impedance: bool = False) -> float:
        """Return what an exact voltmeter shows there now."""
        ends = self.node(place, one), self.node(place, other)
        if ends[0] is None or ends[1] is None:
            return 0.0
        meter = LOW_IMPEDANCE_OHMS if low_impedance else METER_OHMS
        return float(self.solve().read(ends[0], ends[1], meter)[0])

    def load_watts(self) -> float:
        """Return what the test load takes now."""
        solved = self.solve()
        return float(solved.amps("load")[0]) ** 2 * HEATER if "load" in solved.circuit.elements else 0.0


def panel(place: str, outlet: str) -> str:
    """Return the busbar that a rig outlet is on: `rig-outlet-a` shares the test load's leg, `b` the other."""
    if outlet != "50":
        return "panel.L"
    return "panel.L1" if place == "rig-outlet-a" else "panel.L2"
