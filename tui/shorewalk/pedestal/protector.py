"""A protector of the usual kind: it waits, checks what it can see at its own plug, then closes or refuses.

It sees volts between its own pins and nothing else: no earth, no load, no ohms of a joint. It lives on hot to
neutral, some kilohms; to ground it may draw next to nothing.
"""

from __future__ import annotations

from .circuit import Solved
from .park import OUTLETS

TO_NEUTRAL, TO_GROUND = 3e3, 1e6
"""Ohms of its inputs (common practice)."""
WAKES = 60.0
"""Volts from which it has power to think at all (common practice)."""
LOW, HIGH = 104.0, 132.0
"""Volts outside of which it refuses (common practice). A walk stops earlier: a protector is no meter."""
APART, GHOST = 15.0, 90.0
"""Volts between neutral and ground, or between a hot's two readings, that it takes for a fault, and for a hot."""


def complaint(solved: Solved, outlet: str) -> str | None:
    """Return what it complains of with its plug in this outlet; `dark` without power, nothing where all seems well."""
    hots = [slot for slot in OUTLETS[outlet] if slot.startswith("L")]
    to_neutral = [_volts(solved, hot, "N", TO_NEUTRAL) for hot in hots]
    to_ground = [_volts(solved, hot, "G", TO_GROUND) for hot in hots]
    neutral_ground = _volts(solved, "N", "G", TO_GROUND)
    between = _volts(solved, hots[0], hots[1], TO_NEUTRAL) if len(hots) == 2 else max(to_neutral)
    if max(*to_neutral, between) < WAKES:
        return "dark"
    if neutral_ground > GHOST:
        return "reversed"
    if any(n < WAKES and g > GHOST for n, g in zip(to_neutral, to_ground, strict=True)):
        return "open-neutral"
    if any(abs(n - g) > APART for n, g in zip(to_neutral, to_ground, strict=True)):
        return "open-ground"
    if len(hots) == 2 and between > HIGH and abs(to_neutral[0] - to_neutral[1]) > 2 * APART:
        return "open-neutral"
    if max(to_neutral) > HIGH:
        return "high-volts"
    return "low-volts" if min(to_neutral) < LOW else None


def _volts(solved: Solved, one: str, other: str, ohms: float) -> float:
    return float(solved.read(f"plug.{one}", f"plug.{other}", ohms)[0])
