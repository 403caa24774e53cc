"""What kind of reading or result a node gives: its quantity, its unit, its least grades."""

from __future__ import annotations

from dataclasses import dataclass

from shorewalk.tree.facts import Cut, Site
from shorewalk.tree.model import Measure, Node, Tally, Work
from shorewalk.walk.evidence import quantity_of


@dataclass(frozen=True, slots=True)
class Kind:
    """A quantity or result of grades.yaml, and where it stands there."""

    id: str
    unit: str
    floor: tuple[Cut, ...]
    group: str  # quantities or results


def kind_of(node: Node, site: Site) -> Kind | None:
    """Return what grades.yaml tells of a node's reading; `None` where it tells nothing."""
    if isinstance(node, Measure) and (quantity := quantity_of(node, site)):
        return Kind(quantity.id, quantity.unit, quantity.floor, "quantities")
    if isinstance(node, Work | Tally) and (result := site.results.get(node.out)):
        return Kind(result.id, result.unit, result.floor, "results")
    return None


UNITS = {"ac-volts": "V", "dc-volts": "V", "hertz": "Hz", "ohms": "ohm", "amps": "A"}


def unit_of(node: Node, site: Site) -> str | None:
    """Return the unit of a node's number."""
    if kind := kind_of(node, site):
        return kind.unit
    if isinstance(node, Measure):
        return UNITS.get(node.what)
    return "A" if isinstance(node, Tally) else None
