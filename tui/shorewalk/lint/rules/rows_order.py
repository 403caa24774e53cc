"""Rows of a judge fall by grade, the worst first.

The first row that may be met counts, so a milder one above a worse one would hide it. `again` may stand
anywhere. So may a row without a grade that looks at no reading.

Bad:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: verdict
        unable: stop_here
      verdict:
        judge:
          - {when: {hot_neutral: {below: service-a-low}}, grade: watch, goto: stop_here}
          - {when: {hot_neutral: {below: utilization-b-low}}, grade: stop, goto: stop_here}
          - {grade: ok, goto: stop_here}
        of: [hot_neutral]
        missing: stop_here

Good:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: verdict
        unable: stop_here
      verdict:
        judge:
          - {when: {hot_neutral: {below: utilization-b-low}}, grade: stop, goto: stop_here}
          - {when: {hot_neutral: {below: service-a-low}}, grade: watch, goto: stop_here}
          - {grade: ok, goto: stop_here}
        of: [hot_neutral]
        missing: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import AGAIN, GRADES, Judge, Row
from shorewalk.tree.words import quoted

from ..finding import Finding, Related, Severity
from ..rule import Rule
from ..view import View

ID = "rows-order"


def check(view: View) -> Iterator[Finding]:
    """Find rows under a milder one."""
    for written in view.files:
        for node in written.nodes.values():
            if isinstance(node, Judge):
                yield from _grades(view, node)
                yield from _worst(view, node)


def _grades(view: View, node: Judge) -> Iterator[Finding]:
    mildest: tuple[int, Row] | None = None
    for at, row in enumerate(node.rows):
        if row.way.grade == AGAIN or not (row.way.grade or any(c.choice is None for c in row.when)):
            continue
        if mildest and _rank(row) > _rank(mildest[1]):
            message = (
                f"This row gives {_says(row)}, and row {mildest[0] + 1} above it only {_says(mildest[1])}."
            )
            there = Related(view.of(node, "judge", mildest[0]), "the milder row above")
            place = view.of(node, "judge", at, "grade")
            yield Finding(ID, Severity.ERROR, place, message, (there,), "Put the worse row first.")
        if mildest is None or _rank(row) < _rank(mildest[1]):
            mildest = (at, row)


def _worst(view: View, node: Judge) -> Iterator[Finding]:
    """A row that only asks for a worst grade hides those below that ask for a worse one."""
    for at, row in enumerate(node.rows):
        for above, hides in enumerate(node.rows[:at]):
            alone = hides.worst and not (hides.when or hides.while_ or hides.lacks)
            if alone and row.worst and GRADES.index(row.worst) >= GRADES.index(hides.worst or "ok"):
                less = f"{quoted(row.worst)} or worse is also {quoted(hides.worst)} or worse"
                message = f"{less}: row {above + 1} takes it."
                there = Related(view.of(node, "judge", above), "the row above that is met first")
                place = view.of(node, "judge", at, "worst")
                yield Finding(ID, Severity.ERROR, place, message, (there,), "Put the worse grade first.")
                break


def _rank(row: Row) -> int:
    return GRADES.index(row.way.grade) if row.way.grade in GRADES else -1


def _says(row: Row) -> str:
    return quoted(row.way.grade) if row.way.grade else "no grade"


RULE = Rule(ID, "Rows of a judge fall by grade, the worst first.", check, site=False)
