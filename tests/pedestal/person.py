"""Somebody at the pedestal who does what is asked and says honestly what is seen and read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from .world import World

Json = dict[str, Any]

SEEN = {
    # What a sound pedestal, rig and day look like; the rest is solved.
    "weather": "clear", "light": "enough", "wet": "dry", "smell": "none", "sound": "silent", "damage": "none",
    "nest-or-insects": "none", "burn-marks": "none", "pedestal-case": "plastic", "plug-marks": "none",
    "ground-pin-looks": "whole", "adapter": "none", "face-up": "ground-down", "tenths": "yes", "tingle": "no",
    "breaker-feel": "firm", "plug-fit": "home", "outlet-grip": "firm", "test-button": "trips-and-resets",
    "protector-complaint": "no-words", "heat": "cool",
}  # fmt: skip


@dataclass(frozen=True)
class Shown:
    """A meter: gain error as a share, and counts of a tenth that it adds."""

    gain: float = 0.0
    counts: int = 0

    def show(self, volts: float) -> str:
        return f"{max(0.0, volts * (1 + self.gain) + self.counts * 0.1):.1f} V"


@dataclass
class Person:
    """`outlet` is where the cord will go. What is not there: peg, protector, 20 A outlet for the load."""

    world: World
    outlet: str
    meter: Shown = Shown()
    peg: bool = True
    protector: bool = True
    detector: bool = True
    load: bool = True
    shutters: bool = False
    signs: dict[str, str] = field(default_factory=dict)
    plugged: bool = field(default=False, init=False)

    def answer(self, question: Json) -> Json:
        """Return the answer to one question of the JSON lines, and do what it asks."""
        match question["kind"]:
            case "step":
                return {"done": True} if self._do(question) else {"cannot": True}
            case "ask":
                choice = self._see(question["sign"])
                known = [each["id"] for each in question["choices"]]
                return {"choose": choice} if choice in known else {"unsure": True}
            case "measure":
                return self._measure(question)
            case "tally":
                return {"running": {"space-heater": 1}}
        raise AssertionError(f"no such kind of question: {question}")

    def _do(self, question: Json) -> bool:
        text, leaves, world = question["text"], question["leaves"], self.world
        if re.search(r"\bpeg\b", text) and not self.peg:
            return False
        wants_load = leaves.get("test-load") == "pedestal-20" or "Find the 20 A outlet" in text
        if wants_load and (not self.load or "20" not in world.park.outlets):
            return False
        if handle := leaves.get("pedestal-breaker"):
            for outlet in self._whose(text):
                world.switch(outlet, on=handle == "on")
        if "cord" in leaves:
            cord = leaves["cord"]
            world.cord = None if cord == "unplugged" else cord.split("-")[1]
            self.plugged |= world.cord is not None
        world.main = leaves.get("rig-main", "on" if world.main else "off") == "on"
        world.branches = leaves.get("rig-branches", world.branches)
        if "test-load" in leaves:
            world.load_at = None if leaves["test-load"] == "off" else leaves["test-load"]
            world.load_on = world.load_at == "rig"
        if switched := re.search(r"test load (on|off)\b", text):
            world.load_on = switched[1] == "on"
        return True

    def _whose(self, text: str) -> list[str]:
        """Return the outlets whose breaker is meant: named, all, or the one that holds our plug."""
        if "every" in text or "all breakers" in text:
            return list(self.world.park.outlets)
        if named := re.search(r"\b(50|30|20) A", text):
            return [named[1]]
        return [self.world.cord or self.outlet]

    def _see(self, sign: str) -> str:
        """Return what there is to see; nothing that no sign here tells."""
        world = self.world
        if sign in self.signs:
            return self.signs[sign]
        match sign:
            case "outlet-used":
                return self.outlet
            case "breaker-position":
                return "on" if world.handles[world.cord or self.outlet] else world.trips_as
            case "test-load-warm":
                return "yes" if world.load_watts() > 300 else "no"
            case "protector-owned":
                return "yes" if self.protector else "no"
            case "protector-state":  # one that connects to whatever comes: the walk has to find the fault
                slot = "L1" if self.outlet == "50" else "L"
                live = abs(world.as_it_stands().volts(f"inlet.{slot}", "inlet.N")) > 60
                return "connected" if live else "dark"
            case "near-voltage":
                if not self.detector:
                    return "no-detector"
                metal = "inlet.G" if world.cord else "pedestal.G"
                return "warns" if abs(world.as_it_stands().volts(metal)) > 50 else "silent"
            case "something-broke":
                slots = ("L1", "L2") if self.outlet == "50" else ("L",)
                circuit = world.as_it_stands()
                high = any(abs(circuit.volts(f"panel.{slot}", "inlet.N")) > 150 for slot in slots)
                return "yes" if high else "no"
        return SEEN[sign]

    def _measure(self, question: Json) -> Json:
        asked, world = question["measure"], self.world
        assert asked["what"] == "ac-volts", asked
        loaded = asked["load"]["amount"] != "none"
        assert loaded == world.load_on, f"load {'off' if loaded else 'on'} at {question['at']}"
        if loaded:
            assert (world.load_at == "rig") == asked["load"]["at"].startswith("rig"), question
        ends = (asked["from"], asked["to"])
        if "earth" in ends and not self.peg:
            return {"unable": True}
        if self.shutters and asked["place"].startswith("pedestal-20") and set(ends) & {"G", "earth"}:
            return {"unable": True}
        if "other-ground" in ends and len(world.park.outlets) < 2:
            return {"unable": True}
        low = asked["meter"] == "low-impedance"
        return {"reading": self.meter.show(world.read(asked["place"], *ends, low_impedance=low))}
