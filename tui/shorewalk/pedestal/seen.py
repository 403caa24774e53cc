"""What the circuit shows of a sign to somebody who looks, where it shows anything."""

from __future__ import annotations

from .park import OUTLETS
from .stand import Stand

LOOKS_LIVE, BREAKS = 50.0, 150.0
"""Volts at which a detector warns, volts that break something (common practice)."""
DEAD, WEAK, BRIGHT, DIM, HIGH = 20.0, 100.0, 130.0, 110.0, 126.0
"""Volts on a leg: nothing runs, lamps glow weakly, are too bright, look dim; a display shows high (common practice)."""
TAKES_POWER = 300.0
"""Watts that warm a load."""


def complains(stand: Stand, tree: str) -> bool:
    """Tell whether a rig in use gives somebody reason to begin this tree, where the circuit can tell."""
    legs = stand.legs() or [0.0]
    low, high = min(legs), max(legs)
    felt = {
        "breaker-trips": "trip-when" in stand.story,
        "ground-fault-trips": "ground-fault-when" in stand.story,
        "no-power": high < DEAD,
        "half-power": low < WEAK < high,
        "some-bright": high > BRIGHT,
        "voltage-high": high > HIGH,
        "voltage-low": DEAD < low < DIM,
        "lights-dim": low > DEAD,
        "protector-refuses": stand.switched.protector == "refusing" or low < DEAD,
    }
    return felt.get(tree, True)


def at_the_pedestal(stand: Stand, sign: str) -> str | None:
    """Return what breaker, protector, detector and the 20 A outlet's buttons show."""
    now = stand.switched
    match sign:
        case "breaker-position":
            if stand.outlet in now.tripped:
                return "tripped"
            idle = "tripped" if stand.tripped else "off"
            return "on" if now.breaker and not now.vain else idle
        case "breaker-feel" if (now.vain and stand.idle) or stand.outlet in now.tripped:
            return "will-not-latch"
        case "protector-state" | "protector-complaint" | "protector-lets-through" | "protector-legs":
            return _protector(stand, sign)
        case "near-voltage":
            metal = "skin" if now.cord else "pedestal.G"
            return "warns" if abs(stand.solve().volts(metal)[0]) > LOOKS_LIVE else "silent"
        case "reset-button" if now.popped:
            return "popped-out"
        case "ground-fault-holds":
            return "trips" if now.popped else "holds"
        case "test-button" if now.popped:
            return "will-not-reset"
        case "ground-fault-which":
            return "pedestal-20" if now.popped else None
    return None


def _protector(stand: Stand, sign: str) -> str | None:
    now = stand.switched
    if now.protector == "absent":
        return "none" if sign == "protector-lets-through" else None
    if now.cord and now.protector != "connected" and sign == "protector-state" and stand.waits > 0:
        stand.waits -= 1
        return "waiting"
    said = stand.decide() if now.cord else "dark"
    if stand.outlet in stand.switched.tripped or stand.switched.popped:
        said = "dark"
    through = not said
    match sign:
        case "protector-state":
            return "connected" if through else "dark" if said == "dark" else "refusing"
        case "protector-complaint":
            return said if said not in ("", "dark") else None
        case "protector-lets-through":
            return "yes" if through else "no"
    legs = stand.legs()
    if not through or len(OUTLETS[str(now.cord)]) < 4 or not legs:
        return "no-display"
    return "both" if min(legs) > WEAK else "one"


def in_the_rig(stand: Stand, sign: str) -> str | None:
    """Return what lamps, outlets and the main of a rig that is plugged in show."""
    now = stand.switched
    legs = stand.legs()
    if not now.cord or not legs:
        return None
    low, high = min(legs), max(legs)
    match sign:
        case "charger-breaker":
            return "on" if now.charger else "off"
        case "something-broke":
            return "yes" if high > BREAKS or stand.outlet in now.tripped or now.popped else "no"
        case "only-tripped":
            return "pedestal" if stand.outlet in now.tripped or now.popped else "no"
        case "dead-what" if high < DEAD:
            return "wall-power"
        case "dead-what" if low < WEAK:
            return "half"
        case "half-what" if low < WEAK:
            return "one-side" if low < DEAD else "weak"
        case "gets-brighter":
            return "yes" if high > BRIGHT else "no"
        case "lights-how" if high > BRIGHT:
            return "some-dim-some-bright" if low < DIM else "too-bright"
        case "lights-how" if low < DIM:
            return "dim"
        case "wall-outlets":
            return "none" if high < DEAD else "some" if low < WEAK else "all"
        case "lights-which" if low < DIM or high > BRIGHT:
            return "wall-lights"
    return None
