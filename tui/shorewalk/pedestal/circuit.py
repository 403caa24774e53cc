"""Complex nodal analysis at 60 Hz, of many variants of one circuit at once.

Elements have names, so that a fault is an edit: a conductor opened, set to other ohms, moved or swapped. A value of an
element is a number, or an array with one entry a variant; all arrays of a circuit have the same length.
Source: Kirchhoff's laws as nodal analysis, Y v = i; a meter by Thevenin's theorem, so that one inverse serves every
pair of probes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[Any]
Value = complex | Array
"""One number, or one a variant."""

OMEGA = 2 * math.pi * 60.0
EARTH = "earth"
INSULATION = 1e-10
"""Siemens from every node to earth (10 gigaohm), so that a part that floats has a voltage."""

METER_OHMS = 10e6
LOW_IMPEDANCE_OHMS = 3e3


@dataclass(frozen=True, slots=True)
class Element:
    """A resistance (complex: an impedance) in ohms and a capacitance in farads side by side, between two nodes.

    With `volts` it is a source behind its ohms, from `a` up to `b`. Infinite ohms: open.
    """

    a: str
    b: str
    ohms: Value = math.inf
    farads: Value = 0.0
    volts: Value = 0.0

    @property
    def siemens(self) -> Value:
        """Return the admittance at 60 Hz."""
        return _one_over(self.ohms) + 1j * OMEGA * self.farads


@dataclass(frozen=True, slots=True)
class Circuit:
    """Elements by name. Every edit returns another circuit."""

    elements: Mapping[str, Element]

    def put(self, name: str, element: Element) -> Circuit:
        """Add an element; a name stands once."""
        if name in self.elements:
            raise KeyError(f"{name} is there already")
        return Circuit({**self.elements, name: element})

    def change(self, name: str, **values: Any) -> Circuit:
        """Give an element that is there other values."""
        return Circuit({**self.elements, name: replace(self.elements[name], **values)})

    def open(self, name: str) -> Circuit:
        """Break a conductor. What it couples to its neighbours by capacitance stays."""
        return self.change(name, ohms=math.inf)

    def swap(self, one: str, other: str) -> Circuit:
        """Let two conductors end at each other's place (their `b` ends)."""
        ends = self.elements[one].b, self.elements[other].b
        return self.change(one, b=ends[1]).change(other, b=ends[0])

    def solve(self) -> Solved:
        """Work out every voltage, and what stands behind every node."""
        each = self.elements.values()
        names = sorted({end for element in each for end in (element.a, element.b)} - {EARTH})
        at = {name: index for index, name in enumerate(names)}
        variants = max((np.size(v) for e in each for v in (e.ohms, e.farads, e.volts)), default=1)
        y = np.zeros((variants, len(at), len(at)), dtype=np.complex128)
        y[:, range(len(at)), range(len(at))] = INSULATION
        amps = np.zeros((variants, len(at)), dtype=np.complex128)
        for element in each:
            siemens = element.siemens
            ends = [(at[end], sign) for end, sign in ((element.a, -1), (element.b, 1)) if end != EARTH]
            for here, sign in ends:
                amps[:, here] += sign * element.volts * siemens
                for there, other in ends:
                    y[:, here, there] += sign * other * siemens
        z = np.linalg.inv(y)
        return Solved(self, at, (z @ amps[:, :, None])[:, :, 0], z)


@dataclass(frozen=True, slots=True)
class Solved:
    """A circuit with its voltages to earth (variants x nodes) and its impedances (variants x nodes x nodes)."""

    circuit: Circuit
    at: Mapping[str, int]
    to_earth: Array
    behind: Array

    def volts(self, a: str, b: str = EARTH) -> Array:
        """Return the phasor from `b` up to `a`, one a variant, with no meter there."""
        return self._of(a) - self._of(b)

    def read(self, a: str, b: str = EARTH, meter_ohms: float = METER_OHMS) -> Array:
        """Return the volts that a meter of `meter_ohms` shows between two nodes, one a variant."""
        probe = np.zeros(len(self.at))
        for node, sign in ((a, 1.0), (b, -1.0)):
            if node != EARTH:
                probe[self.at[node]] += sign
        behind = probe @ (self.behind @ probe[:, None])[:, :, 0].T
        return np.abs(self.volts(a, b) * meter_ohms / (meter_ohms + behind))

    def through(self, name: str) -> Array:
        """Return the phasor of the amps through an element from `a` to `b`, one a variant."""
        element = self.circuit.elements[name]
        return (self.volts(element.a, element.b) + element.volts) * element.siemens

    def amps(self, name: str) -> Array:
        """Return the amps through an element, one a variant."""
        return np.abs(self.through(name))

    def _of(self, node: str) -> Array:
        return np.zeros(len(self.to_earth)) if node == EARTH else self.to_earth[:, self.at[node]]


def _one_over(ohms: Value) -> Value:
    if np.ndim(ohms) == 0:
        return 0.0 if np.isinf(ohms) else 1 / ohms
    return np.where(np.isinf(ohms), 0.0, 1 / np.where(np.isinf(ohms), 1.0, ohms))
