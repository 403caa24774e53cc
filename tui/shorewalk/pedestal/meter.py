"""A make-believe meter: a dial, two probes, and the display that they deserve."""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

from .circuit import LOW_IMPEDANCE_OHMS, METER_OHMS
from .park import OUTLETS
from .stand import Stand

DIALS = {
    "off": "off",
    "ac": "AC volts",
    "low": "AC volts, low impedance",
    "dc": "DC volts",
    "ohms": "ohms",
    "hertz": "hertz",
}
LIVE = 30.0
"""Volts from which a circuit harms a meter that is set to ohms, and a hand (common practice)."""

WANDER = 0.15
"""Volts by which the last digit comes and goes."""

Tip = tuple[str, str]
"""Where a probe is: a place and a terminal."""


@dataclass
class PracticeMeter:
    """`black` and `red` are where the probes are, or nothing: in the air."""

    stand: Stand
    chance: Random
    gain: float = 0.0
    offset: float = 0.0
    dial: str = "off"
    black: Tip | None = None
    red: Tip | None = None
    display: str = field(default="", init=False)

    def reach(self, tip: Tip) -> str:
        """Return why a probe cannot go there; nothing where it can."""
        place, terminal = tip
        outlet = place.removeprefix("pedestal-")
        if outlet in OUTLETS and outlet not in self.stand.park.outlets:
            return f"This pedestal has no {outlet} A outlet."
        if outlet in OUTLETS and terminal not in (*OUTLETS[outlet], "earth"):
            return f"The {outlet} A outlet has no slot {terminal}. It has {', '.join(OUTLETS[outlet])}."
        if outlet in OUTLETS and terminal != "earth" and outlet == self.stand.switched.cord:
            return "A plug is in these slots."
        if self.stand.node(place, terminal) is None and not self.stand.switched.cord:
            return "The cord is out, so nothing is there to read."
        return ""

    def volts(self) -> float:
        """Return what is so between the probes."""
        if self.black is None or self.red is None:
            return 0.0
        (place, one), (other_place, other) = self.red, self.black
        ends = self.stand.node(place, one), self.stand.node(other_place, other)
        if None in ends:
            return 0.0
        ohms = LOW_IMPEDANCE_OHMS if self.dial == "low" else METER_OHMS
        return float(self.stand.solve().read(str(ends[0]), str(ends[1]), ohms)[0])

    def read(self) -> str:
        """Return what the display shows now; it wanders a little each time."""
        self.display = self._read()
        return self.display

    def _read(self) -> str:
        apart = self.black is None or self.red is None
        volts = self.volts()
        match self.dial:
            case "off":
                return ""
            case "ohms":
                return "OL"
            case "dc":
                return f"{abs(self.chance.gauss(0.0, 0.02)):.2f} V DC"
            case "hertz":
                return "60.0 Hz" if volts > LIVE else "0.0 Hz"
        if apart:
            return f"{abs(self.chance.gauss(0.0, 0.6)):.1f} V"
        shown = volts * (1 + self.gain) + self.offset + self.chance.uniform(-WANDER, WANDER)
        return f"{max(0.0, shown):.1f} V"
