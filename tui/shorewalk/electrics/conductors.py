"""How many ohms a conductor has, by its gauge, metal and temperature.

Diameter by gauge: ASTM B258, d = 0.127 mm x 92^((36 - n)/39). Annealed copper: IACS, 1/58 ohm mm2/m
at 20 C (IEC 60028, NBS Handbook 100). Stranding adds 2 % for the lay: NEC Chapter 9 Table 8 is met
within 0.5 % (memory, confirmed by that table). Aluminium at 61 % of that, and both temperature
coefficients: a handbook of industrial power engineering (found), confirmed by the same table.
"""

from __future__ import annotations

import math

from .needs import positive, within

SMALLEST, LARGEST = 18, -3  # 4/0 is -3
METALS = {"copper": (1 / 58, 0.00393), "aluminum": (1 / 58 / 0.61, 0.00403)}
"""Ohm mm2/m at 20 C, and how much of it is added for each kelvin above."""

LAY = 1.02
METRES_PER_FOOT = 0.3048  # by definition
REFERENCE_C = 20.0

CLASS_5 = {1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91, 16.0: 1.21}
"""IEC 60228 class 5 (flexible), plain copper: the most ohms for each km at 20 C, by mm2 (found)."""


def gauge_mm2(gauge: float) -> float:
    """Return the cross-section in mm2 of an AWG gauge, 18 to -3 (0 is 1/0, -3 is 4/0), by ASTM B258."""
    within(gauge, "A gauge", "AWG", LARGEST, SMALLEST)
    return math.pi / 4 * (0.127 * math.pow(92, (36 - gauge) / 39)) ** 2


def warmed(ohms: float, celsius: float, metal: str = "copper") -> float:
    """Return ohms known at 20 C as they are at `celsius`, -40 to 150: R = R20 x (1 + a (T - 20))."""
    within(celsius, "A conductor", "C", -40, 150)
    return ohms * (1 + _metal(metal)[1] * (celsius - REFERENCE_C))


def ohms_per_1000_ft(mm2: float, celsius: float = 75.0, metal: str = "copper", lay: float = LAY) -> float:
    """Return the ohms of 1000 ft of one conductor: rho x length / area, warmed, and longer by the lay.

    `lay` is 1 for a solid conductor. Raise `ValueError` for an area of 0 or less, a metal not in
    `METALS`, a temperature outside -40 to 150 C.
    """
    cold = _metal(metal)[0] * 1000 * METRES_PER_FOOT / positive(mm2, "A cross-section", "mm2")
    return warmed(cold * lay, celsius, metal)


def class_5_per_1000_ft(mm2: float, celsius: float = 75.0) -> float:
    """Return the most ohms 1000 ft of flexible copper cord may have by IEC 60228 class 5, warmed."""
    if mm2 not in CLASS_5:
        raise ValueError(
            f"{mm2:g} mm2 is not in IEC 60228 class 5 here: {', '.join(f'{a:g}' for a in CLASS_5)} are."
        )
    return warmed(CLASS_5[mm2] * METRES_PER_FOOT, celsius)


def _metal(name: str) -> tuple[float, float]:
    if name not in METALS:
        raise ValueError(f"'{name}' is no metal of conductors here: {' or '.join(METALS)} is.")
    return METALS[name]
