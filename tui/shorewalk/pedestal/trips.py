"""What a breaker or a ground-fault outlet does about the current through it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shorewalk.electrics.breaker import HOUR_TRIP

from .circuit import Circuit
from .park import OUTLETS

if TYPE_CHECKING:
    from .stand import Stand

AT_ONCE = 3.0
"""Times its number that a breaker holds no longer than seconds (common practice; UL 489 names no such corner)."""
AFTER_A_WHILE = HOUR_TRIP
"""Times its number at which a sound one trips within the hour: UL 489."""
LEAK = 0.005
"""Amps to ground at which a ground-fault outlet trips: UL 943 Class A, between 4 and 6 mA."""
JOINED = 2.0
"""Ohms between neutral and ground behind it at which it trips with nothing running (UL 943; as told in a
forum: nominally 2 ohm, 1.4 of it the fault's)."""


def trip(stand: Stand) -> str | None:
    """Let trip what the current trips; return how: at-once, after-a-while or leak."""
    now = stand.switched
    for outlet in stand.park.outlets:
        share = carried(stand, outlet)
        while_used = now.branches == "on" and now.cord == outlet and share > stand.trips_at
        if outlet not in now.tripped and (share > AT_ONCE or while_used):
            stand.switched = replace(now, tripped=now.tripped | {outlet})
            return "at-once" if share > AT_ONCE else "after-a-while"
    if _leaks(stand):
        stand.switched = replace(now, popped=True)
        return "leak"
    return None


def carried(stand: Stand, outlet: str) -> float:
    """Return what the most loaded pole of an outlet's breaker carries, as a share of its number."""
    solved = stand.solve()
    poles = [name for name in solved.circuit.elements if name.startswith(f"breaker.{outlet}.")]
    return max(float(solved.amps(pole)[0]) for pole in poles) / int(outlet)


def _leaks(stand: Stand) -> bool:
    """Tell whether the 20 A outlet, with our cord in it and power on it, has to cut itself off."""
    if stand.switched.cord != "20" or stand.switched.popped or not stand.closed(stand.switched, "20"):
        return False
    solved = stand.solve()
    back = sum(solved.through(f"contact.{slot}")[0] for slot in OUTLETS["20"] if slot != "G")
    return bool(abs(back) > LEAK) or _joined(solved.circuit) < JOINED


def _joined(circuit: Circuit) -> float:
    """Return the ohms between our neutral and ground, cut off at the outlet."""
    alone = circuit.open("contact.N").open("contact.L").solve()
    n, g = alone.at["plug.N"], alone.at["plug.G"]
    behind = alone.behind[0]
    return float(abs(behind[n, n] + behind[g, g] - behind[n, g] - behind[g, n]))
