"""Every limit is one of trees/site/limits.yaml, where its number has a source; and its unit is the reading's.

Bad:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: my-own-limit, grade: stop, goto: stop_here}
          - {grade: stop, goto: stop_here}
        unable: stop_here

Good:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: stop_here}
          - {grade: stop, goto: stop_here}
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Band, Condition, Judge, Measure, Node, Tally, Tree, Work
from shorewalk.tree.source import Place
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..names import faults_in
from ..readings import unit_of
from ..rule import Rule
from ..view import View

ID = "unknown-limit"


def check(view: View) -> Iterator[Finding]:
    """Find limits that are not there, and limits in another unit than what they cut."""
    assert view.site  # noqa: S101 - the rule asks for it
    for written, mention, fault in faults_in(view, view.site):
        if mention.kind == "limit":
            place = view.place(written.file, mention.route, key=mention.key)
            hint = f"{fault.hint} A new one goes into limits.yaml with its source."
            yield Finding(ID, Severity.ERROR, place, fault.message, hint=hint)
    for tree in view.trees:
        for name, node in tree.nodes.items():
            for place, message in _units(view, tree, node, view.site):
                hint = "Cut it at a limit of its own unit."
                yield Finding(ID, Severity.ERROR, place, message, view.used_at(tree, name), hint)


def _units(view: View, tree: Tree, node: Node, site: Site) -> Iterator[tuple[Place, str]]:
    cuts: list[tuple[Node | None, Band | Condition, tuple[str | int, ...]]] = []
    if isinstance(node, Measure | Work | Tally):
        cuts = [(node, band, ("bands", at)) for at, band in enumerate(node.bands)]
    elif isinstance(node, Judge):
        for at, row in enumerate(node.rows):
            cuts += [(tree.nodes.get(asked.node), asked, ("judge", at, "when")) for asked in row.when]
    for read, cut, route in cuts:
        unit = read and unit_of(read, site)
        for key in ("from_", "above", "below", "upto"):
            limit = site.limits.get(getattr(cut, key, None) or "")
            if unit and limit and limit.unit != unit:
                message = f"The limit {quoted(limit.id)} is in {limit.unit}, and what it cuts is in {unit}."
                yield view.of(node, *route), message


RULE = Rule(ID, "Every limit is in limits.yaml, and in the unit of what it cuts.", check)
