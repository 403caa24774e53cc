"""Every reading goes somewhere: the last band has no limit and the last row no condition, and only the last.

Bad:

    nodes:
      skin:
        measure: {what: ac-volts, place: rig-skin, from: skin, to: earth}
        bands:
          - {below: skin-stop, grade: stop, goto: stop_here}
        unable: stop_here

Good:

    nodes:
      skin:
        measure: {what: ac-volts, place: rig-skin, from: skin, to: earth}
        bands:
          - {below: skin-stop, grade: stop, goto: stop_here}
          - {grade: danger, goto: stop_here}
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Band, Judge, Measure, Node, Row, Tally, Work

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "no-last-band"


def check(view: View) -> Iterator[Finding]:
    """Find bands and rows that leave a gap, or hide those below them."""
    for written in view.files:
        for node in written.nodes.values():
            if isinstance(node, Measure | Work | Tally) and node.bands:
                yield from _bands(view, node, node.bands)
            elif isinstance(node, Judge):
                yield from _rows(view, node, node.rows)


def _bands(view: View, node: Node, bands: tuple[Band, ...]) -> Iterator[Finding]:
    last = len(bands) - 1
    for at, band in enumerate(bands):
        limit = band.below or band.upto
        if at == last and limit:
            message = f"The last band ends at {limit}; a reading beyond it leads nowhere."
            hint = "Add a band without a limit, with the grade such a reading deserves."
            yield Finding(ID, Severity.ERROR, view.of(node, "bands", at), message, hint=hint)
        elif at != last and not limit:
            message = "This band has no limit, so nothing falls into the bands below it."
            hint = "Write `below` or `upto`, or let it be the last."
            yield Finding(ID, Severity.ERROR, view.of(node, "bands", at), message, hint=hint)


def _rows(view: View, node: Node, rows: tuple[Row, ...]) -> Iterator[Finding]:
    last = len(rows) - 1
    for at, row in enumerate(rows):
        bare = not (row.when or row.while_ or row.worst or row.lacks)
        if at == last and not bare:
            message = "The last row has a condition; where it is not met the walk leads nowhere."
            hint = "Add a row without a condition, for all that no row above met."
            yield Finding(ID, Severity.ERROR, view.of(node, "judge", at), message, hint=hint)
        elif at != last and bare:
            message = "This row has no condition, so the rows below it are never met."
            hint = "Write `when`, `while`, `worst` or `lacks`, or let it be the last."
            yield Finding(ID, Severity.ERROR, view.of(node, "judge", at), message, hint=hint)


RULE = Rule(
    ID, "The last band has no limit, the last row no condition, and only the last.", check, site=False
)
