"""The battery side of a rig in volts: a battery at rest, and a charger that lives or gives nothing."""

from __future__ import annotations

from dataclasses import dataclass

CHARGING = 13.6
"""V that a charger holds a 12 V battery at (common practice: 13.2 to 14.4)."""

REST = 12.6
"""V of a full lead battery at rest (the tables of `electrics.battery`)."""


@dataclass(frozen=True, slots=True)
class Battery:
    """`rest`: volts without the charger; `charger` alive or dead."""

    rest: float = REST
    charger: str = "alive"

    def volts(self, *, fed: bool) -> float:
        """Return what stands at its posts. `fed`: the charger has power and its breaker is on."""
        return max(CHARGING, self.rest) if fed and self.charger == "alive" else self.rest
