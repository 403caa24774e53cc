"""Edits of a circuit by name, as a fault is made of them: opened, swapped, set to other ohms, moved or joined."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from .circuit import Circuit, Element, Value

EDITS = ("open", "swap", "set", "move", "join")
Span = tuple[float, float]
Draw = Callable[[Span], Any]
"""What takes a value from a range: a number, or an array with one a variant."""


@dataclass(frozen=True, slots=True)
class Edit:
    """One edit: what is done, to which elements or nodes, within which ohms."""

    kind: str
    names: tuple[str, ...]
    ohms: Span = (math.inf, math.inf)

    def drawn(self, words: Mapping[str, str], draw: Draw) -> Drawn:
        """Return it for one outlet, with its ohms taken from their range."""
        ohms = draw(self.ohms) if self.kind in ("set", "join") else math.inf
        return Drawn(self.kind, tuple(name.format(**words) for name in self.names), ohms)


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """An edit with the names and ohms of one variant."""

    kind: str
    names: tuple[str, ...]
    ohms: Value = math.inf

    @property
    def on_a_circuit(self) -> bool:
        """Whether it hangs behind a branch breaker of the rig."""
        return any(name.startswith("circuits.") for name in self.names)

    def of(self, circuit: Circuit) -> Circuit:
        """Return the circuit with the edit done; raise `KeyError` where it has no such element."""
        match self.kind:
            case "open":
                return circuit.open(self.names[0])
            case "swap":
                return circuit.swap(*self.names)
            case "set":
                return circuit.change(self.names[0], ohms=self.ohms)
            case "move":
                return circuit.change(self.names[0], a=self.names[1])
        name, a, b = self.names
        return circuit.put(name, Element(a, b, self.ohms))


def edited(circuit: Circuit, edits: Iterable[Drawn]) -> Circuit:
    """Return a circuit with all edits done, in order."""
    for edit in edits:
        circuit = edit.of(circuit)
    return circuit
