"""A result takes its unloaded readings from measures without a load, and its loaded ones from measures with one.

The other way round a sag becomes a rise, and a loose neutral reads as if all were well.

Bad:

    nodes:
      idle:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: under_load
        unable: stop_here
      under_load:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N, load: {amount: one-leg, at: pedestal-20}}
        next: sag
        unable: stop_here
      sag:
        work: {out: sag-percent, using: sag_percent, from: {unloaded: under_load, loaded: idle}}
        next: stop_here
        missing: stop_here

Good:

    nodes:
      idle:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: under_load
        unable: stop_here
      under_load:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N, load: {amount: one-leg, at: pedestal-20}}
        next: sag
        unable: stop_here
      sag:
        work: {out: sag-percent, using: sag_percent, from: {unloaded: idle, loaded: under_load}}
        next: stop_here
        missing: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Measure, Work
from shorewalk.tree.words import quoted

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View

ID = "input-load"


def check(view: View) -> Iterator[Finding]:
    """Find results whose readings were taken with the other load than their names say."""
    for tree in view.trees:
        for name, node in tree.nodes.items():
            for argument, given in node.inputs if isinstance(node, Work) else ():
                reading = tree.nodes.get(given)
                if not isinstance(reading, Measure) or not argument.endswith("loaded"):
                    continue
                if reading.what != "ac-volts":
                    continue  # a battery is read with a charger, which is no load
                wants = not argument.endswith("unloaded")
                if wants is not (reading.load.amount != "none"):
                    taken = "without a load" if wants else f"with the load {quoted(reading.load.amount)}"
                    message = f"{quoted(argument)} is the reading {quoted(given.rpartition('.')[2])}, taken {taken}."
                    hint = f"Name one that was taken {'with a load on' if wants else 'without a load'}."
                    related = (Related(view.of(reading), "the reading"), *view.used_at(tree, name))
                    place = view.of(node, "work", "from", argument)
                    yield Finding(ID, Severity.ERROR, place, message, related, hint)


RULE = Rule(ID, "Results take unloaded readings without a load and loaded ones with it.", check)
