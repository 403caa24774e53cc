"""What a current through a body does: never a reason to call a voltage safe."""

from __future__ import annotations

from .needs import positive, within

WET_OHMS = 1000.0
"""Ohm of a body with wet skin (OSHA training; found): 50 V are 50 mA."""

EFFECTS = (
    # mA from which it holds, and what it does: OSHA 3075 (found)
    (1.0, "a faint tingle"),
    (5.0, "felt; a hand can still let go"),
    (6.0, "painful; muscles freeze, and a hand may not let go"),
    (50.0, "breathing may stop; death is possible"),
)


def body_milliamps(volts: float, ohms: float = WET_OHMS) -> float:
    """Return the current in mA that `volts`, 0 to 600, drive through a body of `ohms`: V / R (Ohm's law).

    Raise `ValueError` for another voltage, or ohms of 0 or less.
    """
    return 1000 * within(volts, "A voltage", "V", 0, 600) / positive(ohms, "A body", "ohm")


def effect_of(milliamps: float) -> str:
    """Return what OSHA 3075 says of a current through a body; under 1 mA that it is hardly felt."""
    reached = [says for least, says in EFFECTS if milliamps >= least]
    return reached[-1] if reached else "hardly felt, and no proof that all is well"
