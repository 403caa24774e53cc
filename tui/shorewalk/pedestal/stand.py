"""What stands at a make-believe pedestal and how it is switched; every reading is solved from that."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from . import protector
from .battery import Battery
from .circuit import LOW_IMPEDANCE_OHMS, METER_OHMS, Circuit, Element, Solved, Value
from .edits import Drawn, edited
from .park import Park
from .rig import CONTACT, HEATER, RUNNING, Rigged, panel, rig_parts
from .switched import Switched
from .trips import AFTER_A_WHILE, trip

__all__ = ["HEATER", "Stand", "Switched", "panel"]

STAGES = (("at-plug-in", False, "all-off"), ("at-main-on", True, "all-off"), ("one-circuit", True, "on"))
"""How a rig comes into use: what somebody says if it trips then, the main, the branches."""
RUNS = 60.0
"""Volts from which something in the rig runs at all."""


@dataclass
class Stand:
    """A pedestal with what is wrong with it, and one rig.

    `stuck`: breaker poles that stay closed. `contacts`: ohms of a contact of our plug, by slot. `idle`: how often the
    breaker is switched on in vain; it stands `tripped` meanwhile, or off. `outlet`: the one in use; without it, all
    breakers go together. `rig_edits`: edits of our side. `running`: ohms that run on each leg, `lopsided` times as many
    on the second. `trips_at`: the share of its number at which the breaker trips after a while. `waits`: how often the
    protector is still counting. `story`: what tripped, and when, as the rig came into use.
    """

    park: Park
    circuit: Circuit
    stuck: frozenset[str] = frozenset()
    contacts: dict[str, float] = field(default_factory=dict)
    idle: int = 0
    tripped: bool = False
    switched: Switched = field(default_factory=Switched)
    outlet: str = ""
    rig_edits: tuple[Drawn, ...] = ()
    running: Value = RUNNING
    lopsided: float = 1.0
    trips_at: float = AFTER_A_WHILE
    battery: Battery = field(default_factory=Battery)
    waits: int = 0
    story: dict[str, str] = field(default_factory=dict)
    _solved: dict[Switched, Solved] = field(default_factory=dict)

    def follow(self, state: Mapping[str, str]) -> None:
        """Bring breaker, cord, main, branches, protector and load to how a walk says that they stand."""
        told = self.switched.told(state, self.outlet)
        if told != self.switched:
            self.switch(told)

    def switch(self, now: Switched) -> list[str]:
        """Switch, let trip what has to, and return how each did; nothing trips where no outlet is in use."""
        self.switched = now
        tripped: list[str] = []
        while self.outlet and (now.cord or now.load_on) and (how := trip(self)):
            tripped.append(how)
        return tripped

    def done(self, leaves: Iterable[tuple[str, str]], words: str = "") -> None:
        """A step was done that leaves this: a breaker that is switched on may be so in vain. `words`: what it says."""
        for name, value in leaves:
            if name == "pedestal-breaker":
                on, vain = value == "on", self.idle > 0
                self.idle = max(0, self.idle - 1) if on else self.idle
                self.switch(self.switched.handled(words, self.outlet, on=on, vain=vain))
        if "reset button" in words.casefold():
            self.switch(replace(self.switched, popped=False))
        if "charger's breaker o" in words:
            self.switched = replace(self.switched, charger="charger's breaker on" in words)
        if "Choose what will" in words or "tape over" in words:
            self.running = RUNNING
            self.rig_edits = tuple(edit for edit in self.rig_edits if not edit.on_a_circuit)
            self._solved.clear()

    def begin_in_use(self, *, fitted: bool) -> None:
        """Bring the rig into use, as somebody did before the walk; what tripped, and when, stands in `story`.

        `fitted`: with a protector.
        """
        vain = self.idle > 0
        if vain:
            self.story["trip-when"] = "cord-unplugged"
        waiting = "waiting" if fitted else "absent"
        self.switched = Switched(breaker=True, vain=vain, cord=self.outlet, protector=waiting)
        seen = protector.complaint(self.solve(), self.outlet) if fitted else None
        closed = waiting if not fitted else "refusing" if seen else "connected"
        for stage, main, branches in STAGES:
            for how in self.switch(replace(self.switched, main=main, branches=branches, protector=closed)):
                if how == "leak":
                    when = "one-appliance" if stage == "one-circuit" else stage
                    self.story.setdefault("ground-fault-when", when)
                else:
                    self.story.setdefault("trip-when", stage if how == "at-once" else how)

    def decide(self) -> str:
        """Let the protector close or refuse, by what it sees; return its complaint, or nothing."""
        said = protector.complaint(self.solve(), str(self.switched.cord))
        self.switch(replace(self.switched, protector="refusing" if said else "connected"))
        return said or ""

    @property
    def running_ohms(self) -> float:
        """Return the ohms that run on each leg with every branch on."""
        return float(np.real(np.ravel(self.running)[0]))

    def closed(self, now: Switched, outlet: str) -> bool:
        """Tell whether the breaker of an outlet lets power through."""
        mine = outlet == self.outlet or not self.outlet
        handle = now.breaker if mine or now.others is None else outlet in now.others
        return handle and not (now.vain and mine) and outlet not in now.tripped

    def solve(self) -> Solved:
        """Return the circuit as it stands now, solved."""
        now = self.switched
        if now not in self._solved:
            self._solved[now] = self.wired(now).solve()
        return self._solved[now]

    def wired(self, now: Switched) -> Circuit:
        """Return the circuit with everything switched so."""
        circuit = self.circuit
        for name in circuit.elements:
            kind, *rest = name.split(".")
            cut = kind == "breaker" and name not in self.stuck and not self.closed(now, rest[0])
            if cut or (now.popped and name in ("branch.20.L", "branch.20.N")):
                circuit = circuit.open(name)
        parts = dict(circuit.elements)
        if now.cord:
            through = now.protector in ("absent", "connected")
            rigged = Rigged(now.cord, now.main, now.branches, through, self.running, self.lopsided)
            parts |= rig_parts(rigged, self.contacts, self.park.tires)
        if now.load_on and now.load == "pedestal-20":
            parts["load"] = Element("20.L", "20.N", HEATER + 2 * CONTACT)
        elif now.load_on and now.load == "rig" and now.cord and now.branches != "all-off":
            parts["load"] = Element(panel("rig-outlet-a", now.cord), "inlet.N", HEATER + 0.05)
        whole = Circuit(parts)
        return edited(whole, self.rig_edits) if now.cord and self.rig_edits else whole

    def node(self, place: str, terminal: str) -> str | None:
        """Return the node where a probe lands; nothing where no wire comes to it."""
        now = self.switched
        if terminal == "earth":
            return "peg"
        if place == "rig-skin":
            if terminal == "skin":
                return "skin" if now.cord else None
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
        solved = self.solve()
        if any(end not in solved.at for end in ends):
            return 0.0
        meter = LOW_IMPEDANCE_OHMS if low_impedance else METER_OHMS
        return float(solved.read(str(ends[0]), str(ends[1]), meter)[0])

    def legs(self) -> list[float]:
        """Return the volts of each leg at the rig's busbars, none without the cord."""
        solved = self.solve()
        panels = [name for name in ("panel.L", "panel.L1", "panel.L2") if name in solved.at]
        return [float(solved.read(name, "inlet.N")[0]) for name in panels]

    def battery_volts(self) -> float:
        """Return the volts at the posts of the rig's battery."""
        now, legs = self.switched, self.legs()
        fed = now.charger and now.branches == "on" and bool(legs) and legs[0] > RUNS
        return self.battery.volts(fed=fed)

    def load_watts(self) -> float:
        """Return what the test load takes now."""
        solved = self.solve()
        return float(solved.amps("load")[0]) ** 2 * HEATER if "load" in solved.circuit.elements else 0.0
