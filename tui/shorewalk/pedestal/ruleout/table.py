"""Variants, and the scales at which each still gives all readings taken.

The meter's gain and the supply's volts only scale what a circuit gives. So each reading leaves a variant a span of
scales, and the variant is out when these spans do not meet: exact, and no fitting.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shorewalk.pedestal.circuit import LOW_IMPEDANCE_OHMS, METER_OHMS
from shorewalk.pedestal.park import OUTLETS
from shorewalk.pedestal.stand import Switched

from .mesh import Mesh
from .seen import Seen
from .variants import Block, Hypothesis, mesh_of

Array = NDArray[Any]

RATIOS = np.linspace(0.99, 1.01, 7)
"""The second hot's volts beside the first's, at the service."""

RIG_NODES = frozenset({"inlet.N", "inlet.G", "panel.L", "panel.L1", "panel.L2"})
PROBED = {
    "rig-skin": frozenset({"skin", "peg", *(f"{outlet}.G" for outlet in OUTLETS)}),
    **{
        f"pedestal-{outlet}": frozenset({"peg", *(f"{outlet}.{slot}" for slot in slots)})
        for outlet, slots in OUTLETS.items()
    },
}
"""Where probes land, by place; at any other place in the rig RIG_NODES."""


class Table:
    """Blocks of variants; `low` and `high` (ratios x variants) are the scales that the readings leave."""

    def __init__(self, blocks: list[Block], gain: float) -> None:
        self.blocks, self.gain = blocks, gain
        shape = (len(RATIOS), sum(block.size for block in blocks))
        self.low, self.high = np.empty(shape), np.empty(shape)
        for block, at in self._each():
            low, high = block.scales
            self.low[:, at], self.high[:, at] = low * (1 - gain), high * (1 + gain)
        self._meshes: dict[tuple[Switched, str], Mesh] = {}

    def take(self, seen: Seen) -> None:
        """Narrow the scales of every variant by one more reading."""
        given = self.given(seen)
        if given is None:
            return
        with np.errstate(divide="ignore", invalid="ignore"):
            low = np.where(given > 0, seen.low / given, np.where(seen.low > 0, np.inf, -np.inf))
            high = np.where(given > 0, seen.high / given, np.inf)
        np.maximum(self.low, low, out=self.low)
        np.minimum(self.high, high, out=self.high)

    def given(self, seen: Seen) -> Array | None:
        """Return the volts of each variant there, at a scale of 1 (ratios x variants); None where no wire comes."""
        if not self.blocks:
            return None
        stand = self.blocks[0].stand
        stand.switched = seen.now
        a, b = stand.node(seen.place, seen.one), stand.node(seen.place, seen.other)
        mesh = self.mesh(seen.now, seen.place)
        if a is None or b is None or not {a, b} <= {*mesh.nodes}:
            return None
        first, second = mesh.across(a, b, LOW_IMPEDANCE_OHMS if seen.low_impedance else METER_OHMS)
        return np.asarray(np.abs(first + RATIOS[:, None] * second))

    def mesh(self, now: Switched, place: str) -> Mesh:
        """Return all circuits switched so, reduced to where probes land at a place."""
        probed = PROBED.get(place, RIG_NODES)
        key = now, place if place in PROBED else ""
        if key not in self._meshes:
            mesh = self._meshes[key] = mesh_of(self.blocks, now)
            mesh.reduce(probed)
        return self._meshes[key]

    def misses(self) -> Array:
        """Return how far each variant is from giving all readings, as a share of its scale; 0: it gives them."""
        with np.errstate(divide="ignore", invalid="ignore"):
            apart = np.where(self.high > 0, self.low / self.high - 1, np.inf)
        return np.asarray(np.maximum(apart, 0.0).min(axis=0))

    def drop_lost(self) -> None:
        """Go on without the variants that are out, once they are the most: to make a smaller table takes time too."""
        which = self.fits
        if 2 * np.count_nonzero(which) > which.size:
            return
        kept: list[Block] = []
        for block, at in self._each():
            if which[at].any():
                kept.append(block.only(which[at]))
        self.blocks = kept
        self.low, self.high = self.low[:, which], self.high[:, which]
        self._meshes = {key: mesh.only(which) for key, mesh in self._meshes.items()}

    def add(self, other: Table) -> None:
        """Take in the variants of another table that took the same readings."""
        self.blocks = [*self.blocks, *other.blocks]
        self.low = np.concatenate([self.low, other.low], axis=1)
        self.high = np.concatenate([self.high, other.high], axis=1)
        self._meshes = {}

    @property
    def fits(self) -> Array:
        """Which variants give all readings."""
        return np.asarray((self.low <= self.high).any(axis=0))

    @property
    def hypotheses(self) -> set[Hypothesis]:
        """What the variants that give all readings stand for."""
        fits = self.fits
        return {block.wiring.hypothesis for block, at in self._each() if fits[at].any()}

    def names(self, columns: Array) -> list[str]:
        """Return the fault that each of some variants stands for."""
        every = np.repeat(
            [block.wiring.hypothesis.name for block in self.blocks], [block.size for block in self.blocks]
        )
        return [str(name) for name in every[columns]]

    def nearest(self, wanted: Iterable[Hypothesis], most: int) -> list[tuple[float, Block]]:
        """Return of each hypothesis the variants that miss the least, each as a block of its own, with its miss."""
        misses = self.misses()
        found: dict[Hypothesis, list[tuple[float, int, Block]]] = {hypothesis: [] for hypothesis in wanted}
        for block, at in self._each():
            if (there := found.get(block.wiring.hypothesis)) is not None:
                there += [(float(misses[at][n]), int(n), block) for n in np.argsort(misses[at])[:most]]
        return [
            (miss, block.only(np.arange(block.size) == n))
            for there in found.values()
            for miss, n, block in sorted(there, key=lambda one: one[0])[:most]
        ]

    def _each(self) -> Iterator[tuple[Block, slice]]:
        """Yield each block with its columns."""
        end = 0
        for block in self.blocks:
            yield block, slice(end, end := end + block.size)
