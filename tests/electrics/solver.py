"""Complex nodal analysis at 60 Hz, small and plain: the circuits that honest answers are read from.

Independent of the package under test. Elements have names, so that a fault is an edit: an element
opened, moved, or set to other ohms.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

Matrix = NDArray[np.complex128]
OMEGA = 2 * math.pi * 60.0
EARTH = "earth"
METER_OHMS = 10e6
LEAST = 1e-10  # S from every node to earth, so that a floating part has a place (10 gigaohm)


@dataclass(frozen=True, slots=True)
class Element:
    """A resistance, a capacitance, or both side by side; with `volts`, a source from `a` up to `b`."""

    a: str
    b: str
    ohms: float = math.inf
    farads: float = 0.0
    volts: complex = 0.0

    @property
    def siemens(self) -> complex:
        return 1 / self.ohms + 1j * OMEGA * self.farads


@dataclass
class Circuit:
    """Elements by name. `read` gives what a meter shows between two nodes, its own load included."""

    elements: dict[str, Element] = field(default_factory=dict)
    _solved: tuple[dict[str, int], Matrix, Matrix] | None = None

    def copy(self) -> Circuit:
        return Circuit(dict(self.elements))

    def add(
        self, name: str, a: str, b: str, ohms: float = math.inf, *, farads: float = 0.0, volts: complex = 0.0
    ) -> None:
        """Put an element in; a name stands once."""
        assert name not in self.elements, f"{name} is there already"
        self._set(name, Element(a, b, ohms, farads, volts))

    def set_ohms(self, name: str, ohms: float) -> None:
        self._set(name, replace(self.elements[name], ohms=ohms))

    def open(self, name: str) -> None:
        """Break a conductor: what it couples by capacitance stays."""
        self.set_ohms(name, math.inf)

    def move(self, name: str, a: str | None = None, b: str | None = None) -> None:
        """Connect one or both ends of an element elsewhere."""
        old = self.elements[name]
        self._set(name, replace(old, a=a or old.a, b=b or old.b))

    def swap(self, one: str, other: str) -> None:
        """Let two conductors end at each other's place (their `b` ends)."""
        ends = self.elements[one].b, self.elements[other].b
        self.move(one, b=ends[1])
        self.move(other, b=ends[0])

    def _set(self, name: str, element: Element) -> None:
        self.elements[name] = element
        self._solved = None

    def _solve(self) -> tuple[dict[str, int], Matrix, Matrix]:
        """Return nodes by index, their voltages to earth, and the impedance matrix."""
        if self._solved is None:
            names = {end for e in self.elements.values() for end in (e.a, e.b)} - {EARTH}
            at = {name: index for index, name in enumerate(sorted(names))}
            size = len(at)
            y = np.eye(size, dtype=np.complex128) * LEAST
            amps = np.zeros(size, dtype=np.complex128)
            for element in self.elements.values():
                s = element.siemens
                ends = [(at[end], sign) for end, sign in ((element.a, -1), (element.b, 1)) if end != EARTH]
                for here, sign in ends:
                    amps[here] += sign * element.volts * s
                    for there, other in ends:
                        y[here, there] += sign * other * s
            z: Matrix = np.asarray(np.linalg.inv(y), dtype=np.complex128)
            self._solved = (at, z @ amps, z)
        return self._solved

    def volts(self, a: str, b: str = EARTH) -> complex:
        """Return the voltage from `b` up to `a`, with no meter there."""
        at, v, _ = self._solve()
        return complex((v[at[a]] if a != EARTH else 0.0) - (v[at[b]] if b != EARTH else 0.0))

    def read(self, a: str, b: str, meter_ohms: float = METER_OHMS) -> float:
        """Return what a meter of `meter_ohms` shows between two nodes (Thevenin at the two)."""
        at, _, z = self._solve()
        e = np.zeros(len(at))
        for node, sign in ((a, 1.0), (b, -1.0)):
            if node != EARTH:
                e[at[node]] += sign
        behind = complex(e @ z @ e)
        return abs(self.volts(a, b) * meter_ohms / (meter_ohms + behind))

    def amps(self, name: str) -> float:
        """Return the current through an element."""
        element = self.elements[name]
        across = self.volts(element.a) - self.volts(element.b) + element.volts
        return abs(across * element.siemens)
