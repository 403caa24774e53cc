"""What stands at the site and how it is switched; every reading is solved from that."""

from __future__ import annotations

from dataclasses import dataclass, field

from .park import CONTACT, HEATER, OUTLETS, Park
from .rig import panel_of, plug_in
from .solver import METER_OHMS, Circuit

LOW_IMPEDANCE = 3e3


@dataclass
class World:
    """A pedestal with a fault (or none), one rig, one heater. Handles stand as they were found.

    `stuck`: breaker poles that stay closed whatever the handle says. `idle_tries`: how often an
    outlet's breaker is switched on without effect (off by another handle, or tripped).
    `contacts`: ohms of a contact of the outlet in use, by slot.
    """

    park: Park
    circuit: Circuit
    stuck: frozenset[str] = frozenset()
    contacts: dict[str, float] = field(default_factory=dict)
    idle_tries: dict[str, int] = field(default_factory=dict)
    trips_as: str = "off"
    handles: dict[str, bool] = field(default_factory=lambda: {"50": False, "30": False, "20": False})
    cord: str | None = None
    main: bool = False
    branches: str = "all-off"
    load_at: str | None = None  # pedestal-20 or rig
    load_on: bool = False
    heater: float = HEATER
    _cache: dict[object, Circuit] = field(default_factory=dict)

    def switch(self, outlet: str, *, on: bool) -> None:
        if on and self.idle_tries.get(outlet, 0) > 0:
            self.idle_tries[outlet] -= 1
            return
        self.handles[outlet] = on

    def forget(self) -> None:
        """Solve afresh: the site itself has changed."""
        self._cache.clear()

    def as_it_stands(self) -> Circuit:
        """Return the circuit with every handle, plug and load as it is now."""
        key = (
            tuple(self.handles.values()), self.cord, self.main, self.branches, self.load_at, self.load_on
        )  # fmt: skip
        if key not in self._cache:
            self._cache[key] = self._wire()
        return self._cache[key]

    def _wire(self) -> Circuit:
        circuit = self.circuit.copy()
        for name in list(circuit.elements):
            kind, _, rest = name.partition(".")
            if kind == "breaker" and not self.handles[rest.split(".")[0]] and name not in self.stuck:
                circuit.open(name)
        if self.cord is not None:
            plug_in(circuit, self.park, self.cord)
            for slot, ohms in self.contacts.items():
                circuit.set_ohms(f"contact.{slot}", ohms)
            for slot in OUTLETS[self.cord]:
                if slot.startswith("L") and not self.main:
                    circuit.open(f"main.{slot}")
            if self.branches == "on":
                for slot in (s for s in OUTLETS[self.cord] if s.startswith("L")):
                    circuit.add(f"running.{slot}", f"panel.{slot}", "inlet.N", 60.0)
        if self.load_on and self.load_at == "pedestal-20":
            circuit.add("load", "20.L", "20.N", self.heater + 2 * CONTACT)
        elif self.load_on and self.load_at == "rig" and self.cord is not None and self.branches != "all-off":
            circuit.add("load", panel_of("rig-outlet-a", self.cord), "inlet.N", self.heater + 0.05)
        return circuit

    def node(self, place: str, terminal: str) -> str:
        """Return the node where a probe lands."""
        if terminal == "earth":
            return "peg"
        if place == "rig-skin":
            if terminal == "skin":
                return "inlet.G"
            free = next(
                name for name in ("20", "30", "50") if name != self.cord and name in self.park.outlets
            )
            return f"{free}.G"
        if place.startswith("pedestal-"):
            outlet = place.split("-")[1]
            assert self.cord != outlet, f"a probe at {place}, which holds our plug"
            assert place != "pedestal-20" or self.load_at != "pedestal-20", "a probe at the load's plug"
            return f"{outlet}.{terminal}"
        assert place.startswith("rig-outlet"), f"no such place here: {place}"
        assert self.cord is not None, "a reading in the rig with the cord out"
        if terminal == "L":
            return panel_of(place, self.cord) if self.branches != "all-off" else "unfed"
        return f"inlet.{terminal}"

    def read(self, place: str, one: str, other: str, *, low_impedance: bool = False) -> float:
        """Return what an exact meter shows."""
        ends = self.node(place, one), self.node(place, other)
        if "unfed" in ends:
            return 0.0
        return self.as_it_stands().read(*ends, LOW_IMPEDANCE if low_impedance else METER_OHMS)

    def load_watts(self) -> float:
        """Return what the test load takes now."""
        circuit = self.as_it_stands()
        return circuit.amps("load") ** 2 * self.heater if "load" in circuit.elements else 0.0
