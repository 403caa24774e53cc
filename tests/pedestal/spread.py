"""Many loops and many variants of a fault solved at once: the least and the most that each pair reads."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from shorewalk.pedestal.circuit import Array
from shorewalk.pedestal.faults import NOTHING, Fault, Span, shipped_faults, stand_drawn
from shorewalk.pedestal.park import Park
from shorewalk.pedestal.stand import Stand, Switched

from .edits import Edit, nothing

VARIANTS = 120
IDLE = Switched(breaker=True)
OFF = Switched()
LOOK_A = Switched(breaker=True, load="pedestal-20", load_on=True)
LOOK_B = Switched(breaker=True, main=True, branches="test-only", load="rig", load_on=True)
IN_USE = Switched(breaker=True, main=True, branches="on")

Neighbours = Mapping[str, Any]
BUSY: Neighbours = {"neighbour1": (4.0, 60.0), "neighbour2": (4.0, 60.0)}
ALONE: Neighbours = {"neighbour1": 0.0, "neighbour2": 0.0}
EQUAL: Neighbours = {"neighbour1": (14.5, 15.5), "neighbour2": (14.5, 15.5), "volts1": 122.3, "volts2": 122.3}


@dataclass(frozen=True)
class Row:
    """One line of a table: how all stands, and what each pair reads of a 122 V source.

    `fault`: an id of faults.yaml, or an edit. `loop`: values of the park, each one or a range; `ohms`: the one that
    the line names, instead of the fault's range. Places other than the outlet's own are written `PLACE A B`.
    `off_by`: the share by which our wires differ from those of the line, where they do.
    """

    line: str
    fault: str | Edit
    outlet: str
    volts: Mapping[str, float]
    now: Switched = IDLE
    loop: Neighbours = field(default_factory=lambda: BUSY)
    ohms: Span | None = None
    off_by: float = 0.0

    def __str__(self) -> str:
        return f"{self.line} at the {self.outlet}"

    def between(self) -> dict[str, tuple[float, float]]:
        """Return the least and the most that each pair reads over all variants."""
        stand = self.stand()
        stand.switched = replace(self.now, cord=self.outlet if self.now.main else None)
        return {pair: _between(stand, self.outlet, pair) for pair in self.volts}

    def stand(self) -> Stand:
        """Return the pedestal with every variant in it."""
        dice = np.random.default_rng(122)

        def between(span: Span) -> Array:
            return np.asarray(np.exp(dice.uniform(math.log(span[0]), math.log(span[1]), VARIANTS)))

        def draw(span: Span) -> Array:
            return between(self.ohms or span)

        usual = {
            "volts1": (121.5, 123.5),
            "volts2": (121.0, 123.0),
            "feeder": (0.01, 0.04),
            "drop": (0.01, 0.03),
        }
        values: dict[str, Any] = {
            name: between(value) if isinstance(value, tuple) else value
            for name, value in {**usual, **self.loop}.items()
        }
        park = replace(Park(), **values)
        fault = NOTHING if callable(self.fault) else _loosened(shipped_faults()[self.fault], self.loop)
        stand = stand_drawn(fault, park, self.outlet, draw)
        edit = self.fault if callable(self.fault) else nothing
        return replace(stand, circuit=edit(stand.circuit, self.outlet))


def _loosened(fault: Fault, loop: Neighbours) -> Fault:
    """Return the fault without the values of the loop that a row gives itself."""
    return replace(fault, park={name: span for name, span in fault.park.items() if name not in loop})


def _between(stand: Stand, outlet: str, pair: str) -> tuple[float, float]:
    *place, one, other = pair.split()
    ends = [stand.node(place[0] if place else f"pedestal-{outlet}", end) for end in (one, other)]
    read = stand.solve().read(str(ends[0]), str(ends[1]))
    return float(read.min()), float(read.max())
