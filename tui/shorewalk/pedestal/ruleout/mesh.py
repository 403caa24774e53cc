"""Networks of many variants at once, reduced to the few nodes where probes land.

A node is taken out by the star-mesh transform: its neighbours are joined by y_a y_b / (sum of y), and what was fed in
there is shared out alike (Rosen 1924; from memory, and held to nodal analysis by a test). Only sums, products and
quotients of admittances occur, no differences, so a part that floats behind picofarads keeps all its digits. Values are
arrays with one entry a variant.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shorewalk.pedestal.circuit import EARTH, INSULATION

Array = NDArray[Any]
SOURCES = 2
"""Sources are kept apart, the first and the second hot, so that each may be scaled later."""


class Mesh:
    """Admittances between nodes (siemens), and amps fed in at nodes by each source."""

    def __init__(self, columns: int) -> None:
        self.columns = columns
        self._joined: dict[str, dict[str, Array]] = {}
        self._fed: dict[str, Array] = {}  # sources x columns

    def copy(self) -> Mesh:
        """Return a mesh to write on; arrays are never written in place once they are shared."""
        other = Mesh(self.columns)
        other._joined = {node: dict(near) for node, near in self._joined.items()}
        other._fed = dict(self._fed)
        return other

    def only(self, which: Array) -> Mesh:
        """Return the mesh of some of the variants."""
        other = Mesh(int(np.count_nonzero(which)))
        done: dict[int, Array] = {}
        for node, near in self._joined.items():
            kept = other._joined[node] = {}
            for end, siemens in near.items():
                if id(siemens) not in done:
                    done[id(siemens)] = siemens[which]
                kept[end] = done[id(siemens)]
        other._fed = {node: amps[:, which] for node, amps in self._fed.items()}
        return other

    @property
    def nodes(self) -> Iterable[str]:
        """Return the nodes but earth."""
        return self._joined.keys() - {EARTH}

    def siemens(self, a: str, b: str) -> Array:
        """Return the admittance between two nodes; 0 where there is none."""
        there = self._joined.get(a, {}).get(b)
        return np.zeros(self.columns, dtype=np.complex128) if there is None else there

    def fed(self, node: str) -> Array:
        """Return the amps (sources x columns) that are fed in at a node."""
        there = self._fed.get(node)
        return np.zeros((SOURCES, self.columns), dtype=np.complex128) if there is None else there

    def join(self, a: str, b: str, siemens: Array) -> None:
        """Put an admittance between two nodes, beside what is there."""
        if a == b:
            return
        near = self._joined.setdefault(a, {})
        there = near.get(b)
        total = siemens if there is None else there + siemens
        near[b] = self._joined.setdefault(b, {})[a] = total

    def feed(self, node: str, amps: Array) -> None:
        """Feed amps (sources x columns) in at a node."""
        there = self._fed.get(node)
        self._fed[node] = amps if there is None else there + amps

    def insulate(self) -> None:
        """Join every node to earth by its insulation, so that a part that floats has a voltage."""
        each = np.full(self.columns, INSULATION, dtype=np.complex128)
        for node in list(self.nodes):
            self.join(node, EARTH, each)

    def reduce(self, keep: Iterable[str]) -> None:
        """Take out every node but those, the least joined first."""
        going = set(self.nodes) - set(keep)
        while going:
            node = min(going, key=lambda name: (len(self._joined[name]), name))
            going.remove(node)
            self._take_out(node)

    def _take_out(self, node: str) -> None:
        near = self._joined.pop(node)
        fed = self._fed.pop(node, None)
        for other in near:
            del self._joined[other][node]
        total = sum(near.values())
        shares = {other: siemens / total for other, siemens in near.items()}
        for a, b in combinations(near, 2):
            self.join(a, b, shares[a] * near[b])
        if fed is not None:
            for other, share in shares.items():
                if other != EARTH:
                    self.feed(other, fed * share)

    def across(self, a: str, b: str, meter_ohms: float) -> Array:
        """Return the volts (sources x columns) that each source puts on a meter between two nodes."""
        pair = self.copy()
        pair.reduce((a, b))
        to_earth = [pair.siemens(node, EARTH) for node in (a, b)]
        between = pair.siemens(a, b) + 1 / meter_ohms
        fed = [pair.fed(node) for node in (a, b)]
        span = to_earth[0] * to_earth[1] + between * (to_earth[0] + to_earth[1])
        return np.asarray((fed[0] * to_earth[1] - fed[1] * to_earth[0]) / span)
