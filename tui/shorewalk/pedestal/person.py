"""Somebody at a make-believe pedestal who does what is asked and says honestly what is seen and read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from random import Random

from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.walk import Walk

from .stand import Stand

SOUND: Mapping[str, str] = {
    "weather": "clear", "light": "enough", "wet": "dry", "smell": "none", "sound": "silent", "damage": "none",
    "nest-or-insects": "none", "burn-marks": "none", "pedestal-case": "plastic", "plug-marks": "none",
    "ground-pin-looks": "whole", "adapter": "none", "face-up": "ground-down", "tenths": "yes", "tingle": "no",
    "breaker-feel": "firm", "plug-fit": "home", "outlet-grip": "firm", "test-button": "trips-and-resets",
    "protector-complaint": "no-words", "heat": "cool", "fire": "none", "person": "unhurt", "fed-by": "pedestal",
    "gets-brighter": "no", "plug-wet": "dry", "neutral-plug": "no", "rig-flooded": "no", "exhaust": "clear",
    "exhaust-alarm": "silent", "breathing": "normal", "storm-left": "nothing", "cord-end-fit": "locked",
    "transfer-switch": "none", "energy-manager": "none", "inverter-outlets": "no", "branch-breakers": "all-on",
    "rig-main-position": "on", "reset-button": "pushed-in", "battery-looks": "sound", "volts-told-by": "meter",
}  # fmt: skip
"""What a whole pedestal and rig look like on a fine day. What a circuit tells is solved instead."""

LOOKS_CONNECTED, LOOKS_LIVE, TAKES_POWER, BREAKS = 60.0, 50.0, 300.0, 150.0
"""Volts at which a protector closes and a detector warns, watts that warm a load, volts that break something."""

TEST_LOAD = "space-heater"

OTHER_READINGS = {"hertz": "60", "ohms": "0.3", "amps": "12", "dc-volts": "12.6"}
"""What the circuit does not know, on a fine day."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What a meter adds to what is so: gain as a share, and volts."""

    gain: float = 0.0
    offset: float = 0.0

    def show(self, volts: float) -> str:
        """Return the display, in volts with tenths."""
        return f"{max(0.0, volts * (1 + self.gain) + self.offset):.1f}"


@dataclass
class Person:
    """`outlet` is where the cord is or will go; `lacks`: peg, protector, detector or load.

    `signs`: what is seen apart from what is usual. `chance` answers what neither circuit nor fine day tells; `own`
    has what it answered.
    """

    stand: Stand
    outlet: str
    meter: Shown = Shown()
    lacks: frozenset[str] = frozenset()
    signs: Mapping[str, str] = field(default_factory=dict)
    chance: Random = field(default_factory=lambda: Random(1))  # noqa: S311 - no secret
    warmed: bool = field(default=False, init=False)
    own: dict[str, str] = field(default_factory=dict, init=False)

    def answer(self, walk: Walk) -> Answer:
        """Return the answer to the open question, having done what it asks."""
        self.stand.follow(walk.now.state)
        node = walk.now.node
        match node:
            case Ask():
                return self.see(node)
            case Step():
                if self.cannot(node):
                    return Cannot()
                self.stand.done((*node.leaves, *node.done.leaves))
                return Done()
            case Measure():
                return self._read(node)
            case Tally():
                return Running(((TEST_LOAD, 1),)) if TEST_LOAD in node.loads else Unsure()
        return Unsure()

    def cannot(self, node: Step) -> bool:
        """Tell whether a step needs what is not there."""
        leaves = dict((*node.leaves, *node.done.leaves))
        if leaves.get("earth-peg") == "set":
            return "peg" in self.lacks
        if leaves.get("test-load") == "pedestal-20":
            return "load" in self.lacks or "20" not in self.stand.park.outlets
        return False

    def see(self, node: Ask) -> Answer:
        """Return what a question looks for, as it is; what nothing tells is made up once."""
        known = [choice.id for choice in node.choices]
        seen = self.tells(node.sign) or self.own.setdefault(node.sign, self.chance.choice(known))
        return Choose(seen) if seen in known else Unsure()

    def tells(self, sign: str) -> str | None:
        """Return what there is to see of a sign, by what is wrong, by the circuit, or as usual."""
        return self.signs.get(sign) or self._solved(sign) or SOUND.get(sign)

    def _solved(self, sign: str) -> str | None:
        """Return what the circuit shows of a sign, where it shows anything."""
        stand, now = self.stand, self.stand.switched
        hots = ("L1", "L2") if self.outlet == "50" else ("L",)
        match sign:
            case "outlet-used":
                return self.outlet
            case "breaker-position":
                idle = "tripped" if stand.tripped else "off"
                return "on" if now.breaker and not now.vain else idle
            case "test-load-warm":
                return "yes" if self.warmed or stand.load_watts() > TAKES_POWER else "no"
            case "protector-owned":
                return "no" if "protector" in self.lacks else "yes"
            case "protector-state" if now.cord:
                volts = abs(stand.solve().volts(f"inlet.{hots[0]}", "inlet.N")[0])
                return "connected" if volts > LOOKS_CONNECTED else "dark"
            case "near-voltage":
                if "detector" in self.lacks:
                    return "no-detector"
                metal = "inlet.G" if now.cord else "pedestal.G"
                return "warns" if abs(stand.solve().volts(metal)[0]) > LOOKS_LIVE else "silent"
            case "something-broke" if now.cord:
                solved = stand.solve()
                high = max(abs(solved.volts(f"panel.{hot}", "inlet.N")[0]) for hot in hots)
                return "yes" if high > BREAKS else "no"
        return None

    def _read(self, node: Measure) -> Answer:
        if node.what != "ac-volts":
            return Read(OTHER_READINGS[node.what])
        if self._out_of_reach(node):
            return Unable()
        self.load(on=node.load.amount != "none")
        low = node.meter == "low-impedance"
        return Read(self.meter.show(self.stand.read(node.place, node.from_, node.to, low_impedance=low)))

    def load(self, *, on: bool) -> None:
        """Switch the test load on or off, where it is plugged in."""
        self.stand.switched = replace(self.stand.switched, load_on=on)
        self.warmed |= on and self.stand.load_watts() > TAKES_POWER

    def _out_of_reach(self, node: Measure) -> bool:
        ends = {node.from_, node.to}
        if "earth" in ends and "peg" in self.lacks:
            return True
        outlets = self.stand.park.outlets
        if node.place.startswith("pedestal-"):
            return node.place.split("-")[1] not in outlets
        return "other-ground" in ends and len(outlets) < 2
