"""Volts by the hour of the day: the readings of one pair, at rest and with a load on, this stay and before."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from shorewalk.plots import Curve, Plot
from shorewalk.tree.facts import Limit

from .compare import MAIN, Group
from .kept import Reading
from .times import hour

FEWEST = 2
"""Readings at different times, under which there is nothing to draw."""
LIMITS = (
    ("service-a-low", "low at rest"),
    ("loaded-low", "too low loaded"),
    ("service-a-high", "high at rest"),
)
"""Limits of `site/limits.yaml` that are drawn across, where they are near."""
NEAR = 6.0
"""Volts beyond the readings up to which a limit is drawn."""


def hours_of(groups: Iterable[Group], limits: Mapping[str, Limit]) -> Plot | None:
    """Return what to draw of a site: the volts of its first pair with enough readings; None where there is none."""
    for group in groups:
        curves = tuple(curve for curve in _curves(group) if curve.x)
        enough = len({at for curve in curves for at in curve.x}) >= FEWEST
        if enough and group.quantity in MAIN and group.unit == "V":
            return _plot(group, curves, limits)
    return None


def _plot(group: Group, curves: tuple[Curve, ...], limits: Mapping[str, Limit]) -> Plot:
    volts = [value for curve in curves for value in curve.y]
    low, high = math.floor(min(volts)), math.ceil(max(volts))
    near = tuple(
        (limits[name].value, says)
        for name, says in LIMITS
        if name in limits and low - NEAR <= limits[name].value <= high + NEAR
    )
    ends = [low, high, *(value for value, _ in near)]
    return Plot(
        title=f"{group.about[:1].upper()}{group.about[1:]}",
        x_says="hour of the day",
        y_says="volts",
        curves=curves,
        limits=near,
        spots=True,
        across=(0.0, 24.0),
        up=(math.floor(min(ends)) - 1.0, math.ceil(max(ends)) + 1.0),
        every=6.0,
    )


def _curves(group: Group) -> Iterable[Curve]:
    *before, now = group.parts
    earlier = [row for part in before for row in part.rows]
    for rows, when in ((now.rows, ""), (earlier, ", earlier stays")):
        yield _curve(f"at rest{when}", [row.rest for row in rows if row.rest])
        yield _curve(f"loaded{when}", [row.loaded for row in rows if row.loaded])


def _curve(says: str, readings: Iterable[Reading]) -> Curve:
    spots = [
        (at, reading.known.value or 0.0) for reading in readings if (at := hour(reading.time)) is not None
    ]
    return Curve(says, tuple(at for at, _ in spots), tuple(volts for _, volts in spots))
