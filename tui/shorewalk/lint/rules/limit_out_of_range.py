"""No reading is cut where it can never be: every limit lies in what the reading can plausibly show.

The walk refuses a reading outside the plausible span of its quantity (grades.yaml), so a band or row beyond it is
never met. Mostly a limit of another quantity was taken by mistake.

Bad:

    nodes:
      battery:
        measure: {what: dc-volts, place: battery, from: plus, to: minus}
        bands:
          - {below: battery-flat, grade: watch, goto: stop_here}
          - {below: service-a-low, grade: ok, goto: stop_here}
          - {grade: watch, goto: stop_here}
        unable: stop_here

Good:

    nodes:
      battery:
        measure: {what: dc-volts, place: battery, from: plus, to: minus}
        bands:
          - {below: battery-flat, grade: watch, goto: stop_here}
          - {below: battery-charging, grade: ok, goto: stop_here}
          - {grade: ok, goto: stop_here}
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.facts import Quantity, Site
from shorewalk.tree.model import Judge, Measure, Node, Tree
from shorewalk.tree.words import quoted
from shorewalk.walk.evidence import quantity_of

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View

ID = "limit-out-of-range"

Cut = tuple[Measure, Node, str, tuple[str | int, ...]]
"""What is read, the node that cuts it, the limit, and where in the node it stands."""


def check(view: View) -> Iterator[Finding]:
    """Find limits that no reading comes to."""
    assert view.site  # noqa: S101 - the rule asks for it
    kinds: dict[str, Quantity | None] = {}
    for tree in view.trees:
        kinds.clear()
        for name, node in tree.nodes.items():
            for read, cuts, id_, route in _cuts(tree, node):
                if read.name not in kinds:
                    kinds[read.name] = quantity_of(read, view.site)
                kind = kinds[read.name]
                if kind and not _within(id_, kind, view.site):
                    limit, (low, high) = view.site.limits[id_], kind.plausible
                    unit = kind.unit
                    span = f"{kind.says} is read from {low:g} to {high:g} {unit}"
                    message = f"The limit {quoted(id_)} is {limit.value:g} {unit}; {span}."
                    there = Related(
                        view.fact("grades", ("quantities", kind.id), key=True), "what it may plausibly be"
                    )
                    related = (there, *view.used_at(tree, name))
                    hint = "Cut it at a limit of its own, or leave this row out: it is never met, or always."
                    yield Finding(ID, Severity.ERROR, view.of(cuts, *route), message, related, hint)


def _within(id_: str, kind: Quantity, site: Site) -> bool:
    limit = site.limits.get(id_)
    low, high = kind.plausible
    return limit is None or limit.unit != kind.unit or low <= limit.value <= high  # else told elsewhere


def _cuts(tree: Tree, node: Node) -> Iterator[Cut]:
    if isinstance(node, Measure):
        for at, band in enumerate(node.bands):
            for key, limit in (("below", band.below), ("upto", band.upto)):
                if limit:
                    yield node, node, limit, ("bands", at, key)
    elif isinstance(node, Judge):
        for at, row in enumerate(node.rows):
            for asked in row.when:
                read = tree.nodes.get(asked.node)
                for limit in (asked.from_, asked.above, asked.below, asked.upto):
                    if limit and isinstance(read, Measure):
                        yield read, node, limit, ("judge", at, "when")


RULE = Rule(ID, "Every limit lies where its reading can be.", check)
