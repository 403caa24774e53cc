"""Where a voltage lies in the ranges of ANSI C84.1-2020 (120 V base, 60 Hz), and unbalance.

Service voltage is judged where the park's supply is handed over, utilization voltage where an
appliance is fed. A pedestal lies between. Leg to leg is twice the base.
"""

from __future__ import annotations

from collections.abc import Sequence

from .needs import positive

SERVICE = {"A": (114.0, 126.0), "B": (110.0, 127.0)}
"""V; A low and high, B low read in quotations of the standard, B high in secondary text."""

UTILIZATION = {"A": (108.0, 126.0), "B": (104.0, 127.0)}
"""V; 104 read in a quotation; 108 as told by public notes on the standard and on its draft of 2019 (Table 1). The
editions of 1995 to 2006 have 110 (a regulator's quotation), which is where the trees cut."""


UNBALANCE_ALLOWED = 3.0
"""Percent at the service, without load: ANSI C84.1 (found)."""


def supply_range(volts: float, ranges: dict[str, tuple[float, float]] | None = None) -> str | None:
    """Return "A" or "B", the narrowest range that holds `volts` (limits belong to it), or None.

    Beyond range B a supply is to be corrected promptly; in B it is to be corrected.
    """
    found = SERVICE if ranges is None else ranges
    return next((name for name, (low, high) in found.items() if low <= volts <= high), None)


def unbalance_percent(volts: Sequence[float]) -> float:
    """Return 100 x the greatest deviation from the mean / the mean (NEMA MG 1), for three phases.

    No standard defines it for the two legs of 120/240 V: use volts there. C84.1 allows 3 % at the
    service. Raise `ValueError` for fewer than three, or a mean of 0 or less.
    """
    if len(volts) < 3:
        raise ValueError(f"{len(volts)} voltages have no unbalance here: three phases do.")
    mean = positive(sum(volts) / len(volts), "A mean", "V")
    return 100 * max(abs(each - mean) for each in volts) / mean
