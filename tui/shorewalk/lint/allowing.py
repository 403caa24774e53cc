"""Where a file says `allows: {rule-id: reason}`, and how far that reaches: over a node, or over all of the file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shorewalk.tree.model import Written
from shorewalk.tree.site import ALLOWS, FILES
from shorewalk.tree.source import Place, TreeError

from .finding import Finding
from .view import View


class Allow(NamedTuple):
    """That a rule may be broken between two places of a file, and why; `begin` is `None` for a whole file."""

    file: str
    rule: str
    reason: str
    place: Place
    begin: Place | None = None
    end: Place | None = None
    sure: bool = True  # all that could find something there was looked at

    def covers(self, finding: Finding) -> bool:
        """Tell whether a finding stands where this holds."""
        if (finding.place.file, finding.rule) != (self.file, self.rule):
            return False
        return self.begin is None or self.end is None or self.begin <= finding.place < self.end


def allows_in(view: View) -> Iterator[Allow]:
    """Yield every `allows` in the files of a view, and in the facts."""
    all_trees = set(view.library.names()) <= {tree.name for tree in view.trees}
    for written in view.files:
        # A part may be broken by what one tree puts into it; so all that use it must have been looked at.
        sure = written.kind == "tree" or (all_trees and view.library.owns(written.file))
        yield from _in_file(view, written, sure=sure)
    for name in FILES:
        try:
            layers = view.library.layers(name)
        except TreeError:  # told by whoever reads the facts
            continue
        for source in layers:
            given = source.data.get(ALLOWS)
            for rule, reason in given.items() if isinstance(given, dict) else ():
                place = source.place((ALLOWS, rule), key=True)
                yield Allow(
                    source.file, rule, str(reason), place, sure=all_trees and view.library.owns(source.file)
                )


def _in_file(view: View, written: Written, *, sure: bool) -> Iterator[Allow]:
    for rule, reason in written.allows:
        place = view.place(written.file, (ALLOWS, rule), key=True)
        yield Allow(written.file, rule, reason, place, sure=sure)
    for node in written.nodes.values():
        for rule, reason in node.allows:
            begin, end = view.library.source(written.file).span(node.route)
            place = view.place(written.file, (*node.route, ALLOWS, rule), key=True)
            yield Allow(written.file, rule, reason, place, begin, end, sure)
