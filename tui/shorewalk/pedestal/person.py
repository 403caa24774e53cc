"""Somebody at a make-believe pedestal who does what is asked and says honestly what is seen and read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from random import Random

from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.walk import Walk

from .seen import TAKES_POWER, at_the_pedestal, in_the_rig
from .stand import Stand

SOUND: Mapping[str, str] = {
    "weather": "clear", "light": "enough", "wet": "dry", "smell": "none", "sound": "silent", "damage": "none",
    "gas-smell": "none",
    "nest-or-insects": "none", "burn-marks": "none", "pedestal-case": "plastic", "plug-marks": "none",
    "ground-pin-looks": "whole", "adapter": "none", "face-up": "ground-down", "tenths": "yes", "tingle": "no",
    "breaker-feel": "firm", "plug-fit": "home", "outlet-grip": "firm", "test-button": "trips-and-resets",
    "protector-complaint": "no-words", "heat": "cool", "fire": "none", "person": "unhurt", "fed-by": "pedestal",
    "gets-brighter": "no", "plug-wet": "dry", "neutral-plug": "no", "rig-flooded": "no", "exhaust": "clear",
    "exhaust-alarm": "silent", "breathing": "normal", "storm-left": "nothing", "cord-end-fit": "locked",
    "transfer-switch": "none", "energy-manager": "none", "inverter-outlets": "no", "branch-breakers": "all-on",
    "rig-main-position": "on", "neighbours": "fine", "lights-which": "wall-lights",
    "reset-button": "pushed-in", "battery-looks": "sound", "volts-told-by": "meter",
}  # fmt: skip
"""What a whole pedestal and rig look like on a fine day. What a circuit tells is solved instead."""

TEST_LOAD = "space-heater"

LOAD = re.compile(r"[Ss]witch (?:your|the|one) (?:plain |test )?(?:load|heater) (on|off)")
HEATER_AMPS = 12.5
OTHER_READINGS = {"hertz": "60", "ohms": "0.3", "amps": "12"}
"""What the circuit does not know, on a fine day."""
COOLER = {"hot": "warm", "warm": "cool", "cool": "cool"}
"""What a hand feels half an hour later, with nothing running."""


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
                self.stand.done((*node.leaves, *node.done.leaves), node.text)
                if switched := LOAD.search(node.text):
                    self.load(on=switched[1] == "on")
                return Done()
            case Measure():
                return self._read(node)
            case Tally():
                return self._ticks(node)
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
        if node.sign == "battery-rested" and self.signs.get(node.sign) == "yes":
            self.stand.switched = replace(self.stand.switched, charger=False)
        seen = self.tells(node.sign) or self.own.setdefault(node.sign, self.chance.choice(known))
        return Choose(seen) if seen in known else Unsure()

    def tells(self, sign: str) -> str | None:
        """Return what there is to see of a sign: by what is wrong, how it came, the circuit, or as usual."""
        if sign == "heat" and sign in self.signs:
            return self._heat()
        stand = self.stand
        return self.signs.get(sign) or stand.story.get(sign) or self._solved(sign) or SOUND.get(sign)

    def _heat(self) -> str:
        """Return what a hand feels; each time it is held there with nothing running, it is cooler."""
        felt = self.own.get("heat", self.signs["heat"])
        running = self.stand.switched.breaker and self.stand.switched.main
        self.own["heat"] = felt if running else COOLER[felt]
        return felt

    def _solved(self, sign: str) -> str | None:
        """Return what is so by what this person has, and what the circuit shows, where it shows anything."""
        match sign:
            case "outlet-used":
                return self.outlet
            case "test-load-warm":
                return "yes" if self.warmed or self.stand.load_watts() > TAKES_POWER else "no"
            case "protector-owned":
                return "no" if "protector" in self.lacks else "yes"
            case "near-voltage" if "detector" in self.lacks:
                return "no-detector"
        return at_the_pedestal(self.stand, sign) or in_the_rig(self.stand, sign)

    def _ticks(self, node: Tally) -> Answer:
        """Tick the test load where it is asked for; else as many heaters as what runs makes, and the charger."""
        if TEST_LOAD not in node.loads:
            return Unsure()
        if "converter" not in node.loads or self.stand.switched.load_on:
            return Running(((TEST_LOAD, 1),))
        legs = 2 if self.outlet == "50" else 1
        heaters = round(legs * 120.0 / self.stand.running_ohms / HEATER_AMPS)
        return Running(((TEST_LOAD, heaters),)) if heaters else Running((("converter", 1),))

    def _read(self, node: Measure) -> Answer:
        if node.what == "dc-volts":
            return Read(f"{self.stand.battery_volts():.2f}")
        if node.what != "ac-volts":
            return Read(OTHER_READINGS[node.what])
        if self._out_of_reach(node):
            return Unable()
        self.load(on=node.load.amount != "none")
        low = node.meter == "low-impedance"
        return Read(self.meter.show(self.stand.read(node.place, node.from_, node.to, low_impedance=low)))

    def load(self, *, on: bool) -> None:
        """Switch the test load on or off, where it is plugged in."""
        self.stand.switch(replace(self.stand.switched, load_on=on))
        self.warmed |= on and self.stand.load_watts() > TAKES_POWER

    def _out_of_reach(self, node: Measure) -> bool:
        ends = {node.from_, node.to}
        if "earth" in ends and "peg" in self.lacks:
            return True
        outlets = self.stand.park.outlets
        if node.place.startswith("pedestal-"):
            return node.place.split("-")[1] not in outlets
        return "other-ground" in ends and len(outlets) < 2
