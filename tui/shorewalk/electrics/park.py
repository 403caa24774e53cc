"""What a park's loop is counted for: NEC 551.73, demand factors by the number of sites."""

from __future__ import annotations

from .needs import positive, within

DEMAND = (
    # NEC 2017 Table 551.73(A) (found): up to this many sites, percent
    (1, 100), (2, 90), (3, 80), (4, 75), (5, 65), (6, 60), (9, 55), (12, 50),
    (15, 48), (18, 47), (21, 45), (24, 43), (35, 42),
)  # fmt: skip
MANY = 41
VA_50 = {"2014": 9_600.0, "2017": 12_000.0}
"""VA of a 50 A site: up to NEC 2014, and from NEC 2017 (found)."""
VA_30, VA_20 = 3_600.0, 2_400.0


def demand_percent(sites: float) -> float:
    """Return the demand factor in percent for a number of sites, 1 to 10,000 (NEC Table 551.73(A)).

    Raise `ValueError` for another number, or one that is not whole.
    """
    if within(sites, "A number", "sites", 1, 10_000) != int(sites):
        raise ValueError(f"{sites:g} sites cannot be: sites are counted whole.")
    return next((percent for most, percent in DEMAND if sites <= most), MANY)


def connected_va(sites_50: float, sites_30: float, sites_20: float, va_50: float = VA_50["2017"]) -> float:
    """Return the VA of all sites, each by its largest outlet (NEC 551.73(A))."""
    return sites_50 * va_50 + sites_30 * VA_30 + sites_20 * VA_20


def demand_va(sites_50: float, sites_30: float, sites_20: float, va_50: float = VA_50["2017"]) -> float:
    """Return the VA a loop's feeder has to be made for: all sites x the demand factor."""
    factor = demand_percent(sites_50 + sites_30 + sites_20)
    return connected_va(sites_50, sites_30, sites_20, va_50) * factor / 100


def demand_amps(va: float, volts: float = 240.0) -> float:
    """Return the current in each leg of the feeder for a demand: VA / V leg to leg, loads balanced."""
    return va / positive(volts, "A feeder", "V")
